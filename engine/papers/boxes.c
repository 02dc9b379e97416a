#include "papers/boxes.h"

#include "base/locale.h"
#include "face/engine.h"
#include "file/json_write.h"
#include "papers/paper.h"

#include <string.h>

/* The first word, which is taken off the text. */
static lml_span take_word(lml_span *text)
{
    const char *blank = memchr(text->at, ' ', text->length), *end = text->at + text->length;
    lml_span word = lml_span_between(text->at, blank ? blank : end);
    *text = lml_span_between(blank ? blank + 1 : end, end);
    return word;
}

/* Whether every word of `part` is a word of `whole`, in this order: "weighed grain" is short for
 * "weighed 14 kt grain". */
static bool is_short_for(lml_span part, lml_span whole)
{
    while (part.length > 0) {
        lml_span word = take_word(&part);
        bool found = false;
        while (whole.length > 0 && !found)
            found = lml_span_equal(take_word(&whole), word);
        if (!found)
            return false;
    }
    return true;
}

/* Whether both have the same words, whatever their order: "ring weighed". */
static bool has_same_words(lml_span a, lml_span b)
{
    if (a.length != b.length)
        return false;
    while (a.length > 0) {
        lml_span word = take_word(&a), left = b;
        bool found = false;
        while (left.length > 0 && !found)
            found = lml_span_equal(take_word(&left), word);
        if (!found)
            return false;
    }
    return true;
}

/* Whether the box of that name is printed as wanted, capitals or not, or has the same words. */
static bool is_labelled(const lml_json *entry, lml_span name, lml_span wanted)
{
    lml_span label = lml_json_text(lml_json_member(entry, "label"));
    return wanted.length > 0 &&
           (lml_nearest_distance(label, wanted, 0) == 0 || has_same_words(wanted, name));
}

static void look_among(const lml_json *entries, lml_box *box)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        look_among(lml_json_member(e, "entries"), box);
        lml_span name = lml_json_text(lml_json_member(e, "record"));
        if (name.length == 0)
            continue;
        box->all++;
        lml_nearest_offer(&box->near, name);
        if (!lml_json_member(e, "recorded"))
            lml_nearest_offer(&box->open, name);
        if (box->labelled.length == 0 && is_labelled(e, name, box->near.wanted))
            box->labelled = name;
        if (!lml_span_equal(name, box->near.wanted))
            continue;
        box->count++;
        box->entry = box->entry ? box->entry : e;
        const lml_json *kind = lml_json_member(lml_json_member(e, "value"), "kind");
        lml_wanted wanted = kind ? lml_wanted_by_name(lml_json_text(kind)) : LML_WANT_ANYTHING;
        if (wanted < LML_WANTED_COUNT)
            box->kind = wanted;
    }
}

/* The one box that the name is short for; *several when there is another. */
static void look_for_short(const lml_json *entries, lml_box *box, bool *several)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        look_for_short(lml_json_member(e, "entries"), box, several);
        lml_span name = lml_json_text(lml_json_member(e, "record"));
        if (name.length == 0 || !is_short_for(box->near.wanted, name))
            continue;
        *several = *several || (box->long_for.length > 0 && !lml_span_equal(box->long_for, name));
        box->long_for = name;
    }
}

static void find_short(const lml_json *sheets, lml_box *box)
{
    bool several = false;
    for (const lml_json *page = lml_json_first(sheets); page; page = lml_json_next(page))
        look_for_short(page, box, &several);
    if (several || box->near.wanted.length == 0)
        box->long_for = (lml_span){"", 0};
}

lml_span lml_boxes_near(const lml_box *box)
{
    return box->labelled.length > 0        ? box->labelled
           : lml_nearest_found(&box->open) ? box->open.best
           : lml_nearest_found(&box->near) ? box->near.best
                                           : box->long_for;
}

lml_box lml_boxes_find(const lml_json *result, lml_span name)
{
    lml_box box = {.kind = LML_WANT_ANYTHING,
                   .near = lml_nearest_to(name),
                   .open = lml_nearest_to(name),
                   .labelled = {"", 0},
                   .long_for = {"", 0}};
    if (!result)
        return box;
    const lml_json *sheets = lml_json_member(result, "sheets");
    for (const lml_json *page = lml_json_first(sheets); page; page = lml_json_next(page))
        look_among(page, &box);
    if (box.count == 0 && lml_boxes_near(&box).length == 0)
        find_short(sheets, &box);
    return box;
}

/* What is looked for: the first box behind that name that nothing is recorded for. */
typedef struct behind {
    lml_span name, found;
    bool passed;
} behind;

static void look_behind(const lml_json *entries, behind *b)
{
    for (const lml_json *e = lml_json_first(entries); e && b->found.length == 0;
         e = lml_json_next(e)) {
        look_behind(lml_json_member(e, "entries"), b);
        lml_span name = lml_json_text(lml_json_member(e, "record"));
        if (lml_span_equal(name, b->name))
            b->passed = true;
        else if (b->passed && name.length > 0 && b->found.length == 0 &&
                 !lml_json_member(e, "recorded"))
            b->found = name;
    }
}

lml_span lml_boxes_next(const lml_json *result, lml_span name)
{
    behind b = {.name = name, .found = {"", 0}};
    const lml_json *page = lml_json_first(lml_json_member(result, "sheets"));
    for (; page && !b.passed; page = lml_json_next(page))
        look_behind(page, &b);
    return b.found;
}

/* ---- the public face ---- */

static void put_count(lml_json_writer *w, const char *name, size_t count)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_whole(w, (int64_t)count);
}

static lml_status write_box(const lml_box *box, lml_span next, lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    put_count(&w, "boxes", box->all);
    put_count(&w, "called", box->count);
    if (box->count > 0 && box->kind != LML_WANT_ANYTHING)
        lml_json_write_member(&w, "kind", lml_wanted_name(box->kind));
    if (box->count == 0 && lml_boxes_near(box).length > 0) {
        lml_json_write_name(&w, lml_span_of("near"));
        lml_json_write_text(&w, lml_boxes_near(box));
    }
    if (next.length > 0) {
        lml_json_write_name(&w, lml_span_of("next"));
        lml_json_write_text(&w, next);
    }
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

lml_status lml_engine_box(lml_engine *engine, const lml_text *result, const char *name,
                          lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"result", result}, {"name", name}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_json_document *doc = NULL;
    lml_builder text = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    lml_status status = lml_paper_result(alloc, result, &doc, err);
    if (status == LML_OK) {
        lml_box box = lml_boxes_find(lml_json_root(doc), lml_span_of(name));
        status = write_box(&box, lml_boxes_next(lml_json_root(doc), lml_span_of(name)), &text, err);
        lml_json_free(doc);
    }
    lml_locale_leave(entered);
    return lml_output_take(&text, status, out, err);
}
