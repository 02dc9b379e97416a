#include "unit/amount.h"
#include "base/big.h"
#include "base/real.h"
#include "unit/unit_table.h"
#include "unit/unit_sign.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct vulgar {
    const char *sign;
    uint8_t top, bottom;
} vulgar;

static const vulgar fractions[] = {
    {"¼", 1, 4}, {"½", 1, 2}, {"¾", 3, 4}, {"⅐", 1, 7}, {"⅑", 1, 9}, {"⅒", 1, 10}, {"⅓", 1, 3},
    {"⅔", 2, 3}, {"⅕", 1, 5}, {"⅖", 2, 5}, {"⅗", 3, 5}, {"⅘", 4, 5}, {"⅙", 1, 6},  {"⅚", 5, 6},
    {"⅛", 1, 8}, {"⅜", 3, 8}, {"⅝", 5, 8}, {"⅞", 7, 8}, {"↉", 0, 3},
};

static size_t digits_at(lml_span s, size_t at)
{
    size_t n = 0;
    while (lml_span_digit_at(s, at + n))
        n++;
    return n;
}

static const vulgar *vulgar_at(lml_span s, size_t at)
{
    for (size_t i = 0; at < s.length && i < sizeof fractions / sizeof *fractions; i++)
        if (lml_span_starts((lml_span){s.at + at, s.length - at}, fractions[i].sign))
            return &fractions[i];
    return NULL;
}

static int64_t whole_of(lml_span s, size_t at, size_t digits)
{
    int64_t n = 0;
    for (size_t i = 0; i < digits; i++)
        n = n * 10 + (s.at[at + i] - '0');
    return n;
}

/* ---- refusals ---- */

static lml_status refuse(lml_span whole, lml_span part, const char *note, const char *message,
                         const char *hint, lml_error *err)
{
    lml_fail(err, LML_BAD_VALUE, "%s", message);
    lml_error_hint(err, "%s", hint);
    lml_error_label_part(err, whole, part, note);
    return LML_BAD_VALUE;
}

/* "11,2" is a decimal comma, "1,234.5" has a separator; "1,234" could be either. `run` is the
 * number with its commas, `after` what follows it. */
static lml_status refuse_comma(lml_span whole, lml_span run, lml_span after, lml_error *err)
{
    char joined[LML_NUMBER_TEXT] = "", pointed[LML_NUMBER_TEXT] = "";
    size_t commas = 0, last = 0, point = run.length, j = 0, p = 0;
    for (size_t i = 0; i < run.length; i++) {
        if (run.at[i] == ',') {
            commas++;
            last = i;
        } else if (run.at[i] == '.') {
            point = i;
        }
    }
    bool comma_is_point = point < last; /* 1.234,5 */
    for (size_t i = 0; i < run.length && j + 1 < sizeof joined && p + 1 < sizeof pointed; i++) {
        char c = run.at[i];
        if (c != ',' && !(c == '.' && comma_is_point))
            pointed[p++] = joined[j++] = c;
        else if (i == last && c == ',')
            pointed[p++] = '.';
    }
    pointed[p] = joined[j] = '\0';

    lml_fail(err, LML_BAD_VALUE, "\"%.*s\" has a comma", LML_SPAN_SHOWN(whole));
    bool pointless = point == run.length, thousand = run.length - last == 4 && *run.at != '0';
    if (commas == 1 && pointless && thousand)
        lml_error_hint(err, "it could mean two things: write %s%.*s or %s%.*s", pointed,
                       LML_SPAN_SHOWN(after), joined, LML_SPAN_SHOWN(after));
    else if (commas == 1 && (pointless || comma_is_point))
        lml_error_hint(err, "write %s%.*s", pointed, LML_SPAN_SHOWN(after));
    else
        lml_error_hint(err, "write %s%.*s", joined, LML_SPAN_SHOWN(after));
    lml_error_label_part(err, whole, (lml_span){run.at + last, 1}, "comma");
    return LML_BAD_VALUE;
}

static bool starts_folded(lml_span s, const char *word)
{
    size_t n = strlen(word);
    for (size_t i = 0; i < n; i++)
        if (i >= s.length || (s.at[i] | 0x20) != word[i])
            return false;
    return true;
}

static lml_status refuse_no_number(lml_span whole, lml_span rest, lml_error *err)
{
    if (starts_folded(rest, "inf") || starts_folded(rest, "nan"))
        return refuse(whole, rest, "not a number", "inf and nan are not amounts",
                      "write the number that was meant", err);
    if (lml_span_starts(rest, ".") && lml_span_digit_at(rest, 1)) {
        lml_fail(err, LML_BAD_VALUE, "a number may not start with a point");
        lml_error_hint(err, "write 0%.*s", LML_SPAN_SHOWN(rest));
        lml_error_label_part(err, whole, (lml_span){rest.at, 1}, "a digit is missing before it");
        return LML_BAD_VALUE;
    }
    if (lml_unit_sign_check(whole, rest, err))
        return LML_BAD_VALUE;
    lml_fail(err, LML_BAD_VALUE, "\"%.*s\" has no number where one is needed",
             LML_SPAN_SHOWN(whole));
    lml_error_hint(err, "write a number and a unit, as in 12.5 g");
    lml_error_label_part(err, whole, rest, "a number is needed here");
    return LML_BAD_VALUE;
}

/* ---- reading ---- */

enum { WHOLE_DIGITS = 9, BOTTOM_DIGITS = 4 };

static lml_status refuse_fraction(lml_span whole, lml_span part, lml_error *err)
{
    return refuse(whole, part, "fraction", "this fraction cannot be read",
                  "write it like 2 1/2 or 5/16, or as a decimal", err);
}

/* A fraction that follows `digits` digits at `at` (0 digits: there are none). Sets *used to the
 * end of it, or leaves it alone when there is no fraction. */
static lml_status read_fraction(lml_span whole, lml_span s, size_t at, size_t digits, lml_amount *a,
                                size_t *used, lml_error *err)
{
    size_t end = at + digits, next = end;
    while (digits && next < s.length && s.at[next] == ' ')
        next++;
    int64_t before = 0, top, bottom;
    const vulgar *v = vulgar_at(s, next);
    if (v) {
        top = v->top;
        bottom = v->bottom;
        end = next + strlen(v->sign);
        if (digits > WHOLE_DIGITS)
            return refuse_fraction(whole, s, err);
        before = whole_of(s, at, digits);
    } else {
        bool mixed = next > end;
        size_t top_at = mixed ? next : at, top_digits = digits_at(s, top_at);
        size_t slash = top_at + top_digits;
        if (top_digits == 0 || slash >= s.length || s.at[slash] != '/' ||
            !lml_span_digit_at(s, slash + 1))
            return LML_OK;
        size_t bottom_digits = digits_at(s, slash + 1);
        end = slash + 1 + bottom_digits;
        lml_span part = {s.at + at, end - at};
        if (digits > WHOLE_DIGITS || top_digits > WHOLE_DIGITS || bottom_digits > BOTTOM_DIGITS)
            return refuse_fraction(whole, part, err);
        before = mixed ? whole_of(s, at, digits) : 0;
        top = whole_of(s, top_at, top_digits);
        bottom = whole_of(s, slash + 1, bottom_digits);
        if (bottom == 0 || (mixed && top >= bottom))
            return refuse_fraction(whole, part, err);
    }
    a->decimal.digits = (lml_u128)(before * bottom + top);
    a->decimal.exponent = 0;
    a->bottom = bottom;
    *used = end;
    return LML_OK;
}

/* The bytes of a number with its points and commas; a range's ".." ends it. */
static size_t number_run(lml_span s, size_t at, size_t *points, size_t *commas)
{
    size_t end = at;
    *points = *commas = 0;
    for (; end < s.length; end++) {
        bool point = s.at[end] == '.', comma = s.at[end] == ',';
        if (point && end + 1 < s.length && s.at[end + 1] == '.')
            break;
        if (!point && !(comma && lml_span_digit_at(s, end + 1)) && !lml_span_digit_at(s, end))
            break;
        *points += point;
        *commas += comma;
    }
    return end;
}

lml_status lml_amount_read(lml_span whole, lml_span rest, lml_amount *out, size_t *used,
                           lml_error *err)
{
    lml_amount a = {.bottom = 1};
    size_t at = 0, points, commas;
    static const char minus[] = "−"; /* U+2212 */
    bool negative = lml_span_starts(rest, "-") || lml_span_starts(rest, minus);
    if (negative || lml_span_starts(rest, "+"))
        at = lml_span_starts(rest, minus) ? strlen(minus) : 1;
    lml_span body = {rest.at + at, rest.length - at};
    size_t end = number_run(rest, at, &points, &commas);

    if (!lml_span_digit_at(rest, at)) {
        end = at;
        lml_status s = read_fraction(whole, rest, at, 0, &a, &end, err);
        if (s != LML_OK)
            return s;
        if (end == at)
            return refuse_no_number(whole, body, err);
    } else {
        lml_span run = {rest.at + at, end - at};
        if (commas) {
            lml_span signed_run = {rest.at, end};
            return refuse_comma(whole, negative ? signed_run : run,
                                (lml_span){rest.at + end, rest.length - end}, err);
        }
        if (points > 1)
            return refuse(whole, run, "two points", "a number has one decimal point at most",
                          "write it like 1234.5", err);
        if (run.at[run.length - 1] == '.')
            return refuse(whole, run, "a digit is missing after it",
                          "a number may not end in a point", "write 1 or 1.0, not 1.", err);
        if (run.length == 1 && *run.at == '0' && end < rest.length &&
            (rest.at[end] == 'x' || rest.at[end] == 'X'))
            return refuse(whole, body, "hexadecimal", "hexadecimal numbers are not accepted",
                          "write the number in decimal", err);
        /* Only the number itself is given to the decimal reader, and its exponent if it has one. */
        bool exponent = end < rest.length && (rest.at[end] == 'e' || rest.at[end] == 'E');
        if (exponent) {
            size_t from = end + 1;
            if (from < rest.length && (rest.at[from] == '+' || rest.at[from] == '-'))
                from++;
            exponent = lml_span_digit_at(rest, from);
            if (exponent)
                end = from + digits_at(rest, from);
        }
        lml_span text = {rest.at + at, end - at};
        if (lml_decimal_read(text, &a.decimal) != text.length)
            return refuse(whole, text, "not a number", "this number cannot be read",
                          "write it like 12.5 or 1.2e-3", err);
        if (!points && !exponent) {
            lml_status s = read_fraction(whole, rest, at, end - at, &a, &end, err);
            if (s != LML_OK)
                return s;
        }
    }
    a.decimal.negative = negative && a.decimal.digits != 0; /* there is no minus zero */
    a.text = (lml_span){rest.at, end};
    *out = a;
    *used = end;
    return LML_OK;
}

/* ---- exact scaling ---- */

static lml_status times(lml_big *a, int64_t factor)
{
    lml_big f = lml_big_of(factor);
    return lml_big_mul(a, &f, a, NULL);
}

static lml_status times_ten_to(lml_big *a, int power)
{
    lml_big ten;
    lml_status s = lml_big_ten_to(power, &ten, NULL);
    return s == LML_OK ? lml_big_mul(a, &ten, a, NULL) : s;
}

/* For degrees Celsius: the sum of a short decimal and an offset that is a short decimal too. False
 * if they are not. */
static bool add_offset(const lml_decimal *d, lml_rational factor, lml_rational offset,
                       lml_decimal *sum)
{
    enum { PLACES_MOST = 15, PLACES = 2, HUNDRED = 100, OFFSET_MOST = 100000 };
    bool short_one = !d->inexact && d->digits < lml_exact_ten_to(PLACES_MOST) && d->exponent <= 0 &&
                     d->exponent >= -PLACES_MOST;
    if (!short_one || factor.top != 1 || factor.bottom != 1 || HUNDRED % offset.bottom != 0 ||
        offset.top < 0 || offset.top > OFFSET_MOST)
        return false;
    int places = -d->exponent > PLACES ? -d->exponent : PLACES;
    lml_i128 amount = (lml_i128)(d->digits * lml_exact_ten_to(places + d->exponent));
    lml_i128 more = offset.top * (HUNDRED / offset.bottom);
    lml_i128 total =
        (d->negative ? -amount : amount) + more * (lml_i128)lml_exact_ten_to(places - PLACES);
    *sum = (lml_decimal){.negative = total < 0,
                         .digits = (lml_u128)(total < 0 ? -total : total),
                         .exponent = -places};
    return true;
}

double lml_amount_scale(const lml_amount *a, lml_rational factor, lml_rational offset)
{
    const lml_decimal *d = &a->decimal;
    lml_decimal sum;
    if (a->bottom == 1 && offset.top == 0)
        return lml_decimal_scale(d, factor);
    if (a->bottom == 1 && add_offset(d, factor, offset, &sum))
        return lml_decimal_scale(&sum, factor);
    /* (digits * 10^e * factor) / bottom + offset, over one denominator. */
    lml_big top = lml_big_of_u128(d->digits), bottom = lml_big_of(a->bottom);
    lml_big shift = lml_big_of(offset.top);
    int exponent = d->digits ? d->exponent : 0;
    if (d->inexact) { /* a digit below the last that was kept, so that no tie is seen */
        lml_big one = lml_big_of(1);
        times(&top, 10);
        lml_big_add(&top, &one, &top, NULL);
        exponent--;
    }
    if (d->negative)
        top.sign = -top.sign;
    lml_status s = times(&top, factor.top);
    s = s ? s : times(&top, offset.bottom);
    s = s ? s : times(&bottom, factor.bottom);
    s = s ? s : times_ten_to(exponent > 0 ? &top : &bottom, exponent > 0 ? exponent : -exponent);
    s = s ? s : lml_big_mul(&shift, &bottom, &shift, NULL);
    s = s ? s : lml_big_add(&top, &shift, &top, NULL);
    s = s ? s : times(&bottom, offset.bottom);
    if (s == LML_OK)
        return lml_big_ratio(&top, &bottom);
    /* Beyond 10^400 either way: out of range, or nothing beside the offset. */
    if (exponent > 0)
        return d->negative ? -HUGE_VAL : HUGE_VAL;
    lml_big zero_top = lml_big_of(offset.top), zero_bottom = lml_big_of(offset.bottom);
    return lml_big_ratio(&zero_top, &zero_bottom);
}

/* digits * 10^exponent as text: plain below 1e15, with an exponent above. */
static size_t write_digits(const lml_decimal *d, char out[LML_NUMBER_TEXT])
{
    char digits[LML_NUMBER_TEXT];
    size_t n = sizeof digits - 1;
    digits[n] = '\0';
    lml_u128 rest = d->digits;
    do {
        lml_u128 digit;
        rest = lml_wide_divide(rest, 10, &digit);
        digits[--n] = (char)('0' + (int)digit);
    } while (rest);
    /* At least one digit before the point. */
    while (d->exponent < 0 && sizeof digits - 1 - n <= (size_t)-d->exponent && n > 0)
        digits[--n] = '0';
    int count = (int)(sizeof digits - 1 - n);
    const char *sign = d->negative ? "-" : "";
    if (d->exponent < 0)
        return (size_t)snprintf(out, LML_NUMBER_TEXT, "%s%.*s.%s", sign, count + d->exponent,
                                digits + n, digits + n + count + d->exponent);
    if (count + d->exponent > 15)
        return (size_t)snprintf(out, LML_NUMBER_TEXT, "%s%se%d", sign, digits + n, d->exponent);
    return (size_t)snprintf(out, LML_NUMBER_TEXT, "%s%s%.*s", sign, digits + n, d->exponent,
                            "000000000000000");
}

/* The whole number nearest to top / (bottom * 10^exponent); false when it has more than 120 bits.
 */
static bool nearest_digits(const lml_big *top, const lml_big *bottom, int exponent, lml_u128 *out)
{
    lml_big a = *top, b = *bottom, quotient;
    a.sign = a.sign ? 1 : 0;
    lml_status s = times_ten_to(exponent > 0 ? &b : &a, exponent > 0 ? exponent : -exponent);
    /* (2a + b) / 2b rounds half up. */
    s = s ? s : times(&a, 2);
    s = s ? s : lml_big_add(&a, &b, &a, NULL);
    s = s ? s : times(&b, 2);
    s = s ? s : lml_big_divide(&a, &b, &quotient, NULL, NULL);
    if (s != LML_OK || lml_big_bits(&quotient) > 120)
        return false;
    lml_u128 n = 0;
    for (int i = quotient.length - 1; i >= 0; i--)
        n = (n << 64) | quotient.limb[i];
    *out = n;
    return true;
}

enum { DECIMALS_MOST = 24 };

/* Most temperatures have few places, and doubles are exact enough to guess them: the first guess
 * that reads back has the fewest. Near a half a double cannot tell which way to round; the exact
 * way decides: with 1e5 and four places `scaled` is off by less than 1e-6, and 0.001 is ample.
 * The other bounds only say when the guess is tried; each guess is read back, so that they decide
 * nothing but the speed. */
static bool guess_digits(double si, lml_rational factor, lml_rational offset, lml_decimal *out)
{
    static const double NEAR_HALF = 0.499, LEAST = 1, MOST = 1e5;
    enum { PLACES_MOST = 4 };
    double left = si - (double)offset.top / (double)offset.bottom, ten = 1;
    lml_decimal sum;
    if (!(fabs(left) >= LEAST && fabs(left) < MOST))
        return false;
    *out = (lml_decimal){.negative = left < 0};
    for (int places = 0; places <= PLACES_MOST; places++, ten *= 10) {
        double scaled = fabs(left) * ten, whole = floor(scaled + 0.5);
        out->digits = (lml_u128)(uint64_t)whole;
        out->exponent = -places;
        if (fabs(scaled - whole) > NEAR_HALF || !add_offset(out, factor, offset, &sum))
            return false;
        if (lml_decimal_scale(&sum, factor) == si)
            return true;
    }
    return false;
}

/* (si - offset) / factor exactly, then the fewest decimals that read back. */
static lml_decimal search_digits(double si, lml_rational factor, lml_rational offset)
{
    lml_big top, bottom, shift = lml_big_of(offset.top);
    lml_status s = lml_big_from_double(si, &top, &bottom, NULL);
    if (s != LML_OK) { /* nothing beside the offset */
        top = lml_big_of(0);
        bottom = lml_big_of(1);
    }
    times(&top, offset.bottom);
    lml_big_mul(&shift, &bottom, &shift, NULL);
    lml_big_sub(&top, &shift, &top, NULL);
    times(&top, factor.bottom);
    times(&bottom, offset.bottom);
    times(&bottom, factor.top);
    lml_amount a = {.decimal = {.negative = top.sign < 0}, .bottom = 1};
    double size = fabs(si) * (double)factor.bottom / (double)factor.top;
    int exponent = size > 10 ? (int)lml_real_log10(size) : 0;
    for (; exponent >= -DECIMALS_MOST; exponent--) {
        lml_u128 digits;
        if (!nearest_digits(&top, &bottom, exponent, &digits))
            break;
        a.decimal.digits = digits;
        a.decimal.exponent = digits ? exponent : 0;
        if (lml_amount_scale(&a, factor, offset) == si)
            break;
    }
    a.decimal.negative = a.decimal.negative && a.decimal.digits != 0;
    return a.decimal;
}

bool lml_amount_shortest(double si, lml_rational factor, lml_rational offset, lml_decimal *out)
{
    if (offset.top == 0)
        return lml_decimal_shortest(si, factor, out);
    if (!guess_digits(si, factor, offset, out))
        *out = search_digits(si, factor, offset);
    return true;
}

size_t lml_amount_write(double si, lml_rational factor, lml_rational offset,
                        char out[LML_NUMBER_TEXT])
{
    enum { SHORT = 15 };
    lml_decimal d;
    if (offset.top == 0)
        return lml_decimal_write_scaled(si == 0 ? 0 : si, factor, out);
    lml_amount_shortest(si, factor, offset, &d);
    if (d.exponent > 0 || d.exponent < -SHORT || d.digits >= lml_exact_tens[SHORT])
        return write_digits(&d, out);
    int64_t count = (int64_t)d.digits;
    return lml_decimal_write_count(d.negative ? -count : count, -d.exponent, out);
}
