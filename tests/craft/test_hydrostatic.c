/* Weighing under water. */
#include "worked.h"

#include "craft/hydrostatic.h"

static lml_status weigh(ref_row *row, lml_hydrostatic_density *out, lml_error *err)
{
    lml_hydrostatic_weighing w = {.in_air = ref_input(row, "in_air") * 1e-3,
                                  .in_water = ref_input(row, "in_water") * 1e-3,
                                  .deviation = ref_input_or(row, "deviation", 0) * 1e-3,
                                  .water = ref_input(row, "water"),
                                  .air = ref_input(row, "air")};
    return lml_hydrostatic_weigh(&w, out, err);
}

static lml_status gold(ref_row *row, lml_hydrostatic_fineness *out, lml_error *err)
{
    lml_hydrostatic_guess g = {.density = ref_input(row, "density") * 1e3,
                               .density_deviation = ref_input_or(row, "deviation", 0) * 1e3,
                               .gold = ref_input(row, "gold") * 1e3,
                               .rest = ref_input(row, "rest") * 1e3,
                               .rest_deviation = ref_input_or(row, "rest_deviation", 0) * 1e3,
                               .mixing_deviation = ref_input_or(row, "mixing", 0)};
    return lml_hydrostatic_gold(&g, out, err);
}

/* The reading under the row's liquid of so much of a metal, g. */
static lml_status reading(ref_row *row, double grams, double density, double *ours, lml_error *err)
{
    lml_status status =
        lml_hydrostatic_reading(grams * 1e-3, density * 1e3, ref_input(row, "water"),
                                ref_input_or(row, "air", 0), ours, err);
    *ours *= 1e3;
    return status;
}

static lml_status hydrostatic_case(const char *name, ref_row *row, double *ours, bool *known,
                                   lml_error *err)
{
    lml_hydrostatic_density d;
    lml_hydrostatic_fineness f;
    lml_status status = LML_OK;
    if (worked_is(name, "density")) {
        status = weigh(row, &d, err);
        *ours = d.density / 1e3;
    } else if (worked_is(name, "density_deviation")) {
        status = weigh(row, &d, err);
        *ours = d.deviation / 1e3;
    } else if (worked_is(name, "reading")) {
        status = reading(row, ref_input(row, "in_air"), ref_input(row, "density"), ours, err);
    } else if (worked_is(name, "loss")) {
        double in_air = ref_input(row, "in_air");
        status = reading(row, in_air, ref_input(row, "density"), ours, err);
        *ours = in_air - *ours;
    } else if (worked_is(name, "tungsten_percent")) {
        double of_gold = 0, of_tungsten = 0;
        status = reading(row, 1000, ref_input(row, "gold"), &of_gold, err);
        if (status == LML_OK)
            status = reading(row, 1000, ref_input(row, "tungsten"), &of_tungsten, err);
        *ours = 100 * (of_gold - of_tungsten) / of_gold;
    } else {
        status = gold(row, &f, err);
        double share = worked_is(name, "fineness")             ? f.fineness
                       : worked_is(name, "fineness_deviation") ? f.deviation
                       : worked_is(name, "from_weighing")      ? f.from_weighing
                       : worked_is(name, "from_rest")          ? f.from_rest
                       : worked_is(name, "from_mixing")        ? f.from_mixing
                                                               : NAN;
        *ours = share * 1e3;
        *known = !isnan(share);
    }
    return status;
}

Test(hydrostatic, published)
{
    worked_table("hydrostatic.tsv", hydrostatic_case);
}

/* A piece of known density reads what the inverse foretells, from a stud to an ingot. */
Test(hydrostatic, reading_undoes_weighing)
{
    lml_error err;
    for (double density = 2300; density < 22600; density += 700)
        for (double mass = 0.0005; mass < 2; mass *= 7) {
            lml_hydrostatic_weighing w = {.in_air = mass, .water = 997.773, .air = 0.89};
            lml_hydrostatic_density d;
            cr_assert_eq(lml_hydrostatic_reading(mass, density, w.water, w.air, &w.in_water, &err),
                         LML_OK);
            cr_assert_eq(lml_hydrostatic_weigh(&w, &d, &err), LML_OK);
            cr_expect_float_eq(d.density / density, 1, 1e-12);
        }
}

/* The stated deviation is what moving each reading by a little does to the density. */
Test(hydrostatic, deviation_is_the_slope)
{
    lml_error err;
    const double u = 1e-9;
    lml_hydrostatic_weighing w = {0.011420, 0.010549, u, 997.773, 1.2}, air = w, water = w;
    lml_hydrostatic_density d, by_air, by_water;
    air.in_air += u;
    water.in_water += u;
    cr_assert_eq(lml_hydrostatic_weigh(&w, &d, &err), LML_OK);
    cr_assert_eq(lml_hydrostatic_weigh(&air, &by_air, &err), LML_OK);
    cr_assert_eq(lml_hydrostatic_weigh(&water, &by_water, &err), LML_OK);
    double slope = hypot(by_air.density - d.density, by_water.density - d.density);
    cr_expect_float_eq(slope / d.deviation, 1, 1e-4, "%g and %g", slope, d.deviation);
}

/* Not cut to what a fineness may be: that is what tells a wrong guess. */
Test(hydrostatic, fineness_outside_says_so)
{
    lml_error err;
    lml_hydrostatic_fineness f;
    lml_hydrostatic_guess light = {.density = 8500, .gold = 19300, .rest = 9229},
                          heavy = {.density = 21450, .gold = 19300, .rest = 9229};
    cr_assert_eq(lml_hydrostatic_gold(&light, &f, &err), LML_OK);
    cr_expect_lt(f.fineness, 0);
    cr_assert_eq(lml_hydrostatic_gold(&heavy, &f, &err), LML_OK);
    cr_expect_gt(f.fineness, 1);
}

Test(hydrostatic, refuses)
{
    lml_error err;
    lml_hydrostatic_density d;
    const lml_hydrostatic_weighing good = {0.0100, 0.0092, 1e-6, 998, 1.2};
    lml_hydrostatic_weighing w = good;
    w.in_air = 0.0092, w.in_water = 0.0100;
    WORKED_REFUSES(lml_hydrostatic_weigh(&w, &d, &err), LML_BAD_VALUE, "10 g in water but 9.2 g");
    cr_expect_not_null(strstr(err.hint, "swapped"));
    w.in_water = w.in_air;
    WORKED_REFUSES(lml_hydrostatic_weigh(&w, &d, &err), LML_BAD_VALUE, "must weigh less in water");
    w = good, w.in_air = 0;
    WORKED_REFUSES(lml_hydrostatic_weigh(&w, &d, &err), LML_BAD_VALUE, "mass in air");
    w = good, w.in_water = -0.001;
    WORKED_REFUSES(lml_hydrostatic_weigh(&w, &d, &err), LML_BAD_VALUE, "mass in water");
    w = good, w.deviation = -1;
    WORKED_REFUSES(lml_hydrostatic_weigh(&w, &d, &err), LML_BAD_VALUE, "deviation");
    w = good, w.water = 1.1;
    WORKED_REFUSES(lml_hydrostatic_weigh(&w, &d, &err), LML_BAD_VALUE, "no denser than the air");
    double x;
    WORKED_REFUSES(lml_hydrostatic_reading(0.01, 1, 998, 1.2, &x, &err), LML_BAD_VALUE, "1 kg/m3");
    WORKED_REFUSES(lml_hydrostatic_reading(0, 19300, 998, 1.2, &x, &err), LML_BAD_VALUE, "in air");
    lml_hydrostatic_fineness f;
    lml_hydrostatic_guess g = {.density = 13068, .gold = 19300, .rest = 21450};
    WORKED_REFUSES(lml_hydrostatic_gold(&g, &f, &err), LML_BAD_VALUE, "no lighter than gold");
    g.rest = 9229, g.rest_deviation = -1;
    WORKED_REFUSES(lml_hydrostatic_gold(&g, &f, &err), LML_BAD_VALUE, "deviation of the rest");
    g.rest_deviation = 0, g.density = 0;
    WORKED_REFUSES(lml_hydrostatic_gold(&g, &f, &err), LML_BAD_VALUE, "density of the piece");
}
