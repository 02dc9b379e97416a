/* Fineness at the bench: fine content, karat, and raising or lowering by one addition.
 *
 * Masses in kg (any single unit works, since only ratios count), finenesses as parts of 1. Nothing
 * is lost in mixing. All refusals are LML_BAD_VALUE and name what clashes. Nothing is rounded here:
 * the caller rounds in the safe direction and blends again to see the result.
 *
 *     lml_fine_addition(0.0224, 0.581, 0.752, 0.9999, &add, err);          15.451 g of 999.9
 *     lml_fine_blend((double[]){0.0224, add}, (double[]){0.581, 0.9999}, 2, &f, err);      0.752
 */
#ifndef LML_CRAFT_FINE_H
#define LML_CRAFT_FINE_H

#include "base/status.h"

/* mass * fineness. */
lml_status lml_fine_content(double mass, double fineness, double *fine, lml_error *err);

/* karat / 24, for 0 to 24. Source: Precious Metals Marking Regulations (Canada), C.R.C., c. 1303,
 * s. 6(4)(a): the same proportion to the number 24. */
lml_status lml_fine_of_karat(double karat, double *fineness, lml_error *err);

/* How much metal of fineness `added` brings `mass` of fineness `from` to `target`: mass * (target -
 * from) / (added - target). Finer metal raises (fine gold: 0.9999), lower metal lowers (pure alloy:
 * 0). 0 if the metal is on target already. Refused: an addition that cannot reach the target,
 * because it is not beyond it. */
lml_status lml_fine_addition(double mass, double from, double target, double added, double *add,
                             lml_error *err);

/* The fineness of lots melted together: the inverse of the above. The masses must not all be 0. */
lml_status lml_fine_blend(const double mass[], const double fineness[], size_t lots,
                          double *fineness_out, lml_error *err);

/* How much of each of two lots makes `total` at `target`, which must not lie outside the two. Two
 * lots of the same fineness are refused: their shares would be arbitrary. */
lml_status lml_fine_split(double total, double target, const double fineness[2], double mass[2],
                          lml_error *err);

#endif
