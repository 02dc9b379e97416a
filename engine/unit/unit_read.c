/* The reader of units: factors, at most one slash, powers. */
#include "unit/currency.h"
#include "unit/unit_table.h"
#include "unit/unit_read.h"
#include "unit/unit_refuse.h"
#include <string.h>

typedef struct reading {
    lml_span whole, part; /* the text that labels show, and the unit in it */
    const char *at, *end;
    const lml_amount *amount;
    lml_unit unit;
    int count;
    uint16_t currency;
    lml_error *err;
} reading;

static lml_span rest(const reading *r)
{
    return lml_span_between(r->at, r->end);
}

static void skip_blanks(reading *r)
{
    while (r->at < r->end && (*r->at == ' ' || *r->at == '\t'))
        r->at++;
}

/* The multiplication sign at the start of `text`: its bytes, or 0. */
static size_t times_sign(lml_span text)
{
    if (lml_span_starts(text, "*"))
        return 1;
    if (lml_span_starts(text, "·"))
        return strlen("·");
    return lml_span_starts(text, "⋅") ? strlen("⋅") : 0;
}

static bool ends_word(lml_span text)
{
    return text.length == 0 || strchr(" \t/()^", *text.at) || times_sign(text) ||
           lml_span_starts(text, "²") || lml_span_starts(text, "³");
}

static lml_span take_word(reading *r)
{
    const char *from = r->at;
    while (!ends_word(rest(r)))
        r->at++;
    return lml_span_between(from, r->at);
}

static lml_status refuse(const reading *r, lml_span part, const char *note, const char *message,
                         const char *hint)
{
    lml_fail(r->err, LML_BAD_VALUE, "%s", message);
    lml_error_hint(r->err, "%s", hint);
    lml_error_label_part(r->err, r->whole, part, note);
    return LML_BAD_VALUE;
}

/* An optional power after a factor. */
static lml_status read_power(reading *r, int *power)
{
    *power = 1;
    lml_span text = rest(r);
    for (int p = 2; p <= 3; p++)
        if (lml_span_starts(text, p == 2 ? "²" : "³")) {
            r->at += strlen("²");
            *power = p;
            return LML_OK;
        }
    if (!lml_span_starts(text, "^"))
        return LML_OK;
    const char *from = r->at++;
    int sign = r->at < r->end && *r->at == '-' ? -1 : 1;
    if (sign < 0)
        r->at++;
    bool digit = r->at < r->end && *r->at >= '1' && *r->at <= '9';
    if (digit)
        *power = sign * (*r->at++ - '0');
    if (!digit || !ends_word(rest(r)))
        return refuse(r, lml_span_between(from, r->at), "power",
                      "a power of a unit is a whole number from 1 to 9",
                      "write it like cm^3 or cm³");
    return LML_OK;
}

static lml_status add_factor(reading *r, unsigned id, int power, lml_span word)
{
    int size = power < 0 ? -power : power;
    unsigned whole = lml_unit_table_with_power(id, size);
    if (whole < LML_U_COUNT) {
        id = whole;
        power /= size;
    }
    if (r->count == LML_UNIT_FACTORS)
        return refuse(r, word, "one too many", "a unit has at most four factors",
                      "combine units first: W for J/s, mL for cm3");
    r->unit.id[r->count] = (uint8_t)id;
    r->unit.power[r->count++] = (int8_t)power;
    return LML_OK;
}

static lml_status read_factor(reading *r, int sign, bool grouped)
{
    skip_blanks(r);
    const char *from = r->at;
    lml_span word = take_word(r);
    unsigned id = LML_U_COUNT;
    if (word.length == 0)
        return refuse(r, rest(r), "a unit is missing here", "a unit is missing",
                      "write a unit on both sides of *, · and /, as in g/cm3");
    if (*word.at >= '0' && *word.at <= '9') {
        skip_blanks(r);
        lml_span second = take_word(r);
        if (!(sign < 0 && grouped && lml_span_is(word, "100") && lml_span_is(second, "g")))
            return refuse(r, lml_span_between(from, r->at), "a number inside a unit",
                          "there is a number inside the unit",
                          "only 100 g in parentheses is allowed there, as in 40 mL/(100 g)");
        id = LML_U_HUNDRED_G;
    } else {
        id = lml_unit_table_find(word);
    }
    if (id == LML_U_COUNT) {
        uint16_t currency = lml_currency_by_code(word);
        lml_status s =
            lml_unit_refuse_ambiguous(r->whole, word, sign > 0 ? r->amount : NULL, r->err);
        if (s != LML_OK)
            return s;
        if (currency == 0)
            return lml_unit_refuse_unknown(r->whole, r->part, word, r->err);
        if (r->currency && r->currency != currency)
            return refuse(r, word, "a second currency", "there are two currencies in one unit",
                          "write one currency per value");
        r->currency = currency;
        id = LML_UNIT_MONEY;
    }
    int power;
    lml_status s = read_power(r, &power);
    return s == LML_OK ? add_factor(r, id, sign * power, word) : s;
}

/* factor { times factor }. `grouped` inside parentheses, where the product ends at ")". */
static lml_status read_product(reading *r, int sign, bool grouped)
{
    for (;;) {
        lml_status s = read_factor(r, sign, grouped);
        if (s != LML_OK)
            return s;
        skip_blanks(r);
        size_t n = times_sign(rest(r));
        if (n == 0)
            return LML_OK;
        r->at += n;
    }
}

static lml_status refuse_loose_denominator(const reading *r, lml_span above, lml_span below)
{
    size_t n = times_sign(rest(r));
    lml_span next = lml_span_trim((lml_span){r->at + n, (size_t)(r->end - r->at) - n});
    lml_fail(r->err, LML_BAD_VALUE,
             "\"%.*s/%.*s·%.*s\" could be %.*s/(%.*s·%.*s) or %.*s·%.*s/%.*s",
             LML_SPAN_SHOWN(above), LML_SPAN_SHOWN(below), LML_SPAN_SHOWN(next),
             LML_SPAN_SHOWN(above), LML_SPAN_SHOWN(below), LML_SPAN_SHOWN(next),
             LML_SPAN_SHOWN(above), LML_SPAN_SHOWN(next), LML_SPAN_SHOWN(below));
    lml_error_hint(r->err, "put a denominator of several factors in parentheses: %.*s/(%.*s·%.*s)",
                   LML_SPAN_SHOWN(above), LML_SPAN_SHOWN(below), LML_SPAN_SHOWN(next));
    lml_error_label_part(r->err, r->whole, rest(r), "above or below the slash?");
    return LML_BAD_VALUE;
}

static lml_status read_denominator(reading *r, lml_span above)
{
    skip_blanks(r);
    const char *from = r->at;
    bool grouped = r->at < r->end && *r->at == '(';
    lml_status s;
    if (grouped) {
        r->at++;
        s = read_product(r, -1, true);
        if (s != LML_OK)
            return s;
        if (r->at == r->end || *r->at != ')')
            return refuse(r, lml_span_between(from, r->at), "not closed",
                          "a parenthesis is not closed",
                          "write it like J/(g·K): one pair, no slash inside");
        r->at++;
    } else {
        s = read_factor(r, -1, false);
        if (s != LML_OK)
            return s;
    }
    lml_span below = lml_span_between(from, r->at);
    skip_blanks(r);
    if (r->at < r->end && times_sign(rest(r)))
        return refuse_loose_denominator(r, above, below);
    if (r->at < r->end && *r->at == '/') {
        lml_span next = lml_span_trim((lml_span){r->at + 1, (size_t)(r->end - r->at) - 1});
        lml_fail(r->err, LML_BAD_VALUE, "a unit has one slash at most");
        lml_error_hint(r->err, "write %.*s/(%.*s·%.*s) if both are below it", LML_SPAN_SHOWN(above),
                       LML_SPAN_SHOWN(below), LML_SPAN_SHOWN(next));
        lml_error_label_part(r->err, r->whole, (lml_span){r->at, 1}, "a second slash");
        return LML_BAD_VALUE;
    }
    return LML_OK;
}

/* What may only be used alone, and what may not. */
static lml_status check_factors(reading *r, lml_span part)
{
    bool single = r->count == 1 && r->unit.power[0] == 1;
    if (single && r->unit.id[0] == LML_U_K)
        return lml_unit_refuse_kelvin(r->whole, part, r->amount, r->err);
    for (int i = 0; i < r->count && !single; i++) {
        const lml_unit_row *row = lml_unit_at(r->unit.id[i]);
        if (row->sort == LML_UNIT_POINT) {
            /* No point has a rate: 5 °C/min is five degrees of difference a minute. */
            r->unit.id[i] = row->factor.bottom == 9 ? LML_U_DELTA_F : LML_U_DELTA_C;
            continue;
        }
        if (row->sort == LML_UNIT_KARAT || r->unit.id[i] == LML_U_DELTA_PER_MILLE)
            return refuse(r, part, "a fineness in a compound",
                          "a fineness cannot be inside a compound unit",
                          "multiply a fineness by a mass to get the fine mass");
    }
    return LML_OK;
}

lml_status lml_unit_read_part(lml_span whole, lml_span part, const lml_amount *amount,
                              lml_unit *out, lml_dimension *dimension, lml_error *err)
{
    part = lml_span_trim(part);
    /* Usually it is just a unit of the table. */
    unsigned id = memchr(part.at, '/', part.length) ? LML_U_COUNT : lml_unit_table_find(part);
    if (id < LML_U_COUNT && id != LML_U_K) {
        *out = lml_unit_one(id, 1);
        *dimension = lml_unit_at(id)->dimension;
        return LML_OK;
    }
    reading r = {.whole = whole,
                 .part = part,
                 .at = part.at,
                 .end = part.at + part.length,
                 .amount = amount,
                 .err = err};
    lml_status s = LML_OK;
    if (lml_span_starts(part, "1/"))
        r.at++;
    else
        s = read_product(&r, 1, false);
    if (s != LML_OK)
        return s;
    if (r.at < r.end && *r.at == '/') {
        lml_span above = lml_span_trim(lml_span_between(part.at, r.at));
        r.at++;
        s = read_denominator(&r, above);
        if (s != LML_OK)
            return s;
    }
    if (r.at < r.end)
        return refuse(&r, rest(&r), "not understood", "there is something after the unit",
                      "the whole text must be one value with one unit");
    s = check_factors(&r, part);
    lml_dimension d;
    if (s == LML_OK)
        s = lml_unit_dimension(r.unit, r.currency, &d, err);
    if (s != LML_OK)
        return s;
    *out = r.unit;
    *dimension = d;
    return LML_OK;
}

lml_status lml_unit_read(lml_span text, lml_unit *out, lml_dimension *dimension, lml_error *err)
{
    return lml_unit_read_part(text, text, NULL, out, dimension, err);
}
