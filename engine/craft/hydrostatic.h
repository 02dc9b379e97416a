/* Density from weighing in air and under water, and the fineness that a density suggests.
 *
 * Holds for a solid piece without stones, hollows, bubbles or glue. The readings are what the
 * balance shows: the density of its weights cancels. A mark must never be based on such a fineness:
 * one density fits many alloys.
 *
 *     lml_hydrostatic_weighing w = { .in_air = 0.011420, .in_water = 0.010549, .deviation = 2e-6,
 *                                    .water = 997.773, .air = 1.2 };
 *     lml_hydrostatic_density d;
 *     lml_hydrostatic_weigh(&w, &d, err);            d.density 13068 kg/m3, d.deviation 41 kg/m3
 */
#ifndef LML_CRAFT_HYDROSTATIC_H
#define LML_CRAFT_HYDROSTATIC_H

#include "base/status.h"

typedef struct lml_hydrostatic_weighing {
    double in_air, in_water; /* readings, kg, without the suspension */
    double deviation;        /* one standard deviation of a reading, kg; 0 when not known */
    double water, air;       /* densities, kg/m3 */
} lml_hydrostatic_weighing;

typedef struct lml_hydrostatic_density {
    double density, deviation; /* kg/m3 */
    double loss;               /* kg: loss of the reading in water */
} lml_hydrostatic_density;

/* rho = rho_air + (rho_water - rho_air) m_air / (m_air - m_water), and its deviation from that of
 * both readings, taken as independent: (rho_water - rho_air)/L^2 u sqrt(m_air^2 + m_water^2).
 * LML_BAD_VALUE when a reading is negative, when the piece is not lighter in water (the two are
 * swapped or it floats), when the water is not denser than the air. Source: Archimedes' principle
 * with air buoyancy; deviation by JCGM 100:2008, 5.1.2. */
lml_status lml_hydrostatic_weigh(const lml_hydrostatic_weighing *weighing,
                                 lml_hydrostatic_density *out, lml_error *err);

/* The reverse: what the balance will show under water (kg; negative for a piece that floats and
 * must be held down) for a piece of `density` that reads `in_air`. LML_BAD_VALUE unless the piece
 * and the water are denser than the air. */
lml_status lml_hydrostatic_reading(double in_air, double density, double water, double air,
                                   double *in_water, lml_error *err);

/* A piece taken as gold and one alloy without gold, whose volumes add. */
typedef struct lml_hydrostatic_guess {
    double density, density_deviation; /* of the piece, kg/m3 */
    double gold;                       /* density of gold, kg/m3 */
    double rest, rest_deviation;       /* density of the part that is not gold, kg/m3 */
    double mixing_deviation;           /* relative: how far real alloys are from adding volumes */
} lml_hydrostatic_guess;

typedef struct lml_hydrostatic_fineness {
    double fineness, deviation;                   /* mass fraction of gold */
    double from_weighing, from_rest, from_mixing; /* the three shares of the deviation */
} lml_hydrostatic_fineness;

/* f = (v_rest - v)/(v_rest - v_gold) with v = 1/density; deviations to first order, as independent.
 * The result is not limited to 0..1: below 0 the piece is lighter than the rest alone, so the rest
 * is not what was assumed; above 1 it is heavier than gold. LML_BAD_VALUE unless the rest is
 * lighter than gold and all densities are positive. Source: additive volumes; deviation by JCGM
 * 100:2008, 5.1.2. */
lml_status lml_hydrostatic_gold(const lml_hydrostatic_guess *guess, lml_hydrostatic_fineness *out,
                                lml_error *err);

#endif
