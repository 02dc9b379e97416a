#include "cli/ask.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "sheet/layout.h"
#include "studio/lock.h"

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

static lml_status put_report(lml_call *call, const lml_json *told, lml_error *err)
{
    lml_span text = lml_json_text(lml_json_member(told, "text"));
    const char *path = call->arguments.word[0];
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_write_open_record(&w);
        lml_json_write_member(&w, "job", path);
        lml_json_write_name(&w, lml_span_of("confirmed"));
        lml_json_write_text(&w, lml_json_text(lml_json_member(told, "confirmed")));
        lml_json_write_name(&w, lml_span_of("text"));
        lml_json_write_text(&w, text);
        lml_json_write_close(&w);
        return lml_call_end_json(&w, err);
    }
    if (!lml_call_quiet(call)) {
        lml_layout_put(&call->out, lml_span_of(path));
        lml_builder_add_text(&call->out, ": confirmed: ");
        lml_layout_put(&call->out, text);
        lml_builder_add_char(&call->out, '\n');
    }
    return LML_OK;
}

static lml_status report(lml_call *call, const lml_text *told, lml_error *err)
{
    lml_json_document *doc;
    lml_status status = lml_ask_parse_span(call, (lml_span){told->text, told->length}, &doc, err);
    if (status != LML_OK)
        return status;
    status = put_report(call, lml_json_root(doc), err);
    lml_json_free(doc);
    return status;
}

/* The point is taken from the job as it is now, under the lock, so that nobody confirms what has
 * just changed. */
static lml_status confirm(lml_call *call, lml_engine *engine, const lml_builder *before,
                          lml_store_file *as_read, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *path = a->word[0];
    lml_confirmation said = {
        .code = a->word[1], .by = a->value[LML_OPTION_BY], .reason = a->value[LML_OPTION_REASON]};
    lml_text result = {.text = NULL}, after = {.text = NULL}, told = {.text = NULL};
    lml_status status = lml_boxes_read(call, path, before, &result, err);
    if (status == LML_OK)
        status = lml_engine_confirm(engine, before->at ? before->at : "", before->length, path,
                                    &result, &said, &after, &told, err);
    if (status == LML_OK)
        status = lml_store_replace(path, (lml_span){after.text, after.length}, as_read, err);
    if (as_read->replaced)
        lml_text_join(call->done, sizeof call->done, "the confirmation is in ", path,
                      ": do not confirm it again");
    if (status == LML_OK)
        status = report(call, &told, err);
    lml_boxes_end(call, &result);
    lml_text_free(engine, &after);
    lml_text_free(engine, &told);
    return status;
}

lml_status lml_cmd_confirm(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    const char *path = call->arguments.word[0];
    lml_lock lock;
    lml_engine *engine = NULL;
    lml_builder before = lml_builder_on(&call->alloc, 0);
    lml_store_file as_read = {0};
    status = lml_lock_take(path, &lock, err);
    if (status == LML_OK)
        status = lml_ask_engine(call, &engine, err);
    if (status == LML_OK)
        status = lml_store_read_as(path, LML_STORE_SIZE, &before, &as_read, err);
    if (status == LML_OK)
        status = confirm(call, engine, &before, &as_read, err);
    lml_lock_end(&lock);
    lml_engine_free(engine);
    lml_builder_free(&before);
    return status;
}
