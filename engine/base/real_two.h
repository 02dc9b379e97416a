/* A number as the sum of two doubles, of which the second is at most half a last place of the
 * first: twice the digits. Between the files of real.h only.
 *
 *     lml_two third = lml_two_over((lml_two){1, 0}, (lml_two){3, 0});
 *
 * Each step is exact or rounded once by IEEE 754. A compiler that fuses or reorders them, or a
 * processor that keeps more digits between them, would break that: see the flags in CMakeLists.txt.
 * Dekker, "A floating-point technique for extending the available precision", Numerische Mathematik
 * 18, 1971.
 */
#ifndef LML_BASE_REAL_TWO_H
#define LML_BASE_REAL_TWO_H

#include <float.h>
#include <stdint.h>
#include <string.h>

_Static_assert(FLT_EVAL_METHOD == 0,
               "doubles must be calculated as doubles: build with -msse2 -mfpmath=sse");

typedef struct lml_two {
    double high, low;
} lml_two;

/* Requires |a| >= |b|, or a = 0. */
static inline lml_two lml_two_ordered(double a, double b)
{
    double sum = a + b;
    return (lml_two){sum, b - (sum - a)};
}

static inline lml_two lml_two_sum(double a, double b)
{
    double sum = a + b, from_b = sum - a;
    return (lml_two){sum, (a - (sum - from_b)) + (b - from_b)};
}

/* a * b. Neither is above 2^970, and the product is above 2^-960. */
static inline lml_two lml_two_product(double a, double b)
{
    const double half = 134217729.0; /* 2^27 + 1: cuts a double's 53 bits in two halves of 26 */
    double wide_a = a * half, wide_b = b * half, product = a * b;
    double a_high = wide_a - (wide_a - a), a_low = a - a_high;
    double b_high = wide_b - (wide_b - b), b_low = b - b_high;
    return (lml_two){product, ((a_high * b_high - product) + a_high * b_low + a_low * b_high) +
                                  a_low * b_low};
}

static inline lml_two lml_two_times(lml_two a, lml_two b)
{
    lml_two product = lml_two_product(a.high, b.high);
    return lml_two_ordered(product.high, product.low + (a.high * b.low + a.low * b.high));
}

static inline lml_two lml_two_scale(lml_two a, double b)
{
    lml_two product = lml_two_product(a.high, b);
    return lml_two_ordered(product.high, product.low + a.low * b);
}

static inline lml_two lml_two_plus(lml_two a, lml_two b)
{
    lml_two sum = lml_two_sum(a.high, b.high);
    return lml_two_ordered(sum.high, sum.low + (a.low + b.low));
}

static inline lml_two lml_two_over(lml_two a, lml_two b)
{
    double quotient = a.high / b.high;
    lml_two back = lml_two_product(quotient, b.high);
    double rest = (a.high - back.high) - back.low + (a.low - quotient * b.low);
    return lml_two_ordered(quotient, rest / b.high);
}

static inline uint64_t lml_two_bits(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

static inline double lml_two_of_bits(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* The weight of the first bit of a normal x > 0: 2^that. */
static inline int lml_two_exponent(double x)
{
    return (int)(lml_two_bits(x) >> 52) - 1023;
}

/* 2^n, n from -1022 to 1023. */
static inline double lml_two_power(int n)
{
    return lml_two_of_bits((uint64_t)(n + 1023) << 52);
}

/* a * 2^n as a double, rounded once even where the result is subnormal. a is from 2^-10 to 2^10,
 * n from -1200 to 1200. */
double lml_two_shift(lml_two a, int n);
/* e^x as the result * 2^n, for |x| up to 800, to 2^-68 of it. The result is from 0.9 to 2. */
lml_two lml_two_exp(lml_two x, int *n);
/* e^x - 1 - x for |x| up to ln 2 / 128. */
double lml_two_beyond_linear(double x);
/* The natural logarithm of a positive finite x, to 2^-72 of it. */
lml_two lml_two_log(double x);

#endif
