/* Air: its density, and the effect of its buoyancy on a weighing.
 *
 *     double rho, factor;
 *     lml_air_density(75700, 293.15, 0.5, &rho, err);       0.895 kg/m3, high in the mountains
 *     lml_air_buoyancy(19300, 8000, rho, &factor, err);     mass = what the balance shows * factor
 */
#ifndef LML_CRAFT_AIR_H
#define LML_CRAFT_AIR_H

#include "base/status.h"

/* Reference densities of a conventional mass, kg/m3: of the air and of the weights. OIML D 28:2004,
 * at 20 °C. */
#define LML_AIR_CONVENTIONAL 1.2
#define LML_AIR_WEIGHTS 8000.0

/* Density (kg/m3) of moist air at `pressure` (Pa, the place's own and not reduced to sea level),
 * `kelvin` and a relative humidity of 0..1. By the full equation, CIPM-2007 (Metrologia 45 (2008)
 * 149-155), which is valid for 600 to 1100 hPa and 15 to 27 °C, to 22 parts in a million; beyond
 * those temperatures its vapour pressure is still within 1e-3 of the IAPWS's, less than 1e-4 of the
 * air. Accepted are 600 to 1100 hPa and 0 to 40 °C, LML_BAD_VALUE outside. */
lml_status lml_air_density(double pressure, double kelvin, double humidity, double *density,
                           lml_error *err);

/* Ratio of the mass of a thing to the reading of a balance adjusted with weights of density
 * `weights`, for a thing of density `thing` in air of density `air`, all kg/m3. LML_BAD_VALUE: a
 * density that is not positive, or not above that of the air. Source: NIST IR 6969, SOP 2; OIML D
 * 28:2004. */
lml_status lml_air_buoyancy(double thing, double weights, double air, double *factor,
                            lml_error *err);

/* Conventional mass (kg) of a thing of true `mass` (kg) and density `thing` (kg/m3): the mass of
 * the weights of 8000 kg/m3 that balance it in air of 1.2 kg/m3. LML_BAD_VALUE: a negative mass, or
 * a density not above that of the air. Source: OIML D 28:2004. */
lml_status lml_air_conventional_mass(double mass, double thing, double *conventional,
                                     lml_error *err);

#endif
