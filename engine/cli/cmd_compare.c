#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/compare_job.h"
#include "cli/listed.h"
#include "print/comparison.h"
#include "studio/find.h"
#include "studio/keep.h"
#include "studio/unproved.h"
#include "worker/worker_pool.h"

#include <stdio.h>
#include <string.h>

typedef struct run {
    lml_comparison all;
    const lml_kit *kits;
    lml_compare_job orders;
    lml_unproved unproved;
    lml_keep keep;
    lml_outcome now; /* of the job in hand */
} run;

/* ---- results ---- */

static bool uses(const lml_json *result, const char *recipe)
{
    const lml_json *worked = lml_json_member(result, "worked");
    for (const lml_json *w = lml_json_first(worked); w; w = lml_json_next(w))
        if (lml_span_is(lml_json_text(lml_json_member(w, "recipe")), recipe))
            return true;
    return false;
}

static lml_status keep_outcome(lml_comparison *c, const lml_outcome *o, lml_error *err)
{
    bool failed = !lml_comparison_worked(o->status[LML_BEFORE]) ||
                  !lml_comparison_worked(o->status[LML_AFTER]);
    c->failed += failed;
    if (!failed && strcmp(o->words[LML_BEFORE], o->words[LML_AFTER]) == 0)
        return LML_OK;
    if (c->outcomes == c->room) {
        size_t room = c->room ? 2 * c->room : 16;
        lml_outcome *moved = lml_alloc_resize(&c->call->alloc, c->outcome, c->room * sizeof *moved,
                                              room * sizeof *moved);
        if (!moved)
            return lml_fail(err, LML_NO_MEMORY, "out of memory for the jobs that stop");
        c->outcome = moved;
        c->room = room;
    }
    c->outcome[c->outcomes++] = *o;
    return LML_OK;
}

static lml_status end_job(run *r, lml_error *err)
{
    lml_comparison *c = &r->all;
    lml_status status = keep_outcome(c, &r->now, err);
    c->call->progress(c->call, ++c->done, c->jobs->count);
    return status;
}

/* ---- both sides in one worker ---- */

static lml_status take_side(run *r, int side, const lml_json *report, lml_error *err)
{
    double status = lml_json_number(lml_json_member(report, "status"));
    lml_span words = lml_json_text(lml_json_member(report, "words"));
    r->now.status[side] =
        status >= LML_OK && status <= LML_NO_GATES ? (lml_status)status : LML_FAULT;
    snprintf(r->now.words[side], LML_COMPARE_WORDS, "%.*s", (int)words.length, words.at);
    if (!lml_comparison_worked(r->now.status[side]))
        return LML_OK;
    return lml_unproved_see(&r->unproved, &r->kits[side], lml_json_raw(report), err);
}

static lml_status take_report(run *r, const lml_json *report, lml_error *err)
{
    const lml_json *sides = lml_json_member(report, "sides"), *before = lml_json_first(sides),
                   *after = before ? lml_json_next(before) : NULL;
    lml_status status = take_side(r, LML_BEFORE, before, err);
    if (status == LML_OK)
        status = take_side(r, LML_AFTER, after, err);
    if (status == LML_OK)
        status = lml_moved_merge(&r->all.moved, r->now.job, report, err);
    if (status == LML_BAD_DATA) { /* a worker is not trusted */
        for (int i = 0; i < 2; i++) {
            r->now.status[i] = LML_FAULT;
            snprintf(r->now.words[i], LML_COMPARE_WORDS,
                     "the worker's answer cannot be understood");
        }
        return LML_OK;
    }
    r->all.used += uses(before, r->all.recipe) || uses(after, r->all.recipe);
    return status;
}

/* ---- each side in a worker of its own ---- */

/* The result of one side, or NULL with the status and words of its error. */
static lml_json_document *work_side(run *r, int side, const lml_job *job)
{
    lml_call *call = r->all.call;
    lml_error error;
    lml_json_document *doc = NULL;
    bool stopped = false;
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_job_text text = {.text = lml_builder_on(&call->alloc, 0), .shown = job->shown};
    lml_builder_add_span(&text.text, job->text);
    lml_status worked = lml_builder_status(&text.text, &error), read = LML_OK;
    if (worked == LML_OK)
        worked = lml_ask_run(&r->kits[side], &text, &answer, &stopped, &error);
    if (stopped)
        worked = LML_STOPPED;
    lml_builder_free(&text.text);
    if (lml_comparison_worked(worked))
        read = lml_ask_parse(call, &answer, &doc, &error);
    r->now.status[side] = read == LML_OK ? worked : read;
    if (doc)
        lml_compare_job_stops(r->now.words[side], lml_json_root(doc));
    else
        snprintf(r->now.words[side], LML_COMPARE_WORDS, "%s", error.message);
    lml_builder_free(&answer);
    return doc;
}

/* A worker that had both died, or used up what it may: which of the two it was, and what the other
 * comes to, is seen when each has its own. */
static lml_status work_apart(run *r, lml_error *err)
{
    lml_comparison *c = &r->all;
    lml_error error;
    lml_builder text = lml_builder_on(&c->call->alloc, 0);
    lml_json_document *doc[2] = {NULL, NULL};
    const lml_json *result[2] = {NULL, NULL};
    lml_status status = LML_OK, read = lml_jobs_read(c->call, c->jobs, c->done, &text, &error);
    lml_job job = {.text = lml_builder_span(&text), .shown = r->now.job};
    for (int i = 0; i < 2; i++) {
        r->now.status[i] = read;
        if (read != LML_OK)
            snprintf(r->now.words[i], LML_COMPARE_WORDS, "%s", error.message);
        else if ((doc[i] = work_side(r, i, &job)))
            result[i] = lml_json_root(doc[i]);
        if (result[i] && status == LML_OK)
            status = lml_unproved_see(&r->unproved, &r->kits[i], lml_json_raw(result[i]), err);
    }
    c->used += uses(result[0], c->recipe) || uses(result[1], c->recipe);
    if (status == LML_OK && result[0] && result[1])
        status = lml_moved_add(&c->moved, r->now.job, lml_json_member(result[0], "results"),
                               lml_json_member(result[1], "results"), err);
    lml_json_free(doc[0]);
    lml_json_free(doc[1]);
    lml_builder_free(&text);
    return status;
}

static lml_status deliver(void *self, const lml_worker_pool_result *result, lml_error *err)
{
    run *r = self;
    lml_json_document *doc = NULL;
    lml_error foul;
    r->now = (lml_outcome){.job = r->all.jobs->path[r->all.done]};
    lml_status status = LML_OK;
    if (result->status != LML_OK)
        status = work_apart(r, err);
    else if (lml_ask_parse_span(r->all.call, result->text, &doc, &foul) == LML_OK)
        status = take_report(r, lml_json_root(doc), err);
    else
        status = work_apart(r, err);
    lml_json_free(doc);
    return status == LML_OK ? end_job(r, err) : status;
}

/* ---- jobs ---- */

/* The two sides may get different results of the listed jobs, so each is run separately. */
static bool lists_others(const lml_builder *text, const char *shown, lml_error *why)
{
    lml_listed listed;
    lml_status status =
        lml_listed_read(text->alloc, &(lml_job_text){.text = *text, .shown = shown}, &listed, why);
    bool lists = status != LML_OK || listed.lists;
    if (lists && status == LML_OK)
        lml_fail(why, LML_BAD_DATA, "%s lists other jobs", shown);
    lml_listed_free(&listed);
    return lists;
}

static lml_status put_jobs(run *r, lml_worker_pool *pool, lml_error *err)
{
    const lml_jobs *jobs = r->all.jobs;
    lml_builder text = lml_builder_on(&r->all.call->alloc, 0), kept = text;
    lml_status status = LML_OK;
    for (size_t i = 0; i < jobs->count && status == LML_OK; i++) {
        lml_error error;
        lml_job job = {.shown = jobs->path[i]};
        if (lml_jobs_read(r->all.call, jobs, i, &text, &error) == LML_OK &&
            !lists_others(&text, job.shown, &error)) {
            job.text = lml_builder_span(&text);
            if (lml_keep_read(&r->keep, &job, &kept))
                job.kept = (lml_span){kept.at, kept.length};
            status = lml_worker_pool_put(pool, LML_TASK_BOTH, &job, err);
        } else {
            status = lml_worker_pool_put_error(pool, LML_TASK_BOTH, job.shown, &error, err);
        }
    }
    lml_builder_free(&text);
    lml_builder_free(&kept);
    return status;
}

static lml_status work(run *r, lml_error *err)
{
    lml_worker_pool *pool = NULL;
    lml_worker_pool_orders orders = {.alloc = &r->all.call->alloc,
                                     .task = {.kit = {&r->kits[LML_BEFORE], &r->kits[LML_AFTER]},
                                              .work = lml_ask_job,
                                              .pair = lml_compare_job_work,
                                              .self = &r->orders,
                                              .limits = r->kits[LML_BEFORE].limits},
                                     .deliver = deliver,
                                     .self = r};
    lml_status status = lml_worker_pool_workers(&r->all.call->arguments, &orders.workers, err);
    if (status == LML_OK)
        status = lml_worker_pool_new(&orders, &pool, err);
    if (status == LML_OK)
        status = put_jobs(r, pool, err);
    if (status == LML_OK)
        status = lml_worker_pool_finish(pool, err);
    lml_worker_pool_free(pool);
    return status;
}

/* ---- the command ---- */

/* The kit with the recipe that `word` names under the name of OLD. */
static lml_status fill_kit(lml_call *call, const lml_jobs *jobs, const char *word, lml_span name,
                           lml_kit *kit, const char **shown, lml_error *err)
{
    lml_target first = {.kind = LML_TARGET_JOB, .path = jobs->path[0]};
    lml_target recipe = lml_find_recipe(word);
    lml_status status = lml_find_kit(call, &first, kit, err);
    if (status == LML_OK)
        status = lml_find_into(kit, &recipe, err);
    if (status == LML_OK)
        status = lml_kit_copy(kit, lml_kit_find(kit, LML_PUT_RECIPE, recipe.recipe), name, err);
    if (status == LML_OK)
        *shown = lml_kit_find(kit, LML_PUT_RECIPE, name)->shown;
    return status;
}

static lml_status sum_up(const lml_comparison *c, lml_error *err)
{
    if (c->used == 0 && c->failed == 0) {
        lml_fail(err, LML_BAD_DATA, "none of the jobs uses the recipe %s", c->recipe);
        lml_error_hint(err, "the name of OLD says which recipe OLD and NEW stand for");
        return LML_BAD_DATA;
    }
    lml_status status = lml_call_wants_json(c->call) ? lml_comparison_print_json(c, err)
                                                     : lml_comparison_print(c, err);
    if (status != LML_OK)
        return status;
    if (c->failed > 0)
        return LML_BAD_DATA;
    return c->moved.beyond > 0 || c->outcomes > 0 ? LML_STOPPED : LML_OK;
}

static lml_status compare(run *r, lml_kit kits[2], lml_error *err)
{
    lml_comparison *c = &r->all;
    const lml_arguments *a = &c->call->arguments;
    lml_span name = lml_find_recipe(a->word[0]).recipe;
    lml_status status = LML_OK;
    for (int side = 0; side < 2 && status == LML_OK; side++)
        status = fill_kit(c->call, c->jobs, a->word[side], name, &kits[side], &c->shown[side], err);
    if (status != LML_OK)
        return status;
    c->recipe = lml_kit_find(&kits[0], LML_PUT_RECIPE, name)->name;
    r->orders = (lml_compare_job){.recipe = c->recipe, .within = c->moved.within};
    status = lml_keep_open(&r->keep, c->call, &kits[0], false, err);
    if (status == LML_OK)
        status = work(r, err);
    if (status != LML_OK)
        return status;
    lml_keep_tell(&r->keep);
    lml_moved_sort(&c->moved);
    return sum_up(c, err);
}

lml_status lml_cmd_compare(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *measure = a->value[LML_OPTION_WITHIN];
    lml_within within = {.given = false};
    lml_jobs jobs;
    if (a->words < 3) {
        lml_fail(err, LML_USAGE, "lemel compare needs OLD, NEW and the jobs to run with each");
        lml_error_hint(err, "lemel compare quote my/quote.lua jobs");
        return LML_USAGE;
    }
    lml_status status = measure ? lml_within_read(measure, &within, err) : LML_OK;
    if (status == LML_OK)
        status = lml_jobs_find(call, 2, &jobs, err);
    if (status != LML_OK)
        return status;
    lml_kit kits[2] = {lml_kit_on(&call->alloc), lml_kit_on(&call->alloc)};
    run r = {
        .all = {.call = call, .jobs = &jobs, .moved = lml_moved_of_jobs(&call->alloc, &within)},
        .kits = kits};
    lml_target first = {.kind = LML_TARGET_JOB, .path = jobs.path[0]};
    char studio[LML_PATH];
    lml_find_studio(call, &first, studio);
    lml_unproved_open(&r.unproved, call, studio);
    status = compare(&r, kits, err);
    lml_unproved_close(&r.unproved);
    lml_moved_free(&r.all.moved);
    lml_alloc_free(&call->alloc, r.all.outcome, r.all.room * sizeof *r.all.outcome);
    lml_kit_free(&kits[0]);
    lml_kit_free(&kits[1]);
    lml_jobs_free(&jobs);
    return status;
}
