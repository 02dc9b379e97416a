/* An example of every shape: what a hint shows, the same shape takes. */
#include "file/ring_size.h"
#include "file/shape.h"
#include "value/show.h"
#include "value/value.h"
#include "unit/currency.h"
#include "value/wanted.h"
#include "read/read.h"
#include "value/compare.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Whether an example is on the wrong side of a bound. */
static bool beyond(const lml_shape *s, const char *text, const char *bound, int side)
{
    lml_value limit, example;
    int order = 0;
    return bound &&
           lml_read_value(lml_span_of(bound), s->wanted, s->metal, &limit, NULL) == LML_OK &&
           lml_read_value(lml_span_of(text), s->wanted, s->metal, &example, NULL) == LML_OK &&
           lml_compare(&example, &limit, &order, NULL) == LML_OK && order * side > 0;
}

const char *lml_shape_example(const lml_shape *s)
{
    if (s->example)
        return s->example;
    if (s->wanted == LML_WANT_CHOICE && s->choices && s->choices[0])
        return s->choices[0];
    const char *usual = lml_wanted_example(s->wanted);
    bool below = beyond(s, usual, s->from, -1), above = beyond(s, usual, s->to, 1);
    if ((below || above) && s->default_text) /* nearer to what is usual than a bound */
        return s->default_text;
    return below ? s->from : above ? s->to : usual;
}

/* ---- as the house writes it ---- */

/* All codes have three letters, so that the text keeps its length. */
static void put_currency(lml_span code, char *example)
{
    enum { LETTERS = 3 };
    if (code.length != LETTERS || !lml_currency_by_code(code))
        return;
    for (char *at = strchr(example, ' '); at; at = strchr(at + 1, ' '))
        if (strlen(at) > LETTERS && lml_currency_by_code((lml_span){at + 1, LETTERS}) &&
            !lml_ascii_is_name((unsigned char)at[1 + LETTERS]))
            memcpy(at + 1, code.at, LETTERS);
}

/* The units that examples are written in, and what the house's own is called for such a value. */
static const struct turn {
    const char *unit, *kind;
    lml_wanted wanted;
    const char *before, *behind; /* of the house's unit */
} turns[] = {{"g", "mass", LML_WANT_MASS, "", ""},
             {"mm", "length", LML_WANT_LENGTH, "", ""},
             {"°C", "temperature", LML_WANT_TEMPERATURE, "", ""},
             {"Δ°C", "temperature", LML_WANT_TEMPERATURE_DIFFERENCE, "Δ", ""},
             {"Δ°C/min", "temperature", LML_WANT_RATE, "Δ", "/min"},
             {"inHg vac", "vacuum", LML_WANT_VACUUM, "", " vac"}};

/* An example is no conversion: as few as keep it within its bounds, a choice of ours. */
enum { DIGITS_LEAST = 2, DIGITS_MOST = 6 };

/* To so many digits, without the zeros at its end. No locale has a say in them. */
static void put_rounded(double amount, int many, char *out, size_t size)
{
    enum { PLACES_MOST = 8 };
    int zeros = 0, places = 0;
    long scale = 1, least = 1;
    for (int i = 1; i < many; i++)
        least *= 10;
    for (; amount >= (double)least * 10 - 0.5; amount /= 10)
        zeros++;
    for (; amount < (double)least - 0.05 && places < PLACES_MOST; amount *= 10) {
        places++;
        scale *= 10;
    }
    long digits = (long)round(amount);
    for (; places > 0 && digits % 10 == 0; places--) {
        digits /= 10;
        scale /= 10;
    }
    if (places > 0)
        snprintf(out, size, "%ld.%0*ld", digits / scale, places, digits % scale);
    else
        snprintf(out, size, "%ld%.*s", digits, zeros, "00000000");
}

static bool within(const lml_shape *s, const char *text)
{
    return !s || (!beyond(s, text, s->from, -1) && !beyond(s, text, s->to, 1));
}

/* The figure and unit in the house's unit; false where it stays as it is. A scale's division of
 * hundredths is one in pennyweights too. To more digits where the rounded one is not `within`. */
static bool turn(const lml_json *house, const lml_shape *bounds, lml_span figure, lml_span unit,
                 char *out, size_t size)
{
    char text[40], own[40], number[40];
    lml_value v, shown;
    const struct turn *t = NULL;
    for (size_t i = 0; i < sizeof turns / sizeof *turns && !t; i++)
        t = lml_span_is(unit, turns[i].unit) ? &turns[i] : NULL;
    lml_span named = t ? lml_json_text(lml_json_member(lml_json_member(house, "units"), t->kind))
                       : (lml_span){"", 0};
    if (named.length == 0)
        return false;
    snprintf(own, sizeof own, "%s%.*s%s", t->before, LML_SPAN_SHOWN(named), t->behind);
    snprintf(text, sizeof text, "%.*s %.*s", LML_SPAN_SHOWN(figure), LML_SPAN_SHOWN(unit));
    if (strcmp(own, t->unit) == 0 ||
        lml_read_value(lml_span_of(text), t->wanted, LML_NO_METAL, &v, NULL) != LML_OK ||
        lml_show_value_in(&v, lml_span_of(own), &shown, NULL) != LML_OK)
        return false;
    double amount = lml_write_in_unit(&shown);
    if (amount <= 0 || amount >= 1e6)
        return false;
    if (lml_write_in_unit(&v) < 0.1 && strcmp(own, "dwt") == 0) {
        snprintf(out, size, "%.*s %s", LML_SPAN_SHOWN(figure), own);
        if (within(bounds, out))
            return true;
    }
    for (int many = DIGITS_LEAST; many <= DIGITS_MOST; many++) {
        put_rounded(amount, many, number, sizeof number);
        snprintf(out, size, "%s %s", number, own);
        if (within(bounds, out))
            return true;
    }
    return false;
}

/* The figure at `at`, and the unit behind it; both empty where there is none. */
static void cut_figure(const char *at, lml_span *figure, lml_span *unit)
{
    const char *end = at;
    while (lml_ascii_is_digit(*end) || (*end == '.' && end > at))
        end++;
    *figure = *unit = (lml_span){"", 0};
    if (end == at || *end != ' ')
        return;
    *figure = lml_span_between(at, end);
    size_t length = strcspn(end + 1, " \",)]}");
    *unit = (lml_span){end + 1, length};
    if (strncmp(end + 1 + length, " vac", 4) == 0)
        unit->length += 4;
    if (unit->at[unit->length] == ' ' &&
        lml_ascii_is_name((unsigned char)unit->at[unit->length + 1]))
        *figure = *unit = (lml_span){"", 0}; /* "7.5 g Au" */
}

void lml_shape_example_in(const lml_json *house, const lml_shape *bounds, char *example,
                          size_t size)
{
    char out[LML_EXAMPLE_TEXT], own[80];
    size_t used = 0;
    put_currency(lml_json_currency(house), example);
    const char *own_size = lml_ring_size_example(house);
    if (own_size && strcmp(example, lml_wanted_example(LML_WANT_RING_SIZE)) == 0)
        snprintf(example, size, "%s", own_size);
    for (const char *at = example; *at;) {
        lml_span figure, unit;
        bool starts = at == example || strchr(" \"", at[-1]);
        cut_figure(at, &figure, &unit);
        bool turned =
            starts && figure.length > 0 && turn(house, bounds, figure, unit, own, sizeof own);
        lml_span next = turned ? lml_span_of(own) : (lml_span){at, 1};
        if (used + next.length >= sizeof out)
            return;
        memcpy(out + used, next.at, next.length);
        used += next.length;
        at = turned ? unit.at + unit.length : at + 1;
    }
    out[used] = '\0';
    if (used < size)
        memcpy(example, out, used + 1);
}

/* A text that is cut at the end of the room; `used` counts on. */
typedef struct paper {
    const lml_json *house;
    char *out;
    size_t size, used;
} paper;

static void put(paper *p, const char *text)
{
    size_t length = strlen(text);
    if (p->used + length < p->size)
        memcpy(p->out + p->used, text, length + 1);
    p->used += length;
}

static void put_quoted(paper *p, const char *text)
{
    char one[3] = {0};
    put(p, "\"");
    for (; *text; text++) {
        one[0] = *text == '"' || *text == '\\' ? '\\' : *text;
        one[1] = one[0] == *text && *text != '\\' ? '\0' : *text;
        put(p, one);
    }
    put(p, "\"");
}

static void put_example(paper *p, const lml_shape *s);

static void put_member(paper *p, const char *name, const lml_shape *s, bool first)
{
    put(p, first ? "" : ", ");
    put_quoted(p, name);
    put(p, ": ");
    put_example(p, s);
}

/* What may not be left out; where all may, the first. */
static void put_record(paper *p, const lml_shape *s)
{
    size_t shown = 0;
    put(p, "{");
    for (size_t i = 0; i < s->field_count; i++)
        if (!lml_shape_optional(&s->fields[i]))
            put_member(p, s->fields[i].name, &s->fields[i], shown++ == 0);
    if (shown == 0 && s->field_count > 0)
        put_member(p, s->fields[0].name, &s->fields[0], true);
    put(p, "}");
}

/* An example in the house's units, within the bounds of `s`; NULL has none. */
static void put_ours(paper *p, const char *example, const lml_shape *bounds, bool quoted)
{
    char text[LML_EXAMPLE_TEXT];
    snprintf(text, sizeof text, "%s", example);
    lml_shape_example_in(p->house, bounds, text, sizeof text);
    if (quoted)
        put_quoted(p, text);
    else
        put(p, text);
}

static void put_example(paper *p, const lml_shape *s)
{
    switch (s->wanted) {
    case LML_WANT_LIST:
        put(p, "[");
        if (s->of)
            put_example(p, s->of);
        put(p, "]");
        break;
    case LML_WANT_BY_NAME:
        put(p, "{");
        if (s->of)
            put_member(p, s->example ? s->example : "name", s->of, true);
        put(p, "}");
        break;
    case LML_WANT_RECORD:
        if (s->example)
            put_ours(p, s->example, NULL, false); /* JSON, with the fields that most need */
        else
            put_record(p, s);
        break;
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
    case LML_WANT_YES_NO:
        put(p, lml_shape_example(s));
        break;
    default:
        put_ours(p, lml_shape_example(s), s, true);
    }
}

size_t lml_shape_example_json(const lml_shape *s, const lml_json *house, char *out, size_t size)
{
    paper p = {house, out, size, 0};
    put_example(&p, s);
    if (p.used >= size)
        snprintf(out, size, "%s", s->wanted == LML_WANT_LIST ? "[]" : "{}");
    return p.used;
}

size_t lml_shape_example_typed(const lml_shape *s, const lml_json *house, char *out, size_t size)
{
    bool compound =
        s->wanted == LML_WANT_LIST || s->wanted == LML_WANT_RECORD || s->wanted == LML_WANT_BY_NAME;
    if (compound)
        return lml_shape_example_json(s, house, out, size);
    paper p = {house, out, size, 0};
    put_ours(&p, lml_shape_example(s), s, false);
    return p.used;
}
