#include "craft/air.h"

#include "base/real.h"
#include "craft/check.h"
#include <math.h>

static const double celsius_zero = 273.15;

/* CIPM-2007: A. Picard, R. S. Davis, M. Glaser, K. Fujii, Metrologia 45 (2008) 149-155, for air
 * with 400 ppm of carbon dioxide. Pressure in Pa, temperature in °C, humidity 0..1. */
static double moist_air(double p, double t, double humidity)
{
    const double gas = 8.314472, air = 28.96546e-3, water = 18.01528e-3; /* J/(mol K), kg/mol */
    double kelvin = celsius_zero + t;
    double saturated = lml_real_exp(1.2378847e-5 * kelvin * kelvin - 1.9121316e-2 * kelvin +
                                    33.93711047 - 6.3431645e3 / kelvin);
    double enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
    double x = humidity * enhancement * saturated / p; /* mole fraction of water vapour */
    double first = 1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * x +
                   (1.9898e-4 - 2.376e-6 * t) * x * x;
    double second = 1.83e-11 - 0.765e-8 * x * x;
    double per_kelvin = p / kelvin;
    double compressed = 1 - per_kelvin * first + per_kelvin * per_kelvin * second;
    return p * air / (compressed * gas * kelvin) * (1 - x * (1 - water / air));
}

lml_status lml_air_density(double pressure, double kelvin, double humidity, double *density,
                           lml_error *err)
{
    /* To a millionth of a degree: 0 and 40 °C are sums that round, and must be within range. */
    double p = pressure / 100, t = round((kelvin - celsius_zero) * 1e6) / 1e6;
    if (lml_check_between(p, 600, 1100, "the pressure of the air (hPa)", err)) {
        lml_error_hint(err, "give the actual pressure of the place, neither a vacuum nor a "
                            "forecast reduced to sea level");
        return LML_BAD_VALUE;
    }
    if (lml_check_between(t, 0, 40, "the temperature of the air (°C)", err) ||
        lml_check_between(humidity, 0, 1, "the relative humidity (50 % is 0.5)", err))
        return LML_BAD_VALUE;
    *density = moist_air(p * 100, t, humidity);
    return LML_OK;
}

lml_status lml_air_buoyancy(double thing, double weights, double air, double *factor,
                            lml_error *err)
{
    if (lml_check_not_negative(air, "the density of the air (kg/m3)", err) ||
        lml_check_positive(thing, "the density of the object weighed (kg/m3)", err) ||
        lml_check_positive(weights, "the density of the balance's weights (kg/m3)", err))
        return LML_BAD_VALUE;
    if (thing <= air || weights <= air) {
        lml_fail(err, LML_BAD_VALUE,
                 "in air of %.6g kg/m3, an object of %.6g kg/m3 and weights of %.6g kg/m3 do not "
                 "all sink",
                 air, thing, weights);
        lml_error_hint(err, "air is near 1.2 kg/m3, which is 0.0012 g/cm3");
        return LML_BAD_VALUE;
    }
    *factor = (1 - air / weights) / (1 - air / thing);
    return LML_OK;
}

lml_status lml_air_conventional_mass(double mass, double thing, double *conventional,
                                     lml_error *err)
{
    double factor;
    if (lml_check_not_negative(mass, "the mass (kg)", err) ||
        lml_air_buoyancy(thing, LML_AIR_WEIGHTS, LML_AIR_CONVENTIONAL, &factor, err))
        return LML_BAD_VALUE;
    *conventional = mass / factor;
    return LML_OK;
}
