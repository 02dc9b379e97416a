#include <criterion/criterion.h>

#include "base/big.h"
#include "base/decimal.h"
#include "reference.h"
#include "value/arithmetic.h"
#include "unit/currency.h"
#include "value/money.h"
#include "value/random.h"
#include "value/wanted.h"
#include "read/read.h"

static lml_value value_of(const char *text)
{
    lml_value v;
    lml_error err;
    cr_assert_eq(lml_read_value(lml_span_of(text), LML_WANT_ANYTHING, LML_NO_METAL, &v, &err),
                 LML_OK, "\"%s\" is not read: %s (%s)", text, err.message, err.hint);
    return v;
}

static uint16_t usd(void)
{
    return lml_currency_by_code(lml_span_of("USD"));
}

static lml_rounding mode_of(const char *name)
{
    char words[24];
    lml_rounding mode;
    snprintf(words, sizeof words, "%s", name);
    for (char *at = words; *at; at++)
        if (*at == '_')
            *at = ' ';
    cr_assert_eq(lml_rounding_named(words, &mode, NULL), LML_OK, "no rule is called %s", words);
    return mode;
}

Test(money, rounds_as_published)
{
    ref_table *t = ref_open("rounding.tsv");
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        char text[80];
        lml_value money, step, rounded;
        lml_error err;
        const char *currency = ref_input_text(row, "currency");
        lml_rounding mode = mode_of(ref_input_text(row, "mode"));
        snprintf(text, sizeof text, "%s %s", ref_input_text(row, "amount"), currency);
        money = value_of(text);
        lml_status status;
        if (strcmp(ref_cell(row, "case"), "cash") == 0) {
            snprintf(text, sizeof text, "%s %s", ref_input_text(row, "step"), currency);
            step = value_of(text);
            status = lml_money_round_to(&money, &step, mode, &rounded, &err);
        } else {
            cr_assert_str_eq(ref_cell(row, "case"), "round");
            status = lml_money_round(&money, mode, &rounded, &err);
        }
        cr_assert_eq(status, LML_OK, "%s: %s", ref_where(row), err.message);
        ref_expect(row, (double)rounded.exact / LML_MONEY_ONE);
        ref_end_row(row);
    }
}

Test(money, sums_are_exact)
{
    chance c = {7};
    for (int i = 0; i < 10000; i++) {
        lml_value a = lml_money(chance_whole(&c, -1000000000000, 1000000000000), usd());
        lml_value b = lml_money(chance_whole(&c, -1000000000000, 1000000000000), usd());
        lml_value sum, back;
        cr_assert_eq(lml_arithmetic_add(&a, &b, &sum, NULL), LML_OK);
        cr_assert_eq(lml_arithmetic_sub(&sum, &b, &back, NULL), LML_OK);
        cr_assert_eq(sum.exact, a.exact + b.exact);
        cr_assert_eq(back.exact, a.exact);
    }
}

Test(money, a_factor_enters_as_the_decimal_that_it_prints_as)
{
    const struct {
        const char *money, *factor;
        int64_t product, quotient;
    } rows[] = {
        /* 0.1 as a double is a little more than a tenth; as a decimal it is a tenth. */
        {"0.000005 USD", "0.1", 0, 50},  /* 0.5 millionths: to even */
        {"0.000015 USD", "0.1", 2, 150}, /* 1.5 millionths: to even */
        {"0.000025 USD", "0.1", 2, 250}, /* 2.5 millionths: to even */
        {"1000000.01 USD", "0.07", 70000000700, 14285714428571},
        {"42.00 USD", "1.1", 46200000, 38181818},
        {"-42.00 USD", "1.1", -46200000, -38181818},
        {"42.00 USD", "-3", -126000000, -14000000},
        {"42.00 USD", "5 %", 2100000, 840000000},
        {"42.00 USD", "1e-30", 0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        lml_value money = value_of(rows[i].money), factor = value_of(rows[i].factor), out;
        cr_assert_eq(lml_arithmetic_mul(&money, &factor, &out, NULL), LML_OK);
        cr_expect_eq(out.exact, rows[i].product, "%s * %s is %lld", rows[i].money, rows[i].factor,
                     (long long)out.exact);
        cr_assert_eq(lml_arithmetic_mul(&factor, &money, &out, NULL), LML_OK);
        cr_expect_eq(out.exact, rows[i].product);
        lml_status status = lml_arithmetic_div(&money, &factor, &out, NULL);
        if (rows[i].quotient == 0) {
            cr_expect_eq(status, LML_OVERFLOW, "%s / %s", rows[i].money, rows[i].factor);
            continue;
        }
        cr_assert_eq(status, LML_OK);
        cr_expect_eq(out.exact, rows[i].quotient, "%s / %s is %lld", rows[i].money, rows[i].factor,
                     (long long)out.exact);
    }
}

Test(money, prices_make_money)
{
    lml_error err;
    lml_value price = value_of("98.50 USD/g"), mass = value_of("9.375 g"), out, back;
    cr_assert_eq(lml_arithmetic_mul(&price, &mass, &out, &err), LML_OK);
    cr_expect_eq(out.kind, LML_MONEY);
    cr_expect_eq(out.exact, 923437500);
    cr_assert_eq(lml_arithmetic_div(&out, &price, &back, &err), LML_OK);
    cr_expect_float_eq(back.amount, mass.amount, 1e-18);
    /* 31.1034768 g to the troy ounce: Weights and Measures Act (Canada), Schedule II. */
    lml_value by_ounce = value_of("3110.34768 USD/ozt"), gram = value_of("1 g");
    cr_assert_eq(lml_arithmetic_mul(&by_ounce, &gram, &out, &err), LML_OK);
    cr_expect_eq(out.exact, 100000000);
}

Test(money, what_is_too_large_is_an_overflow)
{
    lml_error err;
    lml_value most = lml_money(INT64_MAX, usd()), least = lml_money(INT64_MIN, usd()), out;
    lml_value one = lml_money(1, usd()), ten = lml_value_number(10), cent = value_of("0.05 USD");
    lml_value huge = value_of("1e300 USD/g"), mass = value_of("1 kg"), zero = lml_value_number(0);
    cr_expect_eq(lml_arithmetic_add(&most, &one, &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_arithmetic_sub(&least, &one, &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_arithmetic_negate(&least, &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_arithmetic_mul(&most, &ten, &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_arithmetic_mul(&huge, &mass, &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_money_round_to(&most, &cent, LML_UP, &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_arithmetic_div(&most, &zero, &out, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_money_of(NAN, usd(), &out, &err), LML_OVERFLOW);
    cr_expect_eq(lml_money_of(INFINITY, usd(), &out, &err), LML_OVERFLOW);
}

Test(money, a_step_must_be_more_than_zero_and_of_the_currency)
{
    lml_error err;
    lml_value money = value_of("42.00 USD"), none = lml_money(0, usd()), out;
    lml_value other = value_of("0.05 CAD"), mass = value_of("1 g");
    cr_expect_eq(lml_money_round_to(&money, &none, LML_UP, &out, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_money_round_to(&money, &other, LML_UP, &out, &err), LML_MISMATCH);
    cr_expect_eq(lml_money_round(&mass, LML_UP, &out, &err), LML_MISMATCH);
}

static int64_t unit_of(const char *currency)
{
    int64_t unit = LML_MONEY_ONE;
    uint16_t index = lml_currency_by_code(lml_span_of(currency));
    for (int i = 0; i < lml_currency_at(index)->minor; i++)
        unit /= 10;
    return unit;
}

Test(money, shares_sum_to_the_whole)
{
    const char *const currencies[] = {"USD", "JPY", "KWD"};
    chance c = {11};
    for (int i = 0; i < 10000; i++) {
        const char *currency = currencies[i % 3];
        int64_t unit = unit_of(currency);
        size_t count = (size_t)chance_whole(&c, 1, 12);
        double weights[12], total = 0.0;
        lml_value parts[12];
        for (size_t k = 0; k < count; k++)
            total += weights[k] =
                chance_whole(&c, 0, 5) == 0 ? 0.0 : pow(10, chance_between(&c, -3, 3));
        if (total == 0.0)
            total = weights[0] = 1.0;
        lml_value money = lml_money(chance_whole(&c, -1000000, 1000000) * unit,
                                    lml_currency_by_code(lml_span_of(currency)));
        cr_assert_eq(lml_money_share(&money, weights, count, parts, NULL), LML_OK);
        int64_t sum = 0;
        for (size_t k = 0; k < count; k++) {
            double exact = (double)money.exact * weights[k] / total;
            sum += parts[k].exact;
            cr_assert_eq(parts[k].exact % unit, 0);
            cr_assert(fabs((double)parts[k].exact - exact) < (double)unit * (1 + 1e-9));
            cr_assert(weights[k] > 0.0 || parts[k].exact == 0, "no weight, no share");
        }
        cr_assert_eq(sum, money.exact);
    }
}

Test(money, odd_units_go_to_the_largest_remainders)
{
    /* The common example of the largest remainder method with a Hare quota (ten seats): from
     * memory, unverified. */
    const double votes[] = {47000, 16000, 15800, 12000, 6100, 3100};
    const int64_t seats[] = {5, 2, 1, 1, 1, 0};
    lml_value ten = value_of("10 JPY"), parts[6];
    cr_assert_eq(lml_money_share(&ten, votes, 6, parts, NULL), LML_OK);
    for (int i = 0; i < 6; i++)
        cr_expect_eq(parts[i].exact, seats[i] * LML_MONEY_ONE);
    /* Among equals the first. */
    const double equal[] = {1, 1, 1};
    lml_value hundred = value_of("-100.00 USD");
    cr_assert_eq(lml_money_share(&hundred, equal, 3, parts, NULL), LML_OK);
    cr_expect_eq(parts[0].exact, -33340000);
    cr_expect_eq(parts[1].exact, -33330000);
    cr_expect_eq(parts[2].exact, -33330000);
    /* The whole may be as large as money gets, and the weights as far apart as doubles are. */
    lml_value most = lml_money(INT64_MAX / 10000 * 10000, usd());
    const double apart[] = {1e300, 1e-300, 1e300};
    cr_assert_eq(lml_money_share(&most, apart, 3, parts, NULL), LML_OK);
    cr_expect_eq(parts[0].exact + parts[2].exact, most.exact);
    cr_expect_eq(parts[1].exact, 0);
}

/* sum * 10^places * (the shortest decimal of x, or one divided by it), rounded half even in whole
 * numbers. */
static int64_t by_decimals(int64_t sum, double x, bool divide, int places)
{
    char text[LML_NUMBER_TEXT];
    lml_decimal d;
    lml_decimal_read((lml_span){text, lml_decimal_write_double(fabs(x), text)}, &d);
    int tens = places + (divide ? -d.exponent : d.exponent);
    lml_big above = lml_big_of(sum < 0 ? -sum : sum), below = lml_big_of(1), digits, power, twice,
            rest;
    digits = lml_big_of_u128(d.digits);
    lml_big_ten_to(tens < 0 ? -tens : tens, &power, NULL);
    lml_big_mul(divide ? &below : &above, &digits, divide ? &below : &above, NULL);
    lml_big_mul(tens < 0 ? &below : &above, &power, tens < 0 ? &below : &above, NULL);
    lml_big whole;
    cr_assert_eq(lml_big_divide(&above, &below, &whole, &rest, NULL), LML_OK);
    lml_big_add(&rest, &rest, &twice, NULL);
    int64_t n = whole.length ? (int64_t)whole.limb[0] : 0;
    int beside = lml_big_compare(&twice, &below);
    n += beside > 0 || (beside == 0 && n % 2 != 0);
    return (sum < 0) != (x < 0) ? -n : n;
}

/* Most amounts are settled in doubles and the rest in decimals; nobody must see which. Every other
 * one is made to lie on half a millionth, or the next double to it. */
Test(money, products_are_those_of_decimals)
{
    chance c = {13};
    for (int i = 0; i < 200000; i++) {
        double x = chance_between(&c, -1, 1) * pow(10, (double)chance_whole(&c, -6, 7));
        int64_t sum = chance_whole(&c, -9, 9) * (int64_t)pow(10, (double)chance_whole(&c, 0, 12));
        if (i % 2) {
            x = (double)chance_whole(&c, -1000000000, 1000000000) / 2e6;
            sum += chance_whole(&c, -999, 999);
            if (i % 3)
                x = nextafter(x, i % 3 == 1 ? 1e9 : -1e9);
        }
        lml_value money = lml_money(sum, usd()), factor = lml_value_number(x), out;
        cr_assert_eq(lml_money_of(x, usd(), &out, NULL), LML_OK);
        cr_assert_eq(out.exact, by_decimals(1, x, false, LML_MONEY_PLACES), "%.17g", x);
        if (fabs((double)sum * x) < 9e18) {
            cr_assert_eq(lml_arithmetic_mul(&money, &factor, &out, NULL), LML_OK);
            cr_assert_eq(out.exact, by_decimals(sum, x, false, 0), "%lld * %.17g", (long long)sum,
                         x);
        }
        if (x != 0 && fabs((double)sum / x) < 9e18) {
            cr_assert_eq(lml_arithmetic_div(&money, &factor, &out, NULL), LML_OK);
            cr_assert_eq(out.exact, by_decimals(sum, x, true, 0), "%lld / %.17g", (long long)sum,
                         x);
        }
    }
}

Test(money, a_share_needs_whole_units_and_weights)
{
    lml_error err;
    lml_value money = value_of("1.005 USD"), whole = value_of("1.00 USD"), parts[2];
    const double none[] = {0, 0}, negative[] = {1, -1}, nothing[] = {1, NAN}, good[] = {1, 1};
    cr_expect_eq(lml_money_share(&money, good, 2, parts, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_money_share(&whole, none, 2, parts, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_money_share(&whole, negative, 2, parts, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_money_share(&whole, nothing, 2, parts, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_money_share(&whole, good, 0, parts, &err), LML_BAD_VALUE);
}
