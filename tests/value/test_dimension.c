#include <criterion/criterion.h>

#include "unit/currency.h"
#include "unit/dimension.h"
#include "value/metal.h"

#include <string.h>

static const lml_dimension mass = {.mass = 1}, volume = {.length = 3};

static lml_dimension money_in(const char *code)
{
    return (lml_dimension){.money = 1, .currency = lml_currency_by_code(lml_span_of(code))};
}

Test(dimension, products_add_powers)
{
    lml_dimension d;
    cr_assert_eq(lml_dimension_div(mass, volume, &d, NULL), LML_OK);
    cr_expect(lml_dimension_equal(d, (lml_dimension){.mass = 1, .length = -3}));
    cr_assert_eq(lml_dimension_mul(d, volume, &d, NULL), LML_OK);
    cr_expect(lml_dimension_equal(d, mass));
    cr_assert_eq(lml_dimension_div(d, mass, &d, NULL), LML_OK);
    cr_expect(lml_dimension_none(d));
}

Test(dimension, two_currencies_never_mix)
{
    lml_error err = {0};
    lml_dimension d = mass, usd = money_in("USD"), cad = money_in("CAD");
    cr_expect_eq(lml_dimension_div(usd, cad, &d, &err), LML_MISMATCH);
    cr_expect(strstr(err.message, "USD") && strstr(err.message, "CAD"));
    cr_expect(lml_dimension_equal(d, mass), "out is written on success only");
    cr_assert_eq(lml_dimension_div(usd, usd, &d, NULL), LML_OK);
    cr_expect(lml_dimension_none(d), "money over money keeps no currency");
    cr_assert_eq(lml_dimension_div(usd, mass, &d, NULL), LML_OK);
    cr_assert_eq(lml_dimension_mul(mass, d, &d, NULL), LML_OK);
    cr_expect(lml_dimension_equal(d, usd));
}

Test(dimension, powers_beyond_nine_are_refused)
{
    lml_dimension d;
    cr_assert_eq(lml_dimension_power(volume, 3, &d, NULL), LML_OK);
    cr_expect_eq(d.length, 9);
    cr_expect_eq(lml_dimension_power(volume, 4, &d, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_dimension_power(volume, 1 << 30, &d, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_dimension_power(volume, -(1 << 30), &d, NULL), LML_OVERFLOW);
}

Test(dimension, roots_divide_evenly_or_not_at_all)
{
    lml_dimension d;
    cr_assert_eq(lml_dimension_root(volume, 3, &d, NULL), LML_OK);
    cr_expect_eq(d.length, 1);
    cr_expect_eq(lml_dimension_root(volume, 2, &d, NULL), LML_MISMATCH);
    cr_expect_eq(lml_dimension_root(volume, 0, &d, NULL), LML_MISMATCH);
}

Test(dimension, names_are_what_a_person_says)
{
    char out[80];
    lml_dimension price = money_in("CAD"), wage = price, odd = {.mass = 2, .length = -1};
    price.mass = -1;
    wage.time = -1;
    cr_expect_str_eq(lml_dimension_name(mass, out, sizeof out), "a mass");
    cr_expect_str_eq(lml_dimension_name((lml_dimension){.length = 2}, out, sizeof out), "an area");
    cr_expect_str_eq(lml_dimension_name((lml_dimension){0}, out, sizeof out), "a ratio");
    cr_expect_str_eq(lml_dimension_name(price, out, sizeof out), "a price (CAD per mass)");
    cr_expect_str_eq(lml_dimension_name(wage, out, sizeof out), "a price (CAD per time)");
    cr_expect_str_eq(lml_dimension_name(odd, out, sizeof out), "mass^2 length^-1");
    lml_dimension_name(odd, out, 8);
    cr_expect(strlen(out) < 8);
}

Test(metal, symbols_read_back)
{
    for (unsigned m = 1; m < LML_METALS; m++)
        cr_expect_eq(lml_metal_by_symbol(lml_span_of(lml_metal_symbol((lml_metal)m))), m);
    cr_expect_eq(lml_metal_by_symbol(lml_span_of("au")), LML_NO_METAL);
    cr_expect_eq(lml_metal_by_symbol(lml_span_of("")), LML_NO_METAL);
    cr_expect_str_eq(lml_metal_name(LML_Pd), "palladium");
}
