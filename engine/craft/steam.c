#include "craft/steam.h"

#include "craft/check.h"
#include <math.h>

/* IAPWS R7-97(2012), Table 34. */
static const double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                    n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                    n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
                    n10 = 0.65017534844798e3;

static const double mega = 1e6;
/* Pa: the equation at 0 °C, and the critical point at 373.946 °C. */
static const double least = 611.2126, most = 22.064e6;

lml_status lml_steam_pressure(double kelvin, double *pressure, lml_error *err)
{
    /* To a millionth of a degree: 0 °C is a sum that rounds, and must be within range. */
    double celsius = round((kelvin - 273.15) * 1e6) / 1e6;
    if (lml_check_between(celsius, 0, 373.946, "the temperature of the water (°C)", err)) {
        lml_error_hint(err, "give the temperature of the water, or of the slurry");
        return LML_BAD_VALUE;
    }
    double theta = kelvin + n9 / (kelvin - n10);
    double a = theta * theta + n1 * theta + n2;
    double b = n3 * theta * theta + n4 * theta + n5;
    double c = n6 * theta * theta + n7 * theta + n8;
    double root = 2 * c / (-b + sqrt(b * b - 4 * a * c));
    *pressure = mega * root * root * root * root;
    return LML_OK;
}

lml_status lml_steam_temperature(double pressure, double *kelvin, lml_error *err)
{
    if (lml_check_between(pressure, least, most, "the absolute pressure (Pa)", err)) {
        lml_error_hint(err, "an absolute pressure is the local air pressure less the vacuum");
        return LML_BAD_VALUE;
    }
    double beta = sqrt(sqrt(pressure / mega));
    double e = beta * beta + n3 * beta + n6;
    double f = n1 * beta * beta + n4 * beta + n7;
    double g = n2 * beta * beta + n5 * beta + n8;
    double d = 2 * g / (-f - sqrt(f * f - 4 * e * g));
    *kelvin = (n10 + d - sqrt((n10 + d) * (n10 + d) - 4 * (n9 + n10 * d))) / 2;
    return LML_OK;
}
