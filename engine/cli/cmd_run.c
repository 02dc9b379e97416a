#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/fault_list.h"
#include "sheet/sheet.h"
#include "studio/unproved.h"

#include <stdio.h>
#include <string.h>

static lml_status refuse_page(const lml_json *result, const char *page, lml_error *err)
{
    char held[200] = "";
    size_t used = 0;
    const lml_json *sheets = lml_json_member(result, "sheets");
    for (const lml_json *p = lml_json_first(sheets); p; p = lml_json_next(p)) {
        lml_span name = lml_json_name(p);
        if (!lml_sheet_has(result, name.at) || used + name.length + 3 > sizeof held)
            continue;
        used += (size_t)snprintf(held + used, sizeof held - used, "%s%s", used > 0 ? ", " : "",
                                 name.at);
    }
    lml_fail(err, LML_NOT_FOUND, "nothing stands on a sheet \"%s\"", page);
    lml_error_hint(err, held[0] ? "something stands on: %s" : "nothing stands on any%s", held);
    return LML_NOT_FOUND;
}

static lml_status draw(lml_call *call, const lml_json *result, lml_error *err)
{
    bool json = lml_call_wants_json(call);
    lml_sheet_look look = {.page = call->arguments.value[LML_OPTION_SHEET],
                           .width = call->width,
                           .bold = call->bold,
                           .landscape = call->arguments.given[LML_OPTION_LANDSCAPE]};
    bool missing = look.page && !lml_sheet_has(result, look.page);
    lml_status status = LML_OK;
    if (json) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_copy(&w, result);
        status = lml_call_end_json(&w, err);
    } else if (!missing) {
        status = lml_sheet_draw(result, &look, &call->out, err);
    }
    if (status == LML_OK) {
        look.bold = look.landscape = false;
        status = lml_sheet_draw_unseen(result, &look, json || missing, &call->aside, err);
    }
    return status == LML_OK && missing ? refuse_page(result, look.page, err) : status;
}

static lml_status tell_unproved(lml_call *call, const lml_target *target, const lml_kit *kit,
                                const lml_builder *answer, lml_error *err)
{
    char studio[LML_PATH];
    lml_find_studio(call, target, studio);
    return lml_unproved_tell(call, studio, kit, (lml_span){answer->at, answer->length}, err);
}

lml_status lml_cmd_run_text(lml_call *call, const lml_target *target, const lml_job_text *job,
                            const lml_kit *kit, lml_error *err)
{
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    bool stopped = false;
    lml_status status = lml_ask_run(kit, job, &answer, &stopped, err);
    if (status != LML_OK)
        lml_fault_list_tell_others(call, kit, job, err);
    if (status == LML_OK)
        status = lml_ask_parse(call, &answer, &result, err);
    if (status == LML_OK)
        status = draw(call, lml_json_root(result), err);
    if (status == LML_OK)
        status = tell_unproved(call, target, kit, &answer, err);
    if (status == LML_OK && stopped)
        status = LML_STOPPED;
    lml_json_free(result);
    lml_builder_free(&answer);
    return status;
}

static lml_status work(lml_call *call, const lml_target *target, bool closing, lml_kit *kit,
                       lml_error *err)
{
    lml_job_text job;
    lml_status status = lml_job_text_read(call, target, &job, err);
    if (status != LML_OK)
        return status;
    job.closing = closing;
    status = lml_job_text_put(call, 1, &job, err);
    if (status == LML_OK)
        status = lml_cmd_run_text(call, target, &job, kit, err);
    lml_builder_free(&job.text);
    return status;
}

lml_status lml_cmd_run_target(lml_call *call, bool closing, lml_error *err)
{
    lml_target target = lml_find_target(call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = work(call, &target, closing, &kit, err);
    lml_kit_free(&kit);
    return status;
}

lml_status lml_cmd_run(lml_call *call, lml_error *err)
{
    if (call->arguments.words == 0) {
        lml_fail(err, LML_USAGE, "lemel run wants a job file or a recipe");
        lml_error_hint(err, "lemel recipes lists the recipes within reach");
        return LML_USAGE;
    }
    return lml_cmd_run_target(call, false, err);
}
