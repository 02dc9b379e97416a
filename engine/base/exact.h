/* Exact numbers: checked 64-bit integers, 128-bit products, rationals, named rounding.
 *
 * Nothing wraps silently, and there is no floating point. The only refusal is LML_OVERFLOW.
 *
 *     int64_t cents;
 *     lml_exact_mul_div(1999, 85, 100, LML_HALF_UP, &cents, err);   -> 1699
 */
#ifndef LML_BASE_EXACT_H
#define LML_BASE_EXACT_H

#include "base/status.h"
#include "base/wide.h"
#include <stdbool.h>
#include <stdint.h>

/* How a remainder is rounded. DOWN is towards zero, UP away from zero, FLOOR and CEILING by sign.
 * The names are those a recipe and the command use. */
#define LML_ROUNDING_MAP(X)                                                                        \
    X(HALF_EVEN, "half even")                                                                      \
    X(HALF_UP, "half up")                                                                          \
    X(HALF_DOWN, "half down")                                                                      \
    X(DOWN, "down")                                                                                \
    X(UP, "up")                                                                                    \
    X(FLOOR, "floor")                                                                              \
    X(CEILING, "ceiling")
typedef enum lml_rounding {
#define X(name, words) LML_##name,
    LML_ROUNDING_MAP(X)
#undef X
} lml_rounding;

const char *lml_rounding_name(lml_rounding mode);
/* LML_NOT_FOUND with the known names as hint. */
lml_status lml_rounding_named(const char *name, lml_rounding *out, lml_error *err);

/* Compares the remainder of a division with half the divisor. */
typedef enum lml_rest { LML_REST_NONE, LML_REST_BELOW, LML_REST_HALF, LML_REST_ABOVE } lml_rest;
lml_rest lml_rest_of(lml_u128 remainder, lml_u128 divisor); /* remainder < divisor */
/* Whether a magnitude cut short, with that rest and an odd or even last digit, is increased by
 * one. */
bool lml_rounding_away(lml_rounding mode, bool negative, bool odd, lml_rest rest);

lml_status lml_exact_add_i64(int64_t a, int64_t b, int64_t *out, lml_error *err);
lml_status lml_exact_sub_i64(int64_t a, int64_t b, int64_t *out, lml_error *err);
lml_status lml_exact_mul_i64(int64_t a, int64_t b, int64_t *out, lml_error *err);
/* a * b / c in 128 bits, rounded once. c == 0 is LML_BAD_VALUE. */
lml_status lml_exact_mul_div(int64_t a, int64_t b, int64_t c, lml_rounding mode, int64_t *out,
                             lml_error *err);
/* numerator / denominator rounded to a whole number. */
lml_status lml_exact_divide_i128(lml_i128 numerator, lml_i128 denominator, lml_rounding mode,
                                 int64_t *out, lml_error *err);

static inline uint64_t lml_exact_magnitude(int64_t n) /* right for INT64_MIN too */
{
    return n < 0 ? 0 - (uint64_t)n : (uint64_t)n;
}
int lml_exact_bits_u128(lml_u128 n); /* 0 for 0 */
enum { LML_MOST_FIVES = 54, LML_MOST_TENS = 38 };
lml_u128 lml_exact_five_to(int power); /* power from 0 to LML_MOST_FIVES */
lml_u128 lml_exact_ten_to(int power);  /* power from 0 to LML_MOST_TENS */
/* The powers of ten that 64 bits hold. */
enum { LML_TENS = 20 };
extern const uint64_t lml_exact_tens[LML_TENS];
/* The greatest common divisor; of a and 0 it is a. */
uint64_t lml_exact_gcd(uint64_t a, uint64_t b);

/* A rational in lowest terms, bottom > 0, top never INT64_MIN. Zero below the line is
 * LML_BAD_VALUE. */
typedef struct lml_rational {
    int64_t top, bottom;
} lml_rational;
lml_status lml_rational_of(int64_t top, int64_t bottom, lml_rational *out, lml_error *err);
lml_status lml_rational_mul(lml_rational a, lml_rational b, lml_rational *out, lml_error *err);
lml_status lml_rational_div(lml_rational a, lml_rational b, lml_rational *out, lml_error *err);
lml_status lml_rational_power(lml_rational a, int power, lml_rational *out, lml_error *err);
int lml_rational_compare(lml_rational a, lml_rational b);

#endif
