#include "sheet/foot.h"

#include "sheet/datum.h"
#include "sheet/layout.h"

#include <string.h>

enum {
    CHANGED_MOST = 12 /* what a page names of a list that a recipe replaced */,
    TEXT_SHOWN = 60
};

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static const lml_json *first_of(const lml_json *result, const char *list)
{
    return lml_json_first(lml_json_member(result, list));
}

void lml_foot_write_codes(const lml_json *result, const char *level, const char *words,
                          lml_builder *out)
{
    size_t start = out->length;
    for (const lml_json *r = first_of(result, "remarks"); r; r = lml_json_next(r)) {
        if (!lml_span_is(member_text(r, "level"), level))
            continue;
        lml_builder_add_text(out, out->length > start ? ", " : words);
        lml_builder_add_span(out, member_text(r, "code"));
    }
    if (out->length > start)
        lml_builder_add_char(out, '.');
}

static size_t count_remarks(const lml_json *result, const char *level)
{
    size_t count = 0;
    for (const lml_json *r = first_of(result, "remarks"); r; r = lml_json_next(r))
        count += lml_span_is(member_text(r, "level"), level);
    return count;
}

const char *lml_foot_banner(const lml_json *result, bool working)
{
    size_t open = count_remarks(result, "confirm");
    if (!working)
        return "NOT FINAL. Part of this page is held back: do not hand it out yet.";
    if (count_remarks(result, "stop") > 0 || open == 0)
        return "STOPPED. Figures marked DO NOT are not released until the reason is resolved.";
    return open == 1 ? "OPEN POINT. Figures marked DO NOT are not released until it is confirmed."
                     : "OPEN POINTS. Figures marked DO NOT are not released until they are "
                       "confirmed.";
}

void lml_foot_write_count(const lml_json *result, lml_builder *out)
{
    size_t stops = count_remarks(result, "stop"), open = count_remarks(result, "confirm");
    if (stops + open == 0)
        return;
    if (stops > 0)
        lml_builder_add_format(out, "%zu stop%s", stops, stops == 1 ? "" : "s");
    if (open > 0)
        lml_builder_add_format(out, "%s%zu open point%s", stops > 0 ? " and " : "", open,
                               open == 1 ? "" : "s");
    lml_builder_add_text(out, " on this job: see above.");
}

static void end_sentence(lml_builder *out, size_t start, lml_builder *one)
{
    if (out->length > start)
        lml_builder_add_char(out, '.');
    if (one->status != LML_OK && out->status == LML_OK)
        out->status = one->status;
    lml_builder_free(one);
}

static lml_span built(const lml_builder *b)
{
    return b->at ? (lml_span){b->at, b->length} : lml_span_of(NULL);
}

/* "charge." of "charge.lead_limit". */
static lml_span recipe_of(lml_span name)
{
    const char *dot = memchr(name.at, '.', name.length);
    return dot ? lml_span_between(name.at, dot + 1) : lml_span_of(NULL);
}

/* "lead_limit 50 ppm" of a setting, where its recipe is named already. */
static void write_setting(const lml_json *setting, size_t named, lml_builder *out)
{
    lml_span name = lml_json_name(setting);
    out->length = 0;
    lml_builder_add_span(out, (lml_span){name.at + named, name.length - named});
    lml_builder_add_char(out, ' ');
    size_t bare = out->length;
    lml_datum_write(setting, out);
    if (out->length == bare)
        lml_builder_add_text(out, "none"); /* a list without an entry */
}

void lml_foot_write_assumed(const lml_json *result, lml_builder *out)
{
    size_t start = out->length;
    lml_builder one = lml_builder_on(out->alloc, 0);
    lml_span last = lml_span_of(NULL);
    for (const lml_json *s = first_of(result, "settings"); s; s = lml_json_next(s)) {
        if (!lml_span_is(member_text(s, "from"), "default"))
            continue;
        lml_span recipe = recipe_of(lml_json_name(s));
        bool same = recipe.length > 0 && lml_span_equal(recipe, last);
        lml_builder_add_text(out, out->length == start ? "Assumed: " : same ? "; " : ". ");
        write_setting(s, same ? recipe.length : 0, &one);
        lml_layout_add_unbroken(out, built(&one));
        last = recipe;
    }
    end_sentence(out, start, &one);
}

/* Words of a recipe are in quotes, so that they cannot pass as lemel's own. */
static void write_said(const lml_json *datum, lml_builder *out)
{
    lml_span text = lml_json_text(lml_json_member(datum, "value"));
    if (!lml_span_is(member_text(datum, "kind"), "text") || lml_span_is(text, "none") ||
        lml_span_is(text, "\xE2\x80\xA6")) {
        lml_datum_write(datum, out);
        return;
    }
    bool cut = text.length > TEXT_SHOWN;
    while (cut && text.length > 0 &&
           (text.length > TEXT_SHOWN || ((unsigned char)text.at[text.length] & 0xc0) == 0x80))
        text.length--;
    lml_builder_add_char(out, '"');
    lml_builder_add_span(out, text);
    lml_builder_add_text(out, cut ? "...\"" : "\"");
}

static bool is_record(const lml_json *datum)
{
    return lml_json_kind_of(lml_json_member(datum, "value")) == LML_JSON_RECORD;
}

/* "quote.margin 40 %" and "(the house says 30 %)"; "charge.lots.chain", "is added". */
static void write_change(const lml_json *setting, lml_builder *all, lml_builder *one)
{
    const lml_json *was = lml_json_member(setting, "replaced");
    bool added = is_record(setting), gone = is_record(was);
    one->length = 0;
    lml_builder_add_span(one, lml_json_name(setting));
    if (added != gone) {
        lml_builder_add_text(one, added ? " is added" : " is left out");
        lml_layout_add_unbroken(all, built(one));
        return;
    }
    lml_builder_add_char(one, ' ');
    write_said(setting, one);
    lml_layout_add_unbroken(all, built(one));
    one->length = 0;
    lml_builder_add_text(one, "(the ");
    lml_builder_add_span(one, member_text(setting, "over"));
    lml_builder_add_text(one, " says ");
    size_t bare = one->length;
    write_said(was, one);
    lml_builder_add_text(one, one->length == bare ? "something else)" : ")");
    lml_builder_add_char(all, ' ');
    lml_layout_add_unbroken(all, built(one));
}

void lml_foot_write_changed(const lml_json *result, lml_builder *out)
{
    size_t start = out->length, count = 0;
    lml_builder one = lml_builder_on(out->alloc, 0);
    for (const lml_json *s = first_of(result, "settings"); s; s = lml_json_next(s)) {
        if (member_text(s, "over").length == 0 || ++count > CHANGED_MOST)
            continue;
        lml_builder_add_text(out, out->length > start ? "; " : "Changed by a recipe: ");
        write_change(s, out, &one);
    }
    if (count > CHANGED_MOST)
        lml_builder_add_format(out, "; and %zu more, in the result's settings",
                               count - CHANGED_MOST);
    end_sentence(out, start, &one);
}

void lml_foot_write_short(const lml_json *result, lml_builder *out)
{
    int count = 0;
    for (const lml_json *s = first_of(result, "settings"); s; s = lml_json_next(s))
        count += lml_span_is(member_text(s, "from"), "default");
    lml_builder_add_format(out, "The cost sheet lists %d assumed figure%s and the recipes used.",
                           count, count == 1 ? "" : "s");
}

void lml_foot_write_house_rules(const lml_json *result, lml_builder *out)
{
    size_t start = out->length;
    for (const lml_json *w = first_of(result, "worked"); w; w = lml_json_next(w)) {
        lml_span title = member_text(w, "house_rule");
        if (title.length == 0)
            continue;
        lml_builder_add_text(out, out->length > start ? "; " : "By the house's own rules: ");
        lml_builder_add_span(out, title);
        lml_builder_add_text(out, " (");
        lml_builder_add_span(out, member_text(w, "recipe"));
        lml_builder_add_text(out, LML_NO_BREAK);
        lml_builder_add_span(out, member_text(w, "version"));
        lml_builder_add_char(out, ')');
    }
}

static bool worked_before(const lml_json *first, const lml_json *one)
{
    const lml_span recipe = member_text(one, "recipe");
    for (const lml_json *w = first; w != one; w = lml_json_next(w))
        if (lml_span_equal(member_text(w, "recipe"), recipe))
            return true;
    return false;
}

void lml_foot_write_worked(const lml_json *result, lml_builder *out)
{
    size_t start = out->length;
    const lml_json *first = first_of(result, "worked");
    for (const lml_json *w = first; w; w = lml_json_next(w)) {
        lml_span recipe = member_text(w, "recipe");
        if (recipe.length == 0 || (lml_span_starts(recipe, "rule_") && w != first) ||
            worked_before(first, w))
            continue; /* a script, a recipe that is in the line already, or a rule that one of
                         them asked */
        lml_builder_add_text(out, out->length > start ? ", " : "Worked by ");
        lml_builder_add_span(out, recipe);
        lml_builder_add_text(out, LML_NO_BREAK);
        lml_builder_add_span(out, member_text(w, "version"));
    }
    if (out->length > start) {
        lml_builder_add_text(out, " with lemel" LML_NO_BREAK);
        lml_builder_add_span(out, member_text(result, "lemel"));
    }
}
