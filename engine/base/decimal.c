#include "base/decimal.h"
#include "base/big.h"

#include <math.h>
#include <string.h>

enum {
    MOST_DIGITS = 38,     /* what 128 bits hold */
    MOST_EXPONENT = 9999, /* of a decimal that was read */
    ENOUGH_DIGITS = 17,   /* tell any two doubles apart */
    FEW_DIGITS = 15,      /* any decimal of so many survives a double */
    NO_MORE_FIT = 37      /* digits that LML_NUMBER_TEXT takes with sign, point and NUL */
};

#define TEN_TO_19 10000000000000000000u

static const uint64_t powers_of_five[] = {
    1u,
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
    7450580596923828125u,
};

enum { MOST_FIVES = 2 * 27 };

static lml_u128 five_to(int power)
{
    return power <= 27 ? powers_of_five[power]
                       : (lml_u128)powers_of_five[27] * powers_of_five[power - 27];
}

static lml_u128 ten_to(int power)
{
    return five_to(power) << power;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Reading */

/* Takes the digits at the start of `rest`; counts those that no longer fitted. */
static void read_digits(lml_span *rest, lml_decimal *d, int64_t *dropped)
{
    const lml_u128 full = ten_to(MOST_DIGITS - 1);
    for (; rest->length && is_digit(*rest->at); rest->at++, rest->length--) {
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
    if (!at.length || !is_digit(*at.at))
        return 0;
    int64_t exponent = 0;
    for (; at.length && is_digit(*at.at); at.at++, at.length--) {
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
    if (!rest.length || !is_digit(*rest.at))
        return 0;
    int64_t dropped = 0, decimals = 0;
    read_digits(&rest, &d, &dropped);
    if (rest.length && *rest.at == '.') {
        bool fraction = rest.length > 1 && is_digit(rest.at[1]);
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

/* Scaling */

static uint64_t magnitude_of(int64_t n)
{
    return n < 0 ? 0 - (uint64_t)n : (uint64_t)n;
}

/* (top, and a trace more if `more`) / bottom * 2^exponent. The quotient needs 56 bits for one
 * honest rounding, hence the bound on the bits of bottom. */
enum { MOST_BOTTOM_BITS = 72 };

static double ratio_128(lml_u128 top, bool more, lml_u128 bottom, int exponent)
{
    int shift = 128 - lml_bits_u128(top);
    top <<= shift;
    return lml_double_join(top / bottom, more || top % bottom != 0, exponent - shift);
}

/* The usual case: everything within 128 bits. */
static bool scale_in_128(const lml_decimal *d, uint64_t top, uint64_t bottom, double *out)
{
    int power = d->exponent;
    if (power > MOST_FIVES || power < -MOST_FIVES)
        return false;
    lml_u128 above, below;
    int twos = __builtin_ctzll(bottom);
    if (__builtin_mul_overflow(d->digits, (lml_u128)top, &above) ||
        __builtin_mul_overflow(above, five_to(power > 0 ? power : 0), &above) ||
        __builtin_mul_overflow((lml_u128)(bottom >> twos), five_to(power < 0 ? -power : 0),
                               &below) ||
        lml_bits_u128(below) > MOST_BOTTOM_BITS)
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

double lml_decimal_scale(const lml_decimal *d, lml_rational factor)
{
    uint64_t top = magnitude_of(factor.top), bottom = magnitude_of(factor.bottom);
    if (d->digits == 0 || top == 0)
        return 0;
    double x;
    if (!scale_in_128(d, top, bottom, &x))
        x = scale_in_big(d, top, bottom);
    return d->negative != (factor.top < 0) ? -x : x;
}

double lml_scale(double x, lml_rational factor)
{
    if (!isfinite(x) || x == 0 || factor.top == 0)
        return x * (factor.top < 0 ? -1.0 : factor.top > 0 ? 1.0 : 0.0);
    uint64_t mantissa;
    int exponent;
    lml_double_split(x, &mantissa, &exponent);
    double y = ratio_128((lml_u128)mantissa * magnitude_of(factor.top), false,
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
        large = power >= MOST_DIGITS || __builtin_mul_overflow(count, ten_to(power), &count);
    } else if (power < 0) {
        lml_u128 unit = power > -MOST_DIGITS ? ten_to(-power) : 0;
        lost = lost || unit == 0 || count % unit != 0;
        if (!lost)
            count /= unit;
    }
    if (large || (count > most && (power >= 0 || !lost)))
        return lml_fail(err, LML_OVERFLOW, "the number is too large to be kept to %d decimal%s",
                        places, places == 1 ? "" : "s");
    if (lost)
        return lml_fail(err, LML_BAD_VALUE, "the number has more than %d decimal%s", places,
                        places == 1 ? "" : "s");
    *out = (int64_t)(d->negative ? -(lml_i128)count : (lml_i128)count);
    return LML_OK;
}

/* Writing */

/* `count` * 10^-places with all places. At most NO_MORE_FIT digits and places. */
static size_t put_fixed(bool negative, lml_u128 count, int places, char out[LML_NUMBER_TEXT])
{
    char digits[MOST_DIGITS + 2];
    int at = MOST_DIGITS + 2, written = 0;
    bool zero = count == 0;
    while (count != 0 || written <= places) {
        /* By chunks, because a division in 128 bits is dear. */
        uint64_t chunk = (uint64_t)(count % TEN_TO_19);
        count = count > UINT64_MAX ? count / TEN_TO_19 : (uint64_t)count / TEN_TO_19;
        for (int i = 0; i < 19 && (chunk != 0 || count != 0 || written <= places); i++) {
            digits[--at] = (char)('0' + chunk % 10);
            chunk /= 10;
            written++;
        }
    }
    size_t used = 0;
    if (negative && !zero)
        out[used++] = '-';
    size_t whole = (size_t)(written - places);
    memcpy(out + used, digits + at, whole);
    used += whole;
    if (places > 0) {
        out[used++] = '.';
        memcpy(out + used, digits + at + whole, (size_t)places);
        used += (size_t)places;
    }
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
    while (digits < 20 && n >= ten_to(digits))
        digits++;
    return digits;
}

/* A decimal without trailing zeros: plain between 1e-6 and 1e15, else with an exponent. */
static size_t put_shortest(const lml_decimal *d, char out[LML_NUMBER_TEXT])
{
    int digits = digits_in((uint64_t)d->digits), leading = digits - 1 + d->exponent;
    if (leading >= -6 && leading < 15)
        return d->exponent >= 0 ? put_fixed(d->negative, d->digits * ten_to(d->exponent), 0, out)
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

/* Nearly every number of a sheet was typed with few digits, and x / factor in plain doubles is near
 * enough to guess them. A decimal of 15 digits that reads back is the only one that does, so that
 * the guess needs no proof but reading it back. */
static bool guess_shortest(double x, lml_rational factor, lml_decimal *d)
{
    static const double tens[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                  1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                  1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    double value = x * (double)factor.bottom / (double)factor.top;
    if (!(value >= 1e-7 && value < 1e15))
        return false;
    int places = value >= 1 ? 0 : 14;
    while (value * tens[places] < 1e14)
        places++;
    d->digits = (lml_u128)(uint64_t)(value * tens[places] + 0.5);
    d->exponent = -places;
    strip_zeros(d);
    return lml_decimal_scale(d, factor) == x;
}

static bool fits_text(lml_u128 count)
{
    return count < ten_to(NO_MORE_FIT) - 1; /* one may yet be added */
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
    if (fives <= MOST_FIVES && !__builtin_mul_overflow(*grows, five_to(fives), &wide)) {
        lml_u128 kept = *grows;
        *grows = wide;
        if (lml_bits_u128(*moves) + shift <= 128) {
            *moves <<= shift;
            *count = above / below;
            *rest = lml_rest_of(above % below, below);
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

/* Whether the decimal of `cut` digits fewer, next to digits * 10^exponent, reads back as x; the
 * nearer of its two neighbours is tried first. */
static bool try_shorter(double x, lml_rational factor, uint64_t digits, lml_rest rest, int cut,
                        int exponent, lml_decimal *d)
{
    uint64_t unit = (uint64_t)ten_to(cut), low = digits / unit, left = digits % unit;
    bool up =
        cut == 0 ? lml_rounding_away(LML_HALF_EVEN, false, low & 1, rest) : left >= unit - left;
    for (int i = 0; i < 2; i++, up = !up) {
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
static bool find_shortest(double x, lml_rational factor, lml_decimal *d)
{
    uint64_t mantissa;
    int exponent;
    lml_double_split(x, &mantissa, &exponent);
    int bits = lml_bits_u128((lml_u128)mantissa * (uint64_t)factor.bottom) + exponent -
               lml_bits_u128((uint64_t)factor.top); /* x / factor is in [2^(bits-1), 2^(bits+1)) */
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

size_t lml_write_scaled(double x, lml_rational factor, char out[LML_NUMBER_TEXT])
{
    if (!isfinite(x) || factor.top == 0)
        return put_word(isnan(x) || factor.top == 0 ? "nan" : x < 0 ? "-inf" : "inf", out);
    if (x == 0)
        return put_word("0", out);
    bool negative = (x < 0) != (factor.top < 0);
    lml_decimal d = {0};
    factor.top = (int64_t)magnitude_of(factor.top);
    x = fabs(x);
    if (!guess_shortest(x, factor, &d) && !find_shortest(x, factor, &d))
        return put_word("nan", out);
    d.negative = negative;
    return put_shortest(&d, out);
}

size_t lml_write_double(double x, char out[LML_NUMBER_TEXT])
{
    return lml_write_scaled(x, (lml_rational){1, 1}, out);
}

size_t lml_write_fixed(double x, lml_rational factor, int decimals, lml_rounding mode,
                       char out[LML_NUMBER_TEXT])
{
    lml_u128 count;
    lml_rest rest;
    decimals = decimals < 0 ? 0 : decimals >= NO_MORE_FIT ? NO_MORE_FIT - 1 : decimals;
    bool negative = (x < 0) != (factor.top < 0);
    lml_rational magnitude = {(int64_t)magnitude_of(factor.top), factor.bottom};
    if (!isfinite(x) || factor.top == 0 || !count_places(x, magnitude, decimals, &count, &rest))
        return lml_write_scaled(x, factor, out);
    count += lml_rounding_away(mode, negative, count & 1, rest);
    return put_fixed(negative, count, decimals, out);
}

size_t lml_write_count(int64_t count, int places, char out[LML_NUMBER_TEXT])
{
    places = places < 0 ? 0 : places >= NO_MORE_FIT ? NO_MORE_FIT - 1 : places;
    return put_fixed(count < 0, magnitude_of(count), places, out);
}
