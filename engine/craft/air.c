#include "craft/air.h"

#include "craft/check.h"
#include <math.h>

lml_status lml_air_density(double pressure, double kelvin, double humidity, double *density,
                           lml_error *err)
{
    /* OIML R 111-1:2004, (E.3-1), with p in hPa, t in °C and humidity in per cent. */
    const double dry = 0.34848, moist = 0.009, growth = 0.061, celsius_zero = 273.15;
    /* To a millionth of a degree: 0 and 40 °C are sums that round, and must stand on the edge. */
    double p = pressure / 100, t = round((kelvin - celsius_zero) * 1e6) / 1e6;
    if (lml_check_between(p, 600, 1100, "the pressure of the air (hPa)", err)) {
        lml_error_hint(err, "state the pressure of the place itself, neither a vacuum nor a "
                            "forecast reduced to sea level");
        return LML_BAD_VALUE;
    }
    if (lml_check_between(t, 0, 40, "the temperature of the air (°C)", err) ||
        lml_check_between(humidity, 0, 1, "the relative humidity (50 % is 0.5)", err))
        return LML_BAD_VALUE;
    *density = (dry * p - moist * humidity * 100 * exp(growth * t)) / (celsius_zero + t);
    return LML_OK;
}

lml_status lml_air_buoyancy(double thing, double weights, double air, double *factor,
                            lml_error *err)
{
    if (lml_check_not_negative(air, "the density of the air (kg/m3)", err) ||
        lml_check_positive(thing, "the density of what is weighed (kg/m3)", err) ||
        lml_check_positive(weights, "the density of the balance's weights (kg/m3)", err))
        return LML_BAD_VALUE;
    if (thing <= air || weights <= air) {
        lml_fail(
            err, LML_BAD_VALUE,
            "in air of %.6g kg/m3 a thing of %.6g kg/m3 and weights of %.6g kg/m3 do not all sink",
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
