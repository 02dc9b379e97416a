#include "papers/differ.h"
#include "sheet/datum.h"
#include "base/letter.h"

#include <string.h>

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The member of `record` that is called as `member` of another record is. */
static const lml_json *namesake(const lml_json *member, const lml_json *record)
{
    return lml_json_member(record, lml_json_name(member).at);
}

/* Numbers as they are written: the shortest text of a double identifies every bit. */
static bool same(const lml_json *a, const lml_json *b)
{
    if (lml_json_kind_of(a) != lml_json_kind_of(b) || lml_json_count(a) != lml_json_count(b))
        return false;
    bool record = lml_json_kind_of(a) == LML_JSON_RECORD;
    if (!record && lml_json_kind_of(a) != LML_JSON_LIST)
        return lml_json_kind_of(a) == LML_JSON_TEXT
                   ? lml_span_equal(lml_json_text(a), lml_json_text(b))
                   : lml_span_equal(lml_json_raw(a), lml_json_raw(b));
    const lml_json *y = lml_json_first(b);
    for (const lml_json *x = lml_json_first(a); x; x = lml_json_next(x), y = lml_json_next(y))
        if (!same(x, record ? namesake(x, b) : y))
            return false;
    return true;
}

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

static void put_span(lml_json_writer *w, const char *member_name, lml_span text)
{
    name(w, member_name);
    lml_json_write_text(w, text);
}

/* ---- figures ---- */

static bool holds_figures(const lml_json *figure)
{
    lml_json_kind kind = lml_json_kind_of(lml_json_member(figure, "value"));
    return kind == LML_JSON_LIST || kind == LML_JSON_RECORD;
}

static size_t count_figures(const lml_json *figures)
{
    size_t count = 0;
    for (const lml_json *f = lml_json_first(figures); f; f = lml_json_next(f))
        count += holds_figures(f) ? count_figures(lml_json_member(f, "value")) : 1;
    return count;
}

/* What failed in it fails the whole. */
static void scrap(lml_json_writer *w, lml_builder *part)
{
    if (part->status != LML_OK && w->to->status == LML_OK)
        w->to->status = part->status;
    lml_builder_free(part);
}

/* As it is printed; where that cannot tell the two apart, with the number behind it. A setting says
 * where it is from. */
static void put_figure(lml_json_writer *w, const char *side, const lml_json *figure,
                       const lml_json *other)
{
    if (!figure)
        return;
    lml_builder text = lml_builder_on(w->to->alloc, 0), beside = text;
    lml_span from = text_of(figure, "from");
    lml_datum_write(figure, &text);
    lml_datum_write(other, &beside);
    if (other &&
        lml_span_equal((lml_span){text.at, text.length}, (lml_span){beside.at, beside.length})) {
        lml_builder_add_text(&text, " = ");
        lml_builder_add_span(&text, lml_json_raw(lml_json_member(figure, "value")));
    }
    if (from.length > 0)
        lml_builder_add_format(&text, " (%.*s)", (int)from.length, from.at);
    put_span(w, side, (lml_span){text.at, text.length});
    scrap(w, &beside);
    scrap(w, &text);
}

static void put_pair(lml_json_writer *w, const lml_builder *path, const lml_json *was,
                     const lml_json *is)
{
    lml_json_write_open_record(w);
    put_span(w, "name", (lml_span){path->at, path->length});
    put_figure(w, "is", is, was);
    put_figure(w, "was", was, is);
    lml_json_write_close(w);
}

static void put_figures(lml_json_writer *w, const lml_builder *path, const lml_json *was,
                        const lml_json *is);

/* Descends into lists and records that are on both sides; else compares as a whole. */
static void hold_figure(lml_json_writer *w, const lml_builder *path, const lml_json *was,
                        const lml_json *is)
{
    const lml_json *old = lml_json_member(was, "value"), *new = lml_json_member(is, "value");
    if (was && is && same(was, is))
        return;
    if (holds_figures(was) && lml_json_kind_of(old) == lml_json_kind_of(new))
        put_figures(w, path, old, new);
    else
        put_pair(w, path, was, is);
}

/* Those of `mine`, and beside them those of `theirs`; in the second round what `theirs` lacks
 * alone. */
static void walk_figures(lml_json_writer *w, const lml_builder *path, const lml_json *mine,
                         const lml_json *theirs, bool new_only)
{
    bool record = lml_json_kind_of(theirs) == LML_JSON_RECORD;
    const lml_json *item = record ? NULL : lml_json_first(theirs); /* beside `f` */
    size_t index = 0;
    for (const lml_json *f = lml_json_first(mine); f; f = lml_json_next(f), index++) {
        const lml_json *other = record ? namesake(f, theirs) : item;
        item = item ? lml_json_next(item) : NULL;
        if (new_only && other)
            continue;
        lml_builder here = lml_builder_on(w->to->alloc, 0);
        lml_builder_add_span(&here, (lml_span){path->at, path->length});
        if (lml_json_kind_of(mine) == LML_JSON_LIST)
            lml_builder_add_format(&here, "[%zu]", index + 1);
        else
            lml_builder_add_format(&here, "%s%.*s", path->length > 0 ? "." : "",
                                   (int)lml_json_name(f).length, lml_json_name(f).at);
        hold_figure(w, &here, new_only ? NULL : f, new_only ? f : other);
        scrap(w, &here);
    }
}

static void put_figures(lml_json_writer *w, const lml_builder *path, const lml_json *was,
                        const lml_json *is)
{
    walk_figures(w, path, was, is, false);
    walk_figures(w, path, is, was, true);
}

static void put_all_figures(lml_json_writer *w, const char *title, const lml_json *was,
                            const lml_json *is)
{
    lml_builder path = lml_builder_on(w->to->alloc, 0);
    name(w, title);
    lml_json_write_open_list(w);
    put_figures(w, &path, was, is);
    lml_json_write_close(w);
}

/* ---- sheets and remarks ---- */

static void put_pages(lml_json_writer *w, const lml_json *was, const lml_json *is)
{
    name(w, "sheets");
    lml_json_write_open_list(w);
    for (const lml_json *p = lml_json_first(was); p; p = lml_json_next(p))
        if (!same(p, namesake(p, is)))
            lml_json_write_text(w, lml_json_name(p));
    for (const lml_json *p = lml_json_first(is); p; p = lml_json_next(p))
        if (!namesake(p, was))
            lml_json_write_text(w, lml_json_name(p));
    lml_json_write_close(w);
}

static bool among(const lml_json *remark, const lml_json *remarks)
{
    for (const lml_json *r = lml_json_first(remarks); r; r = lml_json_next(r))
        if (same(r, remark))
            return true;
    return false;
}

static void put_remarks(lml_json_writer *w, const char *side, const lml_json *these,
                        const lml_json *those)
{
    for (const lml_json *r = lml_json_first(these); r; r = lml_json_next(r)) {
        if (among(r, those))
            continue;
        lml_json_write_open_record(w);
        put_span(w, "code", text_of(r, "code"));
        put_span(w, side, text_of(r, "text"));
        lml_json_write_close(w);
    }
}

/* ---- causes ---- */

static void put_cause(lml_json_writer *w, const char *what, lml_span called, lml_span is,
                      lml_span was)
{
    if (lml_span_equal(is, was))
        return;
    lml_json_write_open_record(w);
    lml_json_write_member(w, "what", what);
    put_span(w, "name", called);
    if (is.length > 0)
        put_span(w, "is", is);
    if (was.length > 0)
        put_span(w, "was", was);
    lml_json_write_close(w);
}

static void put_inputs(lml_json_writer *w, const lml_json *was, const lml_json *is)
{
    static const char *const inputs[] = {"job", "house", "prices"};
    for (size_t i = 0; i < sizeof inputs / sizeof inputs[0]; i++) {
        const lml_json *old = lml_json_member(lml_json_member(was, "inputs"), inputs[i]);
        const lml_json *new = lml_json_member(lml_json_member(is, "inputs"), inputs[i]);
        put_cause(w, inputs[i], text_of(new ? new : old, "file"), text_of(new, "digest"),
                  text_of(old, "digest"));
    }
}

/* The first entry of that name: every later one is of the same bytes. */
static const lml_json *worked(const lml_json *result, const char *what, lml_span called)
{
    const lml_json *list = lml_json_member(result, "worked");
    for (const lml_json *w = lml_json_first(list); w; w = lml_json_next(w))
        if (lml_span_equal(text_of(w, what), called))
            return w;
    return NULL;
}

static void put_worked(lml_json_writer *w, const char *what, const lml_json *these,
                       const lml_json *those, bool new_only)
{
    const lml_json *list = lml_json_member(these, "worked");
    for (const lml_json *t = lml_json_first(list); t; t = lml_json_next(t)) {
        lml_span called = text_of(t, what);
        if (called.length == 0 || worked(these, what, called) != t)
            continue;
        const lml_json *other = worked(those, what, called);
        if (new_only && other)
            continue;
        put_cause(w, what, called, text_of(new_only ? t : other, "digest"),
                  text_of(new_only ? NULL : t, "digest"));
    }
}

void lml_differ_write(lml_json_writer *w, const char *path, const lml_json *was, const lml_json *is)
{
    static const char *const all[] = {"results", "withheld", "sheets", "remarks"};
    const lml_json *old = lml_json_member(was, "remarks"), *new = lml_json_member(is, "remarks");
    bool equal = true;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        equal = equal && same(lml_json_member(was, all[i]), lml_json_member(is, all[i]));
    lml_json_write_open_record(w);
    lml_json_write_member(w, "result", path);
    name(w, "same");
    lml_json_write_yes_no(w, equal);
    name(w, "figures");
    lml_json_write_whole(w, (int64_t)count_figures(lml_json_member(was, "results")));
    put_all_figures(w, "otherwise", lml_json_member(was, "results"),
                    lml_json_member(is, "results"));
    put_pages(w, lml_json_member(was, "sheets"), lml_json_member(is, "sheets"));
    name(w, "remarks");
    lml_json_write_open_list(w);
    put_remarks(w, "is", new, old);
    put_remarks(w, "was", old, new);
    lml_json_write_close(w);
    name(w, "changed");
    lml_json_write_open_list(w);
    put_cause(w, "engine", lml_span_of("lemel"), text_of(is, "lemel"), text_of(was, "lemel"));
    put_inputs(w, was, is);
    static const char *const kinds[] = {"recipe", "script"};
    for (size_t i = 0; i < 2; i++) {
        put_worked(w, kinds[i], was, is, false);
        put_worked(w, kinds[i], is, was, true);
    }
    lml_json_write_close(w);
    put_all_figures(w, "settings", lml_json_member(was, "settings"),
                    lml_json_member(is, "settings"));
    lml_json_write_close(w);
}

/* ---- as text ---- */

enum { INDENT = 3, NAME_LEAST = 8, NAME_MOST = 30 };

static size_t widest(const lml_json *list, const char *member_name)
{
    size_t most = NAME_LEAST;
    for (const lml_json *e = lml_json_first(list); e; e = lml_json_next(e)) {
        size_t columns = lml_letter_columns_of(text_of(e, member_name));
        most = columns > most ? columns : most;
    }
    return most < NAME_MOST ? most : NAME_MOST;
}

static void put_row(lml_layout *layout, lml_span left, size_t width, const lml_json *entry,
                    const char *gone)
{
    lml_span is = text_of(entry, "is"), was = text_of(entry, "was");
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_span(&line, is.length > 0 ? is : lml_span_of(gone));
    if (was.length > 0) {
        lml_builder_add_text(&line, ", was ");
        lml_builder_add_span(&line, was);
    } else {
        lml_builder_add_text(&line, ", which is new");
    }
    size_t at = INDENT + width + 2;
    lml_cell cells[] = {{left, INDENT, width, false},
                        {{line.at, line.length}, at, layout->width - at, false}};
    lml_layout_row(layout, cells, 2);
    lml_layout_scrap(layout, &line);
}

static void draw_rows(lml_layout *layout, const lml_json *list, const char *left)
{
    size_t width = widest(list, left);
    for (const lml_json *e = lml_json_first(list); e; e = lml_json_next(e))
        put_row(layout, text_of(e, left), width, e, "gone");
}

static void draw_sheets(lml_layout *layout, const lml_json *sheets)
{
    lml_builder line = lml_layout_scratch(layout);
    for (const lml_json *s = lml_json_first(sheets); s; s = lml_json_next(s)) {
        lml_builder_add_text(&line, s == lml_json_first(sheets) ? "printed differently: " : ", ");
        lml_builder_add_span(&line, lml_json_text(s));
    }
    lml_layout_text(layout, 0, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
}

/* Digests say only that something changed. */
static void draw_causes(lml_layout *layout, const lml_json *changed)
{
    for (const lml_json *c = lml_json_first(changed); c; c = lml_json_next(c)) {
        lml_span what = text_of(c, "what"), is = text_of(c, "is"), was = text_of(c, "was");
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_span(&line, what);
        lml_builder_add_char(&line, ' ');
        lml_builder_add_span(&line, text_of(c, "name"));
        if (lml_span_is(what, "engine")) {
            lml_builder_add_format(&line,
                                   " %.*s, was %.*s: docs/changes.md says which figures changed",
                                   (int)is.length, is.at, (int)was.length, was.at);
        } else {
            lml_builder_add_text(&line, was.length == 0  ? ", which is new"
                                        : is.length == 0 ? ", which is gone"
                                                         : ", which has changed");
        }
        lml_layout_text(layout, INDENT, (lml_span){line.at, line.length});
        lml_layout_scrap(layout, &line);
    }
}

void lml_differ_draw(lml_layout *layout, const lml_json *report)
{
    const lml_json *changed = lml_json_member(report, "changed");
    const lml_json *settings = lml_json_member(report, "settings");
    const lml_json *otherwise = lml_json_member(report, "otherwise");
    bool equal = lml_json_yes(lml_json_member(report, "same"));
    bool cause = lml_json_count(changed) + lml_json_count(settings) > 0;
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_span(&line, text_of(report, "result"));
    if (equal)
        lml_builder_add_text(&line, ": everything comes out exactly the same. Figures: ");
    else
        lml_builder_add_format(&line, ": not as before. Figures: %zu of ",
                               lml_json_count(otherwise));
    lml_builder_add_span(&line, lml_json_raw(lml_json_member(report, "figures")));
    lml_layout_text(layout, 0, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
    draw_rows(layout, otherwise, "name");
    if (lml_json_count(lml_json_member(report, "sheets")) > 0)
        draw_sheets(layout, lml_json_member(report, "sheets"));
    if (lml_json_count(lml_json_member(report, "remarks")) > 0)
        lml_layout_text(layout, 0, lml_span_of("remarks that differ:"));
    draw_rows(layout, lml_json_member(report, "remarks"), "code");
    if (cause)
        lml_layout_text(layout, 0, lml_span_of("what has changed since:"));
    else if (!equal)
        lml_layout_text(layout, 0,
                        lml_span_of("nothing that went into it has changed; it was run by "
                                    "another build of lemel. docs/changes.md says which figures "
                                    "changed"));
    draw_causes(layout, changed);
    draw_rows(layout, settings, "name");
}
