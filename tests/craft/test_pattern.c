#include "craft/pattern.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

Test(pattern, mass_and_volume_lead_to_the_same_metal)
{
    double by_mass, by_volume;
    cr_assert_eq(lml_pattern_metal(0.00096, 960, 15450, &by_mass, NULL), LML_OK);
    cr_assert_eq(lml_pattern_metal_of_volume(1e-6, 15450, &by_volume, NULL), LML_OK);
    cr_expect_float_eq(by_mass, by_volume, 1e-15);
}

Test(pattern, a_charge_that_loses_nothing_is_the_metal_itself)
{
    double charge;
    cr_assert_eq(lml_pattern_need(0.02, 0, 0, &charge, NULL), LML_OK);
    cr_expect_eq(charge, 0.02);
}

Test(pattern, a_crucible_holds_the_same_volume_of_any_metal)
{
    double capacity, rated, held;
    cr_assert_eq(lml_pattern_capacity(0.06, 17310, 12387, &capacity, NULL), LML_OK);
    cr_assert_eq(lml_pattern_liquid_volume(0.06, 17310, &rated, NULL), LML_OK);
    cr_assert_eq(lml_pattern_liquid_volume(capacity, 12387, &held, NULL), LML_OK);
    cr_expect_float_eq(held, rated, 1e-18);
}

Test(pattern, bad_input_is_named_and_nothing_written)
{
    double x = -1;
    lml_error err;
    cr_expect_eq(lml_pattern_metal(0.001, 0, 15450, &x, &err), LML_BAD_VALUE);
    cr_expect_str_eq(err.message,
                     "the density of the pattern (kg/m3) must be more than 0, but is 0");
    cr_expect_eq(lml_pattern_metal(-0.001, 960, 15450, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_metal(0.001, 960, NAN, &x, &err), LML_BAD_VALUE);
    cr_expect_not_null(strstr(err.message, "not a number"), "%s", err.message);
    cr_expect_eq(lml_pattern_metal_of_volume(INFINITY, 15450, &x, &err), LML_BAD_VALUE);
    cr_expect_not_null(strstr(err.message, "infinite"), "%s", err.message);
    cr_expect_eq(lml_pattern_metal(1e308, 1e-3, 1e3, &x, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_pattern_shrink_credit(1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_shrink_credit(-0.01, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_need(0.02, 1, 0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_need(0.02, 0.005, -1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_capacity(0, 17310, 12387, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_capacity(0.06, 0, 12387, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_pattern_liquid_volume(0.06, 0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(x, -1);
}
