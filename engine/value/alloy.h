/* Composition, alloy and assay.
 *
 * A composition is mass fractions by metal. An alloy's composition sums to 1 within 1e-6 and is a
 * recipe for metal; its density, solidus and liquidus are each given or estimated, and say which.
 * An assay is what was found in a piece: some metals, with spread, and an unnamed remainder.
 */
#ifndef LML_VALUE_ALLOY_H
#define LML_VALUE_ALLOY_H

#include "value/value.h"

typedef struct lml_composition {
    double part[LML_METALS]; /* mass fractions, 0 where absent; part[0] is the unnamed remainder */
} lml_composition;

typedef enum lml_known { LML_UNKNOWN, LML_GIVEN, LML_CALCULATED } lml_known;

/* What a supplier's sheet says of an alloy, each between two ends. */
#define LML_ALLOY_RANGE_MAP(X)                                                                     \
    X(POUR, "pour", "the pour")                                                                    \
    X(FLASK, "flask", "the flask")                                                                 \
    X(QUENCH, "quench", "the quench")                                                              \
    X(SUPERHEAT, "superheat", "the superheat")
typedef enum lml_alloy_range {
#define X(id, name, words) LML_ALLOY_##id,
    LML_ALLOY_RANGE_MAP(X)
#undef X
        LML_ALLOY_RANGES
} lml_alloy_range;
typedef struct lml_range {
    bool given;
    double low, high; /* kelvin; of the quench seconds, of the superheat kelvin of difference */
    lml_unit unit;    /* in which it was written */
} lml_range;

typedef struct lml_alloy {
    char name[64];
    lml_composition composition;
    double density, liquid_density; /* kg/m3 */
    double solidus, liquidus;       /* kelvin */
    double density_deviation;       /* one standard deviation, kg/m3; 0 when not stated */
    lml_known density_known, liquid_density_known, solidus_known, liquidus_known;
    lml_range range[LML_ALLOY_RANGES];
    char source[160];
} lml_alloy;

typedef struct lml_assay {
    lml_composition found;     /* part[0] is what was not named */
    lml_composition deviation; /* one standard deviation each, 0 when not stated */
} lml_assay;

/* No part negative, sum 1 within 1e-6. LML_BAD_VALUE says the sum ("sums to 1100 ‰"). */
lml_status lml_composition_check(const lml_composition *c, lml_error *err);
/* Composition as above, density positive when known, solidus <= liquidus when both are known;
 * ranges the right way up, the pour above the liquidus and above the flask, with a source. */
lml_status lml_alloy_check(const lml_alloy *alloy, lml_error *err);
/* Each part 0..1, sum at most 1 + 1e-6; sets part[0] to the remainder. */
lml_status lml_assay_check(lml_assay *assay, lml_error *err);
/* "pour", "flask", "quench", "superheat": as a file and a recipe call it. */
const char *lml_alloy_range_name(lml_alloy_range which);
/* What may be anywhere between the two ends of `v`, or is `v`. LML_BAD_VALUE for a deviation. */
lml_status lml_alloy_range_of(const lml_value *v, lml_range *out, lml_error *err);
/* Fineness of one metal as a value. */
lml_value lml_composition_fineness(const lml_composition *c, lml_metal metal);

#endif
