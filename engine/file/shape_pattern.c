#include "file/shape_pattern.h"

#include "unit/unit.h"
#include "value/metal.h"

#include <stdio.h>
#include <string.h>

/* POSIX in the C locale sees bytes, so letters of several bytes are in no bracket that matches
 * once. */
#define DECIMAL "[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?"
#define FRACTION "([0-9]+ +)?[0-9]+/[0-9]+|([0-9]+ *)?[¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞↉]+"
#define NUMBER "[-+]?(" DECIMAL "|" FRACTION ")"
#define RANGE NUMBER "( *\\.\\. *" NUMBER ")?"
#define SPREAD "( *(±|\\+/-|\\+-) *[^,]+)?"
#define CURRENCY "[A-Z][A-Z][A-Z]"
/* Units of several factors, or with a power. */
#define FACTORS "[^-+0-9,/. ][^,/]*"
#define QUOTIENT "(1|" FACTORS ")/ *" FACTORS
#define PRODUCT FACTORS "(\\*|·|⋅|\\^|²|³)[^,/]*"

bool lml_shape_pattern_has(lml_wanted wanted)
{
    return lml_wanted_has_unit(wanted) || wanted == LML_WANT_RING_SIZE;
}

/* ---- the units of a kind ---- */

typedef struct task {
    const lml_shape *shape;
    const char *before, *after; /* of the unit, in the text that is read */
    lml_builder *b;
    bool any;
} task;

static void append_if_read(task *t, lml_span unit)
{
    char text[64];
    lml_value v;
    /* 9, for a fineness in ct begins at 8 */
    snprintf(text, sizeof text, "9 %s%.*s%s", t->before, (int)unit.length, unit.at, t->after);
    if (lml_shape_value_text(t->shape, lml_span_of(text), NULL, &v, NULL) != LML_OK ||
        lml_shape_check_per(t->shape, &v, NULL) != LML_OK)
        return;
    if (t->any)
        lml_builder_add_char(t->b, '|');
    lml_builder_add_span(t->b, unit);
    t->any = true;
}

/* "(a|b|c)": the units of the table that the reader takes for this shape. "1" and "100 g" are rows
 * too, and no units. */
static void append_units(lml_builder *b, const lml_shape *s, const char *before, const char *after)
{
    task t = {s, before, after, b, false};
    lml_builder_add_char(b, '(');
    for (size_t i = 1; i < lml_unit_count(); i++) {
        const lml_unit_row *row = lml_unit_at(i);
        if (strchr(row->name, ' '))
            continue;
        append_if_read(&t, lml_span_of(row->name));
        for (const char *at = row->spellings; *at;) {
            size_t length = strcspn(at, " ");
            append_if_read(&t, (lml_span){at, length});
            at += length + (at[length] == ' ');
        }
    }
    lml_builder_add_char(b, ')');
}

static void append_units_of(lml_builder *b, lml_wanted kind)
{
    const lml_shape shape = {.wanted = kind};
    append_units(b, &shape, "", "");
}

static void append_metals(lml_builder *b, const lml_shape *s)
{
    if (s->metal && !s->any_metal) {
        lml_builder_add_text(b, lml_metal_symbol(s->metal));
        return;
    }
    lml_builder_add_char(b, '(');
    for (unsigned m = 1; m < LML_METALS; m++)
        lml_builder_add_format(b, "%s%s", m > 1 ? "|" : "", lml_metal_symbol((lml_metal)m));
    lml_builder_add_char(b, ')');
}

/* With the metal's name, and without where that is read too: karats are gold's. */
static void append_of_metal(lml_builder *b, const lml_shape *s)
{
    char behind[8];
    snprintf(behind, sizeof behind, " %s", lml_metal_symbol(s->metal ? s->metal : LML_Au));
    lml_builder_add_char(b, '(');
    append_units(b, s, "", behind);
    lml_builder_add_text(b, " +");
    append_metals(b, s);
    if (s->metal || s->wanted == LML_WANT_FINENESS) {
        lml_builder_add_char(b, '|');
        append_units(b, s, "", "");
    }
    lml_builder_add_char(b, ')');
}

static void append_powers(lml_builder *b, const lml_shape *s, const char *powers)
{
    lml_builder_add_char(b, '(');
    append_units(b, s, "", "");
    lml_builder_add_char(b, '|');
    append_units_of(b, LML_WANT_LENGTH);
    lml_builder_add_format(b, "%s)", powers);
}

static void append_unit(lml_builder *b, const lml_shape *s)
{
    static const lml_shape volume = {.wanted = LML_WANT_VOLUME};
    switch (s->wanted) {
    case LML_WANT_FINE_MASS:
    case LML_WANT_FINENESS:
        append_of_metal(b, s);
        break;
    case LML_WANT_AREA:
        append_powers(b, s, "(\\^2|²)");
        break;
    case LML_WANT_VOLUME:
        append_powers(b, s, "(\\^3|³)");
        break;
    case LML_WANT_DENSITY:
        append_units_of(b, LML_WANT_MASS);
        lml_builder_add_text(b, " */ *");
        append_powers(b, &volume, "(\\^3|³)");
        break;
    case LML_WANT_RATE:
        lml_builder_add_text(b, "(" QUOTIENT "|" PRODUCT ")");
        break;
    case LML_WANT_RATIO:
        lml_builder_add_char(b, '(');
        append_units(b, s, "", "");
        lml_builder_add_text(b, "|" QUOTIENT "|" PRODUCT ")");
        break;
    case LML_WANT_PRICE:
        lml_builder_add_text(b, CURRENCY " */ *");
        if (s->per)
            append_units(b, s, "USD/", "");
        else
            lml_builder_add_text(b, "[^,/]+");
        break;
    case LML_WANT_PRESSURE:
        append_units(b, s, "", "");
        lml_builder_add_text(b, "( +abs)?");
        break;
    case LML_WANT_VACUUM:
        append_units(b, s, "", " vac");
        lml_builder_add_text(b, " +vac");
        break;
    case LML_WANT_GAUGE:
        append_units(b, s, "", " vac");
        lml_builder_add_text(b, " +(vac|abs)");
        break;
    case LML_WANT_ENERGY:
    case LML_WANT_POWER:
    case LML_WANT_CURRENT:
        lml_builder_add_char(b, '(');
        append_units(b, s, "", "");
        lml_builder_add_text(b, s->wanted == LML_WANT_ENERGY ? "|" PRODUCT ")"
                                                             : "|" PRODUCT "|" QUOTIENT ")");
        break;
    default:
        append_units(b, s, "", "");
        break;
    }
}

/* ---- the whole text ---- */

void lml_shape_pattern_append(const lml_shape *s, lml_builder *b)
{
    switch (s->wanted) {
    case LML_WANT_RING_SIZE:
        lml_builder_add_text(b, "^((US|CA|UK|IE|AU|NZ|ISO|JP|CH|IT|ES) .|[A-Z0-9])");
        return;
    case LML_WANT_MOMENT:
        lml_builder_add_text(b, "^ *[0-9]{4}-[0-9]{2}-[0-9]{2}"
                                "(T[0-9]{2}:[0-9]{2}(:[0-9]{2})?)? *$");
        return;
    case LML_WANT_TIME_OF_DAY:
        lml_builder_add_text(b, "^ *[0-9]{1,2}:[0-9]{2}(:[0-9]{2})? *$");
        return;
    case LML_WANT_WEEKDAY:
        lml_builder_add_text(b, "^ *(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day *$");
        return;
    case LML_WANT_MONEY:
        lml_builder_add_text(b, "^ *(" CURRENCY " *" NUMBER "|" RANGE " *" CURRENCY SPREAD ") *$");
        return;
    default:
        lml_builder_add_text(b, "^ *" RANGE " *");
        append_unit(b, s);
        if (s->wanted == LML_WANT_TIME) { /* 1 h 30 min */
            lml_builder_add_text(b, "( +" DECIMAL " *");
            append_unit(b, s);
            lml_builder_add_text(b, ")*");
        }
        lml_builder_add_text(b, SPREAD " *$");
        return;
    }
}
