/* The density of pure water, for weighing under water.
 *
 * Tap water differs from pure water by up to a few parts in ten thousand, and a wetting agent by as
 * much again; the formula is for distilled water, boiled and cooled.
 *
 *     double rho;
 *     lml_status s = lml_water_density(295.15, &rho, err);     997.773 kg/m3 at 22 °C
 */
#ifndef LML_CRAFT_WATER_H
#define LML_CRAFT_WATER_H

#include "base/status.h"

/* Density in kg/m3 of air-free water at 101 325 Pa and `kelvin`, 273.15 to 313.15 K (0 to 40 °C);
 * LML_BAD_VALUE outside. Within 0.001 kg/m3 (95 %).
 * Source: Tanaka, Girard, Davis, Peuto, Bignell, Recommended table for the density of water between
 * 0 °C and 40 °C, Metrologia 38 (2001) 301-309 (adopted by the CIPM). */
lml_status lml_water_density(double kelvin, double *density, lml_error *err);

/* What to add, kg/m3 (negative), for water saturated with air; 273.15 to 298.15 K (0 to 25 °C),
 * LML_BAD_VALUE outside. Five parts in a million: below every bench scale. Source: coefficients as
 * in the same paper; the range from memory, unverified. */
lml_status lml_water_air_correction(double kelvin, double *correction, lml_error *err);

#endif
