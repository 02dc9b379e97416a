/* Where an alloy of gold, silver and copper begins and ends to melt, from thermodynamics.
 *
 * Liquid and solid (face-centred cubic, of one phase or two) are substitutional solutions; the
 * solidus is where the first liquid is in equilibrium with the solid of the whole composition, the
 * liquidus where the first crystal is in equilibrium with the liquid. The result is always an
 * estimate. It is the equilibrium range: a casting, which cools faster than its crystals can
 * equalise, finishes freezing below the solidus given here, at worst near 770 to 790 °C. A
 * supplier's or a measured range always takes precedence.
 *
 * Zinc, nickel, palladium and other metals are not covered: an alloy that contains them is refused
 * by name, not treated as if they were copper.
 *
 *     lml_melting range;
 *     lml_status s = lml_melting_range(&alloy.composition, &range, err);
 *     range.liquidus                     kelvin, give or take range.liquidus_deviation
 */
#ifndef LML_CRAFT_MELTING_H
#define LML_CRAFT_MELTING_H

#include "value/alloy.h"

typedef struct lml_melting {
    double solidus, liquidus;                     /* kelvin, solidus <= liquidus */
    double solidus_deviation, liquidus_deviation; /* one standard deviation, kelvin */
    int solid_phases;                             /* 1 or 2, at the solidus */
} lml_melting;

/* To print beside the figures. */
#define LML_MELTING_SOURCE                                                                         \
    "estimated: Au-Ag-Cu solution model (SGTE pure elements; Ag-Cu after Hayes et al. 1986; "      \
    "Ag-Au after Hassam et al. 1988, Au-Cu after Sundman et al. 1998, refitted; all but Ag-Cu "    \
    "from memory, unverified)"

/* Most mass fraction of everything except gold, silver and copper (impurities of fine gold, a grain
 * refiner): it is left out, and the rest taken as the whole. Common practice, no source. */
#define LML_MELTING_FOREIGN_MOST 0.001

/* The melting range of a composition (mass fractions, sum 1 within 1e-6). LML_BAD_VALUE: no
 * composition, or more than LML_MELTING_FOREIGN_MOST of anything but gold, silver and copper; the
 * message names the metal and its share, the hint says what to state instead.
 *
 * The deviations are root mean squares of the distances from published ranges (tests/reference/
 * melting.tsv). Liquidus: 10 K in ternaries, less in binaries; the worst 28 K. Solidus: 11 K where
 * the range is narrower than 60 K; 65 K where it is wider, because two published solidi of
 * copper-rich golds of 375 ‰ are 105 and 111 K above the model. Takes 0.1 to 5 ms, longest where
 * the solid has two phases. */
lml_status lml_melting_range(const lml_composition *composition, lml_melting *out, lml_error *err);

#endif
