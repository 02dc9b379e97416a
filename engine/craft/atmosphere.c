#include "craft/atmosphere.h"

#include "base/real.h"
#include "craft/check.h"

/* U.S. Standard Atmosphere, 1976, Tables 2 and 4 and section 1.2. */
static const double sea_temperature = 288.15; /* K */
static const double lapse = 0.0065;           /* K per geopotential metre, 0 to 11 km */
static const double gravity = 9.80665;        /* m/s2 */
static const double molar_mass = 0.0289644;   /* kg/mol */
static const double gas_constant = 8.31432; /* J/(mol K), the figure of 1976, not that of the SI */
static const double earth_radius = 6356766; /* m, for the geopotential */

/* The lowest ground is some 430 m below the sea; the layer ends at 11 km. */
static const double lowest = -500, highest = 11000;

static lml_status within(double metres, lml_error *err)
{
    if (lml_check_between(metres, lowest, highest, "the altitude (m)", err) == LML_OK)
        return LML_OK;
    lml_error_hint(err, "an altitude in feet is written with its unit: 5249 ft is 1600 m");
    return LML_BAD_VALUE;
}

/* Pressure at an altitude over that at sea level. */
static double part_of_sea_level(double geopotential)
{
    return lml_real_pow(1 - lapse * geopotential / sea_temperature,
                        gravity * molar_mass / (gas_constant * lapse));
}

lml_status lml_atmosphere_pressure(double geopotential, double *pressure, lml_error *err)
{
    lml_status status = within(geopotential, err);
    if (status == LML_OK)
        *pressure = LML_ATMOSPHERE_SEA_LEVEL * part_of_sea_level(geopotential);
    return status;
}

lml_status lml_atmosphere_temperature(double geopotential, double *kelvin, lml_error *err)
{
    lml_status status = within(geopotential, err);
    if (status == LML_OK)
        *kelvin = sea_temperature - lapse * geopotential;
    return status;
}

lml_status lml_atmosphere_geopotential(double geometric, double *geopotential, lml_error *err)
{
    lml_status status = within(geometric, err);
    if (status == LML_OK)
        *geopotential = earth_radius * geometric / (earth_radius + geometric);
    return status;
}

lml_status lml_atmosphere_geometric(double geopotential, double *geometric, lml_error *err)
{
    lml_status status = within(geopotential, err);
    if (status == LML_OK)
        *geometric = earth_radius * geopotential / (earth_radius - geopotential);
    return status;
}

lml_status lml_atmosphere_station(double reduced, double geopotential, double *station,
                                  lml_error *err)
{
    if (within(geopotential, err))
        return LML_BAD_VALUE;
    if (lml_check_between(reduced, 85e3, 110e3, "the pressure reduced to sea level (Pa)", err)) {
        lml_error_hint(err, "a barometer that shows the actual pressure needs no correction");
        return LML_BAD_VALUE;
    }
    *station = reduced * part_of_sea_level(geopotential);
    return LML_OK;
}
