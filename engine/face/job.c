#include "face/job.h"

#include "face/engine.h"
#include "face/output.h"
#include "face/written.h"
#include "cell/trace_own.h"
#include "base/locale.h"
#include "report/declare.h"
#include "report/drawn.h"
#include "report/ended.h"
#include "report/result.h"
#include "report/why.h"
#include "run/engine.h"
#include "run/gate.h"
#include "run/reuse.h"
#include "run/warm.h"
#include "run/work.h"
#include "file/offers.h"
#include "file/shapes.h"

#include <string.h>

enum {
    SOURCE_TEXT = 300, /* how messages call what was offered */
    TRACED = 8         /* times the steps that a run may cost, where its values are traced */
};

/* A setting of the house that no recipe on the shelf can mean is a slip of the pen, and is refused.
 */
static lml_status check_house(lml_engine *engine, lml_error *err)
{
    if (engine->house_checked || !engine->shelf.house)
        return LML_OK;
    for (const lml_json *m = lml_json_first(lml_shelf_house(&engine->shelf)); m;
         m = lml_json_next(m)) {
        lml_span name = lml_json_name(m);
        if (lml_shape_field(&lml_shapes_house, name.at))
            continue;
        const char *dot = memchr(name.at, '.', name.length);
        lml_span word = dot ? lml_span_between(dot + 1, name.at + name.length) : name;
        lml_span recipe = dot ? lml_span_between(name.at, dot) : name;
        bool known = lml_shelf_has_word(&engine->shelf, word);
        if (dot && known && !lml_shelf_find(&engine->shelf, LML_PUT_RECIPE, recipe)) {
            lml_json_fail(m, err, LML_BAD_DATA, "no recipe is called '%.*s'", (int)recipe.length,
                          recipe.at);
            return LML_BAD_DATA;
        }
        if (!known) {
            lml_json_fail(
                m, err, LML_BAD_DATA,
                "no available recipe has such an allowance: check its spelling, or remove it");
            lml_error_hint(err, "lemel inspect RECIPE lists the names the house can set");
            return LML_BAD_DATA;
        }
    }
    engine->house_checked = true;
    return LML_OK;
}

/* ---- jobs --------------------------------------------------------------------------------------
 */

/* A job of the command line is "loose": its `given` may name allowances too. */
static lml_status read_job(lml_engine *engine, lml_span text, const char *shown,
                           lml_json_document **out, lml_error *err)
{
    lml_json_limits limits = {.size = engine->limits.job};
    lml_status status = lml_json_read(&engine->alloc, text, &limits, shown, out, err);
    if (status)
        return status;
    lml_json_remember(*out, engine->memo);
    lml_json_set_house(*out, lml_shelf_house(&engine->shelf));
    status = lml_shape_check(&lml_shapes_job, lml_json_root(*out), err);
    if (status)
        lml_json_free(*out);
    return status;
}

/* What is run of a job: all of it, or its closing. */
typedef struct task {
    lml_json_document *doc, *offered;
    const char *recipe;
    bool closing, afresh;
} task;

static void end_task(task *t)
{
    lml_json_free(t->doc);
    lml_json_free(t->offered);
}

/* What was offered, as recipes read it, is a text of its own. */
static lml_status read_offered(lml_engine *engine, const char *shown, task *t, lml_error *err)
{
    lml_offers offers;
    char source[SOURCE_TEXT];
    lml_builder text = lml_builder_on(&engine->alloc, 0),
                differs = lml_builder_on(&engine->alloc, 0);
    const lml_json *job = lml_json_root(t->doc), *list = lml_json_member(job, "offers");
    if (t->afresh)
        return LML_OK;
    lml_status status = lml_offers_read(&engine->alloc, list, &offers, err);
    if (status == LML_OK && offers.offer)
        status = lml_offers_differ(offers.offer, job, &differs, err);
    if (status == LML_OK && offers.offer) {
        lml_json_writer w = lml_json_writer_on(&text, false);
        lml_offers_write(&offers, lml_builder_span(&differs), &w);
        lml_text_join(source, sizeof source, shown, ", the offer", "");
        status = lml_json_writer_end(&w, err);
        if (status == LML_OK)
            status = lml_json_read(&engine->alloc, (lml_span){text.at, text.length}, NULL, source,
                                   &t->offered, err);
        if (status == LML_OK)
            lml_json_remember(t->offered, engine->memo);
    }
    lml_builder_free(&text);
    lml_builder_free(&differs);
    return status;
}

static lml_status open_task(lml_engine *engine, lml_span text, const char *shown, task *t,
                            lml_error *err)
{
    lml_status status = read_job(engine, text, shown, &t->doc, err);
    if (status) {
        t->doc = NULL;
        return status;
    }
    const lml_json *job = lml_json_root(t->doc), *closing = lml_json_member(job, "closing");
    t->recipe = lml_json_text(lml_json_member(job, "recipe")).at;
    if (t->closing && !closing) {
        lml_json_fail(job, err, LML_BAD_DATA, "the job does not say how it ends");
        lml_error_hint(err,
                       "add \"closing\": { \"date\": \"2026-12-04\", \"given\": { } }, the day "
                       "of the invoice and whatever is in neither offer nor record");
        return LML_BAD_DATA;
    }
    const lml_json *named = lml_json_member(closing, "recipe");
    if (t->closing)
        t->recipe = named ? lml_json_text(named).at : "closing";
    return read_offered(engine, shown, t, err);
}

/* A recipe reads no files: the results of the listed jobs have to be in the job. */
static lml_status need_listed(const task *t, lml_error *err)
{
    const lml_json *job = lml_json_root(t->doc), *jobs = lml_json_member(job, "jobs");
    if (!jobs || lml_json_member(job, LML_LISTED))
        return LML_OK;
    lml_json_fail(jobs, err, LML_BAD_DATA, "the job lists others, but they have not been run yet");
    lml_error_hint(err, "a program calls lml_engine_gather first, with their texts");
    return LML_BAD_DATA;
}

static void aim(lml_run *run, const task *t)
{
    const lml_reuse *reuse = run->engine->reuse;
    lml_run_aim(run, t->doc);
    run->bare = run->engine->trial || (reuse && !reuse->whole_too);
    run->offered = t->offered ? lml_json_root(t->offered) : NULL;
    if (!t->closing)
        return;
    run->closing = lml_json_member(run->job, "closing");
    run->given = lml_json_member(run->closing, "given");
    run->job_house = lml_json_member(run->closing, "house");
}

lml_status lml_job_need_gates(const lml_engine *engine, lml_error *err)
{
    if (engine->without_gates || lml_shelf_has_script(&engine->shelf, LML_GATES))
        return LML_OK;
    lml_fail(err, LML_NO_GATES,
             "the script 'gates' is missing: it has the stops for law, physics and health");
    lml_error_hint(err, "put every file of lemel's scripts/ on the shelf, or set without_gates; "
                        "\"pkg-config --variable=datadir lemel\" names their folder");
    return LML_NO_GATES;
}

/* Whether a job with these costs would have succeeded even if it had needed far more. */
static bool is_far_from_limits(const lml_run *run, size_t bare)
{
    const lml_limits *most = &run->engine->limits;
    return run->box.spent < most->steps / 2 && run->box.pool.held < most->memory / 4 &&
           bare < most->result / 16;
}

static lml_status write_result(lml_run *run, lml_text *result, lml_error *err)
{
    lml_reuse *reuse = run->engine->reuse;
    lml_builder b = lml_builder_on(&run->engine->alloc, run->engine->limits.result);
    bool stopped = false;
    lml_status status = run->engine->draws ? lml_drawn_write(run, &b, &stopped, err)
                        : run->bare        ? lml_result_write_bare(run, &b, &stopped, err)
                                           : lml_result_write(run, &b, &stopped, err);
    if (!status && reuse && reuse->whole_too)
        status = lml_result_write_bare(run, &reuse->bare, &stopped, err);
    status = lml_output_take(&b, status, result, err);
    if (status)
        return status;
    result->stopped = stopped;
    if (reuse)
        reuse->sure =
            is_far_from_limits(run, reuse->whole_too ? reuse->bare.length : result->length);
    return LML_OK;
}

/* Where the texts stand that a traced run looks at. */
typedef struct source {
    const lml_shelf *shelf;
    const lml_written *written;
} source;

static lml_span text_of(const void *self, const char *shown)
{
    const lml_shelf *shelf = ((const source *)self)->shelf;
    for (size_t i = 0; i < shelf->count; i++)
        if (strcmp(shelf->items[i]->shown, shown) == 0)
            return (lml_span){shelf->items[i]->text, shelf->items[i]->length};
    return (lml_span){"", 0};
}

static bool is_written(const void *self, lml_span words)
{
    return lml_written_has(((const source *)self)->written, words);
}

static bool where(const void *self, lml_span words, const char **file, unsigned *line, bool *once)
{
    return lml_written_find(((const source *)self)->written, words, file, line, once);
}

/* An error of the recipes that may show a withheld figure is not printed. */
static lml_status work_recipes(lml_run *run, const task *t, bool *hidden, lml_error *err)
{
    lml_error own, *e = err ? err : &own;
    *hidden = false;
    lml_status status = lml_declare_check(run, t->recipe, e);
    if (status)
        return status;
    status = lml_work_job_run(run, t->recipe, e);
    *hidden = status && lml_ended_hide(run, e);
    return status;
}

/* A run of its own that keeps where every value came from. It costs some steps more. The figure's
 * reason is written, or where none is named the whole result, with the reasons of all. `bare`,
 * where it is not NULL, gets the result that is compared. */
static lml_status work_traced(lml_engine *engine, const task *t, const char *figure,
                              lml_json_writer *w, lml_text *result, lml_builder *bare,
                              lml_error *err)
{
    lml_run run;
    lml_trace trace;
    bool hidden, stopped;
    const uint64_t steps = engine->limits.steps;
    lml_written *written = lml_written_new(&engine->shelf, t->doc);
    if (!written)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a traced run");
    lml_trace_open(&trace, &engine->alloc);
    trace.text = text_of;
    trace.is_written = is_written;
    trace.where = where;
    trace.raises = lml_trace_own_raised;
    trace.text_self = &(source){&engine->shelf, written};
    engine->trace = &trace;
    engine->limits.steps = steps < UINT64_MAX / TRACED ? steps * TRACED : UINT64_MAX;
    lml_status status = lml_run_open(&run, engine, err);
    if (!status) {
        aim(&run, t);
        status = work_recipes(&run, t, &hidden, err);
        if (!status)
            status = figure ? lml_why_write(&run, figure, w, err) : write_result(&run, result, err);
        if (!status && bare)
            status = lml_result_write_bare(&run, bare, &stopped, err);
        lml_run_close(&run);
    }
    engine->limits.steps = steps;
    engine->trace = NULL;
    lml_trace_close(&trace);
    lml_written_free(written);
    return status;
}

/* Only a traced run knows what came from a figure that is withheld. Then compared results need a
 * full run, too. */
static lml_status work_marked(lml_engine *engine, const task *t, lml_text *result, lml_error *err)
{
    lml_reuse *reuse = engine->reuse;
    if (reuse && !reuse->whole_too && !engine->trial) {
        reuse->sure = false;
        return LML_OK;
    }
    lml_alloc_free(&engine->alloc, result->text, result->size);
    engine->reuse = NULL;
    bool too = reuse && reuse->whole_too;
    if (too)
        lml_builder_free(&reuse->bare);
    lml_status status = work_traced(engine, t, NULL, NULL, result, too ? &reuse->bare : NULL, err);
    engine->reuse = reuse;
    return status;
}

static lml_status work_ended(lml_engine *engine, const task *t, lml_text *result, lml_error *err)
{
    lml_reuse *reuse = engine->reuse;
    engine->reuse = NULL;
    lml_status status = work_traced(engine, t, NULL, NULL, result, NULL, err);
    engine->reuse = reuse;
    return status;
}

static lml_status work_task(lml_engine *engine, const task *t, lml_text *result, lml_error *err)
{
    lml_run *run;
    lml_status status = lml_warm_open(engine, t->recipe, &run, err);
    if (status)
        return status;
    aim(run, t);
    bool hidden;
    status = work_recipes(run, t, &hidden, err);
    if (!status)
        status = write_result(run, result, err);
    bool marks = !engine->trial || engine->marks_tries;
    bool withholds = !status && marks && !run->nothing_withheld;
    lml_warm_close(run);
    if (hidden && (!engine->trial || marks || engine->tells_end))
        return work_ended(engine, t, result, err); /* what it shows only a traced run knows */
    return withholds ? work_marked(engine, t, result, err) : status;
}

/* How a job is run. */
typedef struct way {
    bool closing, why, afresh;
} way;

/* Everything that a job needs before it is run. End the task in any case. */
static lml_status begin_task(lml_engine *engine, lml_span job, const char *shown, task *t,
                             lml_error *err)
{
    lml_status status = lml_job_need_gates(engine, err);
    if (!status)
        status = check_house(engine, err);
    if (!status)
        status = open_task(engine, job, shown, t, err);
    return status ? status : need_listed(t, err);
}

static lml_status run_job(lml_engine *engine, lml_span job, const char *shown, way how,
                          lml_text *result, lml_error *err)
{
    task t = {.closing = how.closing, .afresh = how.afresh};
    lml_locale entered = lml_locale_enter();
    lml_status status = begin_task(engine, job, shown, &t, err);
    engine->tells_why = how.why;
    if (!status)
        status = how.why ? work_traced(engine, &t, NULL, NULL, result, NULL, err)
                         : work_task(engine, &t, result, err);
    engine->tells_why = false;
    end_task(&t);
    lml_locale_leave(entered);
    return status;
}

/* Its result is not wanted: only what its recipes refuse. */
static lml_status try_task(lml_engine *engine, const task *t, lml_faults *faults, lml_error *err)
{
    lml_run run;
    lml_status status = lml_run_open(&run, engine, err);
    if (status)
        return status;
    bool hidden;
    aim(&run, t);
    run.faults = faults;
    status = work_recipes(&run, t, &hidden, err);
    lml_run_close(&run);
    if (hidden) {
        lml_text result = {.text = NULL};
        status = work_ended(engine, t, &result, err);
        lml_alloc_free(&engine->alloc, result.text, result.size);
    }
    return status;
}

lml_status lml_job_try(lml_engine *engine, lml_span job, const char *shown, lml_faults *faults,
                       lml_error *err)
{
    task t = {.closing = false};
    if (lml_job_need_gates(engine, NULL))
        return LML_OK;
    lml_status status = check_house(engine, err);
    if (!status)
        status = open_task(engine, job, shown, &t, err);
    if (!status && !need_listed(&t, NULL))
        status = try_task(engine, &t, faults, err);
    end_task(&t);
    return status;
}

lml_status lml_engine_run(lml_engine *engine, const char *job, size_t length, const char *shown,
                          lml_text *result, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"result", result}))
        return LML_BAD_DATA;
    return run_job(engine, (lml_span){job, length}, shown, (way){.why = false}, result, err);
}

lml_status lml_engine_run_afresh(lml_engine *engine, const char *job, size_t length,
                                 const char *shown, lml_text *result, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"result", result}))
        return LML_BAD_DATA;
    return run_job(engine, (lml_span){job, length}, shown, (way){.afresh = true}, result, err);
}

lml_status lml_engine_run_why(lml_engine *engine, const char *job, size_t length, const char *shown,
                              lml_text *result, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"result", result}))
        return LML_BAD_DATA;
    return run_job(engine, (lml_span){job, length}, shown, (way){.why = true}, result, err);
}

lml_status lml_job_run_bare(lml_engine *engine, lml_span job, const char *shown, bool closing,
                            struct lml_reuse *reuse, lml_text *result, lml_error *err)
{
    engine->reuse = reuse;
    lml_status status = run_job(engine, job, shown, (way){.closing = closing}, result, err);
    engine->reuse = NULL;
    return status;
}

static lml_status why_job(lml_engine *engine, lml_span job, const char *shown,
                          const lml_asked_why *asked, lml_builder *out, lml_error *err)
{
    task t = {.closing = asked->closing, .afresh = asked->afresh};
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_status status = begin_task(engine, job, shown, &t, err);
    lml_json_write_open_record(&w);
    if (!status)
        status = work_traced(engine, &t, asked->figure, &w, NULL, NULL, err);
    lml_json_write_close(&w);
    end_task(&t);
    return status ? status : lml_json_writer_end(&w, err);
}

lml_status lml_engine_why(lml_engine *engine, const char *job, size_t length, const char *shown,
                          const lml_asked_why *asked, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"asked", asked},
                 {"out", out}))
        return LML_BAD_DATA;
    lml_builder text = lml_builder_on(&engine->alloc, 0);
    lml_locale entered = lml_locale_enter();
    lml_status status = why_job(engine, (lml_span){job, length}, shown, asked, &text, err);
    lml_locale_leave(entered);
    return lml_output_take(&text, status, out, err);
}

lml_status lml_engine_close(lml_engine *engine, const char *job, size_t length, const char *shown,
                            lml_text *result, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"result", result}))
        return LML_BAD_DATA;
    return run_job(engine, (lml_span){job, length}, shown, (way){.closing = true}, result, err);
}

lml_status lml_job_check_house(lml_engine *engine, lml_error *err)
{
    lml_locale entered = lml_locale_enter();
    lml_status status = check_house(engine, err);
    lml_locale_leave(entered);
    return status;
}

static lml_status check_job(lml_engine *engine, const char *job, size_t length, const char *shown,
                            lml_error *err)
{
    task t = {.closing = false};
    lml_status status = check_house(engine, err);
    if (!status)
        status = open_task(engine, (lml_span){job, length}, shown, &t, err);
    lml_run run;
    bool open = false;
    if (!status) {
        status = lml_run_open(&run, engine, err);
        open = !status;
    }
    if (!status) {
        aim(&run, &t);
        status = lml_declare_check(&run, t.recipe, err);
    }
    if (!status)
        status = lml_work_job_check(&run, t.recipe, err);
    if (open)
        lml_run_close(&run);
    end_task(&t);
    return status;
}

lml_status lml_engine_check(lml_engine *engine, const char *job, size_t length, const char *shown,
                            lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}))
        return LML_BAD_DATA;
    lml_locale entered = lml_locale_enter();
    lml_status status = check_job(engine, job, length, shown, err);
    lml_locale_leave(entered);
    return status;
}
