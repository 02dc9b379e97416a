#include "cli/clock.h"
#include "cli/command.h"
#include "cli/hold.h"
#include "cli/work.h"
#include "file/json_write.h"
#include "file/shapes.h"
#include "file/splice.h"
#include "file/store.h"
#include "sheet/layout.h"

#include <stdio.h>
#include <string.h>

/* One field of the entry, read as its shape has it: "31.02 g" stays a text, a count is a number. */
static lml_status put_field(const lml_call *call, lml_span name, lml_span value, lml_json_writer *w,
                            lml_error *err)
{
    const lml_shape *entry = &lml_record_entry_shape, *field = NULL;
    lml_nearest near = lml_nearest_to(name);
    for (size_t i = 0; i < entry->field_count; i++) {
        if (lml_span_is(name, entry->fields[i].name))
            field = &entry->fields[i];
        lml_nearest_offer(&near, lml_span_of(entry->fields[i].name));
    }
    if (!field) {
        lml_fail(err, LML_USAGE, "an entry of the record has no \"%.*s\"", (int)name.length,
                 name.at);
        if (lml_nearest_found(&near))
            return lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
        return lml_error_hint(err, "lemel record --help lists what it may hold");
    }
    lml_json_document *doc;
    lml_status status = lml_shape_read(&call->alloc, field, value, field->name, &doc, err);
    if (status != LML_OK)
        return status;
    lml_json_put_name(w, name);
    lml_json_put_raw(w, lml_json_raw(lml_json_root(doc)));
    lml_json_free(doc);
    return LML_OK;
}

static lml_status put_word(const lml_call *call, const char *word, lml_json_writer *w,
                           lml_error *err)
{
    const char *equals = strchr(word, '=');
    if (!equals) {
        lml_fail(err, LML_USAGE, "\"%s\" says no value", word);
        return lml_error_hint(err, "write NAME=VALUE, such as mass=\"31.02 g\"");
    }
    return put_field(call, lml_span_between(word, equals), lml_span_of(equals + 1), w, err);
}

static lml_status write_entry(const lml_call *call, lml_builder *out, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *at = a->value[LML_OPTION_AT], *owner = a->value[LML_OPTION_OWNER];
    char now[LML_CLOCK_TEXT];
    lml_status status = strcmp(at, "now") == 0 ? lml_clock_now(now, err) : LML_OK;
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_open_record(&w);
    if (status == LML_OK)
        status = put_field(call, lml_span_of("at"), lml_span_of(strcmp(at, "now") == 0 ? now : at),
                           &w, err);
    if (status == LML_OK)
        status = put_field(call, lml_span_of("what"), lml_span_of(a->word[1]), &w, err);
    for (size_t i = 2; i < a->words && status == LML_OK; i++)
        status = put_word(call, a->word[i], &w, err);
    if (owner && status == LML_OK)
        status = put_field(call, lml_span_of("owner"), lml_span_of(owner), &w, err);
    if (status != LML_OK)
        return status;
    lml_json_close(&w);
    return lml_json_writer_end(&w, err);
}

/* Whether the word at `index` names what stands in the entry already. */
static bool is_there(const lml_arguments *a, size_t index)
{
    const char *word = a->word[index];
    lml_span name = {word, strcspn(word, "=")};
    bool there = lml_span_is(name, "at") || lml_span_is(name, "what") ||
                 (lml_span_is(name, "owner") && a->given[LML_OPTION_OWNER]);
    for (size_t i = 2; i < index && !there; i++)
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
        return lml_error_hint(err, "lemel record jobs/x.json \"raw casting\" mass=\"31.02 g\" "
                                   "--at 2026-11-26T14:20");
    }
    if (strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "an entry is put into a job file, not into standard input");
        return lml_error_hint(err, "name the file");
    }
    if (strchr(a->word[1], '=')) {
        lml_fail(err, LML_USAGE, "%s stands where what was weighed is due", a->word[1]);
        return lml_error_hint(err, "name it as the box on the bench sheet does: \"raw casting\"");
    }
    if (!a->given[LML_OPTION_AT]) {
        lml_fail(err, LML_USAGE, "when was it weighed or measured?");
        return lml_error_hint(err, "add --at 2026-11-26T14:20, or --at now");
    }
    for (size_t i = 2; i < a->words; i++)
        if (is_there(a, i))
            return lml_fail(err, LML_USAGE, "%.*s is given twice", (int)strcspn(a->word[i], "="),
                            a->word[i]);
    return LML_OK;
}

/* ---- whether any box is called that ---- */

typedef struct boxes {
    lml_nearest near;
    size_t count;
    bool found;
} boxes;

static void look_among(const lml_json *entries, boxes *b)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        look_among(lml_json_member(e, "entries"), b);
        lml_span box = lml_json_text(lml_json_member(e, "record"));
        if (box.length == 0)
            continue;
        b->count++;
        b->found = b->found || lml_span_equal(box, b->near.wanted);
        lml_nearest_offer(&b->near, box);
    }
}

static bool has_way(const lml_arguments *a)
{
    for (size_t i = 2; i < a->words; i++)
        if (strncmp(a->word[i], "way=", 4) == 0)
            return true;
    return false;
}

/* Say that no box has this name: a slip is read by nobody. Whoever keeps notes under names of their
 * own may, and in the metal account every name is one's own, so there only what looks like a box's
 * name is told. */
static void tell(lml_call *call, const boxes *b)
{
    bool near = lml_nearest_found(&b->near);
    if (b->found || b->count == 0 || (has_way(&call->arguments) && !near))
        return;
    lml_append_format(&call->aside,
                      "no box on the sheets of this job is called \"%.*s\": it was recorded, and "
                      "no sheet reads it\n",
                      (int)b->near.wanted.length, b->near.wanted.at);
    if (near)
        lml_append_format(&call->aside, "  did you mean \"%.*s\"?\n", (int)b->near.best.length,
                          b->near.best.at);
}

/* Work the job as it was before the entry, as its sheet was printed. One that cannot be worked has
 * no boxes to look at, and whatever is wrong with it is not wrong with the weighing. */
static void look_for_box(lml_call *call, const char *path, const lml_builder *before)
{
    lml_target target = {.kind = LML_TARGET_JOB, .path = path};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = *before, .shown = path};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    boxes b = {.near = lml_nearest_to(lml_span_of(call->arguments.word[1]))};
    if (lml_find_kit(call, &target, &kit, NULL) == LML_OK &&
        lml_work_run(&kit, &job, &answer, NULL) == LML_OK &&
        lml_work_parse(call, &answer, &result, NULL) == LML_OK) {
        const lml_json *sheets = lml_json_member(lml_json_root(result), "sheets");
        for (const lml_json *page = lml_json_first(sheets); page; page = lml_json_next(page))
            look_among(page, &b);
        tell(call, &b);
    }
    lml_json_free(result);
    lml_builder_free(&answer);
    lml_kit_free(&kit);
}

static lml_status report(lml_call *call, const lml_builder *entry, lml_error *err)
{
    const char *path = call->arguments.word[0];
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_open_record(&w);
        lml_json_put_member(&w, "job", path);
        lml_json_put_name(&w, lml_span_of("entry"));
        lml_json_put_raw(&w, (lml_span){entry->at, entry->length});
        lml_json_close(&w);
        lml_append_char(&call->out, '\n');
        return lml_json_writer_end(&w, err);
    }
    if (!lml_call_quiet(call)) {
        lml_layout_put(&call->out, lml_span_of(path));
        lml_append_format(&call->out, ": recorded %s\n", entry->at);
    }
    return LML_OK;
}

lml_status lml_cmd_record(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    const char *path = call->arguments.word[0];
    lml_hold hold;
    lml_builder entry = lml_builder_on(&call->alloc, 0), before = lml_builder_on(&call->alloc, 0),
                after = lml_builder_on(&call->alloc, 0);
    status = lml_hold_take(path, &hold, err); /* before the clock is read: entries come in order */
    if (status == LML_OK)
        status = write_entry(call, &entry, err);
    if (status == LML_OK)
        status = lml_store_read(path, LML_STORE_SIZE, &before, err);
    if (status == LML_OK)
        status = lml_splice_record((lml_span){before.at, before.length}, path,
                                   (lml_span){entry.at, entry.length}, &after, err);
    if (status == LML_OK)
        status = lml_store_write(path, (lml_span){after.at, after.length}, true, err);
    lml_hold_end(&hold);
    if (status == LML_OK)
        status = report(call, &entry, err);
    if (status == LML_OK && !lml_call_quiet(call))
        look_for_box(call, path, &before);
    lml_builder_free(&after);
    lml_builder_free(&before);
    lml_builder_free(&entry);
    return status;
}
