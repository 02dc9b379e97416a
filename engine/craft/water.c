#include "craft/water.h"

#include "craft/check.h"
#include <math.h>

/* To a millionth of a degree: 0 and 40 °C are sums that round, and must be within range. */
static lml_status celsius_up_to(double most, double kelvin, double *celsius, lml_error *err)
{
    double t = round((kelvin - 273.15) * 1e6) / 1e6;
    if (lml_check_between(t, 0, most, "the temperature of the water (°C)", err)) {
        lml_error_hint(err, "bring the water to room temperature and weigh again");
        return LML_BAD_VALUE;
    }
    *celsius = t;
    return LML_OK;
}

lml_status lml_water_density(double kelvin, double *density, lml_error *err)
{
    const double a1 = -3.983035, a2 = 301.797, a4 = 69.34881; /* °C */
    const double a3 = 522528.9;                               /* °C2 */
    const double a5 = 999.974950;                             /* kg/m3, the greatest density */
    double t;
    lml_status status = celsius_up_to(40, kelvin, &t, err);
    if (status == LML_OK)
        *density = a5 * (1 - (t + a1) * (t + a1) * (t + a2) / (a3 * (t + a4)));
    return status;
}

lml_status lml_water_air_correction(double kelvin, double *correction, lml_error *err)
{
    double t;
    lml_status status = celsius_up_to(25, kelvin, &t, err);
    if (status == LML_OK)
        *correction = (-4.612 + 0.106 * t) * 1e-3;
    return status;
}
