#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/held.h"
#include "face/tries.h"
#include "print/sureness.h"
#include "studio/find.h"
#include "trial/run.h"
#include "trial/sure.h"
#include "worker/limits.h"
#include "worker/worker_pool.h"

#include <string.h>

typedef struct draws {
    lml_call *call;
    const char *shown;
    lml_sure *sure;
    lml_worker_pool *pool;
} draws;

/* ---- the report ---- */

static lml_status print_text(draws *d, const lml_builder *json, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_status status = lml_ask_parse(d->call, json, &doc, err);
    if (status == LML_OK) {
        status = lml_sure_done(d->sure)
                     ? lml_sureness_print(d->call, d->shown, lml_json_root(doc), err)
                     : lml_sureness_print_first(d->call, lml_json_root(doc), err);
        lml_json_free(doc);
    }
    return status;
}

static lml_status print_report(draws *d, lml_error *err)
{
    bool text = !lml_call_wants_json(d->call);
    lml_builder json = lml_builder_on(&d->call->alloc, 0);
    lml_json_writer w = lml_json_writer_on(text ? &json : &d->call->out, !text);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "job", d->shown);
    lml_sure_write(d->sure, &w);
    lml_json_write_close(&w);
    lml_status status = text ? lml_json_writer_end(&w, err) : lml_call_end_json(&w, err);
    if (status == LML_OK && text)
        status = print_text(d, &json, err);
    lml_builder_free(&json);
    return status;
}

/* A person who waits for thousands of runs sees a first estimate after a thousand; a file or a
 * program gets only the final answer. */
static lml_status print_first(draws *d, lml_error *err)
{
    const lml_call *call = d->call;
    if (lml_sure_draws(d->sure) != LML_SURE_FIRST || lml_sure_done(d->sure) ||
        lml_call_wants_json(call) || lml_call_quiet(call) ||
        call->arguments.given[LML_OPTION_OUTPUT])
        return LML_OK;
    lml_status status = lml_sure_sum_up(d->sure, err);
    if (status == LML_OK)
        status = print_report(d, err);
    return status == LML_OK ? call->emit(d->call, err) : status;
}

/* ---- runs ---- */

/* In the worker. */
static lml_status try_job(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    const lml_job *job = request;
    lml_status status = lml_tries_open(engine, job->kept, err);
    return status ? status : lml_tries_draw(engine, job->text, job->shown, out, err);
}

static lml_status deliver(void *self, const lml_worker_pool_result *result, lml_error *err)
{
    draws *d = self;
    bool ran = result->status == LML_OK || result->status == LML_STOPPED;
    lml_status status =
        lml_sure_take(d->sure, ran ? result->text : (lml_span){"", 0}, result->error, err);
    if (status == LML_OK)
        status = print_first(d, err);
    d->call->progress(d->call, lml_sure_draws(d->sure), lml_sure_goal(d->sure));
    return status;
}

static lml_status put_next(draws *d, const char *shown, bool *any, lml_error *err)
{
    lml_builder text = lml_builder_on(&d->call->alloc, 0);
    lml_status status = lml_sure_next(d->sure, &text, err);
    *any = status == LML_OK && text.length > 0;
    if (*any)
        status = lml_worker_pool_put(d->pool, 0,
                                     &(lml_job){.text = {text.at, text.length},
                                                .shown = shown,
                                                .kept = lml_sure_about(d->sure)},
                                     err);
    lml_builder_free(&text);
    return status;
}

static lml_status run_all(draws *d, const lml_kit *kit, const char *shown, lml_error *err)
{
    lml_worker_pool_orders orders = {.alloc = &d->call->alloc,
                                     .task = {.kit = {kit}, .work = try_job, .limits = kit->limits},
                                     .deliver = deliver,
                                     .self = d};
    lml_status status = lml_worker_pool_workers(&d->call->arguments, &orders.workers, err);
    if (status == LML_OK)
        status = lml_worker_pool_new(&orders, &d->pool, err);
    while (status == LML_OK && !lml_sure_done(d->sure)) {
        bool any = true;
        while (status == LML_OK && any)
            status = put_next(d, shown, &any, err);
        if (status == LML_OK)
            status = lml_worker_pool_finish(d->pool, err);
    }
    lml_worker_pool_free(d->pool);
    return status;
}

/* ---- the command ---- */

/* Names of figures come before the words that set something, each in their own order. In quotes of
 * its own a label is a name, though it has a '='. */
static size_t part_words(lml_arguments *a)
{
    size_t figures = 0;
    for (size_t i = 1; i < a->words; i++) {
        const char *word = a->word[i];
        if (word[0] != '"' && strchr(word, '='))
            continue;
        memmove(&a->word[1 + figures + 1], &a->word[1 + figures],
                (i - 1 - figures) * sizeof *a->word);
        a->word[1 + figures++] = word;
    }
    return figures;
}

static lml_status read_house(const lml_call *call, const lml_kit *kit, lml_json_document **out,
                             lml_error *err)
{
    const lml_kit_text *house = lml_kit_settings(kit, LML_PUT_HOUSE);
    return house ? lml_json_read(&call->alloc, (lml_span){house->text.at, house->text.length}, NULL,
                                 house->shown, out, err)
                 : LML_OK;
}

/* The job as it is: its result, with the steps of its figures where those can be kept. */
static lml_status run_once(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                           lml_json_document **out, lml_error *err)
{
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    bool stopped = false;
    lml_job_text with = *job;
    with.why = true;
    lml_status status = lml_ask_run(kit, &with, &answer, &stopped, err);
    if (status != LML_OK) {
        answer.length = 0;
        status = lml_ask_run(kit, job, &answer, &stopped, err);
    }
    if (status == LML_OK)
        status = lml_ask_parse(call, &answer, out, err);
    lml_builder_free(&answer);
    return status;
}

static lml_status find_name(const lml_kit *kit, const lml_sure_orders *orders, lml_run_name *name,
                            lml_error *err)
{
    lml_json_document *why = NULL;
    if (lml_run_knows(orders->result, name->text))
        return LML_OK;
    lml_ask_figure figure = {{orders->job.at, orders->job.length, orders->shown},
                             {.figure = name->text, .closing = orders->closing}};
    lml_status status = lml_ask_why(kit, &figure, &why, err);
    if (status == LML_OK)
        lml_run_name_take(orders->result, why, name);
    return status;
}

static lml_status find_names(lml_call *call, const lml_kit *kit, const lml_sure_orders *orders,
                             lml_run_names *out, lml_error *err)
{
    lml_status status =
        lml_run_names_open(out, &call->alloc, call->arguments.word + 1, orders->figures, err);
    for (size_t i = 0; i < orders->figures && status == LML_OK; i++)
        status = find_name(kit, orders, &out->name[i], err);
    return status;
}

static lml_status draw(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                       lml_sure_orders *orders, lml_error *err)
{
    draws d = {.call = call, .shown = job->shown};
    lml_json_document *result = NULL, *house = NULL;
    lml_run_names names = {.name = NULL};
    lml_status status = run_once(call, kit, job, &result, err);
    if (status == LML_OK)
        status = read_house(call, kit, &house, err);
    if (status == LML_OK) {
        orders->house = house ? lml_json_root(house) : NULL;
        orders->result = lml_json_root(result);
        status = find_names(call, kit, orders, &names, err);
    }
    if (status == LML_OK) {
        orders->named = names.name;
        status = lml_sure_open(&d.sure, orders, err);
    }
    if (status == LML_OK)
        status = run_all(&d, kit, job->shown, err);
    if (status == LML_OK)
        status = print_report(&d, err);
    lml_sure_free(d.sure);
    lml_run_names_free(&names);
    if (result)
        lml_json_free(result);
    if (house)
        lml_json_free(house);
    return status;
}

static lml_status read_draws(const lml_call *call, size_t *out, lml_error *err)
{
    uint64_t most = LML_SURE_MOST;
    lml_status status = lml_limits_whole(&call->arguments, LML_OPTION_DRAWS, LML_SURE_LEAST,
                                         LML_SURE_MOST, &most, err);
    *out = (size_t)most;
    return status;
}

lml_status lml_cmd_sure(lml_call *call, lml_error *err)
{
    if (call->arguments.words == 0) {
        lml_fail(err, LML_USAGE, "lemel sure needs a job");
        lml_error_hint(err, "lemel sure jobs/NAME.json price");
        return LML_USAGE;
    }
    size_t figures = part_words(&call->arguments);
    lml_target target = lml_find_target(call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0)};
    lml_sure_orders orders = {.alloc = &call->alloc, .figures = figures};
    lml_status status = read_draws(call, &orders.most, err);
    if (status == LML_OK)
        status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_job_text_read(call, &target, &job, err);
    job.closing = orders.closing = call->arguments.given[LML_OPTION_CLOSING];
    if (status == LML_OK)
        status = lml_held_put(call, 1 + figures, &job, err);
    if (status == LML_OK)
        status = lml_ask_gather(&kit, &job, err);
    if (status == LML_OK) {
        orders.job = (lml_span){job.text.at, job.text.length};
        orders.shown = job.shown;
        status = draw(call, &kit, &job, &orders, err);
    }
    if (status != LML_OK)
        lml_job_text_blame(call, 1 + figures, &job, err);
    lml_builder_free(&job.text);
    lml_kit_free(&kit);
    return status;
}
