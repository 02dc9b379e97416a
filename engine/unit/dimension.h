/* Dimensions: which powers of mass, length, time, temperature, current and money a quantity has.
 *
 * Eight bytes, compared as a whole. `currency` is an index into the currency table, 0 when `money`
 * is 0. Two currencies never meet in one dimension.
 */
#ifndef LML_UNIT_DIMENSION_H
#define LML_UNIT_DIMENSION_H

#include "base/status.h"
#include "base/text.h"

typedef struct lml_dimension {
    int8_t mass, length, time, temperature, current, money;
    uint16_t currency;
} lml_dimension;
_Static_assert(sizeof(lml_dimension) == 8, "compared as a whole");

static inline bool lml_dimension_equal(lml_dimension a, lml_dimension b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

static inline bool lml_dimension_none(lml_dimension d)
{
    return lml_dimension_equal(d, (lml_dimension){0});
}

/* LML_OVERFLOW beyond powers of +-9; LML_MISMATCH for two currencies. */
lml_status lml_dimension_mul(lml_dimension a, lml_dimension b, lml_dimension *out, lml_error *err);
lml_status lml_dimension_div(lml_dimension a, lml_dimension b, lml_dimension *out, lml_error *err);
lml_status lml_dimension_power(lml_dimension a, int power, lml_dimension *out, lml_error *err);
/* LML_MISMATCH when a power does not divide evenly. */
lml_status lml_dimension_root(lml_dimension a, int degree, lml_dimension *out, lml_error *err);
/* "a mass", "a density", "a price (USD per mass)"; else the powers: "mass^2 length^-1". `out` holds
 * at least 80 bytes. Returns out. */
const char *lml_dimension_name(lml_dimension d, char *out, size_t size);

#endif
