/* A decimal held exactly: a whole count of 10^-places, in 128 bits.
 *
 * Connects the doubles of the value floor with the whole numbers of the exact solver. A double
 * enters as its shortest decimal (0.585 is 585/1000, not the binary neighbour), so the solver works
 * with what the user wrote. Nothing is rounded here: what does not fit is LML_OVERFLOW.
 *
 *     lml_scaled f, limit, gap;
 *     lml_scaled_of(0.999, &f, err);  lml_scaled_of(0.75, &limit, err);
 *     lml_scaled_sub(f, limit, &gap, err);   -> 249, 3 places
 */
#ifndef LML_CRAFT_SCALED_H
#define LML_CRAFT_SCALED_H

#include "base/big.h"

typedef struct lml_scaled {
    lml_i128 count;
    int places; /* 0 or more */
} lml_scaled;

/* LML_BAD_VALUE for NaN and infinity; LML_OVERFLOW beyond 38 digits before and after the point. */
lml_status lml_scaled_of(double x, lml_scaled *out, lml_error *err);
lml_status lml_scaled_add(lml_scaled a, lml_scaled b, lml_scaled *out, lml_error *err);
lml_status lml_scaled_sub(lml_scaled a, lml_scaled b, lml_scaled *out, lml_error *err);
lml_status lml_scaled_mul(lml_scaled a, lml_scaled b, lml_scaled *out, lml_error *err);
/* The count at `places`, which must not be fewer than the decimal needs (LML_BAD_VALUE). */
lml_status lml_scaled_at(lml_scaled a, int places, lml_i128 *out, lml_error *err);
lml_big lml_scaled_big(lml_i128 count);

#endif
