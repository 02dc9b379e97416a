/* From a pattern of wax or resin to the metal that takes its place, and to the charge to weigh out.
 *
 * Metal fills the space of the pattern, so that masses go as densities. SI throughout: kg, m3,
 * kg/m3. All refusals are LML_BAD_VALUE and name the input; LML_OVERFLOW for a result beyond the
 * range of a double.
 *
 *     lml_pattern_metal(0.000462, 960, 15460, &piece, err);          7.440 g
 *     lml_pattern_need(piece + sprue + button, 0.005, 0.0003, &charge, err);
 */
#ifndef LML_CRAFT_PATTERN_H
#define LML_CRAFT_PATTERN_H

#include "base/status.h"

/* pattern * metal_density / pattern_density. Serves as well for a metal model cast again in another
 * metal. One density for the whole pattern: no core and no stone in it. */
lml_status lml_pattern_metal(double pattern, double pattern_density, double metal_density,
                             double *metal, lml_error *err);

/* The same from the volume of a model. */
lml_status lml_pattern_metal_of_volume(double volume, double metal_density, double *metal,
                                       lml_error *err);

/* What is left of a volume after a linear shrinkage, (1 - shrink)^3. Leave it out when sizing the
 * charge, where it is a reserve; use it to judge whether a raw casting is sound. 0 <= shrink < 1 */
lml_status lml_pattern_shrink_credit(double shrink, double *credit, lml_error *err);

/* The charge to weigh out so that `metal` (pieces, sprues, button) stands in the flask:
 * metal / (1 - loss) + skull. `loss` is the part lost in the melt, `skull` the mass that stays in
 * the crucible. */
lml_status lml_pattern_need(double metal, double loss, double skull, double *charge,
                            lml_error *err);

/* What a crucible rated for a mass of one metal holds of another: the same volume of melt.
 * Densities of the liquids; where 0.90 of the solid serves for both, the solids' serve as well. */
lml_status lml_pattern_capacity(double rating, double rated_density, double density,
                                double *capacity, lml_error *err);

/* Room that a charge takes as a melt: mass / liquid_density, m3. */
lml_status lml_pattern_liquid_volume(double mass, double liquid_density, double *volume,
                                     lml_error *err);

#endif
