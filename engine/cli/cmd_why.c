#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/held.h"
#include "print/reason.h"
#include "studio/find.h"

enum { DEPTH = 4, DEPTH_MOST = 100 };

static lml_status print(lml_call *call, const lml_json *answer, size_t depth, lml_error *err)
{
    if (!lml_call_wants_json(call))
        return lml_reason_print(call, answer, depth, err);
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    lml_json_copy(&w, answer);
    return lml_call_end_json(&w, err);
}

static lml_status work(lml_call *call, const char *figure, size_t depth, lml_error *err)
{
    lml_target target = lml_find_target(call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0)};
    lml_json_document *answer = NULL;
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_job_text_read(call, &target, &job, err);
    job.closing = call->arguments.given[LML_OPTION_CLOSING];
    if (status == LML_OK)
        status = lml_held_put(call, 2, &job, err);
    if (status == LML_OK)
        status = lml_ask_gather(&kit, &job, err);
    if (status == LML_OK) {
        lml_ask_figure asked = {{job.text.at, job.text.length, job.shown},
                                {figure, job.closing, call->arguments.given[LML_OPTION_AFRESH]}};
        status = lml_ask_why(&kit, &asked, &answer, err);
    }
    if (status == LML_OK)
        status = print(call, lml_json_root(answer), depth, err);
    if (status != LML_OK)
        lml_job_text_blame(call, 2, &job, err);
    lml_json_free(answer);
    lml_builder_free(&job.text);
    lml_kit_free(&kit);
    return status;
}

lml_status lml_cmd_why(lml_call *call, lml_error *err)
{
    uint64_t depth = DEPTH;
    if (call->arguments.words < 2) {
        lml_fail(err, LML_USAGE, "lemel why needs a job and one of its figures");
        lml_error_hint(err, "lemel why jobs/NAME.json price");
        return LML_USAGE;
    }
    lml_status status =
        lml_limits_whole(&call->arguments, LML_OPTION_DEPTH, 1, DEPTH_MOST, &depth, err);
    return status == LML_OK ? work(call, call->arguments.word[1], (size_t)depth, err) : status;
}
