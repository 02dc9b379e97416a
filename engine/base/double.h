/* Doubles taken apart and put together, bit by bit, with one rounding.
 *
 *     lml_double_split(0.375, &m, &e);     m = 3, e = -3
 *     lml_double_join(3, false, -3);       0.375
 */
#ifndef LML_BASE_DOUBLE_H
#define LML_BASE_DOUBLE_H

#include "base/exact.h"

/* |x| = mantissa * 2^exponent exactly, the mantissa odd or 0. x must be finite. */
void lml_double_split(double x, uint64_t *mantissa, int *exponent);
/* The double nearest to mantissa * 2^exponent, ties to even; HUGE_VAL beyond the range. `more` says
 * that the true mantissa is larger by less than 1; it must then have at least 55 bits. */
double lml_double_join(lml_u128 mantissa, bool more, int exponent);
/* The double nearest to n, ties to even. */
static inline double lml_double_of_wide(lml_i128 n)
{
#ifdef __SIZEOF_INT128__
    return (double)n;
#else
    double size = lml_double_join(lml_wide_magnitude(n), false, 0);
    return n < 0 ? -size : size;
#endif
}

#endif
