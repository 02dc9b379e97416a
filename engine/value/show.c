#include "value/show.h"

#include "base/decimal.h"
#include "base/real.h"
#include "unit/currency.h"
#include "unit/unit_table.h"
#include "value/step.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    DIGITS = 6,
    STEP_DIGITS = 9, /* of a figure that was rounded to a step: a kilogram in micrograms */
    SURE = 15        /* decimals beyond which steps cannot be distinguished */
};

/* "1149.00 USD" with commas between the thousands of its whole part. */
static size_t put_commas(char text[LML_VALUE_TEXT], size_t length)
{
    size_t at = text[0] == '-', end = at;
    while (text[end] >= '0' && text[end] <= '9')
        end++;
    for (size_t place = end; place > at + 3 && length + 1 < LML_VALUE_TEXT; place -= 3, length++) {
        memmove(text + place - 2, text + place - 3, length - (place - 3) + 1);
        text[place - 3] = ',';
    }
    return length;
}

/* The significant digits of a number as it is written. */
static int digits_of(lml_span text)
{
    int digits = 0;
    for (size_t i = 0; i < text.length && text.at[i] != 'e'; i++)
        digits += (digits > 0 || text.at[i] != '0') && text.at[i] >= '0' && text.at[i] <= '9';
    return digits;
}

/* Decimals that are always shown: those of the money of a price, 94.30 EUR/g. */
static int least_decimals(const lml_value *v)
{
    bool price = v->kind == LML_QUANTITY && v->dimension.money == 1 && v->spread == LML_NO_SPREAD;
    return price ? lml_currency_at(v->dimension.currency)->minor : 0;
}

static void drop_zeros(char text[LML_NUMBER_TEXT])
{
    size_t end = strlen(text);
    if (!strchr(text, '.'))
        return;
    while (text[end - 1] == '0')
        end--;
    text[end - (text[end - 1] == '.')] = '\0';
}

/* The amount cut to six significant digits; false when it has no more, and is shown as it is. A sum
 * of short decimals is such a decimal again: 3.0 g less 0.90 g is 2.1 g, whatever the last bits of
 * the double say. */
static bool cut(const lml_value *v, lml_span amount, char out[LML_NUMBER_TEXT])
{
    static const double NOISE = 1e-11; /* of a few sums, with most of the figure taken away again */
    if (digits_of(amount) <= DIGITS)
        return false;
    double x = lml_write_in_unit(v), back = 0;
    int decimals = DIGITS - 1 - (int)floor(lml_real_log10(fabs(x))), least = least_decimals(v);
    lml_decimal_write_fixed(x, (lml_rational){1, 1}, decimals, LML_HALF_EVEN, out);
    lml_decimal d = {0};
    lml_decimal_read(lml_span_of(out), &d);
    back = lml_decimal_scale(&d, (lml_rational){1, 1});
    if (fabs(back - x) <= NOISE * fabs(x)) {
        drop_zeros(out);
        return true;
    }
    lml_rounding mode = v->kind == LML_FINENESS ? LML_FLOOR : LML_HALF_EVEN;
    do
        lml_decimal_write_fixed(x, (lml_rational){1, 1}, decimals < least ? least : decimals, mode,
                                out);
    while (digits_of(lml_span_of(out)) > DIGITS && decimals-- > least); /* 9.9999996 is 10.0000 */
    return true;
}

/* What was rounded to a step that is no short decimal of this unit: the step's zeros tell nothing.
 */
static bool cut_step(const lml_value *v, lml_span amount, char out[LML_NUMBER_TEXT])
{
    if (digits_of(amount) <= STEP_DIGITS || amount.length >= LML_NUMBER_TEXT)
        return false;
    memcpy(out, amount.at, amount.length);
    out[amount.length] = '\0';
    drop_zeros(out);
    return digits_of(lml_span_of(out)) <= STEP_DIGITS || cut(v, amount, out);
}

/* "7 h 34 min" for hours that six digits would cut, when they are whole minutes. */
static bool put_minutes(const lml_value *v, char out[LML_VALUE_TEXT])
{
    static const double NEAR = 1e-6, MOST = 1e6;
    double minutes = v->amount / 60.0, whole = round(minutes);
    if (!lml_unit_equal(v->unit, lml_unit_one(LML_U_H, 1)) || v->kind != LML_QUANTITY ||
        fabs(minutes - whole) > NEAR || fabs(whole) > MOST || fabs(whole) < 60)
        return false;
    int of = (int)fabs(whole);
    snprintf(out, LML_VALUE_TEXT, "%s%d h %d min", whole < 0 ? "-" : "", of / 60, of % 60);
    return true;
}

/* A text whose amount ends at `end`, with zeros up to the decimals that are always shown. */
static size_t pad(const lml_value *v, char out[LML_VALUE_TEXT], size_t end, size_t length)
{
    static const char zeros[] = ".0000";
    const char *point = memchr(out, '.', end);
    int missing = least_decimals(v) - (point ? (int)(out + end - point) - 1 : 0);
    if (missing <= 0 || memchr(out, 'e', end))
        return length;
    size_t count = (size_t)missing + !point;
    if (length + count >= LML_VALUE_TEXT)
        return length;
    memmove(out + end + count, out + end, length - end + 1);
    memcpy(out + end, zeros + !!point, count);
    return length + count;
}

/* A deviation that was calculated, to two significant digits, upwards: JCGM 100:2008, 7.2.6. */
static size_t cut_deviation(char out[LML_VALUE_TEXT], size_t length)
{
    static const char SIGN[] = "\302\261 ";
    char *at = strstr(out, SIGN), shorter[LML_NUMBER_TEXT];
    if (!at)
        return length;
    at += strlen(SIGN);
    const lml_span number = {at, strspn(at, "0123456789.")};
    lml_decimal d = {0};
    if (digits_of(number) <= DIGITS || !lml_decimal_read(number, &d))
        return length;
    double x = lml_decimal_scale(&d, (lml_rational){1, 1});
    lml_decimal_write_fixed(x, (lml_rational){1, 1}, 1 - (int)floor(lml_real_log10(x)), LML_CEILING,
                            shorter);
    size_t digits = strlen(shorter);
    memmove(at + digits, at + number.length, length - (size_t)(at - out) - number.length + 1);
    memcpy(at, shorter, digits);
    return length - number.length + digits;
}

size_t lml_show_shown(const lml_value *v, char out[LML_VALUE_TEXT])
{
    size_t length = lml_write_text(v, out), amount = strcspn(out, " ");
    if (v->kind == LML_MONEY)
        return put_commas(out, length);
    if (v->spread == LML_DEVIATION)
        return cut_deviation(out, length);
    char shorter[LML_NUMBER_TEXT];
    if (v->kind > LML_FINE_MASS || v->spread != LML_NO_SPREAD || memchr(out, 'e', amount) ||
        !(v->decimals == LML_SHORTEST ? cut : cut_step)(v, (lml_span){out, amount}, shorter))
        return pad(v, out, amount, length);
    if (v->decimals == LML_SHORTEST && put_minutes(v, out))
        return strlen(out);
    size_t digits = strlen(shorter);
    memmove(out + digits, out + amount, length - amount + 1);
    memcpy(out, shorter, digits);
    return pad(v, out, digits, length - amount + digits);
}

void lml_show_value(const lml_value *v, lml_builder *b)
{
    char text[LML_VALUE_TEXT];
    lml_builder_add(b, text, lml_show_shown(v, text));
}

static double size_of(lml_unit unit)
{
    lml_rational factor;
    return lml_unit_factor(unit, &factor, NULL) ? 0.0 : (double)factor.top / (double)factor.bottom;
}

/* The decimals of `v` in a unit of another size, by what instruments show: where the one reads to
 * 0.01 g or 0.01 mm, the other reads to 0.01 dwt or 0.001 in. */
static bool decimals_in(const lml_value *v, double was, double is, uint8_t *out)
{
    static const double COARSER = 2.6; /* an inch is 2.54 cm */
    double digits = ceil(v->decimals - lml_real_log10(COARSER * was / is) + 1e-9);
    if (digits > SURE)
        return false;
    *out = digits < 0 ? 0 : (uint8_t)digits;
    return true;
}

/* What somebody wrote in two digits is not printed with six because the unit is another: one digit
 * more than was written, and at least four. */
static lml_status cut_written(const lml_value *v, lml_value *out, lml_error *err)
{
    enum { LEAST = 4 };
    char text[LML_VALUE_TEXT];
    size_t length = lml_write_text(v, text), amount = strcspn(text, " ");
    int digits = digits_of((lml_span){text, amount < length ? amount : length}) + 1;
    double x = fabs(lml_write_in_unit(out));
    int decimals =
        (digits < LEAST ? LEAST : digits) - 1 - (x > 0 ? (int)floor(lml_real_log10(x)) : 0);
    if (x <= 0 || digits >= DIGITS || decimals < 0 || decimals > SURE || v->kind == LML_FINENESS ||
        v->kind == LML_FINENESS_DIFFERENCE || v->kind > LML_FINE_MASS)
        return LML_OK;
    lml_value there = *out;
    there.decimals = (uint8_t)decimals;
    lml_status status = lml_step_to_decimals(&there, LML_TO_NEAREST, out, err);
    out->decimals = LML_SHORTEST;
    return status;
}

lml_status lml_show_value_in(const lml_value *v, lml_span unit, lml_value *out, lml_error *err)
{
    lml_status status = lml_write_as(v, unit, out, err);
    if (status || lml_unit_equal(out->unit, v->unit))
        return status;
    if (v->decimals == LML_SHORTEST && v->spread == LML_NO_SPREAD)
        return cut_written(v, out, err);
    double was = size_of(v->unit), is = size_of(out->unit);
    if (v->decimals == LML_SHORTEST || was <= 0 || is <= 0 ||
        !decimals_in(v, was, is, &out->decimals) || v->toward == LML_TO_NEAREST)
        return LML_OK;
    lml_value there = *out;
    return lml_step_to_decimals(&there, (lml_direction)v->toward, out, err);
}
