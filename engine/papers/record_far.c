#include "papers/record_far.h"

#include "file/standing.h"
#include "papers/record_late.h"
#include "read/read.h"

#include <math.h>
#include <stdio.h>

/* One and a half times as much, or the inverse of it: further than any reading is from what was
 * worked out, and nearer than a decimal point in the wrong place, or two figures swapped. Common
 * practice, no source. */
static const double MOST = 1.5;
static const double ALIKE = LML_RECORD_FAR_ALIKE / 1000.0; /* g */
/* In grams, of what is written to the milligram. */
static const double HALF_A_STEP = 0.0005;
/* In grams: of less, a grain more or less is the half. Common practice, no source. */
static const double LITTLE = 0.1;

/* What was weighed before that a later weighing cannot be far from. */
typedef struct pair {
    const char *later, *earlier;
    bool part; /* it may be less by any amount, and not more */
} pair;
static const pair pairs[] = {
    {"after emery", "raw casting", false}, {"finished", "raw casting", false},
    {"raw casting", "tree", true},         {"button", "tree", true},
    {"saw lemel", "raw casting", true},    {"filings", "raw casting", true}};

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The last mass of that name; empty: there is none. */
static lml_span weighed(const lml_json *record, const char *what)
{
    lml_span found = {"", 0};
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e))
        if (lml_span_is(text_of(e, "what"), what) && text_of(e, "mass").length > 0)
            found = text_of(e, "mass");
    return found;
}

/* After a pour a further weighing of what is added is more metal, not the box's. */
static bool is_more(const lml_box *box, const lml_json *record, const char *at)
{
    bool poured = false;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e))
        poured = poured || (lml_standing_is_pour(e) && !lml_record_late_than(e, at));
    return poured && lml_span_is(text_of(box->entry, "way"), "added");
}

static bool is_far(lml_span reading, lml_span other, lml_wanted kind, bool part)
{
    lml_value a, b;
    if (other.length == 0 || lml_read_value(reading, kind, LML_NO_METAL, &a, NULL) != LML_OK ||
        lml_read_value(other, kind, LML_NO_METAL, &b, NULL) != LML_OK)
        return false;
    if (part)
        return a.amount > b.amount + ALIKE / 1000; /* in kg */
    double little = kind == LML_WANT_MASS ? LITTLE / 1000 : 0;
    return b.amount > 0 && fabs(a.amount - b.amount) > little &&
           (a.amount > b.amount * MOST || a.amount < b.amount / MOST);
}

static lml_status refuse(lml_span name, lml_span reading, const char *is, const char *where,
                         lml_span other, lml_error *err)
{
    lml_fail(err, LML_USAGE, "%.*s: %.*s %s the %.*s %s", LML_SPAN_SHOWN(name),
             LML_SPAN_SHOWN(reading), is, LML_SPAN_SHOWN(other), where);
    lml_error_hint(
        err,
        "look again at the point, the figures and the unit; if the scale does show %.*s, "
        "add --anyway. Nothing was recorded",
        LML_SPAN_SHOWN(reading));
    return LML_USAGE;
}

lml_status lml_record_far_check(const lml_box *box, const lml_entry *entry, bool aside,
                                const lml_json *record, lml_span name, lml_span reading,
                                lml_wanted kind, lml_error *err)
{
    if (kind != LML_WANT_MASS && kind != LML_WANT_VOLUME)
        return LML_OK;
    lml_span printed = text_of(lml_json_member(box->entry, "value"), "text");
    if (box->count == 1 && !aside && !is_more(box, record, entry->at) &&
        is_far(reading, printed, kind, false))
        return refuse(name, reading, "is far from", "that the sheet prints", printed, err);
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        const pair *p = &pairs[i];
        lml_span other = weighed(record, p->earlier);
        char where[80];
        if (!lml_span_is(name, p->later) || !is_far(reading, other, kind, p->part))
            continue;
        snprintf(where, sizeof where, "of the %s, weighed before", p->earlier);
        return refuse(name, reading, p->part ? "is more than" : "is far from", where, other, err);
    }
    return LML_OK;
}

/* ---- what is taken out of a lot ---- */

static double grams_of(lml_span mass)
{
    lml_value v;
    if (mass.length == 0 || lml_read_value(mass, LML_WANT_MASS, LML_NO_METAL, &v, NULL) != LML_OK)
        return 0;
    return v.amount * 1000;
}

/* Whether another entry, or the one to be recorded, replaces this one. */
static bool is_replaced(const lml_json *entry, lml_span name, lml_span corrected)
{
    lml_span what = text_of(entry, "what"), at = text_of(entry, "at");
    for (const lml_json *e = lml_json_next(entry); e; e = lml_json_next(e))
        if (lml_span_equal(text_of(e, "what"), what) && lml_span_equal(text_of(e, "corrects"), at))
            return true;
    return corrected.length > 0 && lml_span_equal(corrected, at) && lml_span_equal(name, what);
}

/* Metal that counts is further metal of that name; before any counts, a weighing is all there is of
 * it, and one after a second pour of as much as it shows. */
static double left_of(const lml_json *record, const char *lot, lml_span name, lml_span corrected,
                      bool *known)
{
    double left = 0;
    bool counts = false;
    *known = false;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        double mass = grams_of(text_of(e, "mass"));
        if (mass <= 0 || is_replaced(e, name, corrected))
            continue;
        if (lml_span_is(text_of(e, "from"), lot)) {
            left -= mass;
        } else if (lml_span_is(text_of(e, "what"), lot)) {
            bool way = text_of(e, "way").length > 0;
            if (way)
                left = counts ? left + mass : mass;
            else
                left = counts && left > mass ? left : mass;
            counts = counts || way;
            *known = true;
        }
    }
    return left;
}

lml_status lml_record_far_check_from(const lml_json *record, lml_span name, lml_span mass,
                                     const char *lot, lml_span corrected, lml_error *err)
{
    bool known;
    double left = left_of(record, lot, name, corrected, &known);
    if (!known || grams_of(mass) <= left + ALIKE + HALF_A_STEP)
        return LML_OK;
    if (left < ALIKE)
        lml_fail(err, LML_USAGE, "%.*s: %.*s is taken from \"%s\", but nothing is left of it",
                 LML_SPAN_SHOWN(name), LML_SPAN_SHOWN(mass), lot);
    else
        lml_fail(err, LML_USAGE, "%.*s: %.*s is taken from \"%s\", but only %.3f g is left of it",
                 LML_SPAN_SHOWN(name), LML_SPAN_SHOWN(mass), lot, left);
    lml_error_hint(err, "look again at the figures and the unit, or take it from another lot; if "
                        "it is right all the same, add --anyway. Nothing was recorded");
    return LML_USAGE;
}
