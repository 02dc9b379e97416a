/* Steam: the verification tables of the IAPWS, handbooks, and the older equation. */
#include "worked.h"

#include "craft/steam.h"

static lml_status steam_case(const char *name, ref_row *row, double *ours, bool *known,
                             lml_error *err)
{
    if (worked_is(name, "pressure"))
        return lml_steam_pressure(ref_input(row, "kelvin"), ours, err);
    if (worked_is(name, "temperature"))
        return lml_steam_temperature(ref_input(row, "pa"), ours, err);
    *known = false;
    return LML_OK;
}

Test(steam, published)
{
    worked_table("steam.tsv", steam_case);
}

Test(steam, each_undoes_the_other)
{
    lml_error err;
    double pa, back;
    for (double kelvin = 273.16; kelvin < 647.09; kelvin += 1.7) {
        cr_assert_eq(lml_steam_pressure(kelvin, &pa, &err), LML_OK);
        cr_assert_eq(lml_steam_temperature(pa, &back, &err), LML_OK);
        cr_expect_float_eq(back, kelvin, 1e-8, "%g K comes back as %.12g K", kelvin, back);
    }
}

Test(steam, refuses)
{
    lml_error err;
    double x = -1;
    WORKED_REFUSES(lml_steam_pressure(22, &x, &err), LML_BAD_VALUE, "temperature of the water");
    WORKED_REFUSES(lml_steam_pressure(647.2, &x, &err), LML_BAD_VALUE, "373.946");
    WORKED_REFUSES(lml_steam_pressure(NAN, &x, &err), LML_BAD_VALUE, "not a number");
    WORKED_REFUSES(lml_steam_temperature(611, &x, &err), LML_BAD_VALUE, "absolute pressure");
    WORKED_REFUSES(lml_steam_temperature(-72000, &x, &err), LML_BAD_VALUE, "-72000");
    WORKED_REFUSES(lml_steam_temperature(22.07e6, &x, &err), LML_BAD_VALUE, "22064000");
    cr_expect_eq(x, -1);
    cr_expect_eq(lml_steam_pressure(273.15, &x, &err), LML_OK);
    cr_expect_eq(lml_steam_temperature(x, &x, &err), LML_OK);
    cr_expect_eq(lml_steam_pressure(647.096, &x, &err), LML_OK);
}
