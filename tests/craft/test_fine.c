#include "craft/fine.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

Test(fine, addition_and_blend_are_inverse)
{
    const double cases[][4] = {/* mass, from, target, added */
                               {22.4, 0.581, 0.752, 0.9999},
                               {15, 0.916, 0.587, 0},
                               {7, 0.4, 0.5, 0.75},
                               {3, 0.999, 0.375, 0.1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const double *c = cases[i];
        double add, reached;
        cr_assert_eq(lml_fine_addition(c[0], c[1], c[2], c[3], &add, NULL), LML_OK);
        cr_expect_gt(add, 0);
        const double mass[] = {c[0], add}, fineness[] = {c[1], c[3]};
        cr_assert_eq(lml_fine_blend(mass, fineness, 2, &reached, NULL), LML_OK);
        cr_expect_float_eq(reached, c[2], 1e-12);
    }
}

Test(fine, metal_on_target_needs_nothing)
{
    double add = -1;
    cr_assert_eq(lml_fine_addition(5, 0.75, 0.75, 0.75, &add, NULL), LML_OK);
    cr_expect_eq(add, 0);
}

Test(fine, an_addition_that_is_not_beyond_the_target_is_refused)
{
    double add = -1;
    lml_error err;
    cr_expect_eq(lml_fine_addition(5, 0.585, 0.75, 0.7, &add, &err), LML_BAD_VALUE);
    cr_expect_str_eq(err.message, "adding metal of 700 ‰ cannot bring 585 ‰ to 750 ‰");
    cr_expect_str_eq(err.hint, "to raise it, add metal finer than 750 ‰");
    cr_expect_eq(lml_fine_addition(5, 0.75, 0.585, 0.585, &add, &err), LML_BAD_VALUE);
    cr_expect_str_eq(err.hint, "to lower it, add metal below 585 ‰");
    cr_expect_eq(lml_fine_addition(5, 0.585, 0.75, 0.75, &add, NULL), LML_BAD_VALUE);
    cr_expect_eq(add, -1, "out is written only on success");
}

Test(fine, what_no_fineness_can_be_is_refused)
{
    double x = -1;
    cr_expect_eq(lml_fine_content(1, 1.001, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_content(1, -0.001, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_content(-1, 0.5, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_content(1, NAN, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_of_karat(24.5, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_of_karat(-1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_addition(INFINITY, 0.5, 0.6, 1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_addition(1e300, 0, 0.9, 0.9000000000000002, &x, NULL), LML_OVERFLOW);
    cr_expect_eq(x, -1);
}

Test(fine, a_blend_of_nothing_is_refused_and_a_bad_lot_is_named)
{
    const double mass[] = {1, 2}, none[] = {0, 0}, fineness[] = {0.5, 1.5};
    double x;
    lml_error err;
    cr_expect_eq(lml_fine_blend(none, fineness, 1, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_blend(mass, fineness, 0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_blend(mass, fineness, 2, &x, &err), LML_BAD_VALUE);
    cr_assert_eq(err.contexts, 1);
    cr_expect_str_eq(err.context[0], "in lot 2");
}

Test(fine, a_split_lies_between_its_lots)
{
    const double lots[] = {0.6, 0.2}, same[] = {0.5, 0.5};
    double mass[2];
    cr_assert_eq(lml_fine_split(80, 0.52, lots, mass, NULL), LML_OK);
    cr_expect_float_eq(mass[0] * 0.6 + mass[1] * 0.2, 80 * 0.52, 1e-12);
    cr_expect_eq(lml_fine_split(80, 0.61, lots, mass, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_split(80, 0.19, lots, mass, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_fine_split(80, 0.5, same, mass, NULL), LML_BAD_VALUE);
}
