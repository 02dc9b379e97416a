#include "cli/clock.h"
#include "cli/hold.h"
#include "cli/record_entry.h"
#include "file/json_write.h"
#include "file/splice.h"
#include "file/store.h"
#include "sheet/layout.h"

#include <string.h>

/* Whether the word at `index` names what stands in the entry already. */
static bool is_there(const lml_arguments *a, size_t first, size_t index)
{
    const char *word = a->word[index];
    lml_span name = {word, strcspn(word, "=")};
    bool there = first == 2 && (lml_span_is(name, "at") || lml_span_is(name, "what") ||
                                (lml_span_is(name, "owner") && a->given[LML_OPTION_OWNER]));
    for (size_t i = first; i < index && !there; i++)
        there = strcspn(a->word[i], "=") == name.length &&
                strncmp(a->word[i], name.at, name.length) == 0;
    return there;
}

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words < 2) {
        lml_fail(err, LML_USAGE,
                 a->words == 0 ? "lemel record wants a job file, and what was weighed"
                               : "lemel record wants what was weighed or measured");
        lml_error_hint(err, "lemel record jobs/x.json \"raw casting\" mass=\"31.02 g\" "
                            "--at 2026-11-26T14:20");
        return LML_USAGE;
    }
    if (strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "an entry is put into a job file, not into standard input");
        lml_error_hint(err, "name the file");
        return LML_USAGE;
    }
    bool all = a->given[LML_OPTION_ALL];
    if (!all && strchr(a->word[1], '=')) {
        lml_fail(err, LML_USAGE, "%s stands where what was weighed is due", a->word[1]);
        lml_error_hint(err, "name it as the box on the bench sheet does: \"raw casting\"; with "
                            "--all, several readings are \"flask=540 °C\" \"metal=960 °C\"");
        return LML_USAGE;
    }
    if (!a->given[LML_OPTION_AT]) {
        lml_fail(err, LML_USAGE, "when was it weighed or measured?");
        lml_error_hint(err, "add --at 2026-11-26T14:20, or --at now");
        return LML_USAGE;
    }
    size_t first = all ? 1 : 2;
    for (size_t i = first; i < a->words; i++)
        if (is_there(a, first, i))
            return lml_fail(err, LML_USAGE, "%.*s is given twice", (int)strcspn(a->word[i], "="),
                            a->word[i]);
    return LML_OK;
}

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

/* ---- whether any box is called that ---- */

static bool has_way(const lml_arguments *a)
{
    for (size_t i = 2; i < a->words; i++)
        if (strncmp(a->word[i], "way=", 4) == 0)
            return true;
    return false;
}

/* Say that no box has this name: a slip is read by nobody. Whoever keeps notes under names of their
 * own may, and in the metal account every name is one's own, so there only what looks like a box's
 * name is told. The job is looked at as it was before the entry, as its sheet was printed; one that
 * cannot be run has no boxes, and whatever is wrong with it is not wrong with the weighing. */
static void tell(lml_call *call, const char *path, const lml_builder *before)
{
    lml_boxes boxes = lml_boxes_of(call, path, before);
    lml_box box = lml_boxes_find(&boxes, lml_span_of(call->arguments.word[1]));
    bool near = lml_nearest_found(&box.near);
    if (box.count == 0 && box.all > 0 && (near || !has_way(&call->arguments))) {
        lml_append_format(&call->aside,
                          "no box on the sheets of this job is called \"%.*s\": it was recorded, and "
                          "no sheet reads it\n",
                          (int)box.near.wanted.length, box.near.wanted.at);
        if (near)
            lml_append_format(&call->aside, "  did you mean \"%.*s\"?\n",
                              (int)box.near.best.length, box.near.best.at);
    }
    lml_boxes_end(&boxes);
}

static lml_status report(lml_call *call, const lml_builder *entries, lml_error *err)
{
    const char *path = call->arguments.word[0];
    lml_span left = {entries->at, entries->length};
    if (lml_call_wants_json(call)) {
        bool all = call->arguments.given[LML_OPTION_ALL];
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_open_record(&w);
        lml_json_put_member(&w, "job", path);
        lml_json_put_name(&w, lml_span_of(all ? "entries" : "entry"));
        if (all)
            lml_json_open_list(&w);
        while (left.length)
            lml_json_put_raw(&w, next_entry(&left));
        if (all)
            lml_json_close(&w);
        lml_json_close(&w);
        lml_append_char(&call->out, '\n');
        return lml_json_writer_end(&w, err);
    }
    while (left.length && !lml_call_quiet(call)) {
        lml_span entry = next_entry(&left);
        lml_layout_put(&call->out, lml_span_of(path));
        lml_append_format(&call->out, ": recorded %.*s\n", (int)entry.length, entry.at);
    }
    return LML_OK;
}

/* The entries that the words say, one a line. */
static lml_status write_entries(lml_call *call, const lml_builder *before, lml_builder *out,
                                lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *at = a->value[LML_OPTION_AT];
    char now[LML_CLOCK_TEXT];
    lml_status status = LML_OK;
    if (strcmp(at, "now") == 0) {
        status = lml_clock_now(now, err);
        at = now;
    }
    if (status != LML_OK)
        return status;
    if (!a->given[LML_OPTION_ALL]) {
        status = lml_record_entry(call, at, out, err);
    } else {
        lml_boxes boxes = lml_boxes_of(call, a->word[0], before);
        if (!boxes.result)
            lml_append_text(&call->aside, "the job cannot be run, so no name was checked against its "
                                          "boxes; lemel check says why\n");
        for (size_t i = 1; i < a->words && status == LML_OK; i++) {
            if (i > 1)
                lml_append_char(out, '\n');
            status = lml_record_reading(call, &boxes, a->word[i], at, out, err);
        }
        lml_boxes_end(&boxes);
    }
    return status;
}

/* All entries put in, one behind the other: the text is only `after` when every one of them fits. */
static lml_status splice_all(const char *path, const lml_builder *before, const lml_builder *entries,
                             lml_builder *after, lml_error *err)
{
    lml_builder text = lml_builder_on(after->alloc, 0);
    lml_append_span(&text, (lml_span){before->at, before->length});
    lml_status status = lml_builder_status(&text, err);
    for (lml_span left = {entries->at, entries->length}; left.length && status == LML_OK;) {
        lml_builder longer = lml_builder_on(after->alloc, 0);
        status = lml_splice_record((lml_span){text.at, text.length}, path, next_entry(&left), &longer,
                                   err);
        lml_builder_free(&text);
        text = longer;
    }
    if (status == LML_OK) {
        lml_append_span(after, (lml_span){text.at, text.length});
        status = lml_builder_status(after, err);
    }
    lml_builder_free(&text);
    return status;
}

lml_status lml_cmd_record(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    const char *path = call->arguments.word[0];
    lml_hold hold;
    lml_builder entries = lml_builder_on(&call->alloc, 0), before = lml_builder_on(&call->alloc, 0),
                after = lml_builder_on(&call->alloc, 0);
    lml_store_file as_read = {0};
    status = lml_hold_take(path, &hold, err); /* before the clock is read: entries come in order */
    if (status == LML_OK)
        status = lml_store_read_as(path, LML_STORE_SIZE, &before, &as_read, err);
    if (status == LML_OK)
        status = write_entries(call, &before, &entries, err);
    if (status == LML_OK)
        status = splice_all(path, &before, &entries, &after, err);
    if (status == LML_OK && !call->arguments.given[LML_OPTION_ANYWAY])
        status = lml_record_check_moment(call, path, &before, err);
    if (status == LML_OK)
        status = lml_store_replace(path, (lml_span){after.at, after.length}, &as_read, err);
    if (as_read.replaced)
        lml_text_join(call->done, sizeof call->done,
                      call->arguments.given[LML_OPTION_ALL] ? "all entries are in " : "the entry is in ", path,
                      call->arguments.given[LML_OPTION_ALL] ? ": do not record them again" : ": do not record it again");
    lml_hold_end(&hold);
    if (status == LML_OK)
        status = report(call, &entries, err);
    if (status == LML_OK && !lml_call_quiet(call) && !call->arguments.given[LML_OPTION_ALL])
        tell(call, path, &before);
    lml_builder_free(&after);
    lml_builder_free(&before);
    lml_builder_free(&entries);
    return status;
}
