/* The writing half of decimal.h. */
#include "base/apart.h"
#include "base/big.h"
#include "base/decimal.h"
#include "base/double.h"

#include <math.h>
#include <string.h>

enum {
    ENOUGH_DIGITS = 17, /* tell any two doubles apart */
    FEW_DIGITS = 15,    /* any decimal of so many survives a double */
    NO_MORE_FIT = 37    /* digits that LML_NUMBER_TEXT takes with sign, point and NUL */
};

/* `count` * 10^-places with all places. At most NO_MORE_FIT digits and places. */
static size_t put_fixed(bool negative, lml_u128 count, int places, char out[LML_NUMBER_TEXT])
{
    enum { ROOM = LML_MOST_TENS + 2, CHUNK = LML_TENS - 1 };
    char digits[ROOM];
    int at = ROOM;
    size_t used = 0;
    if (negative && count != 0)
        out[used++] = '-';
    while (count > UINT64_MAX) { /* by chunks, because a division in 128 bits is dear */
        lml_u128 chunk;
        count = lml_wide_divide(count, lml_exact_tens[CHUNK], &chunk);
        uint64_t rest = (uint64_t)chunk;
        for (int i = 0; i < CHUNK; i++, rest /= 10)
            digits[--at] = (char)('0' + rest % 10);
    }
    for (uint64_t rest = (uint64_t)count; rest != 0; rest /= 10)
        digits[--at] = (char)('0' + rest % 10);
    while (ROOM - at <= places)
        digits[--at] = '0';
    while (at < ROOM - places)
        out[used++] = digits[at++];
    if (places > 0)
        out[used++] = '.';
    while (at < ROOM)
        out[used++] = digits[at++];
    out[used] = '\0';
    return used;
}

static size_t put_word(const char *word, char out[LML_NUMBER_TEXT])
{
    size_t length = strlen(word);
    memcpy(out, word, length + 1);
    return length;
}

static int digits_in(uint64_t n)
{
    int digits = 1;
    while (digits < LML_TENS && n >= lml_exact_tens[digits])
        digits++;
    return digits;
}

/* A decimal without trailing zeros: plain between 1e-6 and 1e15, else with an exponent. */
static size_t put_shortest(const lml_decimal *d, char out[LML_NUMBER_TEXT])
{
    int digits = digits_in((uint64_t)d->digits), leading = digits - 1 + d->exponent;
    if (leading >= -6 && leading < 15)
        return d->exponent >= 0
                   ? put_fixed(d->negative, d->digits * lml_exact_ten_to(d->exponent), 0, out)
                   : put_fixed(d->negative, d->digits, -d->exponent, out);
    size_t used = put_fixed(d->negative, d->digits, digits - 1, out);
    out[used++] = 'e';
    return used +
           put_fixed(leading < 0, (lml_u128)(leading < 0 ? -leading : leading), 0, out + used);
}

static void strip_zeros(lml_decimal *d)
{
    uint64_t digits = (uint64_t)d->digits;
    while (digits % 10 == 0) {
        digits /= 10;
        d->exponent++;
    }
    d->digits = digits;
}

static const double tens[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                              1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                              1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* Whether the whole number nearest to `scaled`, which is |x| / factor * 10^places but for a few
 * roundings of doubles, is a decimal that reads back as x. What differs from it by more than those
 * roundings does not, and need not be read back. */
static bool guess_at(double x, lml_rational factor, double scaled, int places, lml_decimal *d)
{
    static const double ROUNDINGS = 1e-15;
    int64_t digits = (int64_t)(scaled + 0.5);
    if (fabs(scaled - (double)digits) > scaled * ROUNDINGS)
        return false;
    d->digits = (lml_u128)digits;
    d->exponent = -places;
    strip_zeros(d);
    return lml_decimal_scale(d, factor) == x;
}

/* The places with which |value|, from 1e-7 to 1e15, has 15 digits. */
static int places_of(double value)
{
    int two;
    frexp(value, &two); /* value is from 2^(two-1) to 2^two */
    int log = (two - 1) * 30103, leading = (log < 0 ? log - 99999 : log) / 100000;
    int places = FEW_DIGITS - 1 - leading;
    return value * tens[places] < 1e15 ? places : places - 1;
}

/* Nearly every number of a sheet was typed with few digits, and x / factor in plain doubles is near
 * enough to guess them. A decimal of 15 digits that reads back is the only one that does, so that
 * the guess needs no proof but reading it back. */
static bool guess_shortest(double x, lml_rational factor, lml_decimal *d)
{
    enum { FEW_PLACES = 6 };
    double value = x * (double)factor.bottom / (double)factor.top;
    if (!(value >= 1e-7 && value < 1e15))
        return false;
    if (value < 1e9 && guess_at(x, factor, value * tens[FEW_PLACES], FEW_PLACES, d))
        return true;
    int places = places_of(value);
    return guess_at(x, factor, value * tens[places], places, d);
}

static bool fits_text(lml_u128 count)
{
    return count < lml_exact_ten_to(NO_MORE_FIT) - 1; /* one may yet be added */
}

/* |x| / factor * 10^places as a whole number and what is left. False when it does not fit. */
static bool count_places(double x, lml_rational factor, int places, lml_u128 *count, lml_rest *rest)
{
    uint64_t mantissa;
    int twos;
    lml_double_split(x, &mantissa, &twos);
    lml_u128 above = (lml_u128)mantissa * (uint64_t)factor.bottom;
    lml_u128 below = (uint64_t)factor.top;
    twos += places;
    lml_u128 *grows = places >= 0 ? &above : &below, *moves = twos >= 0 ? &above : &below;
    int fives = places >= 0 ? places : -places, shift = twos >= 0 ? twos : -twos;
    lml_u128 wide;
    if (fives <= LML_MOST_FIVES &&
        !__builtin_mul_overflow(*grows, lml_exact_five_to(fives), &wide)) {
        lml_u128 kept = *grows;
        *grows = wide;
        if (lml_exact_bits_u128(*moves) + shift <= 128) {
            *moves <<= shift;
            lml_u128 left;
            *count = lml_wide_divide(above, below, &left);
            *rest = lml_rest_of(left, below);
            return fits_text(*count);
        }
        *grows = kept;
    }

    lml_big top = lml_big_of_u128(above), bottom = lml_big_of_u128(below), power, quotient;
    lml_big *multiplied = places >= 0 ? &top : &bottom;
    int exponent = twos - places;
    if (lml_big_ten_to(fives, &power, NULL) != LML_OK ||
        lml_big_mul(multiplied, &power, multiplied, NULL) != LML_OK ||
        (exponent >= 0 && lml_big_shift(&top, exponent, &top, NULL) != LML_OK) ||
        (exponent < 0 && lml_big_shift(&bottom, -exponent, &bottom, NULL) != LML_OK) ||
        lml_big_divide(&top, &bottom, &quotient, &top, NULL) != LML_OK ||
        lml_big_bits(&quotient) > 128)
        return false;
    *count = 0;
    for (int i = quotient.length - 1; i >= 0; i--)
        *count = *count << 64 | quotient.limb[i];
    *rest = LML_REST_NONE;
    if (top.sign != 0) {
        lml_big missing;
        if (lml_big_sub(&bottom, &top, &missing, NULL) != LML_OK)
            return false;
        int against = lml_big_compare(&top, &missing);
        *rest = against < 0 ? LML_REST_BELOW : against == 0 ? LML_REST_HALF : LML_REST_ABOVE;
    }
    return fits_text(*count);
}

/* How far from digits * 10^exponent, counted in 10^exponent, a decimal that reads back as x can be:
 * half a bit of x, and one for what was cut from the digits. */
static double reach_of(double x, uint64_t digits)
{
    int two;
    double fraction = frexp(x, &two); /* the last bit of x is 2^-53 / fraction of it */
    return x < 0x1p-1021 ? HUGE_VAL : (double)digits / fraction * 0x1p-54 + 1.001;
}

/* Whether the decimal of `cut` digits fewer, next to digits * 10^exponent, reads back as x; the
 * nearer of its two neighbours is tried first, and one beyond reach not at all. */
static bool try_shorter(double x, lml_rational factor, uint64_t digits, lml_rest rest, int cut,
                        int exponent, lml_decimal *d)
{
    uint64_t unit = lml_exact_tens[cut], low = digits / unit, left = digits % unit;
    const double reach = reach_of(x, digits);
    bool up =
        cut == 0 ? lml_rounding_away(LML_HALF_EVEN, false, low & 1, rest) : left >= unit - left;
    for (int i = 0; i < 2; i++, up = !up) {
        if ((double)(up ? unit - left : left) > reach)
            return false;
        d->digits = low + up;
        d->exponent = exponent + cut;
        if (d->digits != 0 && lml_decimal_scale(d, factor) == x) {
            strip_zeros(d);
            return true;
        }
    }
    return false;
}

/* The first 17 or 18 digits of x / factor exactly, then the fewest of them that will do; 17 always
 * do, so that false cannot come back. */
LML_APART static bool find_shortest(double x, lml_rational factor, lml_decimal *d)
{
    uint64_t mantissa;
    int exponent;
    lml_double_split(x, &mantissa, &exponent);
    int bits =
        lml_exact_bits_u128((lml_u128)mantissa * (uint64_t)factor.bottom) + exponent -
        lml_exact_bits_u128((uint64_t)factor.top); /* x / factor is in [2^(bits-1), 2^(bits+1)) */
    int log = (bits - 1) * 30103, leading = (log < 0 ? log - 99999 : log) / 100000;
    int places = ENOUGH_DIGITS - 1 - leading;
    lml_u128 count;
    lml_rest rest;
    if (!count_places(x, factor, places, &count, &rest) || count > UINT64_MAX)
        return false;
    int digits = digits_in((uint64_t)count);
    /* A subnormal has fewer than 15 digits to give. */
    int least = fabs(x) < 0x1p-1021 ? 1 : FEW_DIGITS;
    for (int wanted = least; wanted <= digits; wanted++) {
        if (try_shorter(x, factor, (uint64_t)count, rest, digits - wanted, -places, d))
            return true;
    }
    return false;
}

bool lml_decimal_shortest(double x, lml_rational factor, lml_decimal *out)
{
    if (!isfinite(x) || x == 0 || factor.top == 0)
        return false;
    bool negative = (x < 0) != (factor.top < 0);
    *out = (lml_decimal){0};
    factor.top = (int64_t)lml_exact_magnitude(factor.top);
    x = fabs(x);
    if (!guess_shortest(x, factor, out) && !find_shortest(x, factor, out))
        return false;
    out->negative = negative;
    return true;
}

size_t lml_decimal_write(const lml_decimal *shortest, char out[LML_NUMBER_TEXT])
{
    return put_shortest(shortest, out);
}

size_t lml_decimal_write_scaled(double x, lml_rational factor, char out[LML_NUMBER_TEXT])
{
    lml_decimal d;
    if (isinf(x) && factor.top != 0)
        return put_word(x < 0 ? "-inf" : "inf", out);
    if (x == 0 && factor.top != 0)
        return put_word("0", out);
    return lml_decimal_shortest(x, factor, &d) ? put_shortest(&d, out) : put_word("nan", out);
}

size_t lml_decimal_write_double(double x, char out[LML_NUMBER_TEXT])
{
    return lml_decimal_write_scaled(x, (lml_rational){1, 1}, out);
}

size_t lml_decimal_write_fixed(double x, lml_rational factor, int decimals, lml_rounding mode,
                               char out[LML_NUMBER_TEXT])
{
    lml_u128 count;
    lml_rest rest;
    decimals = decimals < 0 ? 0 : decimals >= NO_MORE_FIT ? NO_MORE_FIT - 1 : decimals;
    bool negative = (x < 0) != (factor.top < 0);
    lml_rational magnitude = {(int64_t)lml_exact_magnitude(factor.top), factor.bottom};
    if (!isfinite(x) || factor.top == 0 || !count_places(x, magnitude, decimals, &count, &rest))
        return lml_decimal_write_scaled(x, factor, out);
    count += lml_rounding_away(mode, negative, count & 1, rest);
    return put_fixed(negative, count, decimals, out);
}

size_t lml_decimal_write_count(int64_t count, int places, char out[LML_NUMBER_TEXT])
{
    places = places < 0 ? 0 : places >= NO_MORE_FIT ? NO_MORE_FIT - 1 : places;
    return put_fixed(count < 0, lml_exact_magnitude(count), places, out);
}
