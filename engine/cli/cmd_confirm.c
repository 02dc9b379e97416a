#include "cli/boxes.h"
#include "cli/hold.h"
#include "cli/work.h"
#include "file/splice.h"
#include "file/store.h"
#include "sheet/layout.h"

#include <string.h>

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words != 2 || strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "lemel confirm needs a job file and the code of one point");
    } else if (!a->value[LML_OPTION_BY] || !a->value[LML_OPTION_BY][0]) {
        lml_fail(err, LML_USAGE, "who decides it?");
    } else if (!a->value[LML_OPTION_REASON] || !a->value[LML_OPTION_REASON][0]) {
        lml_fail(err, LML_USAGE, "why is it accepted?");
    } else {
        return LML_OK;
    }
    lml_error_hint(err, "lemel confirm jobs/x.json charge/old-metal-share --by O.F. --reason "
                        "\"told of porosity\"");
    return LML_USAGE;
}

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The open point of that code on the sheets of the job. */
static lml_status find_point(const lml_json *result, lml_span code, const lml_json **out,
                             lml_error *err)
{
    lml_nearest near = lml_nearest_to(code);
    size_t open = 0;
    const lml_json *first = NULL;
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        lml_span level = member_text(remark, "level"), own = member_text(remark, "code");
        if (lml_span_equal(own, code) && lml_span_is(level, "confirmed"))
            return lml_fail(err, LML_BAD_DATA, "%.*s is confirmed already", (int)code.length, code.at);
        if (lml_span_equal(own, code) && lml_span_is(level, "stop")) {
            lml_fail(err, LML_BAD_DATA, "%.*s is a stop: nobody can confirm it away", (int)code.length, code.at);
            lml_error_hint(err, "mend what it says");
            return LML_BAD_DATA;
        }
        if (!lml_span_is(level, "confirm"))
            continue;
        if (lml_span_equal(own, code)) {
            *out = remark;
            return LML_OK;
        }
        lml_nearest_offer(&near, own);
        first = first ? first : remark;
        open++;
    }
    lml_fail(err, LML_BAD_DATA, "no point of this job that is open is called %.*s", (int)code.length, code.at);
    if (lml_nearest_found(&near)) {
        lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
        return LML_BAD_DATA;
    }
    if (open == 0) {
        lml_error_hint(err, "none is open");
        return LML_BAD_DATA;
    }
    lml_span name = member_text(first, "code");
    lml_error_hint(err, "%zu open: %.*s%s", open, (int)name.length, name.at, open > 1 ? " and others" : "");
    return LML_BAD_DATA;
}

static lml_status write_entry(const lml_arguments *a, lml_span text, lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_open_record(&w);
    lml_json_put_member(&w, "reason", a->value[LML_OPTION_REASON]);
    lml_json_put_member(&w, "by", a->value[LML_OPTION_BY]);
    lml_json_put_name(&w, lml_span_of("text"));
    lml_json_put_text(&w, text);
    lml_json_close(&w);
    return lml_json_writer_end(&w, err);
}

static lml_status report(lml_call *call, const lml_json *point, lml_error *err)
{
    const char *path = call->arguments.word[0];
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_open_record(&w);
        lml_json_put_member(&w, "job", path);
        lml_json_put_name(&w, lml_span_of("confirmed"));
        lml_json_put_text(&w, member_text(point, "code"));
        lml_json_put_name(&w, lml_span_of("text"));
        lml_json_put_text(&w, member_text(point, "text"));
        lml_json_close(&w);
        return lml_work_end(&w, err);
    }
    if (!lml_call_quiet(call)) {
        lml_layout_put(&call->out, lml_span_of(path));
        lml_append_text(&call->out, ": confirmed: ");
        lml_layout_put(&call->out, member_text(point, "text"));
        lml_append_char(&call->out, '\n');
    }
    return LML_OK;
}

/* The point is taken from the job as it is now, under the hold, so that nobody confirms what has just changed. */
static lml_status confirm(lml_call *call, const lml_builder *before, lml_store_file *as_read,
                          lml_error *err)
{
    const char *path = call->arguments.word[0];
    lml_span code = lml_span_of(call->arguments.word[1]);
    lml_builder entry = lml_builder_on(&call->alloc, 0), after = lml_builder_on(&call->alloc, 0);
    lml_boxes job = {0};
    const lml_json *point = NULL;
    lml_status status = lml_boxes_read(call, path, before, &job, err);
    if (status == LML_OK)
        status = find_point(lml_json_root(job.result), code, &point, err);
    if (status == LML_OK)
        status = write_entry(&call->arguments, member_text(point, "text"), &entry, err);
    if (status == LML_OK)
        status = lml_splice_confirmed((lml_span){before->at, before->length}, path, code,
                                      (lml_span){entry.at, entry.length}, &after, err);
    if (status == LML_OK)
        status = lml_store_replace(path, (lml_span){after.at, after.length}, as_read, err);
    if (as_read->replaced)
        lml_text_join(call->done, sizeof call->done, "the confirmation is in ", path, ": do not confirm it again");
    if (status == LML_OK)
        status = report(call, point, err);
    lml_boxes_end(&job);
    lml_builder_free(&after);
    lml_builder_free(&entry);
    return status;
}

lml_status lml_cmd_confirm(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    const char *path = call->arguments.word[0];
    lml_hold hold;
    lml_builder before = lml_builder_on(&call->alloc, 0);
    lml_store_file as_read = {0};
    status = lml_hold_take(path, &hold, err);
    if (status == LML_OK)
        status = lml_store_read_as(path, LML_STORE_SIZE, &before, &as_read, err);
    if (status == LML_OK)
        status = confirm(call, &before, &as_read, err);
    lml_hold_end(&hold);
    lml_builder_free(&before);
    return status;
}
