#include "cli/ask.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "sheet/layout.h"
#include "studio/lock.h"
#include "terminal/clock.h"

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
static void tell(lml_call *call, lml_engine *engine, const char *path, const lml_builder *before)
{
    const char *what = call->arguments.word[1];
    lml_text result = lml_boxes_of(call, path, before), text = {.text = NULL};
    lml_json_document *doc = NULL;
    if (result.text && lml_engine_box(engine, &result, what, &text, NULL) == LML_OK &&
        lml_ask_parse_span(call, (lml_span){text.text, text.length}, &doc, NULL) == LML_OK) {
        const lml_json *box = lml_json_root(doc);
        bool any = lml_json_number(lml_json_member(box, "boxes")) > 0,
             called = lml_json_number(lml_json_member(box, "called")) > 0;
        lml_span near = lml_json_text(lml_json_member(box, "near"));
        if (any && !called && (near.length > 0 || !has_way(&call->arguments)))
            lml_builder_add_format(
                &call->aside,
                "no box on the sheets of this job is called \"%s\": it was recorded, and "
                "no sheet reads it\n",
                what);
        if (any && !called && near.length > 0)
            lml_builder_add_format(&call->aside, "  did you mean \"%.*s\"?\n", (int)near.length,
                                   near.at);
    }
    lml_json_free(doc);
    lml_text_free(engine, &text);
    lml_boxes_end(call, &result);
}

static lml_status report(lml_call *call, const lml_text *told, lml_error *err)
{
    const char *path = call->arguments.word[0];
    lml_json_document *doc;
    lml_status status = lml_ask_parse_span(call, (lml_span){told->text, told->length}, &doc, err);
    if (status != LML_OK)
        return status;
    const lml_json *entries = lml_json_member(lml_json_root(doc), "entries");
    if (lml_call_wants_json(call)) {
        bool all = call->arguments.given[LML_OPTION_ALL];
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_write_open_record(&w);
        lml_json_write_member(&w, "job", path);
        lml_json_write_name(&w, lml_span_of(all ? "entries" : "entry"));
        if (all)
            lml_json_write_open_list(&w);
        for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e))
            lml_json_write_raw(&w, lml_json_raw(e));
        if (all)
            lml_json_write_close(&w);
        lml_json_write_close(&w);
        status = lml_call_end_json(&w, err);
    }
    for (const lml_json *e = lml_json_first(entries);
         e && !lml_call_wants_json(call) && !lml_call_quiet(call); e = lml_json_next(e)) {
        lml_layout_put(&call->out, lml_span_of(path));
        lml_builder_add_format(&call->out, ": recorded %.*s\n", (int)lml_json_raw(e).length,
                               lml_json_raw(e).at);
    }
    lml_json_free(doc);
    return status;
}

/* What the words say; the clock is read where they say now, or where they could be of a moment
 * still to come. */
static lml_status read_entry(const lml_arguments *a, char now[LML_CLOCK_TEXT], lml_entry *out,
                             lml_error *err)
{
    bool all = a->given[LML_OPTION_ALL], is_now = strcmp(a->value[LML_OPTION_AT], "now") == 0;
    size_t first = all ? 1 : 2;
    *out = (lml_entry){.what = all ? NULL : a->word[1],
                       .word = a->word + first,
                       .count = a->words - first,
                       .at = is_now ? now : a->value[LML_OPTION_AT],
                       .owner = a->value[LML_OPTION_OWNER],
                       .anyway = a->given[LML_OPTION_ANYWAY]};
    if (!is_now && out->anyway)
        return LML_OK;
    out->now = is_now ? NULL : now;
    return lml_clock_now(now, err);
}

/* The new text of the job, from the text as it is under the lock. */
static lml_status record(lml_call *call, lml_engine *engine, const lml_builder *before,
                         lml_text *after, lml_text *told, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *path = a->word[0];
    char now[LML_CLOCK_TEXT];
    lml_entry entry;
    lml_text result = {.text = NULL};
    lml_status status = read_entry(a, now, &entry, err);
    if (status != LML_OK)
        return status;
    if (!entry.what) {
        result = lml_boxes_of(call, path, before);
        if (!result.text)
            lml_builder_add_text(&call->aside,
                                 "the job cannot be run, so no name was checked against its "
                                 "boxes; lemel check says why\n");
    }
    status = lml_engine_record(engine, before->at ? before->at : "", before->length, path,
                               result.text ? &result : NULL, &entry, after, told, err);
    lml_boxes_end(call, &result);
    return status;
}

static lml_status write_file(lml_call *call, lml_engine *engine, lml_builder *before,
                             lml_text *told, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *path = a->word[0];
    bool all = a->given[LML_OPTION_ALL];
    lml_lock lock;
    lml_text after = {.text = NULL};
    lml_store_file as_read = {0};
    lml_status status =
        lml_lock_take(path, &lock, err); /* before the clock is read: entries come in order */
    if (status == LML_OK)
        status = lml_store_read_as(path, LML_STORE_SIZE, before, &as_read, err);
    if (status == LML_OK)
        status = record(call, engine, before, &after, told, err);
    if (status == LML_OK)
        status = lml_store_replace(path, (lml_span){after.text, after.length}, &as_read, err);
    if (as_read.replaced)
        lml_text_join(call->done, sizeof call->done,
                      all ? "all entries are in " : "the entry is in ", path,
                      all ? ": do not record them again" : ": do not record it again");
    lml_lock_end(&lock);
    lml_text_free(engine, &after);
    return status;
}

lml_status lml_cmd_record(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    lml_status status = check_words(a, err);
    if (status != LML_OK)
        return status;
    lml_engine *engine = NULL;
    lml_builder before = lml_builder_on(&call->alloc, 0);
    lml_text told = {.text = NULL};
    status = lml_ask_engine(call, &engine, err);
    if (status == LML_OK)
        status = write_file(call, engine, &before, &told, err);
    if (status == LML_OK)
        status = report(call, &told, err);
    if (status == LML_OK && !lml_call_quiet(call) && !a->given[LML_OPTION_ALL])
        tell(call, engine, a->word[0], &before);
    if (engine)
        lml_text_free(engine, &told);
    lml_engine_free(engine);
    lml_builder_free(&before);
    return status;
}
