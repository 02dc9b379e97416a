#include "craft/slurry.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

static const lml_cup_test stated = {570, LML_SLURRY_STATED_AT};

Test(slurry, powder_and_water_fill_the_volume_again)
{
    lml_batch batch;
    cr_assert_eq(lml_slurry_batch(2.5e-4, 0.4, 2600, 998, &batch, NULL), LML_OK);
    cr_expect_float_eq(batch.powder / 2600 + batch.water / 998, 2.5e-4, 1e-15);
    cr_expect_float_eq(batch.water, 0.4 * batch.powder, 1e-15);
}

Test(slurry, a_ratio_in_parts_of_100_is_refused_with_the_mend)
{
    double x = -1;
    lml_error err;
    cr_expect_eq(lml_slurry_water(0.33, 40, &x, &err), LML_BAD_VALUE);
    cr_expect_str_eq(err.message, "the water ratio must be more than 0 and at most 1, but is 40");
    cr_expect_str_eq(err.hint, "40 g of water to 100 g of powder is 40 %");
    cr_expect_eq(lml_slurry_density(0, 2600, 998, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_density(NAN, 2600, 998, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(x, -1);
}

Test(slurry, a_tree_must_leave_room)
{
    double x = -1;
    cr_expect_eq(lml_slurry_net(2e-4, 2e-4, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_net(2e-4, -1e-6, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_cylinder(0, 0.1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_cylinder(0.1, -0.1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_volume(2e-4, 1.1, 0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_volume(2e-4, 0, 1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(x, -1);
}

Test(slurry, the_working_time_holds_near_the_cup_test_only)
{
    double time = -1;
    lml_error err;
    cr_expect_eq(lml_slurry_working_time(stated, 0.045, 295.15 + 6, &time, NULL), LML_OK);
    cr_expect_lt(time, stated.time);
    cr_expect_eq(lml_slurry_working_time(stated, 0.045, 295.15 - 6, &time, NULL), LML_OK);
    cr_expect_gt(time, stated.time);
    time = -1;
    cr_expect_eq(lml_slurry_working_time(stated, 0.045, 295.15 + 6.03, &time, &err), LML_BAD_VALUE);
    cr_expect_neq(err.hint[0], '\0');
    cr_expect_eq(lml_slurry_working_time(stated, 0.045, 295.15 - 6.03, &time, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_working_time(stated, -0.01, 295.15, &time, NULL), LML_BAD_VALUE);
    cr_expect_eq(time, -1);
}

Test(slurry, two_cup_tests_give_the_rate_that_joins_them)
{
    const lml_cup_test warm = {450, 300.15};
    double rate, time;
    cr_assert_eq(lml_slurry_rate(stated, warm, &rate, NULL), LML_OK);
    cr_assert_eq(lml_slurry_working_time(stated, rate, warm.temperature, &time, NULL), LML_OK);
    cr_expect_float_eq(time, warm.time, 1e-9);
    cr_assert_eq(lml_slurry_rate(warm, stated, &time, NULL), LML_OK);
    cr_expect_float_eq(time, rate, 1e-15, "the order of the tests does not matter");
}

Test(slurry, cup_tests_that_tell_no_rate_are_refused)
{
    const lml_cup_test longer = {600, 300.15}, same = {500, LML_SLURRY_STATED_AT}, none = {0, 300};
    double rate = -1;
    cr_expect_eq(lml_slurry_rate(stated, longer, &rate, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_rate(stated, same, &rate, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_slurry_rate(stated, none, &rate, NULL), LML_BAD_VALUE);
    cr_expect_eq(rate, -1);
}
