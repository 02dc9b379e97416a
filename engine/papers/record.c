/* Record: entries put into the text of a job. */
#include "base/locale.h"
#include "face/engine.h"
#include "file/json_write.h"
#include "file/splice.h"
#include "papers/record_entry.h"
#include "papers/record_gate.h"
#include "papers/record_late.h"
#include "papers/record_moment.h"

#include <string.h>

/* Take the next line off; an entry is written on one. */
static lml_span next_entry(lml_span *left)
{
    const char *end = memchr(left->at, '\n', left->length);
    lml_span line = {left->at, end ? (size_t)(end - left->at) : left->length};
    size_t taken = line.length + (end ? 1 : 0);
    left->at += taken;
    left->length -= taken;
    return line;
}

/* The entries, one a line, and for each a line of `also`. */
static lml_status write_entries(const lml_entry *entry, const lml_record_known *known,
                                lml_builder *out, lml_builder *also, lml_error *err)
{
    if (entry->what)
        return lml_record_entry(entry, known, out, also, err);
    lml_status status = LML_OK;
    for (size_t i = 0; i < entry->count && status == LML_OK; i++) {
        if (i > 0) {
            lml_builder_add_char(out, '\n');
            lml_builder_add_char(also, '\n');
        }
        status = lml_record_entry_reading(entry, known, entry->word[i], out, also, err);
    }
    return status;
}

/* All entries put in, one by one: the text is only `after` when every one of them fits.
 */
static lml_status splice_all(lml_span job, const char *shown, const lml_builder *entries,
                             lml_builder *after, lml_error *err)
{
    lml_builder text = lml_builder_on(after->alloc, 0);
    lml_builder_add_span(&text, job);
    lml_status status = lml_builder_status(&text, err);
    for (lml_span left = {entries->at, entries->length}; left.length && status == LML_OK;) {
        lml_builder longer = lml_builder_on(after->alloc, 0);
        status = lml_splice_record((lml_span){text.at, text.length}, shown, next_entry(&left),
                                   &longer, err);
        lml_builder_free(&text);
        text = longer;
    }
    *after = text;
    return status;
}

/* Of each entry the moment of a later one that counts in its place; an entry that says its own way
 * counts beside any other. */
static void write_counts(const lml_entry *entry, const lml_json *record, lml_json_writer *w)
{
    bool way = false;
    for (size_t i = 0; entry->what && i < entry->count; i++)
        way = way || strncmp(entry->word[i], "way=", 4) == 0;
    lml_json_write_name(w, lml_span_of("counts"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < (entry->what ? 1 : entry->count); i++) {
        lml_span what = entry->what ? lml_span_of(entry->what)
                                    : (lml_span){entry->word[i], strcspn(entry->word[i], "=")};
        lml_json_write_text(w, way ? (lml_span){"", 0}
                                   : lml_record_late_counts(record, entry->at, what, NULL));
    }
    lml_json_write_close(w);
}

static lml_status write_report(const lml_entry *entry, const lml_record_known *known,
                               const lml_builder *entries, const lml_builder *also,
                               lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of("entries"));
    lml_json_write_open_list(&w);
    for (lml_span left = {entries->at, entries->length}; left.length;)
        lml_json_write_raw(&w, next_entry(&left));
    lml_json_write_close(&w);
    lml_json_write_name(&w, lml_span_of("also"));
    lml_json_write_open_list(&w);
    for (lml_span left = {also->at, also->length}, e = {entries->at, entries->length}; e.length;) {
        next_entry(&e);
        lml_json_write_text(&w, left.length ? next_entry(&left) : left);
    }
    lml_json_write_close(&w);
    write_counts(entry, known->record, &w);
    lml_builder shut = lml_builder_on(out->alloc, 0);
    lml_record_gate_shut(known->result, lml_span_of(entry->what), entry->at, &shut);
    if (shut.length > 0) {
        lml_json_write_name(&w, lml_span_of("shut"));
        lml_json_write_text(&w, lml_builder_span(&shut));
    }
    lml_status status = lml_builder_status(&shut, err);
    lml_builder_free(&shut);
    if (status != LML_OK)
        return status;
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

/* As the job says it in the house's stead, or as the house does. */
static lml_span vacuum_gauge(const lml_json *job, const lml_json *result)
{
    static const char NAME[] = "vacuum_gauge";
    const lml_json *own = lml_json_member(lml_json_member(job, "house"), NAME);
    return lml_json_text(own ? own : lml_json_member(lml_json_member(result, "house"), NAME));
}

/* Whether this is left to the studio: the closing says what was agreed since. */
static bool is_left(const lml_json *job, const char *leftover)
{
    const lml_json *closing =
        lml_json_member(lml_json_member(lml_json_member(job, "closing"), "given"), leftover);
    return lml_span_is(
        lml_json_text(closing ? closing : lml_json_member(lml_json_member(job, "given"), leftover)),
        "studio");
}

static lml_status record(const lml_alloc *alloc, lml_span job, const char *shown,
                         const lml_json *result, const lml_entry *entry, lml_builder *after,
                         lml_builder *report, lml_error *err)
{
    lml_builder entries = lml_builder_on(alloc, 0), also = lml_builder_on(alloc, 0);
    lml_json_document *doc = NULL;
    lml_status status = lml_json_read(alloc, job, NULL, shown, &doc, err);
    const lml_json *root = doc ? lml_json_root(doc) : NULL;
    const lml_record_known known = {result, lml_json_member(root, "record"),
                                    vacuum_gauge(root, result), is_left(root, "button_to"),
                                    is_left(root, "lemel_to")};
    if (status == LML_OK)
        status = write_entries(entry, &known, &entries, &also, err);
    if (status == LML_OK)
        status = splice_all(job, shown, &entries, after, err);
    if (status == LML_OK && !entry->anyway)
        status = lml_record_moment_check(entry, alloc, job, shown, err);
    if (status == LML_OK)
        status = lml_builder_status(&also, err);
    if (status == LML_OK)
        status = write_report(entry, &known, &entries, &also, report, err);
    lml_json_free(doc);
    lml_builder_free(&entries);
    lml_builder_free(&also);
    return status;
}

static lml_status check_entry(const lml_entry *entry, lml_error *err)
{
    if (!entry->at)
        return lml_fail(err, LML_USAGE, "an entry of a record has no moment");
    if (entry->what ? entry->what[0] != '\0' : entry->count > 0)
        return LML_OK;
    return lml_fail(err, LML_USAGE,
                    "an entry of a record does not say what was weighed or measured");
}

lml_status lml_engine_record(lml_engine *engine, const char *job, size_t length, const char *shown,
                             const lml_text *result, const lml_entry *entry, lml_text *after,
                             lml_text *report, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"entry", entry}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_builder text = lml_builder_on(alloc, 0), told = lml_builder_on(alloc, 0);
    lml_json_document *doc = NULL;
    lml_locale entered = lml_locale_enter();
    lml_status status = check_entry(entry, err);
    if (status == LML_OK && result)
        status = lml_paper_result(alloc, result, &doc, err);
    if (status == LML_OK)
        status = record(alloc, (lml_span){job, length}, shown, doc ? lml_json_root(doc) : NULL,
                        entry, &text, &told, err);
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take_both(&text, after, &told, report, status, err);
}
