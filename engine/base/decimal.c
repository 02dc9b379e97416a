#include "base/decimal.h"
#include "base/apart.h"
#include "base/ascii.h"
#include "base/big.h"
#include "base/double.h"

#include <math.h>

enum { MOST_EXPONENT = 9999 }; /* of a decimal that was read */

/* Takes the digits at the start of `rest`; counts those that no longer fitted. */
static void read_digits(lml_span *rest, lml_decimal *d, int64_t *dropped)
{
    const lml_u128 full = lml_exact_ten_to(LML_MOST_TENS - 1);
    for (; rest->length && lml_ascii_is_digit(*rest->at); rest->at++, rest->length--) {
        unsigned digit = (unsigned)(*rest->at - '0');
        if (d->digits < full) {
            d->digits = d->digits * 10 + digit;
        } else {
            d->inexact = d->inexact || digit != 0;
            ++*dropped;
        }
    }
}

static int64_t read_exponent(lml_span *rest)
{
    lml_span at = *rest;
    if (!at.length || (*at.at != 'e' && *at.at != 'E'))
        return 0;
    at.at++;
    at.length--;
    bool negative = at.length && *at.at == '-';
    if (at.length && (*at.at == '-' || *at.at == '+')) {
        at.at++;
        at.length--;
    }
    if (!at.length || !lml_ascii_is_digit(*at.at))
        return 0;
    int64_t exponent = 0;
    for (; at.length && lml_ascii_is_digit(*at.at); at.at++, at.length--) {
        if (exponent < INT64_MAX / 20)
            exponent = exponent * 10 + (*at.at - '0');
    }
    *rest = at;
    return negative ? -exponent : exponent;
}

size_t lml_decimal_read(lml_span text, lml_decimal *out)
{
    lml_span rest = text;
    lml_decimal d = {0};
    if (rest.length && (*rest.at == '-' || *rest.at == '+')) {
        d.negative = *rest.at == '-';
        rest.at++;
        rest.length--;
    }
    if (!rest.length || !lml_ascii_is_digit(*rest.at))
        return 0;
    int64_t dropped = 0, decimals = 0;
    read_digits(&rest, &d, &dropped);
    if (rest.length && *rest.at == '.') {
        bool fraction = rest.length > 1 && lml_ascii_is_digit(rest.at[1]);
        bool range = rest.length > 1 && rest.at[1] == '.';
        if (!fraction && !range)
            return 0;
        if (fraction) {
            rest.at++;
            rest.length--;
            const char *start = rest.at;
            read_digits(&rest, &d, &dropped);
            decimals = rest.at - start;
        }
    }
    int64_t exponent = read_exponent(&rest) + dropped - decimals;
    if (exponent > MOST_EXPONENT)
        exponent = MOST_EXPONENT;
    if (exponent < -MOST_EXPONENT)
        exponent = -MOST_EXPONENT;
    d.exponent = (int)exponent;
    d.decimals = decimals > INT32_MAX ? INT32_MAX : (int)decimals;
    *out = d;
    return (size_t)(rest.at - text.at);
}

/* (top, and a trace more if `more`) / bottom * 2^exponent. The quotient needs 56 bits for one
 * honest rounding, hence the bound on the bits of bottom. */
enum { MOST_BOTTOM_BITS = 72 };

static double ratio_128(lml_u128 top, bool more, lml_u128 bottom, int exponent)
{
    int shift = 128 - lml_exact_bits_u128(top);
    top <<= shift;
    lml_u128 rest, quotient = lml_wide_divide(top, bottom, &rest);
    return lml_double_join(quotient, more || rest != 0, exponent - shift);
}

/* The usual case: everything within 128 bits. */
static bool scale_in_128(const lml_decimal *d, uint64_t top, uint64_t bottom, double *out)
{
    int power = d->exponent;
    if (power > LML_MOST_FIVES || power < -LML_MOST_FIVES)
        return false;
    lml_u128 above, below;
    int twos = __builtin_ctzll(bottom);
    if (__builtin_mul_overflow(d->digits, (lml_u128)top, &above) ||
        __builtin_mul_overflow(above, lml_exact_five_to(power > 0 ? power : 0), &above) ||
        __builtin_mul_overflow((lml_u128)(bottom >> twos),
                               lml_exact_five_to(power < 0 ? -power : 0), &below) ||
        lml_exact_bits_u128(below) > MOST_BOTTOM_BITS)
        return false;
    *out = ratio_128(above, d->inexact, below, power - twos);
    return true;
}

/* digits < 2^128 and the factor between 2^-63 and 2^63, so that beyond these powers of ten the
 * result is infinite or rounds to zero whatever the rest is. */
enum { SURELY_INFINITE = 309 + 19, SURELY_ZERO = -(324 + 39 + 19) };

static double scale_in_big(const lml_decimal *d, uint64_t top, uint64_t bottom)
{
    if (d->exponent > SURELY_INFINITE)
        return HUGE_VAL;
    if (d->exponent < SURELY_ZERO)
        return 0;
    lml_big above = lml_big_of_u128(d->digits), below = lml_big_of_u128(bottom), factor;
    lml_status status = LML_OK;
    if (d->inexact) { /* a limb below, with a one for all that was cut */
        status = lml_big_shift(&above, 64, &above, NULL);
        above.limb[0] |= 1;
        if (status == LML_OK)
            status = lml_big_shift(&below, 64, &below, NULL);
    }
    factor = lml_big_of_u128(top);
    if (status == LML_OK)
        status = lml_big_mul(&above, &factor, &above, NULL);
    if (status == LML_OK)
        status = lml_big_ten_to(d->exponent < 0 ? -d->exponent : d->exponent, &factor, NULL);
    lml_big *side = d->exponent < 0 ? &below : &above;
    if (status == LML_OK)
        status = lml_big_mul(side, &factor, side, NULL);
    /* The two bounds above keep both within 1,410 bits. */
    return status == LML_OK ? lml_big_ratio(&above, &below) : (double)NAN;
}

/* What people write: above and below the bar stand whole numbers that doubles hold, and their one
 * division is the one rounding. */
static bool scale_in_doubles(const lml_decimal *d, uint64_t top, uint64_t bottom, double *out)
{
    enum { MOST_POWER = 15 };
    const uint64_t most = (uint64_t)1 << 53;
    int power = d->exponent;
    if (d->inexact || d->digits > most || power > MOST_POWER || power < -MOST_POWER)
        return false;
    uint64_t above, below;
    if (__builtin_mul_overflow((uint64_t)d->digits, top, &above) ||
        __builtin_mul_overflow(above, lml_exact_tens[power > 0 ? power : 0], &above) ||
        __builtin_mul_overflow(bottom, lml_exact_tens[power < 0 ? -power : 0], &below) ||
        above > most || below > most)
        return false;
    *out = (double)(int64_t)above / (double)(int64_t)below;
    return true;
}

LML_APART static double scale_long(const lml_decimal *d, uint64_t top, uint64_t bottom)
{
    double x;
    return scale_in_128(d, top, bottom, &x) ? x : scale_in_big(d, top, bottom);
}

double lml_decimal_scale(const lml_decimal *d, lml_rational factor)
{
    uint64_t top = lml_exact_magnitude(factor.top), bottom = lml_exact_magnitude(factor.bottom);
    if (d->digits == 0 || top == 0)
        return 0;
    double x;
    if (!scale_in_doubles(d, top, bottom, &x))
        x = scale_long(d, top, bottom);
    return d->negative != (factor.top < 0) ? -x : x;
}

double lml_decimal_scale_double(double x, lml_rational factor)
{
    if (!isfinite(x) || x == 0 || factor.top == 0)
        return x * (factor.top < 0 ? -1.0 : factor.top > 0 ? 1.0 : 0.0);
    uint64_t mantissa;
    int exponent;
    lml_double_split(x, &mantissa, &exponent);
    double y = ratio_128((lml_u128)mantissa * lml_exact_magnitude(factor.top), false,
                         (lml_u128)factor.bottom, exponent);
    return (x < 0) != (factor.top < 0) ? -y : y;
}

lml_status lml_decimal_fixed(const lml_decimal *d, int places, int64_t *out, lml_error *err)
{
    lml_u128 count = d->digits;
    int power = d->exponent + places;
    if (count == 0)
        power = 0;
    const lml_u128 most = (lml_u128)INT64_MAX + d->negative;
    bool lost = d->inexact, large = false;
    if (power > 0) {
        large = power >= LML_MOST_TENS ||
                __builtin_mul_overflow(count, lml_exact_ten_to(power), &count);
    } else if (power < 0) {
        lml_u128 unit = power > -LML_MOST_TENS ? lml_exact_ten_to(-power) : 0;
        lml_u128 rest = 1, whole = unit ? lml_wide_divide(count, unit, &rest) : 0;
        lost = lost || rest != 0;
        if (!lost)
            count = whole;
    }
    if (large || (count > most && (power >= 0 || !lost)))
        return lml_fail(err, LML_OVERFLOW, "the number is too large to store with %d decimal%s",
                        places, places == 1 ? "" : "s");
    if (lost)
        return lml_fail(err, LML_BAD_VALUE, "the number has more than %d decimal%s", places,
                        places == 1 ? "" : "s");
    *out = (int64_t)(d->negative ? -(lml_i128)count : (lml_i128)count);
    return LML_OK;
}
