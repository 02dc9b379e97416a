/* Heat to melt, furnace time, and the equalising of flasks against the whole series. */
#define _XOPEN_SOURCE 700 /* j0 and j1 */
#include "worked.h"

#include "craft/heat.h"

static lml_heat_cylinder cylinder_of(ref_row *row)
{
    return (lml_heat_cylinder){.diameter = ref_input(row, "diameter") * 1e-3,
                               .height = ref_input(row, "height") * 1e-3,
                               .diffusivity = ref_input(row, "diffusivity") * 1e-6};
}

static lml_status heat_case(const char *name, ref_row *row, double *ours, bool *known,
                            lml_error *err)
{
    lml_status status = LML_OK;
    if (worked_is(name, "needed")) {
        lml_heat_load load = {.mass = ref_input(row, "mass"),
                              .capacity = ref_input(row, "capacity"),
                              .fusion = ref_input(row, "fusion"),
                              .from = ref_input(row, "from") + 273.15,
                              .to = ref_input(row, "to") + 273.15};
        status = lml_heat_needed(&load, ours, err);
        *ours /= 1000;
        return status;
    }
    if (worked_is(name, "minutes")) {
        status = lml_heat_time(ref_input(row, "kilojoules") * 1000, ref_input(row, "power"),
                               ref_input(row, "efficiency"), ours, err);
    } else {
        lml_heat_cylinder c = cylinder_of(row);
        if (worked_is(name, "lag"))
            status = lml_heat_lag(&c, ours, err);
        else if (worked_is(name, "step"))
            status = lml_heat_equalise_step(&c, ref_input(row, "change"),
                                            ref_input(row, "tolerance"), ours, err);
        else if (worked_is(name, "ramp"))
            status =
                lml_heat_equalise_ramp(&c, ref_input(row, "change"), ref_input(row, "rate") / 60,
                                       ref_input(row, "tolerance"), ours, err);
        else
            *known = false;
    }
    *ours /= 60;
    return status;
}

Test(heat, published)
{
    worked_table("heat.tsv", heat_case);
}

enum { RADIAL = 40, AXIAL = 40 };

/* Zeros of J0 by Newton's method from McMahon's first guess (Abramowitz and Stegun, 9.5.12). */
static double zero_of_j0(int n)
{
    double x = (n - 0.25) * M_PI;
    for (int i = 0; i < 20; i++)
        x += j0(x) / j1(x);
    return x;
}

/* How far the centre of a finite cylinder is from its surface: the whole double series for a change
 * that goes at `rate` and ended `seconds` ago, or for a step when the rate is infinite (Carslaw and
 * Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), 7.6, 3.4, and Duhamel's theorem, 1.14). */
static double centre_behind(const lml_heat_cylinder *c, double change, double rate, double seconds)
{
    double sum = 0, radius = c->diameter / 2;
    for (int n = 1; n <= RADIAL; n++)
        for (int k = 0; k < AXIAL; k++) {
            double zero = zero_of_j0(n), odd = 2 * k + 1;
            double weight = 2 / (zero * j1(zero)) * 4 / (M_PI * odd) * (k % 2 ? -1 : 1);
            double speed = c->diffusivity * (zero * zero / (radius * radius) +
                                             odd * odd * M_PI * M_PI / (c->height * c->height));
            double start = isinf(rate) ? change : rate / speed * (1 - exp(-speed * change / rate));
            sum += weight * start * exp(-speed * seconds);
        }
    return sum;
}

static const lml_heat_cylinder flasks[] = {{0.0635, 0.0635, 0.36e-6},
                                           {0.0762, 0.1016, 0.36e-6},
                                           {0.0889, 0.1016, 0.30e-6},
                                           {0.1016, 0.1524, 0.42e-6}};

Test(heat, step_form_meets_the_whole_series)
{
    lml_error err;
    for (size_t i = 0; i < sizeof flasks / sizeof *flasks; i++)
        for (double change = 50; change <= 700; change *= 2) {
            double seconds;
            cr_assert_eq(lml_heat_equalise_step(&flasks[i], -change, 5, &seconds, &err), LML_OK);
            double behind = centre_behind(&flasks[i], change, INFINITY, seconds);
            cr_expect_float_eq(behind, 5, 0.1, "flask %zu, %g K: %g K left", i, change, behind);
        }
}

Test(heat, ramp_form_meets_the_whole_series)
{
    lml_error err;
    for (size_t i = 0; i < sizeof flasks / sizeof *flasks; i++)
        for (double rate = 1; rate <= 5; rate++) {
            double seconds;
            cr_assert_eq(lml_heat_equalise_ramp(&flasks[i], 170, rate / 60, 5, &seconds, &err),
                         LML_OK);
            double behind = centre_behind(&flasks[i], 170, rate / 60, seconds);
            cr_expect_float_eq(behind, 5, 0.2, "flask %zu, %g K/min: %g K left", i, rate, behind);
        }
}

Test(heat, a_fast_ramp_is_a_step)
{
    lml_error err;
    double step, ramp;
    cr_assert_eq(lml_heat_equalise_step(&flasks[0], 170, 5, &step, &err), LML_OK);
    cr_assert_eq(lml_heat_equalise_ramp(&flasks[0], -170, 1e6, 5, &ramp, &err), LML_OK);
    cr_expect_float_eq(ramp / step, 1, 1e-5);
}

Test(heat, nothing_to_wait_for)
{
    lml_error err;
    double seconds = -1;
    cr_assert_eq(lml_heat_equalise_step(&flasks[0], 5, 5, &seconds, &err), LML_OK);
    cr_expect_eq(seconds, 0);
    cr_assert_eq(lml_heat_equalise_ramp(&flasks[0], 170, 0.1 / 60, 5, &seconds, &err), LML_OK);
    cr_expect_eq(seconds, 0, "a kiln that creeps takes the flask along");
}

Test(heat, refuses)
{
    lml_error err;
    double x = -1;
    const lml_heat_load good = {0.06, 174, 87000, 293, 1268};
    lml_heat_load load = good;
    load.from = 1300;
    WORKED_REFUSES(lml_heat_needed(&load, &x, &err), LML_BAD_VALUE, "1300 K");
    load = good, load.mass = 0;
    WORKED_REFUSES(lml_heat_needed(&load, &x, &err), LML_BAD_VALUE, "mass to heat");
    load = good, load.capacity = -1;
    WORKED_REFUSES(lml_heat_needed(&load, &x, &err), LML_BAD_VALUE, "heat capacity");
    load = good, load.fusion = -1;
    WORKED_REFUSES(lml_heat_needed(&load, &x, &err), LML_BAD_VALUE, "heat of fusion");
    load = good, load.to = INFINITY;
    WORKED_REFUSES(lml_heat_needed(&load, &x, &err), LML_BAD_VALUE, "infinite");
    WORKED_REFUSES(lml_heat_time(1e5, 1500, 60, &x, &err), LML_BAD_VALUE, "60 % is 0.6");
    WORKED_REFUSES(lml_heat_time(1e5, 1500, 0, &x, &err), LML_BAD_VALUE, "efficiency");
    WORKED_REFUSES(lml_heat_time(1e5, 0, 0.5, &x, &err), LML_BAD_VALUE, "power");
    WORKED_REFUSES(lml_heat_time(-1, 1500, 0.5, &x, &err), LML_BAD_VALUE, "heat needed");
    lml_heat_cylinder c = flasks[0];
    WORKED_REFUSES(lml_heat_equalise_step(&c, 170, 0, &x, &err), LML_BAD_VALUE, "how near");
    WORKED_REFUSES(lml_heat_equalise_step(&c, NAN, 5, &x, &err), LML_BAD_VALUE, "change");
    WORKED_REFUSES(lml_heat_equalise_ramp(&c, 170, 0, 5, &x, &err), LML_BAD_VALUE, "rate");
    c.height = -1;
    WORKED_REFUSES(lml_heat_lag(&c, &x, &err), LML_BAD_VALUE, "height of the flask");
    c = flasks[0], c.diameter = 0;
    WORKED_REFUSES(lml_heat_equalise_step(&c, 170, 5, &x, &err), LML_BAD_VALUE, "diameter");
    c = flasks[0], c.diffusivity = 0;
    WORKED_REFUSES(lml_heat_equalise_ramp(&c, 170, 1, 5, &x, &err), LML_BAD_VALUE, "diffusivity");
    cr_expect_eq(x, -1);
}
