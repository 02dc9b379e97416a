/* The standard atmosphere against its printed tables. */
#include "worked.h"

#include "craft/atmosphere.h"

static lml_status atmosphere_case(const char *name, ref_row *row, double *ours, bool *known,
                                  lml_error *err)
{
    double geometric = ref_input_or(row, "geometric", NAN);
    if (worked_is(name, "geopotential"))
        return lml_atmosphere_geopotential(geometric, ours, err);
    double height;
    if (isnan(geometric))
        height = ref_input(row, "geopotential");
    else if (lml_atmosphere_geopotential(geometric, &height, err))
        return LML_BAD_VALUE;
    if (worked_is(name, "pressure"))
        return lml_atmosphere_pressure(height, ours, err);
    if (worked_is(name, "temperature"))
        return lml_atmosphere_temperature(height, ours, err);
    if (worked_is(name, "geometric"))
        return lml_atmosphere_geometric(height, ours, err);
    if (worked_is(name, "station"))
        return lml_atmosphere_station(ref_input(row, "reduced"), height, ours, err);
    *known = false;
    return LML_OK;
}

Test(atmosphere, published)
{
    worked_table("atmosphere.tsv", atmosphere_case);
}

/* The pressure falls by the weight of the air that is climbed through: dp = -rho g dh with rho = p
 * M/(R T), summed here in small steps, in place of the closed form. M/R by the sea-level density of
 * the same standard, 1.2250 kg/m3 (U.S. Standard Atmosphere, 1976, Table 2; from memory,
 * unverified). */
Test(atmosphere, is_in_hydrostatic_balance)
{
    lml_error err;
    double p = 101325, step = 0.5, here, t;
    for (int i = 0; i < 20000; i++) {
        cr_assert_eq(lml_atmosphere_temperature((i + 0.5) * step, &t, &err), LML_OK);
        double slope = 1.2250 / 101325 * 288.15 / t * 9.80665;
        p *= exp(-slope * step);
    }
    cr_assert_eq(lml_atmosphere_pressure(10000, &here, &err), LML_OK);
    cr_expect_float_eq(here / p, 1, 3e-5, "%.1f Pa, and %.1f Pa summed", here, p);
}

Test(atmosphere, altitudes_undo_each_other)
{
    lml_error err;
    double height, back;
    for (double z = -500; z <= 11000; z += 250) {
        cr_assert_eq(lml_atmosphere_geopotential(z, &height, &err), LML_OK);
        if (height < -500)
            continue; /* a hair below the range, by the curve of the earth */
        cr_assert_eq(lml_atmosphere_geometric(height, &back, &err), LML_OK);
        cr_expect_float_eq(back, z, 1e-8);
    }
}

Test(atmosphere, refuses_with_the_numbers)
{
    lml_error err;
    double x = -1;
    WORKED_REFUSES(lml_atmosphere_pressure(11001, &x, &err), LML_BAD_VALUE, "-500 to 11000");
    WORKED_REFUSES(lml_atmosphere_pressure(-501, &x, &err), LML_BAD_VALUE, "-501");
    WORKED_REFUSES(lml_atmosphere_pressure(NAN, &x, &err), LML_BAD_VALUE, "altitude (m)");
    WORKED_REFUSES(lml_atmosphere_temperature(11001, &x, &err), LML_BAD_VALUE, "altitude");
    WORKED_REFUSES(lml_atmosphere_geopotential(-501, &x, &err), LML_BAD_VALUE, "altitude");
    WORKED_REFUSES(lml_atmosphere_geometric(11001, &x, &err), LML_BAD_VALUE, "altitude");
    WORKED_REFUSES(lml_atmosphere_station(101325, 11001, &x, &err), LML_BAD_VALUE, "altitude");
    WORKED_REFUSES(lml_atmosphere_station(84900, 1000, &x, &err), LML_BAD_VALUE, "85000 to 110000");
    WORKED_REFUSES(lml_atmosphere_station(1013.25, 0, &x, &err), LML_BAD_VALUE, "1013.25");
    WORKED_REFUSES(lml_atmosphere_station(110100, 0, &x, &err), LML_BAD_VALUE, "110100");
    cr_expect_eq(x, -1);
}
