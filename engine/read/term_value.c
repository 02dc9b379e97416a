/* The amount of a value: alone, as a range, or with a deviation. */
#include "value/money.h"
#include "value/point.h"
#include "read/term.h"
#include "unit/unit_table.h"
#include <math.h>

static const lml_rational none = {0, 1};

static lml_status refuse_size(const lml_reading *r, const lml_amount *a)
{
    lml_fail(r->err, LML_OVERFLOW, "%.*s is out of range", LML_SPAN_SHOWN(a->text));
    lml_error_hint(r->err, "check the exponent");
    lml_error_label_part(r->err, r->whole, a->text, "too large or too small");
    return LML_OVERFLOW;
}

/* The amount in SI, which must be finite and may be zero only when it was written so. */
static lml_status scale(const lml_reading *r, const lml_amount *a, lml_rational factor,
                        lml_rational offset, double *out)
{
    double x = lml_amount_scale(a, factor, offset);
    if (!isfinite(x) || (x == 0 && offset.top == 0 && a->decimal.digits))
        return refuse_size(r, a);
    *out = x;
    return LML_OK;
}

lml_status lml_term_money(const lml_reading *r, const lml_amount *a, int64_t *out)
{
    int64_t count = 0;
    lml_status s = LML_BAD_VALUE;
    if (a->bottom == 1) {
        s = lml_decimal_fixed(&a->decimal, LML_MONEY_PLACES, &count, NULL);
    } else {
        /* A fraction has 9 digits and a whole part of 9 more at most. */
        lml_u128 rest,
            whole = lml_wide_divide(a->decimal.digits * LML_MONEY_ONE, (uint64_t)a->bottom, &rest);
        if (whole > INT64_MAX)
            s = LML_OVERFLOW;
        else if (rest == 0)
            s = LML_OK;
        count = (int64_t)whole;
        count = a->decimal.negative ? -count : count;
    }
    if (s == LML_OVERFLOW)
        return refuse_size(r, a);
    if (s != LML_OK)
        return lml_reading_refuse(r, a->text, "too fine", "money is exact to six decimals",
                                  "round the amount to six decimals or fewer");
    *out = count;
    return LML_OK;
}

static lml_status check_range(const lml_reading *r, const lml_value *v, double si, lml_span part)
{
    if (v->kind == LML_TEMPERATURE && si < 0)
        return lml_reading_refuse(r, part, "too cold", "this temperature is below absolute zero",
                                  "nothing is colder than -273.15 °C; a difference is written "
                                  "with Δ");
    if (v->kind == LML_TEMPERATURE && si > LML_HOTTEST)
        return lml_reading_refuse(r, part, "too hot", "this temperature is out of range",
                                  "check the exponent");
    if (v->kind == LML_QUANTITY && v->mode == LML_ABSOLUTE && si < 0)
        return lml_reading_refuse(r, part, "negative", "an absolute pressure cannot be negative",
                                  "a vacuum is written as 21.5 inHg vac");
    if (v->kind == LML_FINENESS && (si < 0 || si > 1))
        return lml_reading_refuse(r, part, "out of range", "a fineness is between 0 ‰ and 1000 ‰",
                                  si > 1 ? "nothing contains more than 1000 ‰, or 24 kt, of a metal"
                                         : "a fineness is never negative");
    return LML_OK;
}

lml_status lml_term_single(const lml_reading *r, const lml_term *t, lml_value *v)
{
    if (v->kind == LML_MONEY)
        return lml_term_money(r, &t->amount, &v->exact);
    double si = 0;
    lml_status s = scale(r, &t->amount, t->factor, t->offset, &si);
    s = s ? s : check_range(r, v, si, t->amount.text);
    if (s == LML_OK)
        v->amount = si;
    return s;
}

/* The amount half way between two ends as they print, exactly; false when they lie too far apart
 * for 128 bits. It depends on the ends alone, so that a range that is written and read again has
 * the same middle. */
static bool half_way(double low, double high, const lml_term *t, lml_amount *out)
{
    const double ends[2] = {low, high};
    lml_decimal d[2] = {0};
    for (int i = 0; i < 2; i++) {
        char text[LML_NUMBER_TEXT];
        lml_amount_write(ends[i], t->factor, t->offset, text);
        lml_decimal_read(lml_span_of(text), &d[i]);
    }
    int least = d[0].exponent < d[1].exponent ? d[0].exponent : d[1].exponent;
    lml_i128 sum = 0;
    for (int i = 0; i < 2; i++) {
        if (d[i].digits >> 64 || d[i].exponent - least > 17)
            return false;
        lml_i128 digits = (lml_i128)d[i].digits;
        for (int e = least; e < d[i].exponent; e++)
            digits *= 10;
        sum += d[i].negative ? -digits : digits;
    }
    *out = (lml_amount){.decimal = {.negative = sum < 0,
                                    .digits = (lml_u128)(sum < 0 ? -sum : sum),
                                    .exponent = least},
                        .bottom = 2};
    return true;
}

static lml_status refuse_upside_down(const lml_reading *r, const lml_term *from, const lml_term *to)
{
    lml_span low = from->amount.text, high = to->amount.text, unit = to->ending.unit;
    lml_fail(r->err, LML_BAD_VALUE, "the range is the wrong way round: %.*s is more than %.*s",
             LML_SPAN_SHOWN(low), LML_SPAN_SHOWN(high));
    lml_error_hint(r->err, "write %.*s..%.*s%s%.*s", LML_SPAN_SHOWN(high), LML_SPAN_SHOWN(low),
                   unit.length ? " " : "", LML_SPAN_SHOWN(unit));
    lml_error_label_part(r->err, r->whole, low, "the larger one");
    return LML_BAD_VALUE;
}

lml_status lml_term_between(const lml_reading *r, const lml_term *low, const lml_term *high,
                            lml_value *v)
{
    double from = 0, to = 0;
    lml_status s = scale(r, &low->amount, low->factor, low->offset, &from);
    s = s ? s : scale(r, &high->amount, high->factor, high->offset, &to);
    s = s ? s : check_range(r, v, from, low->amount.text);
    s = s ? s : check_range(r, v, to, high->amount.text);
    if (s != LML_OK)
        return s;
    if (from > to)
        return refuse_upside_down(r, low, high);
    lml_amount middle;
    bool exact = half_way(from, to, low, &middle);
    if (v->kind == LML_MONEY) {
        s = lml_term_money(r, &low->amount, &v->exact);
        s = s ? s : lml_term_money(r, &high->amount, &v->exact);
        if (s != LML_OK)
            return s;
        const lml_rational one = {LML_MONEY_ONE, 1};
        double count =
            exact ? lml_amount_scale(&middle, one, none) : (from / 2 + to / 2) * LML_MONEY_ONE;
        if (fabs(count) > 9e15) /* beyond what a double counts exactly */
            return refuse_size(r, &high->amount);
        v->exact = (int64_t)nearbyint(count);
    } else {
        v->amount = exact ? lml_amount_scale(&middle, low->factor, low->offset) : from / 2 + to / 2;
    }
    v->spread = LML_BETWEEN;
    v->low = from;
    v->high = to;
    return LML_OK;
}

/* Whether `t` can be the deviation of `v`, of which `dimension` was written. A temperature spreads
 * by a difference, which its own degrees say too. */
static bool spreads(const lml_value *v, const lml_term *t, lml_dimension dimension)
{
    lml_unit_sort sort = lml_unit_sort_of(t->unit);
    const lml_ending *end = &t->ending;
    if ((end->unit.length == 0) != (v->kind == LML_NUMBER))
        return false;
    if ((end->mode && end->mode != v->mode) || (end->metal && end->metal != v->metal))
        return false;
    if ((sort == LML_UNIT_POINT && v->kind != LML_TEMPERATURE) ||
        (sort == LML_UNIT_KARAT && v->kind != LML_FINENESS))
        return false;
    return lml_dimension_equal(t->dimension, dimension);
}

lml_status lml_term_deviation(const lml_reading *r, const lml_term *t, const lml_term *deviation,
                              lml_value *v)
{
    const lml_ending *end = &deviation->ending;
    lml_span part = lml_span_between(deviation->amount.text.at, end->word.at + end->word.length);
    if (!spreads(v, deviation, t->dimension))
        return lml_reading_refuse(r, part, "another kind",
                                  "a spread must be of the same kind as its value",
                                  "write both with their units: 12.4 g ± 0.1 g");
    double size = 0;
    lml_status s = scale(r, &deviation->amount, deviation->factor, none, &size);
    s = s ? s : lml_term_single(r, t, v);
    if (s != LML_OK)
        return s;
    if (size < 0)
        return lml_reading_refuse(r, part, "negative", "a spread cannot be negative",
                                  "write the standard deviation without a sign");
    v->spread = LML_DEVIATION;
    v->low = size;
    return LML_OK;
}
