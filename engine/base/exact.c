#include "base/exact.h"

#include <string.h>

static const char *const rounding_names[] = {
#define X(name, words) words,
    LML_ROUNDING_MAP(X)
#undef X
};

enum { ROUNDINGS = sizeof rounding_names / sizeof *rounding_names };

const char *lml_rounding_name(lml_rounding mode)
{
    return (size_t)mode < ROUNDINGS ? rounding_names[mode] : "unknown";
}

lml_status lml_rounding_named(const char *name, lml_rounding *out, lml_error *err)
{
    static const char known[] =
#define X(mode, words) ", " words
        LML_ROUNDING_MAP(X)
#undef X
        ;
    for (int i = 0; i < ROUNDINGS; i++) {
        if (strcmp(name, rounding_names[i]) == 0) {
            *out = (lml_rounding)i;
            return LML_OK;
        }
    }
    lml_fail(err, LML_NOT_FOUND, "there is no rounding rule \"%s\"", name);
    lml_error_hint(err, "rounding rules: %s", known + 2);
    return LML_NOT_FOUND;
}

bool lml_rounding_away(lml_rounding mode, bool negative, bool odd, lml_rest rest)
{
    if (rest == LML_REST_NONE)
        return false;
    switch (mode) {
    case LML_HALF_EVEN:
        return rest == LML_REST_ABOVE || (rest == LML_REST_HALF && odd);
    case LML_HALF_UP:
        return rest >= LML_REST_HALF;
    case LML_HALF_DOWN:
        return rest == LML_REST_ABOVE;
    case LML_DOWN:
        return false;
    case LML_UP:
        return true;
    case LML_FLOOR:
        return negative;
    case LML_CEILING:
        return !negative;
    }
    return false;
}

lml_rest lml_rest_of(lml_u128 remainder, lml_u128 divisor)
{
    if (remainder == 0)
        return LML_REST_NONE;
    lml_u128 missing = divisor - remainder; /* 2 * remainder could overflow */
    return remainder < missing    ? LML_REST_BELOW
           : remainder == missing ? LML_REST_HALF
                                  : LML_REST_ABOVE;
}

static lml_status too_large(lml_error *err)
{
    return lml_fail(err, LML_OVERFLOW, "a result is too large to store exactly");
}

lml_status lml_exact_add_i64(int64_t a, int64_t b, int64_t *out, lml_error *err)
{
    int64_t sum;
    if (__builtin_add_overflow(a, b, &sum))
        return too_large(err);
    *out = sum;
    return LML_OK;
}

lml_status lml_exact_sub_i64(int64_t a, int64_t b, int64_t *out, lml_error *err)
{
    int64_t difference;
    if (__builtin_sub_overflow(a, b, &difference))
        return too_large(err);
    *out = difference;
    return LML_OK;
}

lml_status lml_exact_mul_i64(int64_t a, int64_t b, int64_t *out, lml_error *err)
{
    int64_t product;
    if (__builtin_mul_overflow(a, b, &product))
        return too_large(err);
    *out = product;
    return LML_OK;
}

lml_status lml_exact_divide_i128(lml_i128 numerator, lml_i128 denominator, lml_rounding mode,
                                 int64_t *out, lml_error *err)
{
    if (denominator == 0)
        return lml_fail(err, LML_BAD_VALUE, "a division by zero");
    bool negative = (numerator < 0) != (denominator < 0);
    lml_u128 divisor = lml_wide_magnitude(denominator), left;
    lml_u128 quotient = lml_wide_divide(lml_wide_magnitude(numerator), divisor, &left);
    lml_rest rest = lml_rest_of(left, divisor);
    /* Refused before rounding, so that adding one cannot wrap. */
    if (quotient > (lml_u128)INT64_MAX + 1)
        return too_large(err);
    quotient += lml_rounding_away(mode, negative, quotient & 1, rest);
    if (quotient > (lml_u128)INT64_MAX + negative)
        return too_large(err);
    *out = (int64_t)(negative ? -(lml_i128)quotient : (lml_i128)quotient);
    return LML_OK;
}

lml_status lml_exact_mul_div(int64_t a, int64_t b, int64_t c, lml_rounding mode, int64_t *out,
                             lml_error *err)
{
    return lml_exact_divide_i128((lml_i128)a * b, c, mode, out, err);
}

uint64_t lml_exact_gcd(uint64_t a, uint64_t b)
{
    if (a == 0 || b == 0)
        return a | b;
    int twos = __builtin_ctzll(a | b);
    a >>= __builtin_ctzll(a);
    while (b != 0) {
        b >>= __builtin_ctzll(b);
        if (a > b) {
            uint64_t swap = a;
            a = b;
            b = swap;
        }
        b -= a;
    }
    return a << twos;
}

lml_status lml_rational_of(int64_t top, int64_t bottom, lml_rational *out, lml_error *err)
{
    if (bottom == 0)
        return lml_fail(err, LML_BAD_VALUE, "a fraction has zero as its denominator");
    uint64_t above = lml_exact_magnitude(top), below = lml_exact_magnitude(bottom);
    uint64_t common = lml_exact_gcd(above, below);
    above /= common;
    below /= common;
    if (above > INT64_MAX || below > INT64_MAX)
        return too_large(err);
    bool negative = (top < 0) != (bottom < 0);
    *out = (lml_rational){negative ? -(int64_t)above : (int64_t)above, (int64_t)below};
    return LML_OK;
}

lml_status lml_rational_mul(lml_rational a, lml_rational b, lml_rational *out, lml_error *err)
{
    /* Both are in lowest terms, so that cancelling crosswise leaves lowest terms and the product
     * overflows only when the result does. */
    if (a.top == 1 && a.bottom == 1) {
        *out = b;
        return LML_OK;
    }
    int64_t left = (int64_t)lml_exact_gcd(lml_exact_magnitude(a.top), (uint64_t)b.bottom);
    int64_t right = (int64_t)lml_exact_gcd(lml_exact_magnitude(b.top), (uint64_t)a.bottom);
    lml_rational product;
    if (__builtin_mul_overflow(a.top / left, b.top / right, &product.top) ||
        __builtin_mul_overflow(a.bottom / right, b.bottom / left, &product.bottom) ||
        product.top == INT64_MIN)
        return too_large(err);
    *out = product;
    return LML_OK;
}

/* What is in lowest terms stays so. */
static lml_status invert(lml_rational a, lml_rational *out, lml_error *err)
{
    if (a.top == 0)
        return lml_rational_of(a.bottom, a.top, out, err); /* refuses */
    *out = (lml_rational){a.top < 0 ? -a.bottom : a.bottom, (int64_t)lml_exact_magnitude(a.top)};
    return LML_OK;
}

lml_status lml_rational_div(lml_rational a, lml_rational b, lml_rational *out, lml_error *err)
{
    lml_rational inverse;
    lml_status status = invert(b, &inverse, err);
    return status == LML_OK ? lml_rational_mul(a, inverse, out, err) : status;
}

lml_status lml_rational_power(lml_rational a, int power, lml_rational *out, lml_error *err)
{
    lml_status status = power < 0 ? invert(a, &a, err) : LML_OK;
    lml_rational result = {1, 1};
    if (power == 1 || power == -1) { /* most are */
        if (status == LML_OK)
            *out = a;
        return status;
    }
    unsigned left = power < 0 ? 0u - (unsigned)power : (unsigned)power;
    while (status == LML_OK && left != 0) {
        if (left & 1)
            status = lml_rational_mul(result, a, &result, err);
        left >>= 1;
        if (status == LML_OK && left != 0)
            status = lml_rational_mul(a, a, &a, err);
    }
    if (status == LML_OK)
        *out = result;
    return status;
}

int lml_rational_compare(lml_rational a, lml_rational b)
{
    lml_i128 left = (lml_i128)a.top * b.bottom, right = (lml_i128)b.top * a.bottom;
    return (left > right) - (left < right);
}

int lml_exact_bits_u128(lml_u128 n)
{
    uint64_t high = (uint64_t)(n >> 64), low = (uint64_t)n;
    if (high)
        return 128 - __builtin_clzll(high);
    return low ? 64 - __builtin_clzll(low) : 0;
}

static const uint64_t fives[] = {1u,
                                 5u,
                                 25u,
                                 125u,
                                 625u,
                                 3125u,
                                 15625u,
                                 78125u,
                                 390625u,
                                 1953125u,
                                 9765625u,
                                 48828125u,
                                 244140625u,
                                 1220703125u,
                                 6103515625u,
                                 30517578125u,
                                 152587890625u,
                                 762939453125u,
                                 3814697265625u,
                                 19073486328125u,
                                 95367431640625u,
                                 476837158203125u,
                                 2384185791015625u,
                                 11920928955078125u,
                                 59604644775390625u,
                                 298023223876953125u,
                                 1490116119384765625u,
                                 7450580596923828125u};

enum { FIVES = sizeof fives / sizeof *fives - 1 };
_Static_assert(2 * FIVES == LML_MOST_FIVES, "at most two powers of the table are multiplied");

lml_u128 lml_exact_five_to(int power)
{
    return power <= FIVES ? fives[power] : (lml_u128)fives[FIVES] * fives[power - FIVES];
}

lml_u128 lml_exact_ten_to(int power)
{
    return lml_exact_five_to(power) << power;
}

const uint64_t lml_exact_tens[LML_TENS] = {1,
                                           10,
                                           100,
                                           1000,
                                           10000,
                                           100000,
                                           1000000,
                                           10000000,
                                           100000000,
                                           1000000000,
                                           10000000000,
                                           100000000000,
                                           1000000000000,
                                           10000000000000,
                                           100000000000000,
                                           1000000000000000,
                                           10000000000000000,
                                           100000000000000000,
                                           1000000000000000000,
                                           10000000000000000000u};
