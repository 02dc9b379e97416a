/* From a pattern of wax or resin to the metal that replaces it, and to the charge to weigh out.
 *
 * Metal fills the space of the pattern, so masses are proportional to densities. SI throughout: kg,
 * m3, kg/m3. All refusals are LML_BAD_VALUE and name the input; LML_OVERFLOW for a result beyond
 * the range of a double.
 *
 *     lml_pattern_metal(0.000462, 960, 15460, &piece, err);          7.440 g
 *     lml_pattern_need(piece + sprue + button, 0.005, 0.0003, &charge, err);
 */
#ifndef LML_CRAFT_PATTERN_H
#define LML_CRAFT_PATTERN_H

#include "base/status.h"

/* pattern * metal_density / pattern_density. Also works for a metal model cast again in another
 * metal. One density for the whole pattern: no core or stone in it. */
lml_status lml_pattern_metal(double pattern, double pattern_density, double metal_density,
                             double *metal, lml_error *err);

/* The same from the volume of a model. */
lml_status lml_pattern_metal_of_volume(double volume, double metal_density, double *metal,
                                       lml_error *err);

/* Part of a volume left after a linear shrinkage, (1 - shrink)^3. Leave it out when sizing the
 * charge, where it is a reserve; use it to judge a raw casting. 0 <= shrink < 1 */
lml_status lml_pattern_shrink_credit(double shrink, double *credit, lml_error *err);

/* The charge to weigh out so that `metal` (pieces, sprues, button) is in the flask: metal / (1 -
 * loss) + skull. `loss` is the part lost in the melt, `skull` the mass that stays in the
 * crucible. */
lml_status lml_pattern_need(double metal, double loss, double skull, double *charge,
                            lml_error *err);

/* How much of another metal a crucible holds that is rated for one metal: the same volume of melt.
 * Densities of the liquids; those of the solids give the same result if both liquids are 0.90 of
 * the solid. */
lml_status lml_pattern_capacity(double rating, double rated_density, double density,
                                double *capacity, lml_error *err);

/* Volume of a charge as a melt: mass / liquid_density, m3. */
lml_status lml_pattern_liquid_volume(double mass, double liquid_density, double *volume,
                                     lml_error *err);

#endif
