/* The unit of a term, and which kind of value it makes. */
#include "read/term.h"
#include "unit/unit_table.h"
#include "value/wanted.h"
#include "unit/unit_read.h"
#include <math.h>
#include <string.h>

lml_status lml_reading_refuse(const lml_reading *r, lml_span part, const char *note,
                              const char *message, const char *hint)
{
    lml_fail(r->err, LML_BAD_VALUE, "%s", message);
    lml_error_hint(r->err, "%s", hint);
    lml_error_label_part(r->err, r->whole, part, note);
    return LML_BAD_VALUE;
}

/* "14K", and "9ct" as Australia, Britain and others write karats: common practice, no source. A
 * stone may weigh 1.6 ct; less than 8 karats, 333 in thousandths, is no mark of gold that is in use
 * (Denmark's, in scripts/mark_table.lua, is the lowest). */
static bool is_karats(const lml_term *t)
{
    lml_span unit = t->ending.unit;
    double figure = lml_amount_scale(&t->amount, (lml_rational){1, 1}, (lml_rational){0, 1});
    return lml_span_is(unit, "K") || ((lml_span_is(unit, "ct") || lml_span_is(unit, "carat")) &&
                                      (t->spreads_karats || (figure >= 8 && figure <= 24)));
}

/* What is no fineness though it looks like one: 1.6 ct, k, a bare %. */
static lml_status refuse_no_fineness(const lml_reading *r, const lml_term *t)
{
    lml_span n = t->amount.text, unit = t->ending.unit;
    bool per_cent = lml_span_is(unit, "%") && !t->ending.metal;
    if (lml_span_is(unit, "ct"))
        lml_fail(r->err, LML_BAD_VALUE, "ct is the carat for gems, 0.2 g, not a fineness");
    else if (lml_span_is(unit, "carat"))
        lml_fail(r->err, LML_BAD_VALUE, "a carat is a weight of gems, 0.2 g, not a fineness");
    else if (lml_span_is(unit, "k") || lml_span_is(unit, "Kt") || lml_span_is(unit, "KT"))
        lml_fail(r->err, LML_BAD_VALUE, "karats are written K or kt, not %.*s",
                 LML_SPAN_SHOWN(unit));
    else if (per_cent)
        lml_fail(r->err, LML_BAD_VALUE, "%.*s %% could be a ratio of anything", LML_SPAN_SHOWN(n));
    else
        return LML_OK;
    double parts = lml_amount_scale(&t->amount, (lml_rational){10, 1}, (lml_rational){0, 1});
    char text[LML_NUMBER_TEXT];
    if (!per_cent)
        lml_error_hint(r->err, "write %.*s kt", LML_SPAN_SHOWN(n));
    else if (lml_decimal_write_double(fabs(parts) <= 1000 ? parts : 1000, text))
        lml_error_hint(r->err, "write %s ‰ for a fineness", text);
    lml_error_label_part(r->err, r->whole, unit, "not a fineness");
    return LML_BAD_VALUE;
}

/* "7.5 g gold" */
static lml_status refuse_metal_name(const lml_reading *r, lml_span unit)
{
    size_t blank = unit.length;
    while (blank > 0 && unit.at[blank - 1] != ' ')
        blank--;
    lml_span word = {unit.at + blank, unit.length - blank};
    for (unsigned m = 1; m < LML_METALS && blank; m++)
        if (lml_span_is(word, lml_metal_name((lml_metal)m))) {
            lml_fail(r->err, LML_BAD_VALUE, "a metal is named by its symbol, not \"%.*s\"",
                     LML_SPAN_SHOWN(word));
            lml_error_hint(r->err, "write %s", lml_metal_symbol((lml_metal)m));
            lml_error_label_part(r->err, r->whole, word, "a name");
            return LML_BAD_VALUE;
        }
    return LML_OK;
}

static lml_status check_unit_text(const lml_reading *r, const lml_term *t)
{
    lml_span unit = t->ending.unit;
    if (*unit.at >= '0' && *unit.at <= '9' && !lml_span_starts(unit, "1/"))
        return lml_reading_refuse(r, unit, "a second number", "a number follows a number",
                                  "write thousands without a space, and a unit after the number: "
                                  "1234 g");
    for (size_t i = 0; i + 1 < unit.length; i++)
        if (unit.at[i] == '.' && unit.at[i + 1] == '.')
            return lml_reading_refuse(r, unit, "a range", "a range has its unit once, at the end",
                                      "write it like 12.3..12.5 g");
    lml_status s = LML_OK;
    if (r->wanted == LML_WANT_FINENESS && !is_karats(t))
        s = refuse_no_fineness(r, t);
    return s ? s : refuse_metal_name(r, unit);
}

lml_status lml_term_read_unit(const lml_reading *r, lml_span text, lml_term *t)
{
    t->ending = lml_ending_of(text);
    t->factor = (lml_rational){1, 1};
    t->offset = (lml_rational){0, 1};
    if (t->ending.unit.length == 0)
        return LML_OK;
    lml_status s = check_unit_text(r, t);
    if (s != LML_OK)
        return s;
    if (r->wanted == LML_WANT_FINENESS && is_karats(t))
        t->unit = lml_unit_one(LML_U_KT, 1);
    else
        s = lml_unit_read_part(r->whole, t->ending.unit, &t->amount, &t->unit, &t->dimension,
                               r->err);
    s = s ? s : lml_unit_factor(t->unit, &t->factor, r->err);
    if (s != LML_OK)
        return s;
    if (lml_unit_sort_of(t->unit) == LML_UNIT_POINT)
        t->offset = lml_unit_at(t->unit.id[0])->offset;
    /* A ratio ask takes water as volume per powder: a millilitre of water counts as a gram. */
    if (r->wanted == LML_WANT_RATIO && lml_ending_is_water_ratio(t->unit)) {
        t->dimension = (lml_dimension){0};
        return lml_rational_mul(t->factor, (lml_rational){1000, 1}, &t->factor, r->err);
    }
    return LML_OK;
}

static lml_status refuse_metal(const lml_reading *r, lml_metal due, lml_metal given, bool karat,
                               lml_span part)
{
    lml_fail(r->err, LML_BAD_VALUE, "%s of %s is needed, but this one is of %s",
             lml_wanted_words(r->wanted), lml_metal_name(due), lml_metal_name(given));
    lml_error_hint(r->err, "%s",
                   karat ? "karats are for gold only: write the fineness in ‰"
                         : "leave out the metal's name, or write the figure of the metal that "
                           "is asked for");
    lml_error_label_part(r->err, r->whole, part, lml_metal_name(given));
    return LML_BAD_VALUE;
}

/* Which metal a fineness, fineness difference or fine mass is of. */
static lml_status choose_metal(const lml_reading *r, const lml_term *t, lml_value *v)
{
    bool asked = r->wanted == LML_WANT_FINENESS || r->wanted == LML_WANT_FINE_MASS;
    bool karat = lml_unit_sort_of(t->unit) == LML_UNIT_KARAT;
    lml_metal named = t->ending.metal, due = asked ? r->metal : LML_NO_METAL;
    lml_span part = t->ending.word.length ? t->ending.word : t->ending.unit;
    if (karat && named && named != LML_Au)
        return lml_reading_refuse(r, part, "not gold",
                                  "karats are for gold only, but another metal is named",
                                  "write the fineness in ‰");
    if (karat)
        named = LML_Au;
    if (named && due && named != due)
        return refuse_metal(r, due, named, karat, part);
    if (!named && !due)
        return lml_reading_refuse(r, part, "of which metal?", "the metal is not named",
                                  v->kind == LML_FINENESS ? "name it: 585 ‰ Au"
                                                          : "name it: 3 Δ‰ Au");
    v->metal = (uint8_t)(named ? named : due);
    return LML_OK;
}

static bool is_of(const lml_term *t, lml_dimension d)
{
    return lml_dimension_equal(t->dimension, d);
}

lml_status lml_term_classify(const lml_reading *r, const lml_term *t, lml_value *v)
{
    lml_unit_sort sort = lml_unit_sort_of(t->unit);
    const lml_ending *end = &t->ending;
    bool parts = sort == LML_UNIT_RATIO && (end->metal || r->wanted == LML_WANT_FINENESS);
    bool fine_asked = r->wanted == LML_WANT_FINE_MASS && r->metal;
    *v = (lml_value){.kind = LML_QUANTITY,
                     .mode = (uint8_t)end->mode,
                     .decimals = LML_SHORTEST,
                     .dimension = t->dimension,
                     .unit = t->unit};
    if (end->mode && !is_of(t, (lml_dimension){.mass = 1, .length = -1, .time = -2}))
        return lml_reading_refuse(r, end->word, "after a pressure only",
                                  "abs and vac may follow a pressure only", "leave it out");
    if (t->unit.id[0] == LML_U_DELTA_PER_MILLE)
        v->kind = LML_FINENESS_DIFFERENCE;
    else if (sort == LML_UNIT_KARAT || parts)
        v->kind = LML_FINENESS;
    else if (is_of(t, (lml_dimension){.mass = 1}) && (end->metal || fine_asked))
        v->kind = LML_FINE_MASS;
    else if (end->metal)
        return lml_reading_refuse(r, end->word, "after a mass or a ratio only",
                                  "a metal may follow a mass, as a fine mass, or a ratio, as a "
                                  "fineness",
                                  "write it like 7.5 g Au or 585 ‰ Au");
    else if (sort == LML_UNIT_POINT)
        v->kind = LML_TEMPERATURE;
    else if (sort == LML_UNIT_CURRENCY)
        v->kind = LML_MONEY;
    else if (end->unit.length == 0)
        v->kind = LML_NUMBER;
    if (v->kind == LML_FINENESS || v->kind == LML_FINENESS_DIFFERENCE || v->kind == LML_FINE_MASS)
        return choose_metal(r, t, v);
    return LML_OK;
}
