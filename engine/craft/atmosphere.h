/* The standard atmosphere: the air pressure at an altitude, if no barometer was read.
 *
 * Weather changes it by about three per cent: a barometer in the room is always better. The
 * barometer of a weather report is reduced to sea level, and lml_atmosphere_station brings it back.
 *
 * Altitudes are geopotential where named so; a map's altitude is geometric. At 4000 m the two
 * differ by 2.5 m and 20 Pa.
 *
 *     double height, pa;
 *     lml_atmosphere_geopotential(2390, &height, err);
 *     lml_atmosphere_pressure(height, &pa, err);          75.7 kPa
 *
 * Source of all: U.S. Standard Atmosphere, 1976 (NOAA, NASA, USAF); below 32 km the same as ISO
 * 2533:1975. Valid in the lowest layer, -500 to 11 000 m; LML_BAD_VALUE outside, with the altitude.
 */
#ifndef LML_CRAFT_ATMOSPHERE_H
#define LML_CRAFT_ATMOSPHERE_H

#include "base/status.h"

/* Sea-level pressure of the standard atmosphere, Pa (10th CGPM, 1954). */
#define LML_ATMOSPHERE_SEA_LEVEL 101325.0

/* Pa and K at a geopotential altitude in m. */
lml_status lml_atmosphere_pressure(double geopotential, double *pressure, lml_error *err);
lml_status lml_atmosphere_temperature(double geopotential, double *kelvin, lml_error *err);
/* Geometric altitude (of a map) to geopotential and back, m. */
lml_status lml_atmosphere_geopotential(double geometric, double *geopotential, lml_error *err);
lml_status lml_atmosphere_geometric(double geopotential, double *geometric, lml_error *err);
/* The station's own pressure (Pa) from a barometer that was reduced to sea level by the standard
 * atmosphere. `reduced` 85 to 110 kPa, the range of observed weather; LML_BAD_VALUE outside. */
lml_status lml_atmosphere_station(double reduced, double geopotential, double *station,
                                  lml_error *err);

#endif
