#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/held.h"
#include "print/reason.h"
#include "studio/find.h"

enum { DEPTH = 4, DEPTH_MOST = 100 };

/* ---- in the worker ---- */

typedef struct request {
    lml_span job;
    const char *shown;
    lml_asked_why asked;
} request;

static lml_status ask(lml_engine *engine, const void *asked, lml_text *out, lml_error *err)
{
    const request *r = asked;
    return lml_engine_why(engine, r->job.at, r->job.length, r->shown, &r->asked, out, err);
}

/* ---- the command ---- */

static lml_status print(lml_call *call, const lml_builder *answer, size_t depth, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_status status = lml_ask_parse(call, answer, &doc, err);
    if (status != LML_OK)
        return status;
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_copy(&w, lml_json_root(doc));
        status = lml_call_end_json(&w, err);
    } else {
        status = lml_reason_print(call, lml_json_root(doc), depth, err);
    }
    lml_json_free(doc);
    return status;
}

static lml_status work(lml_call *call, const char *figure, size_t depth, lml_error *err)
{
    lml_target target = lml_find_target(call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0)};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_job_text_read(call, &target, &job, err);
    job.closing = call->arguments.given[LML_OPTION_CLOSING];
    if (status == LML_OK)
        status = lml_held_put(call, 2, &job, err);
    if (status == LML_OK)
        status = lml_ask_gather(&kit, &job, err);
    if (status == LML_OK) {
        request r = {{job.text.at, job.text.length}, job.shown, {figure, job.closing}};
        lml_task task = {.kit = {&kit}, .work = ask, .request = &r, .limits = kit.limits};
        status = lml_process_run(&task, &answer, err);
    }
    if (status == LML_OK)
        status = print(call, &answer, depth, err);
    lml_builder_free(&answer);
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
