#include "cli/work.h"
#include "cli/given.h"
#include "file/json_write.h"
#include "file/store.h"

#include <stdio.h>
#include <string.h>

/* ---- the job ---- */

static lml_status read_input(lml_builder *out, lml_error *err)
{
    char block[4096];
    size_t got;
    while ((got = fread(block, 1, sizeof block, stdin)) > 0) {
        lml_builder_add(out, block, got);
        if (out->length > LML_STORE_SIZE)
            return lml_fail(err, LML_LIMIT, "standard input is longer than %d bytes",
                            (int)LML_STORE_SIZE);
    }
    if (ferror(stdin))
        return lml_fail(err, LML_NO_FILE, "cannot read standard input");
    return lml_builder_status(out, err);
}

lml_status lml_work_read_job(const lml_call *call, const lml_target *target, lml_job_text *out,
                             lml_error *err)
{
    *out = (lml_job_text){.text = lml_builder_on(&call->alloc, 0), .shown = target->path};
    lml_status status = LML_FAULT;
    switch (target->kind) {
    case LML_TARGET_JOB:
        status = target->named ? lml_store_read_named(target->path, LML_STORE_SIZE, &out->text, err)
                               : lml_store_read(target->path, LML_STORE_SIZE, &out->text, err);
        break;
    case LML_TARGET_INPUT:
        out->shown = "standard input";
        status = read_input(&out->text, err);
        break;
    case LML_TARGET_RECIPE:
        out->shown = LML_JOB_TYPED;
        status = lml_given_start(&out->text, target->recipe, err);
        break;
    }
    if (status != LML_OK)
        lml_builder_free(&out->text);
    return status;
}

lml_status lml_work_put_words(const lml_call *call, size_t first, lml_job_text *job, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    for (size_t i = first; i < a->words; i++) {
        size_t name = strcspn(a->word[i], "=");
        for (size_t k = first; k < i; k++)
            if (strcspn(a->word[k], "=") == name && strncmp(a->word[k], a->word[i], name) == 0)
                return lml_fail(err, LML_USAGE, "%.*s is given twice: %s and %s", (int)name,
                                a->word[i], a->word[k], a->word[i]);
        lml_status status = lml_given_put(&job->text, a->word[i], job->shown, err);
        if (status != LML_OK)
            return status;
    }
    return LML_OK;
}

/* ---- in the worker ---- */

static const char *bytes_of(const lml_job_text *job)
{
    return job->text.at ? job->text.at : ""; /* of an empty input */
}

static lml_status run(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job_text *job = request;
    lml_status status =
        lml_engine_run(engine, bytes_of(job), job->text.length, job->shown, out, err);
    return status == LML_OK && out->stopped ? LML_STOPPED : status;
}

lml_status lml_work_job(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job *job = request;
    lml_status status =
        lml_engine_run(engine, job->text.at, job->text.length, job->shown, out, err);
    return status == LML_OK && out->stopped ? LML_STOPPED : status;
}

static lml_status check(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job_text *job = request;
    (void)out;
    return lml_engine_check(engine, bytes_of(job), job->text.length, job->shown, err);
}

static lml_status inspect(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_inspect(engine, request, out, err);
}

static lml_status advise(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_advise(engine, request, out, err);
}

static lml_status schema(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_schema(engine, request, out, err);
}

static lml_status prove(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_prove(engine, request, out, err);
}

static lml_status reckon(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_sum *sum = request;
    return lml_engine_reckon(engine, sum->expression, sum->unit, sum->digits, out, err);
}

/* ---- in the command ---- */

static lml_status order(const lml_kit *kit, lml_work work, const void *request, lml_builder *out,
                        lml_error *err)
{
    lml_worker_orders orders = {
        .kit = kit, .work = work, .request = request, .limits = kit->limits};
    return lml_worker_run(&orders, out, err);
}

lml_status lml_work_run(const lml_kit *kit, const lml_job_text *job, lml_builder *out,
                        bool *stopped, lml_error *err)
{
    lml_status status = order(kit, run, job, out, err);
    *stopped = status == LML_STOPPED;
    return *stopped ? LML_OK : status;
}

lml_status lml_work_check(const lml_kit *kit, const lml_job_text *job, lml_error *err)
{
    lml_builder nothing = lml_builder_on(kit->alloc, 0);
    lml_status status = order(kit, check, job, &nothing, err);
    lml_builder_free(&nothing);
    return status;
}

lml_status lml_work_inspect(const lml_kit *kit, const char *recipe, lml_builder *out,
                            lml_error *err)
{
    return order(kit, inspect, recipe, out, err);
}

lml_status lml_work_advise(const lml_kit *kit, const char *recipe, lml_builder *out, lml_error *err)
{
    return order(kit, advise, recipe, out, err);
}

lml_status lml_work_schema(const lml_kit *kit, const char *recipe, lml_builder *out, lml_error *err)
{
    return order(kit, schema, recipe, out, err);
}

lml_status lml_work_prove(const lml_kit *kit, const char *recipe, lml_builder *out, lml_error *err)
{
    return order(kit, prove, recipe, out, err);
}

lml_status lml_work_reckon(const lml_kit *kit, const lml_sum *sum, lml_builder *out, lml_error *err)
{
    return order(kit, reckon, sum, out, err);
}

lml_status lml_work_engine(const lml_call *call, lml_engine **out, lml_error *err)
{
    *out = lml_engine_new(&(lml_engine_options){.alloc = call->alloc});
    return *out ? LML_OK : lml_fail(err, LML_NO_MEMORY, "no memory for an engine");
}

/* Every value but the outermost has a byte of its own and one that parts it from the next. */
lml_status lml_work_parse_span(const lml_call *call, lml_span answer, lml_json_document **out,
                               lml_error *err)
{
    lml_json_limits limits = {.size = answer.length + 1, .nodes = answer.length / 2 + 1};
    lml_status status =
        lml_json_read(&call->alloc, answer, &limits, "the worker's answer", out, err);
    if (status != LML_BAD_DATA)
        return status;
    if (err)
        err->status = LML_FAULT;
    return LML_FAULT;
}

lml_status lml_work_parse(const lml_call *call, const lml_builder *answer, lml_json_document **out,
                          lml_error *err)
{
    return lml_work_parse_span(call, (lml_span){answer->at, answer->length}, out, err);
}

lml_status lml_work_end(lml_json_writer *w, lml_error *err)
{
    lml_builder_add_char(w->to, '\n');
    return lml_json_writer_end(w, err);
}
