/* Steam: where water boils, at any pressure. Used to judge a vacuum table's gauge.
 *
 *     double pa;
 *     lml_steam_pressure(295.15, &pa, err);      2645.2 Pa: a slurry at 22 °C boils under it
 *
 * Source of both: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997 for
 * the Thermodynamic Properties of Water and Steam, region 4, equations 30 and 31. The two are
 * inverses of each other to rounding. Over water, not over ice; dissolved plaster lowers the
 * pressure by less than a hundredth.
 */
#ifndef LML_CRAFT_STEAM_H
#define LML_CRAFT_STEAM_H

#include "base/status.h"

/* Saturation pressure (Pa, absolute) at `kelvin`, 273.15 to 647.096 K. LML_BAD_VALUE outside. */
lml_status lml_steam_pressure(double kelvin, double *pressure, lml_error *err);
/* Boiling temperature (K) at an absolute `pressure` in Pa, 611.213 Pa to 22.064 MPa. LML_BAD_VALUE
 * outside: below, water freezes before it boils. */
lml_status lml_steam_temperature(double pressure, double *kelvin, lml_error *err);

#endif
