#include "cli/ask.h"

#include "cli/listed.h"
#include "face/engine.h"
#include "face/output.h"

/* ---- in the worker ---- */

static const char *bytes_of(const lml_job_text *job)
{
    return job->text.at ? job->text.at : ""; /* of an empty input */
}

static lml_status run(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job_text *job = request;
    lml_status (*how)(lml_engine *, const char *, size_t, const char *, lml_text *, lml_error *) =
        job->closing  ? lml_engine_close
        : job->afresh ? lml_engine_run_afresh
        : job->why    ? lml_engine_run_why
                      : lml_engine_run;
    lml_status status = how(engine, bytes_of(job), job->text.length, job->shown, out, err);
    return status == LML_OK && out->stopped ? LML_STOPPED : status;
}

lml_status lml_ask_job(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job *job = request;
    lml_status status =
        lml_engine_run(engine, job->text.at, job->text.length, job->shown, out, err);
    return status == LML_OK && out->stopped ? LML_STOPPED : status;
}

/* A job, and the texts of those that it lists. */
typedef struct gathering {
    const lml_job_text *job;
    const lml_listed *listed;
} gathering;

static lml_status gather(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const gathering *g = request;
    return lml_engine_gather(engine, bytes_of(g->job), g->job->text.length, g->job->shown,
                             g->listed->jobs, g->listed->count, out, err);
}

static lml_status faults(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_ask_files *files = request;
    return lml_engine_faults(engine, files->job.text ? &files->job : NULL,
                             files->house.text ? &files->house : NULL,
                             files->prices.text ? &files->prices : NULL, out, err);
}

static lml_status question(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_ask_step *step = request;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_text after = {.text = NULL}, asked = {.text = NULL};
    lml_builder both = lml_builder_on(alloc, 0);
    lml_status status = lml_engine_ask(engine, step->job.text, step->job.length, step->job.shown,
                                       &step->said, &after, &asked, err);
    if (status == LML_OK) {
        lml_json_writer w = lml_json_writer_on(&both, false);
        lml_json_write_open_record(&w);
        lml_json_write_name(&w, lml_span_of("question"));
        lml_json_write_raw(&w, (lml_span){asked.text, asked.length});
        if (after.text) {
            lml_json_write_name(&w, lml_span_of("after"));
            lml_json_write_text(&w, (lml_span){after.text, after.length});
        }
        lml_json_write_close(&w);
        status = lml_json_writer_end(&w, err);
    }
    lml_text_free(engine, &after);
    lml_text_free(engine, &asked);
    return lml_output_take(&both, status, out, err);
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

static lml_status reach(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_reach(engine, request, out, err);
}

static lml_status prove(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    return lml_engine_prove(engine, request, out, err);
}

static lml_status why(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_ask_figure *f = request;
    return lml_engine_why(engine, f->job.text, f->job.length, f->job.shown, &f->asked, out, err);
}

static lml_status reckon(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_sum *sum = request;
    return lml_engine_reckon(engine, sum->expression, sum->unit, sum->digits, out, err);
}

/* ---- in the command ---- */

static lml_status order(const lml_kit *kit, lml_task_work work, const void *request,
                        lml_builder *out, lml_error *err)
{
    lml_task task = {.kit = {kit}, .work = work, .request = request, .limits = kit->limits};
    return lml_process_run(&task, out, err);
}

lml_status lml_ask_gather(const lml_kit *kit, lml_job_text *job, lml_error *err)
{
    lml_listed listed;
    lml_builder after = lml_builder_on(kit->alloc, 0);
    lml_status status = lml_listed_read(kit->alloc, job, &listed, err);
    if (status == LML_OK && listed.lists)
        status = order(kit, gather, &(gathering){job, &listed}, &after, err);
    if (status == LML_OK && listed.lists) {
        lml_builder_free(&job->text);
        job->text = after;
    } else {
        lml_builder_free(&after);
    }
    lml_listed_free(&listed);
    return status;
}

/* The text of a job is the caller's, and stays as it is. */
static lml_status copy_text(const lml_kit *kit, const lml_job_text *job, lml_job_text *out,
                            lml_error *err)
{
    *out = *job;
    out->text = lml_builder_on(kit->alloc, 0);
    lml_builder_add(&out->text, bytes_of(job), job->text.length);
    return lml_builder_status(&out->text, err);
}

lml_status lml_ask_run(const lml_kit *kit, const lml_job_text *job, lml_builder *out, bool *stopped,
                       lml_error *err)
{
    lml_job_text whole;
    lml_status status = copy_text(kit, job, &whole, err);
    if (status == LML_OK)
        status = lml_ask_gather(kit, &whole, err);
    if (status == LML_OK)
        status = order(kit, run, &whole, out, err);
    lml_builder_free(&whole.text);
    *stopped = status == LML_STOPPED;
    return *stopped ? LML_OK : status;
}

lml_status lml_ask_faults(const lml_kit *kit, const lml_ask_files *files, lml_builder *out,
                          lml_error *err)
{
    return order(kit, faults, files, out, err);
}

lml_status lml_ask_question(const lml_kit *kit, const lml_ask_step *step, lml_builder *out,
                            lml_error *err)
{
    return order(kit, question, step, out, err);
}

/* Every value but the outermost has a byte of its own and one that parts it from the next. */
static lml_status parse(const lml_alloc *alloc, lml_span answer, lml_json_document **out,
                        lml_error *err)
{
    lml_json_limits limits = {.size = answer.length + 1, .nodes = answer.length / 2 + 1};
    lml_status status = lml_json_read(alloc, answer, &limits, "the worker's answer", out, err);
    if (status != LML_BAD_DATA)
        return status;
    if (err)
        err->status = LML_FAULT;
    return LML_FAULT;
}

lml_status lml_ask_parse_span(const lml_call *call, lml_span answer, lml_json_document **out,
                              lml_error *err)
{
    return parse(&call->alloc, answer, out, err);
}

lml_status lml_ask_parse(const lml_call *call, const lml_builder *answer, lml_json_document **out,
                         lml_error *err)
{
    return parse(&call->alloc, (lml_span){answer->at, answer->length}, out, err);
}

/* A recipe's declaration and proofs depend on no setting, so the house need not be filled in
 * yet. */
static lml_status order_alone(const lml_kit *kit, lml_task_work work, const char *recipe,
                              lml_builder *out, lml_error *err)
{
    lml_kit alone = *kit;
    alone.without_settings = true;
    return order(&alone, work, recipe, out, err);
}

/* The answer of an order that must be JSON. */
static lml_status take(const lml_kit *kit, lml_status status, lml_builder *answer,
                       lml_json_document **out, lml_error *err)
{
    if (status == LML_OK)
        status = parse(kit->alloc, (lml_span){answer->at, answer->length}, out, err);
    lml_builder_free(answer);
    return status;
}

static lml_status read_alone(const lml_kit *kit, lml_task_work work, const char *recipe,
                             lml_json_document **out, lml_error *err)
{
    lml_builder answer = lml_builder_on(kit->alloc, 0);
    lml_status status = order_alone(kit, work, recipe, &answer, err);
    return take(kit, status, &answer, out, err);
}

lml_status lml_ask_why(const lml_kit *kit, const lml_ask_figure *figure, lml_json_document **out,
                       lml_error *err)
{
    lml_builder answer = lml_builder_on(kit->alloc, 0);
    lml_status status = order(kit, why, figure, &answer, err);
    return take(kit, status, &answer, out, err);
}

lml_status lml_ask_inspect(const lml_kit *kit, const char *recipe, lml_json_document **out,
                           lml_error *err)
{
    return read_alone(kit, inspect, recipe, out, err);
}

lml_status lml_ask_advise(const lml_kit *kit, const char *recipe, lml_json_document **out,
                          lml_error *err)
{
    return read_alone(kit, advise, recipe, out, err);
}

lml_status lml_ask_prove(const lml_kit *kit, const char *recipe, lml_json_document **out,
                         lml_error *err)
{
    return read_alone(kit, prove, recipe, out, err);
}

lml_status lml_ask_reach(const lml_kit *kit, const char *recipe, lml_json_document **out,
                         lml_error *err)
{
    return read_alone(kit, reach, recipe, out, err);
}

lml_status lml_ask_schema(const lml_kit *kit, const char *recipe, lml_builder *out, lml_error *err)
{
    return order_alone(kit, schema, recipe, out, err);
}

lml_status lml_ask_reckon(const lml_kit *kit, const lml_sum *sum, lml_builder *out, lml_error *err)
{
    return order(kit, reckon, sum, out, err);
}

lml_status lml_ask_engine(const lml_call *call, lml_engine **out, lml_error *err)
{
    *out = lml_engine_new(&(lml_engine_options){.alloc = call->alloc});
    return *out ? LML_OK : lml_fail(err, LML_NO_MEMORY, "out of memory for an engine");
}
