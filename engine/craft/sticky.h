/* Sums and products of big integers that remember their first failure.
 *
 * A long exact calculation is written as plain formulas and checks once at the end: after a failure
 * (LML_OVERFLOW) every further operation does nothing or gives 0, so nothing is computed from unset
 * values.
 *
 *     lml_sticky work = {.err = err};
 *     lml_big sum = lml_big_of(0);
 *     for (...)
 *         lml_sticky_add_product(&work, &sum, &a[i], &b[i]);
 *     return work.status;
 */
#ifndef LML_CRAFT_STICKY_H
#define LML_CRAFT_STICKY_H

#include "base/big.h"

typedef struct lml_sticky {
    lml_status status;
    lml_error *err;
} lml_sticky;

lml_big lml_sticky_mul(lml_sticky *work, const lml_big *a, const lml_big *b);
lml_big lml_sticky_sub(lml_sticky *work, const lml_big *a, const lml_big *b);
/* Truncating; 0 when a is 0. */
lml_big lml_sticky_divide(lml_sticky *work, const lml_big *a, const lml_big *b);
lml_big lml_sticky_ten_to(lml_sticky *work, int power);
/* sum += a * b; only on success. */
void lml_sticky_add_product(lml_sticky *work, lml_big *sum, const lml_big *a, const lml_big *b);
void lml_sticky_add_whole(lml_sticky *work, lml_big *sum, const lml_big *a, lml_i128 b);

#endif
