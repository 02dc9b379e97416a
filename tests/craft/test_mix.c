#include "craft/mix.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

static lml_composition of(double gold, double silver, double copper, double zinc)
{
    lml_composition c = {{0}};
    c.part[LML_Au] = gold;
    c.part[LML_Ag] = silver;
    c.part[LML_Cu] = copper;
    c.part[LML_Zn] = zinc;
    return c;
}

Test(mix, without_gold_or_copper_both_rules_agree)
{
    lml_composition green = of(0.75, 0.25, 0, 0), sterling = of(0, 0.925, 0.075, 0);
    const lml_composition *both[] = {&green, &sterling};
    for (int i = 0; i < 2; i++) {
        double plain;
        lml_density_estimate d;
        cr_assert_eq(lml_mix_plain_density(both[i], &plain, NULL), LML_OK);
        cr_assert_eq(lml_mix_density(both[i], &d, NULL), LML_OK);
        cr_expect_float_eq(d.density, plain, 1e-9);
    }
}

Test(mix, gold_with_copper_is_lighter_than_the_plain_rule)
{
    lml_composition red = of(0.75, 0, 0.25, 0);
    double plain;
    lml_density_estimate d;
    cr_assert_eq(lml_mix_plain_density(&red, &plain, NULL), LML_OK);
    cr_assert_eq(lml_mix_density(&red, &d, NULL), LML_OK);
    cr_expect_lt(d.density, 0.99 * plain);
}

Test(mix, an_unnamed_remainder_is_refused_by_every_rule)
{
    lml_composition c = of(0.585, 0.2, 0.1, 0);
    c.part[LML_NO_METAL] = 0.115;
    double x = -1;
    lml_density_estimate d = {-1, -1};
    lml_error err;
    cr_expect_eq(lml_mix_plain_density(&c, &x, &err), LML_BAD_VALUE);
    cr_expect_not_null(strstr(err.message, "115 ‰"), "%s", err.message);
    cr_expect_neq(err.hint[0], '\0');
    cr_expect_eq(lml_mix_density(&c, &d, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_liquid_density(&c, 1300, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_heat_capacity(&c, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_fusion_heat(&c, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(x, -1, "out is written only on success");
    cr_expect_eq(d.density, -1);
}

/* B. D. Fahlman, Materials Chemistry, 2nd ed. (2011), Table 3.4, p. 207, prints 14K yellow as
 * 58.3 / 24.8 / 26.8 / 0.14 (110.04 %) and 18K nickel white as 75 / 2.23 / 5.47 / 17.8 (100.50 %).
 */
Test(mix, printed_compositions_that_do_not_sum_to_1_are_refused)
{
    lml_composition yellow = of(0.583, 0.248, 0.268, 0.0014), white = of(0.75, 0, 0.0223, 0.0547);
    white.part[LML_Ni] = 0.178;
    double x;
    cr_expect_eq(lml_mix_plain_density(&yellow, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_plain_density(&white, &x, NULL), LML_BAD_VALUE);
    white.part[LML_Ni] = 0.173;
    cr_expect_eq(lml_mix_plain_density(&white, &x, NULL), LML_OK);
}

Test(mix, a_liquid_that_nobody_measured_is_refused_with_the_way_out)
{
    lml_composition c = of(0.9, 0, 0, 0);
    c.part[LML_Ir] = 0.1;
    double x = -1;
    lml_error err;
    cr_expect_eq(lml_mix_liquid_density(&c, 1800, &x, &err), LML_NOT_FOUND);
    cr_expect_not_null(strstr(err.message, "iridium"), "%s", err.message);
    cr_expect_not_null(strstr(err.hint, "0.90"), "%s", err.hint);
    cr_expect_eq(x, -1);
}

Test(mix, temperatures_beyond_sense_are_refused)
{
    lml_composition gold = of(1, 0, 0, 0);
    double x = -1;
    cr_expect_eq(lml_mix_liquid_density(&gold, 0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_liquid_density(&gold, NAN, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_liquid_density(&gold, 50000, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_plain_liquid_density(0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_mix_plain_liquid_density(INFINITY, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(x, -1);
}
