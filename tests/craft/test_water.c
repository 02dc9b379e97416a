/* Density of water, against the printed table of its paper and an independent one. */
#include "worked.h"

#include "craft/water.h"

static lml_status water_case(const char *name, ref_row *row, double *ours, bool *known,
                             lml_error *err)
{
    double kelvin = ref_input(row, "celsius") + 273.15;
    if (worked_is(name, "density"))
        return lml_water_density(kelvin, ours, err);
    if (worked_is(name, "air_correction"))
        return lml_water_air_correction(kelvin, ours, err);
    *known = false;
    return LML_OK;
}

Test(water, published)
{
    worked_table("water.tsv", water_case);
}

Test(water, refuses_what_the_table_does_not_hold)
{
    lml_error err;
    double x = -1;
    WORKED_REFUSES(lml_water_density(273.14, &x, &err), LML_BAD_VALUE, "temperature of the water");
    WORKED_REFUSES(lml_water_density(313.16, &x, &err), LML_BAD_VALUE, "from 0 to 40");
    WORKED_REFUSES(lml_water_density(20, &x, &err), LML_BAD_VALUE, "-253.15");
    WORKED_REFUSES(lml_water_density(NAN, &x, &err), LML_BAD_VALUE, "not a number");
    WORKED_REFUSES(lml_water_air_correction(298.16, &x, &err), LML_BAD_VALUE, "from 0 to 25");
    cr_expect_eq(lml_water_density(0, &x, NULL), LML_BAD_VALUE);
    cr_expect_eq(x, -1);
    cr_expect_eq(lml_water_density(40 + 273.15, &x, &err), LML_OK);
    cr_expect_eq(lml_water_density(0 + 273.15, &x, &err), LML_OK);
}
