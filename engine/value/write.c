#include "value/write.h"
#include "base/decimal.h"
#include "unit/currency.h"
#include "value/ending.h"
#include "value/moment.h"
#include "value/money.h"
#include "unit/unit_table.h"
#include "unit/amount.h"
#include <stdio.h>
#include <string.h>

/* SI = amount * factor + offset in the unit that is printed. */
typedef struct scale {
    lml_unit unit;
    lml_rational factor, offset;
} scale;

static lml_dimension dimension_of(const lml_value *v)
{
    switch ((lml_kind)v->kind) {
    case LML_TEMPERATURE:
        return (lml_dimension){.temperature = 1};
    case LML_FINE_MASS:
        return (lml_dimension){.mass = 1};
    case LML_QUANTITY:
    case LML_MONEY:
        return v->dimension;
    default:
        return (lml_dimension){0};
    }
}

/* Whether `u` can print `v`, and its scale. */
static bool scale_in(const lml_value *v, lml_unit u, scale *out)
{
    lml_dimension d, due = dimension_of(v);
    if (lml_unit_single(u)) { /* most are */
        const lml_unit_row *row = lml_unit_at(u.id[0]);
        d = row->dimension;
        d.currency = d.money ? due.currency : 0;
        if (!lml_dimension_equal(d, due) ||
            (row->sort == LML_UNIT_POINT) != (v->kind == LML_TEMPERATURE))
            return false;
        *out = (scale){u, row->factor, row->offset};
        return true;
    }
    if (v->kind == LML_TEMPERATURE)
        return false;
    scale s = {.unit = u, .offset = {0, 1}};
    if (lml_ending_is_water_ratio(u) && lml_dimension_none(due)) {
        /* A ratio of masses: a millilitre of water counts as a gram. */
        if (lml_unit_factor(u, &s.factor, NULL) != LML_OK ||
            lml_rational_mul(s.factor, (lml_rational){1000, 1}, &s.factor, NULL) != LML_OK)
            return false;
    } else if (lml_unit_dimension(u, due.currency, &d, NULL) != LML_OK ||
               !lml_dimension_equal(d, due) || lml_unit_factor(u, &s.factor, NULL) != LML_OK) {
        return false;
    }
    *out = s;
    return true;
}

/* The unit that a value of this kind prints in when its own cannot be used. */
static lml_unit fallback_unit(const lml_value *v)
{
    switch ((lml_kind)v->kind) {
    case LML_TEMPERATURE:
        return lml_unit_one(LML_U_DEGC, 1);
    case LML_FINENESS:
        return lml_unit_one(LML_U_PER_MILLE, 1);
    case LML_QUANTITY:
    case LML_FINE_MASS:
        return lml_unit_usual(dimension_of(v));
    default:
        return (lml_unit){0};
    }
}

static scale scale_of(const lml_value *v)
{
    scale s = {.factor = {1, 1}, .offset = {0, 1}};
    if (v->kind == LML_MONEY)
        s.unit = lml_unit_one(LML_UNIT_MONEY, 1);
    else if (v->kind == LML_FINENESS_DIFFERENCE)
        scale_in(v, lml_unit_one(LML_U_DELTA_PER_MILLE, 1), &s);
    else if (v->kind != LML_NUMBER &&
             ((lml_unit_none(v->unit) && v->kind == LML_FINENESS) || !scale_in(v, v->unit, &s)))
        scale_in(v, fallback_unit(v), &s);
    return s;
}

/* ---- numbers ---- */

static size_t write_si(double si, const scale *s, char out[LML_NUMBER_TEXT])
{
    return lml_amount_write(si, s->factor, s->offset, out);
}

static double read_back(const char *text)
{
    lml_decimal d = {0};
    lml_decimal_read(lml_span_of(text), &d);
    return lml_decimal_scale(&d, (lml_rational){1, 1});
}

/* Money with the places of its minor unit, more when it has more or was rounded to more. */
static size_t write_money(const lml_value *v, char out[LML_NUMBER_TEXT])
{
    int places = LML_MONEY_PLACES;
    int least = lml_currency_at(v->dimension.currency)->minor;
    if (v->decimals != LML_SHORTEST && v->decimals > least)
        least = v->decimals < places ? v->decimals : places;
    int64_t count = v->exact;
    for (; places > least && count % 10 == 0; places--)
        count /= 10;
    return lml_decimal_write_count(count, places, out);
}

static size_t write_middle(const lml_value *v, const scale *s, char out[LML_NUMBER_TEXT])
{
    if (v->kind == LML_MONEY)
        return write_money(v, out);
    if (v->decimals == LML_SHORTEST)
        return write_si(v->amount, s, out);
    if (s->offset.top == 0)
        return lml_decimal_write_fixed(v->amount, s->factor, v->decimals, LML_HALF_EVEN, out);
    write_si(v->amount, s, out);
    return lml_decimal_write_fixed(read_back(out), (lml_rational){1, 1}, v->decimals, LML_HALF_EVEN,
                                   out);
}

/* ---- whole values ---- */

/* A text in a fixed buffer; what does not fit is dropped. */
typedef struct line {
    char *out;
    size_t length, size;
} line;

static void put(line *l, const char *text)
{
    size_t n = strlen(text);
    if (n >= l->size - l->length)
        n = l->size - l->length - 1;
    memcpy(l->out + l->length, text, n);
    l->length += n;
    l->out[l->length] = '\0';
}

/* SI base units, for a dimension that no unit of four factors can say. */
static void put_base_units(line *l, lml_dimension d)
{
    const struct {
        const char *name;
        int power;
    } bases[] = {{lml_currency_at(d.currency)->code, d.money},
                 {"kg", d.mass},
                 {"m", d.length},
                 {"s", d.time},
                 {"K", d.temperature},
                 {"A", d.current}};
    bool first = true;
    for (size_t i = 0; i < sizeof bases / sizeof *bases; i++) {
        if (bases[i].power == 0)
            continue;
        char factor[16];
        snprintf(factor, sizeof factor, "%s%s^%d", first ? "" : "·", bases[i].name, bases[i].power);
        put(l, factor);
        first = false;
    }
}

static void put_unit(line *l, const lml_value *v, const scale *s)
{
    char unit[LML_UNIT_TEXT];
    if (lml_unit_none(s->unit)) {
        put_base_units(l, dimension_of(v));
        return;
    }
    lml_unit_write(s->unit, v->dimension.currency, unit);
    put(l, unit);
    bool karat = lml_unit_sort_of(s->unit) == LML_UNIT_KARAT;
    if (v->kind == LML_QUANTITY && v->mode)
        put(l, v->mode == LML_VACUUM ? " vac" : " abs");
    else if (v->metal && !karat) {
        put(l, " ");
        put(l, lml_metal_symbol((lml_metal)v->metal));
    }
}

/* The unit after a blank; nothing for a plain number. */
static void put_blank_unit(line *l, const lml_value *v, const scale *s)
{
    if (lml_unit_none(s->unit) && lml_dimension_none(dimension_of(v)))
        return;
    put(l, " ");
    put_unit(l, v, s);
}

/* " ± 0.1 g": in the value's unit, as a difference, without what follows a unit. */
static void put_deviation(line *l, const lml_value *v, const scale *s)
{
    scale plain = *s;
    plain.offset = (lml_rational){0, 1};
    if (v->kind == LML_TEMPERATURE)
        plain.unit = lml_unit_one(s->unit.id[0] == LML_U_DEGF ? LML_U_DELTA_F : LML_U_DELTA_C, 1);
    lml_value bare = *v;
    bare.mode = LML_NO_MODE;
    bare.metal = LML_NO_METAL;
    char number[LML_NUMBER_TEXT];
    write_si(v->low, &plain, number);
    put(l, " ± ");
    put(l, number);
    put_blank_unit(l, &bare, &plain);
}

static void put_amount(line *l, const lml_value *v, const scale *s)
{
    char number[LML_NUMBER_TEXT];
    if (v->spread == LML_BETWEEN) {
        write_si(v->low, s, number);
        put(l, number);
        put(l, "..");
        write_si(v->high, s, number);
    } else {
        write_middle(v, s, number);
    }
    put(l, number);
}

/* Two digits, after what comes before them: ":05". */
static void put_two(line *l, const char *before, int n)
{
    const char text[] = {(char)('0' + n / 10 % 10), (char)('0' + n % 10), '\0'};
    put(l, before);
    put(l, text);
}

static void put_clock(line *l, lml_civil c)
{
    put_two(l, "", c.hour);
    put_two(l, ":", c.minute);
    if (c.second)
        put_two(l, ":", c.second);
}

/* Moments, times of day and weekdays; false for all others. */
static bool put_calendar(line *l, const lml_value *v)
{
    if (v->kind == LML_WEEKDAY) {
        put(l, lml_moment_weekday_name((int)v->exact));
    } else if (v->kind == LML_TIME_OF_DAY || v->kind == LML_MOMENT) {
        lml_civil c = lml_moment_civil(v);
        if (v->kind == LML_MOMENT) {
            put_two(l, "", c.year / 100); /* years are 1 to 9999 */
            put_two(l, "", c.year % 100);
            put_two(l, "-", c.month);
            put_two(l, "-", c.day);
            if (v->mode == LML_DATE_ONLY)
                return true;
            put(l, "T");
        }
        put_clock(l, c);
    } else {
        return false;
    }
    return true;
}

static line line_on(char *out)
{
    out[0] = '\0';
    return (line){out, 0, LML_VALUE_TEXT};
}

size_t lml_write_text(const lml_value *v, char out[LML_VALUE_TEXT])
{
    line l = line_on(out);
    if (put_calendar(&l, v))
        return l.length;
    scale s = scale_of(v);
    put_amount(&l, v, &s);
    put_blank_unit(&l, v, &s);
    if (v->spread == LML_DEVIATION)
        put_deviation(&l, v, &s);
    return l.length;
}

void lml_write_value(const lml_value *v, lml_builder *b)
{
    char text[LML_VALUE_TEXT];
    lml_builder_add(b, text, lml_write_text(v, text));
}

void lml_write_amount(const lml_value *v, lml_builder *b)
{
    char text[LML_VALUE_TEXT];
    line l = line_on(text);
    if (!put_calendar(&l, v)) {
        lml_value middle = *v;
        middle.spread = LML_NO_SPREAD;
        scale s = scale_of(v);
        put_amount(&l, &middle, &s);
    }
    lml_builder_add(b, text, l.length);
}

void lml_write_unit(const lml_value *v, lml_builder *b)
{
    if (v->kind == LML_MOMENT || v->kind == LML_TIME_OF_DAY || v->kind == LML_WEEKDAY)
        return;
    char text[LML_VALUE_TEXT];
    line l = line_on(text);
    scale s = scale_of(v);
    put_unit(&l, v, &s);
    lml_builder_add(b, text, l.length);
}

/* The double of what is printed, so that text and figure agree. */
static double in_scale(double si, const scale *s)
{
    char number[LML_NUMBER_TEXT];
    lml_decimal d;
    if (lml_amount_shortest(si, s->factor, s->offset, &d))
        return lml_decimal_scale(&d, (lml_rational){1, 1});
    write_si(si, s, number);
    return read_back(number);
}

/* Whether no other decimal as short reads as the same double: C11 5.2.4.2.2, DBL_DIG, far from the
 * ends of a double's range. */
static bool is_told_apart(const lml_decimal *d)
{
    static const lml_u128 DIGITS = 1000000000000000;
    enum { FAR = 280 };
    return d->digits < DIGITS && d->exponent > -FAR && d->exponent < FAR;
}

size_t lml_write_number(const lml_value *v, char out[LML_VALUE_TEXT])
{
    bool scaled = v->kind == LML_QUANTITY || v->kind == LML_FINE_MASS || v->kind == LML_FINENESS ||
                  v->kind == LML_FINENESS_DIFFERENCE;
    lml_decimal d;
    if (scaled) {
        scale s = scale_of(v);
        if (s.offset.top == 0 && lml_decimal_shortest(v->amount, s.factor, &d) && is_told_apart(&d))
            return lml_decimal_write(&d, out);
    }
    return lml_decimal_write_double(lml_write_in_unit(v), out);
}

double lml_write_read_number(const lml_value *v)
{
    lml_decimal d;
    scale s = scale_of(v);
    if (v->amount == 0 && s.offset.top == 0)
        return 0; /* without its sign */
    if (v->kind == LML_NUMBER ||
        (s.offset.top == 0 && lml_decimal_shortest(v->amount, s.factor, &d) && is_told_apart(&d)))
        return v->amount;
    char text[LML_VALUE_TEXT];
    lml_amount a = {.bottom = 1};
    lml_write_number(v, text);
    lml_decimal_read(lml_span_of(text), &a.decimal);
    return lml_amount_scale(&a, s.factor, s.offset);
}

double lml_write_in_unit(const lml_value *v)
{
    switch ((lml_kind)v->kind) {
    case LML_NUMBER:
        return v->amount;
    case LML_MOMENT:
    case LML_TIME_OF_DAY:
    case LML_WEEKDAY:
        return (double)v->exact;
    case LML_MONEY:
        return (double)v->exact / LML_MONEY_ONE;
    default:
        break;
    }
    scale s = scale_of(v);
    return in_scale(v->amount, &s);
}

/* A unit of one word of the table, and a value of the kind that is written in it. */
static bool one_word(const lml_value *v, lml_span unit, scale *out)
{
    unsigned id = v->unit.id[0];
    bool own = id != 0 && id < LML_U_COUNT && lml_span_is(unit, lml_unit_at(id)->name);
    if (!own)
        id = lml_unit_table_find(unit);
    const lml_unit_row *row = lml_unit_at(id);
    if (id >= LML_U_COUNT || id == LML_U_K || id == LML_U_HUNDRED_G ||
        (id == LML_U_DELTA_PER_MILLE) != (v->kind == LML_FINENESS_DIFFERENCE) ||
        !lml_dimension_equal(row->dimension, dimension_of(v)))
        return false;
    *out = (scale){.factor = row->factor, .offset = row->offset};
    switch ((lml_kind)v->kind) {
    case LML_QUANTITY:
    case LML_FINE_MASS:
        return row->sort == LML_UNIT_PLAIN || row->sort == LML_UNIT_RATIO;
    case LML_FINENESS:
    case LML_FINENESS_DIFFERENCE:
        return row->sort == LML_UNIT_RATIO;
    case LML_TEMPERATURE:
        return row->sort == LML_UNIT_POINT;
    default:
        return false;
    }
}

lml_status lml_write_number_in(const lml_value *v, lml_span unit, double *out, lml_error *err)
{
    scale s;
    lml_value in_unit;
    if (one_word(v, unit, &s)) {
        *out = in_scale(v->amount, &s);
        return LML_OK;
    }
    lml_status status = lml_write_as(v, unit, &in_unit, err);
    if (status == LML_OK)
        *out = lml_write_in_unit(&in_unit);
    return status;
}

void lml_write_spread_in_unit(const lml_value *v, double *low, double *high)
{
    scale s = scale_of(v);
    if (v->spread == LML_DEVIATION)
        s.offset = (lml_rational){0, 1};
    if (v->spread != LML_NO_SPREAD)
        *low = in_scale(v->low, &s);
    if (v->spread == LML_BETWEEN)
        *high = in_scale(v->high, &s);
}

/* ---- another unit ---- */

static lml_status refuse_as(const lml_value *v, lml_span unit, const char *hint, lml_error *err)
{
    char text[LML_VALUE_TEXT], what[80];
    if (!err)
        return LML_MISMATCH;
    lml_write_text(v, text);
    lml_fail(err, LML_MISMATCH, "%s is %s and cannot be written in %.*s", text,
             lml_value_what(v, what, sizeof what), (int)unit.length, unit.at);
    lml_error_hint(err, "%s", hint);
    return LML_MISMATCH;
}

lml_status lml_write_as(const lml_value *v, lml_span unit, lml_value *out, lml_error *err)
{
    lml_ending end = lml_ending_of(unit);
    lml_unit u;
    lml_dimension d;
    lml_status s = lml_unit_read(end.unit, &u, &d, err);
    if (s != LML_OK)
        return s;
    lml_unit_sort sort = lml_unit_sort_of(u);
    if ((end.mode && end.mode != v->mode) || (end.metal && end.metal != v->metal))
        return refuse_as(v, unit, "the unit may change here, but not the kind of quantity", err);
    bool difference = u.id[0] == LML_U_DELTA_PER_MILLE;
    bool fits = difference == (v->kind == LML_FINENESS_DIFFERENCE);
    const char *hint = "use another unit of the same kind";
    switch ((lml_kind)v->kind) {
    case LML_FINENESS:
        fits &= sort == LML_UNIT_RATIO || (sort == LML_UNIT_KARAT && v->metal == LML_Au);
        hint = "a fineness is written in ‰, % or, for gold, kt";
        break;
    case LML_FINENESS_DIFFERENCE:
        hint = "a fineness difference is written in Δ‰";
        break;
    case LML_TEMPERATURE:
        fits = sort == LML_UNIT_POINT;
        hint = "a temperature is written in °C, °F or kelvin";
        break;
    case LML_QUANTITY:
    case LML_FINE_MASS:
        fits &= sort != LML_UNIT_POINT && sort != LML_UNIT_KARAT;
        if (sort == LML_UNIT_POINT && v->dimension.temperature)
            hint = "a difference is written in Δ°C or Δ°F";
        break;
    case LML_MONEY:
        fits = sort == LML_UNIT_CURRENCY;
        hint = "convert a currency at a rate you state";
        break;
    default:
        fits = false;
    }
    scale scaled;
    if (!fits || d.currency != dimension_of(v).currency || !scale_in(v, u, &scaled))
        return refuse_as(v, unit, hint, err);
    *out = *v;
    out->unit = u;
    if (!lml_unit_equal(u, v->unit))
        out->decimals = LML_SHORTEST;
    return LML_OK;
}
