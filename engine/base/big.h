/* Big integers of a fixed capacity, on the stack, without an allocator.
 *
 * For numbers that 128 bits cannot hold: decimal text to the nearest double, and the exact solver
 * of charges. Sign and magnitude, little-endian 64-bit limbs, length-tracked so that small numbers
 * cost little. A result beyond the capacity (1,536 bits) is LML_OVERFLOW, never a wrong digit.
 *
 * An out parameter may be one of the arguments.
 *
 *     lml_big n = lml_big_of(10), d = lml_big_of(3);
 *     double x = lml_big_ratio(&n, &d);   -> the double nearest to 10/3
 */
#ifndef LML_BASE_BIG_H
#define LML_BASE_BIG_H

#include "base/exact.h"

enum { LML_BIG_LIMBS = 24 };

typedef struct lml_big {
    int sign;   /* -1, 0, 1; 0 exactly when length is 0 */
    int length; /* limbs in use, the top one not zero */
    uint64_t limb[LML_BIG_LIMBS];
} lml_big;

lml_big lml_big_of(int64_t n);
lml_big lml_big_of_u128(lml_u128 n);
int lml_big_compare(const lml_big *a, const lml_big *b);
int lml_big_bits(const lml_big *a); /* bits of the magnitude; 0 for zero */
lml_status lml_big_add(const lml_big *a, const lml_big *b, lml_big *out, lml_error *err);
lml_status lml_big_sub(const lml_big *a, const lml_big *b, lml_big *out, lml_error *err);
lml_status lml_big_mul(const lml_big *a, const lml_big *b, lml_big *out, lml_error *err);
/* Truncating division; remainder takes the sign of a; either may be NULL. b zero: LML_BAD_VALUE. */
lml_status lml_big_divide(const lml_big *a, const lml_big *b, lml_big *quotient, lml_big *remainder,
                          lml_error *err);
lml_big lml_big_gcd(const lml_big *a, const lml_big *b); /* not negative */
/* By `left` bits, to the right when it is negative; bits shifted out are dropped. */
lml_status lml_big_shift(const lml_big *a, int left, lml_big *out, lml_error *err);
lml_status lml_big_ten_to(int power, lml_big *out, lml_error *err); /* power >= 0 */
/* The double nearest to a/b, ties to even; +-HUGE_VAL beyond the range, 0 below the least
 * subnormal. b must not be zero. */
double lml_big_ratio(const lml_big *a, const lml_big *b);
/* A finite double as the fraction top/bottom exactly; LML_BAD_VALUE for any other. */
lml_status lml_big_from_double(double x, lml_big *top, lml_big *bottom, lml_error *err);

#endif
