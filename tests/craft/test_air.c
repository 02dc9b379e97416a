/* Moist air, buoyancy and conventional mass. */
#include "worked.h"

#include "craft/air.h"

static lml_status air_case(const char *name, ref_row *row, double *ours, bool *known,
                           lml_error *err)
{
    if (worked_is(name, "density"))
        return lml_air_density(ref_input(row, "hpa") * 100, ref_input(row, "celsius") + 273.15,
                               ref_input(row, "humidity") / 100, ours, err);
    if (worked_is(name, "buoyancy"))
        return lml_air_buoyancy(ref_input(row, "thing"), ref_input(row, "weights"),
                                ref_input(row, "air"), ours, err);
    if (worked_is(name, "conventional_mass"))
        return lml_air_conventional_mass(ref_input(row, "mass"), ref_input(row, "thing"), ours,
                                         err);
    *known = false;
    return LML_OK;
}

Test(air, published)
{
    worked_table("air.tsv", air_case);
}

Test(air, refuses)
{
    lml_error err;
    double x = -1;
    WORKED_REFUSES(lml_air_density(1013.25, 293.15, 0.5, &x, &err), LML_BAD_VALUE, "(hPa)");
    WORKED_REFUSES(lml_air_density(59900, 293.15, 0.5, &x, &err), LML_BAD_VALUE, "600 to 1100");
    WORKED_REFUSES(lml_air_density(110100, 293.15, 0.5, &x, &err), LML_BAD_VALUE, "1101");
    WORKED_REFUSES(lml_air_density(101325, 20, 0.5, &x, &err), LML_BAD_VALUE, "temperature");
    WORKED_REFUSES(lml_air_density(101325, 313.2, 0.5, &x, &err), LML_BAD_VALUE, "temperature");
    WORKED_REFUSES(lml_air_density(101325, 293.15, 50, &x, &err), LML_BAD_VALUE, "humidity");
    WORKED_REFUSES(lml_air_density(101325, 293.15, NAN, &x, &err), LML_BAD_VALUE, "humidity");
    WORKED_REFUSES(lml_air_buoyancy(1.2, 8000, 1.2, &x, &err), LML_BAD_VALUE, "sink");
    WORKED_REFUSES(lml_air_buoyancy(19300, 1, 1.2, &x, &err), LML_BAD_VALUE, "sink");
    WORKED_REFUSES(lml_air_buoyancy(19300, 8000, -1, &x, &err), LML_BAD_VALUE, "of the air");
    WORKED_REFUSES(lml_air_buoyancy(0, 8000, 1.2, &x, &err), LML_BAD_VALUE, "object weighed");
    WORKED_REFUSES(lml_air_conventional_mass(-1, 8000, &x, &err), LML_BAD_VALUE, "the mass (kg)");
    WORKED_REFUSES(lml_air_conventional_mass(1, 1, &x, &err), LML_BAD_VALUE, "sink");
    cr_expect_eq(x, -1);
}
