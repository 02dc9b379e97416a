/* Chance: published tables, another algorithm, the density summed by hand, and the inverses. */
#include "worked.h"

#include "craft/chance.h"

static lml_status chance_case(const char *name, ref_row *row, double *ours, bool *known,
                              lml_error *err)
{
    if (worked_is(name, "below")) {
        *ours = lml_chance_normal(ref_input(row, "z"));
        return LML_OK;
    }
    if (worked_is(name, "quantile"))
        return lml_chance_normal_quantile(ref_input(row, "chance"), ours, err);
    if (worked_is(name, "student_quantile"))
        return lml_chance_student_quantile(ref_input(row, "chance"), ref_input(row, "freedom"),
                                           ours, err);
    *known = false;
    return LML_OK;
}

Test(chance, published)
{
    worked_table("chance.tsv", chance_case);
}

/* Student's density, from its definition, summed by Simpson's rule from 0 to t. */
static double summed(double t, double freedom)
{
    enum { PIECES = 2000 };
    double scale = exp(lgamma((freedom + 1) / 2) - lgamma(freedom / 2)) / sqrt(freedom * acos(-1));
    double sum = 0, step = t / PIECES;
    for (int i = 0; i <= PIECES; i++) {
        double x = i * step;
        double weight = i == 0 || i == PIECES ? 1 : i % 2 ? 4 : 2;
        sum += weight * scale * pow(1 + x * x / freedom, -(freedom + 1) / 2);
    }
    return 0.5 + sum * step / 3;
}

Test(chance, student_is_the_sum_of_its_density)
{
    lml_error err;
    double chance;
    for (int freedom = 1; freedom <= 60; freedom++) {
        for (double t = -6; t <= 6; t += 0.37) {
            cr_assert_eq(lml_chance_student(t, freedom, &chance, &err), LML_OK);
            cr_expect_float_eq(chance, summed(t, freedom), 1e-9,
                               "t %g with %d: %.12g, summed %.12g", t, freedom, chance,
                               summed(t, freedom));
        }
    }
}

Test(chance, the_inverses_undo)
{
    lml_error err;
    double back;
    for (double z = -8; z <= 5; z += 0.13) {
        cr_assert_eq(lml_chance_normal_quantile(lml_chance_normal(z), &back, &err), LML_OK);
        cr_expect_float_eq(back, z, 1e-9, "%g comes back as %.15g", z, back);
    }
    for (int freedom = 1; freedom <= 1000; freedom += 37) {
        for (double p = 0.001; p < 1; p += 0.017) {
            double t, chance;
            cr_assert_eq(lml_chance_student_quantile(p, freedom, &t, &err), LML_OK);
            cr_assert_eq(lml_chance_student(t, freedom, &chance, &err), LML_OK);
            cr_expect_float_eq(chance, p, 1e-12);
            if (freedom < 300 && fabs(t) < 8)
                cr_expect_float_eq(summed(t, freedom), p, 1e-9, "%d degrees: below %.12g", freedom,
                                   t);
        }
    }
    double t, z;
    cr_assert_eq(lml_chance_student_quantile(0.95, 1000, &t, &err), LML_OK);
    cr_assert_eq(lml_chance_normal_quantile(0.95, &z, &err), LML_OK);
    cr_expect_float_eq(t, z, 0.002, "many degrees of freedom come near to the normal");
}

Test(chance, refuses)
{
    lml_error err;
    double x = -7;
    const double none[] = {0, 1, -0.1, 1.1, NAN};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        WORKED_REFUSES(lml_chance_normal_quantile(none[i], &x, &err), LML_BAD_VALUE, "a chance");
    WORKED_REFUSES(lml_chance_student_quantile(0, 5, &x, &err), LML_BAD_VALUE, "the chance");
    WORKED_REFUSES(lml_chance_student_quantile(0.95, 2.5, &x, &err), LML_BAD_VALUE, "whole number");
    WORKED_REFUSES(lml_chance_student_quantile(0.95, 0, &x, &err), LML_BAD_VALUE, "from 1 to 1000");
    WORKED_REFUSES(lml_chance_student_quantile(0.95, NAN, &x, &err), LML_BAD_VALUE, "whole number");
    WORKED_REFUSES(lml_chance_student(INFINITY, 5, &x, &err), LML_BAD_VALUE, "finite");
    WORKED_REFUSES(lml_chance_student(1, 1001, &x, &err), LML_BAD_VALUE, "from 1 to 1000");
    cr_expect_eq(x, -7);
    cr_expect(isnan(lml_chance_normal(NAN)));
    cr_expect_eq(lml_chance_normal(-INFINITY), 0);
    cr_expect_eq(lml_chance_normal(INFINITY), 1);
}
