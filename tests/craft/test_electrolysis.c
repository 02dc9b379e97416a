/* Faraday's law against textbook and handbook figures. */
#include "worked.h"

#include "craft/electrolysis.h"

/* Of a metal of the trade, or of a textbook's own atomic weight. */
static lml_status equivalent_of(ref_row *row, double *equivalent, lml_error *err)
{
    int valence = (int)ref_input(row, "valence");
    const char *symbol = ref_input_text(row, "metal");
    if (symbol)
        return lml_electrolysis_equivalent(lml_metal_by_symbol(lml_span_of(symbol)), valence,
                                           equivalent, err);
    *equivalent = ref_input(row, "weight") * 1e-3 / (valence * LML_ELECTROLYSIS_FARADAY);
    return LML_OK;
}

static lml_status deposit_case(const char *name, ref_row *row, lml_electrolysis_deposit *d,
                               double *ours, bool *known, lml_error *err)
{
    d->density = ref_input(row, "density") * 1e3;
    d->area = ref_input(row, "area") * 1e-4;
    d->efficiency = ref_input(row, "efficiency");
    lml_status status = LML_OK;
    if (worked_is(name, "micron")) {
        status = lml_electrolysis_thickness(d, ref_input(row, "ampere"),
                                            ref_input(row, "minutes") * 60, ours, err);
        *ours *= 1e6;
        return status;
    }
    double thickness = ref_input(row, "micron") * 1e-6;
    if (worked_is(name, "ampere"))
        return lml_electrolysis_current(d, thickness, ref_input(row, "seconds"), ours, err);
    *known = worked_is(name, "seconds") || worked_is(name, "hours");
    status = lml_electrolysis_time(d, thickness, ref_input(row, "ampere"), ours, err);
    if (worked_is(name, "hours"))
        *ours /= 3600;
    return status;
}

static lml_status electrolysis_case(const char *name, ref_row *row, double *ours, bool *known,
                                    lml_error *err)
{
    double k;
    lml_status status = equivalent_of(row, &k, err);
    if (status != LML_OK)
        return status;
    if (worked_is(name, "equivalent")) {
        *ours = k * 1e6;
    } else if (worked_is(name, "gram_per_hour")) {
        status = lml_electrolysis_mass(k, 1, 3600, 1, ours, err);
        *ours *= 1e3;
    } else if (worked_is(name, "mass_of")) {
        status = lml_electrolysis_mass(k, ref_input(row, "ampere"), ref_input(row, "minutes") * 60,
                                       1, ours, err);
        *ours *= 1e3;
    } else {
        lml_electrolysis_deposit d = {.equivalent = k};
        status = deposit_case(name, row, &d, ours, known, err);
    }
    return status;
}

Test(electrolysis, published)
{
    worked_table("electrolysis.tsv", electrolysis_case);
}

Test(electrolysis, thickness_time_and_current_undo_each_other)
{
    lml_error err;
    const lml_electrolysis_deposit d = {0.3555e-6, 12410, 0.4, 8.09e-4};
    for (double thickness = 1e-8; thickness < 1e-4; thickness *= 3) {
        double seconds, current, back;
        cr_assert_eq(lml_electrolysis_time(&d, thickness, 0.202, &seconds, &err), LML_OK);
        cr_assert_eq(lml_electrolysis_current(&d, thickness, seconds, &current, &err), LML_OK);
        cr_expect_float_eq(current, 0.202, 1e-12);
        cr_assert_eq(lml_electrolysis_thickness(&d, current, seconds, &back, &err), LML_OK);
        cr_expect_float_eq(back / thickness, 1, 1e-12);
    }
}

Test(electrolysis, refuses)
{
    lml_error err;
    double x = -1;
    WORKED_REFUSES(lml_electrolysis_equivalent(LML_Rh, 2, &x, &err), LML_BAD_VALUE,
                   "a bath of rhodium has the valence 3, not 2");
    WORKED_REFUSES(lml_electrolysis_equivalent(LML_Au, 2, &x, &err), LML_BAD_VALUE, "1 or 3");
    WORKED_REFUSES(lml_electrolysis_equivalent(LML_Ag, 0, &x, &err), LML_BAD_VALUE, "not 0");
    WORKED_REFUSES(lml_electrolysis_equivalent(LML_W, 6, &x, &err), LML_NOT_FOUND, "tungsten");
    WORKED_REFUSES(lml_electrolysis_equivalent(LML_NO_METAL, 1, &x, &err), LML_NOT_FOUND, "metal");
    WORKED_REFUSES(lml_electrolysis_mass(1e-6, 1, 1, 40, &x, &err), LML_BAD_VALUE, "40 % is 0.4");
    WORKED_REFUSES(lml_electrolysis_mass(1e-6, 1, 1, 0, &x, &err), LML_BAD_VALUE, "efficiency");
    WORKED_REFUSES(lml_electrolysis_mass(0, 1, 1, 1, &x, &err), LML_BAD_VALUE, "mass per charge");
    WORKED_REFUSES(lml_electrolysis_mass(1e-6, -1, 1, 1, &x, &err), LML_BAD_VALUE, "current");
    WORKED_REFUSES(lml_electrolysis_mass(1e-6, 1, -1, 1, &x, &err), LML_BAD_VALUE, "time");
    const lml_electrolysis_deposit good = {0.3555e-6, 12410, 0.4, 8.09e-4};
    lml_electrolysis_deposit d = good;
    WORKED_REFUSES(lml_electrolysis_time(&d, 1e-6, 0, &x, &err), LML_BAD_VALUE, "current");
    WORKED_REFUSES(lml_electrolysis_time(&d, -1e-6, 1, &x, &err), LML_BAD_VALUE, "thickness");
    WORKED_REFUSES(lml_electrolysis_current(&d, 1e-6, 0, &x, &err), LML_BAD_VALUE, "time");
    d.area = 0;
    WORKED_REFUSES(lml_electrolysis_thickness(&d, 1, 1, &x, &err), LML_BAD_VALUE, "area");
    d = good, d.density = NAN;
    WORKED_REFUSES(lml_electrolysis_current(&d, 1e-6, 1, &x, &err), LML_BAD_VALUE, "density");
    cr_expect_eq(x, -1);
}
