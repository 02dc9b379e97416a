#include "cli/ask.h"
#include "cli/cmd.h"
#include "print/comparison.h"
#include "studio/find.h"
#include "studio/unproved.h"
#include "worker/member.h"
#include "worker/worker_pool.h"

#include <stdio.h>
#include <string.h>

typedef struct run {
    lml_comparison all;
    const lml_kit *kits;
    lml_unproved unproved;
    lml_json_document *before; /* of the job whose other result is still to come; may be NULL */
    lml_outcome now;           /* of the same job */
} run;

/* ---- in the worker ---- */

/* Only the members that are compared, moved to the front: the sheets are most of a result. */
static lml_status work_job(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    static const char *const kept[] = {"worked", "stopped", "results", "remarks"};
    lml_status status = lml_ask_job(engine, request, out, err);
    if (!lml_comparison_worked(status))
        return status;
    lml_span result = {out->text, out->length}, part[4];
    for (int i = 0; i < 4; i++)
        part[i] = lml_member(result, kept[i]);
    size_t length = 1;
    for (int i = 0; i < 4; i++) {
        size_t name = strlen(kept[i]) + 3; /* in quotes, and a colon */
        if (part[i].length == 0)
            continue;
        if (length > 1)
            out->text[length++] = ',';
        memmove(out->text + length, part[i].at - name, name + part[i].length);
        length += name + part[i].length;
    }
    out->text[length++] = '}';
    out->text[length] = '\0';
    out->length = length;
    return status;
}

/* ---- results ---- */

static bool withholds(const lml_json *remark)
{
    lml_span level = lml_json_text(lml_json_member(remark, "level"));
    return lml_span_is(level, "stop") || lml_span_is(level, "confirm");
}

static void note_stops(char words[LML_COMPARE_WORDS], const lml_json *result)
{
    size_t used = 0;
    const lml_json *remarks = lml_json_member(result, "remarks");
    for (const lml_json *r = lml_json_first(remarks); r; r = lml_json_next(r)) {
        lml_span code = lml_json_text(lml_json_member(r, "code"));
        if (!withholds(r) || used + code.length + 3 > LML_COMPARE_WORDS)
            continue;
        used += (size_t)snprintf(words + used, LML_COMPARE_WORDS - used, "%s%s",
                                 used > 0 ? ", " : "", code.at);
    }
}

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
            return lml_fail(err, LML_NO_MEMORY, "no memory for the jobs that stop");
        c->outcome = moved;
        c->room = room;
    }
    c->outcome[c->outcomes++] = *o;
    return LML_OK;
}

static lml_status end_job(run *r, const lml_json *after, lml_error *err)
{
    lml_comparison *c = &r->all;
    const lml_json *before = r->before ? lml_json_root(r->before) : NULL;
    lml_status status = LML_OK;
    c->used += uses(before, c->recipe) || uses(after, c->recipe);
    if (before && after)
        status = lml_moved_add(&c->moved, r->now.job, lml_json_member(before, "results"),
                               lml_json_member(after, "results"), err);
    if (status == LML_OK)
        status = keep_outcome(c, &r->now, err);
    c->call->progress(c->call, ++c->done, c->jobs->count);
    return status;
}

static lml_status deliver(void *self, const lml_worker_pool_result *result, lml_error *err)
{
    run *r = self;
    lml_json_document *doc = NULL;
    lml_error error = *result->error;
    size_t side = result->kit;
    lml_status worked = result->status;
    if (lml_comparison_worked(worked)) {
        lml_status read = lml_ask_parse_span(r->all.call, result->text, &doc, &error);
        if (read != LML_OK)
            worked = read;
    }
    if (side == LML_BEFORE)
        r->now = (lml_outcome){.job = r->all.jobs->path[r->all.done]};
    r->now.status[side] = worked;
    lml_status status = LML_OK;
    if (doc)
        note_stops(r->now.words[side], lml_json_root(doc));
    if (doc)
        status = lml_unproved_see(&r->unproved, &r->kits[side], result->text, err);
    if (!doc)
        snprintf(r->now.words[side], LML_COMPARE_WORDS, "%s", error.message);
    if (side == LML_BEFORE) {
        r->before = doc;
        return status;
    }
    if (status == LML_OK)
        status = end_job(r, doc ? lml_json_root(doc) : NULL, err);
    lml_json_free(r->before);
    r->before = NULL;
    lml_json_free(doc);
    return status;
}

/* ---- jobs ---- */

static lml_status put_jobs(run *r, lml_worker_pool *pool, lml_error *err)
{
    const lml_jobs *jobs = r->all.jobs;
    lml_builder text = lml_builder_on(&r->all.call->alloc, 0);
    lml_status status = LML_OK;
    for (size_t i = 0; i < 2 * jobs->count && status == LML_OK; i++) {
        lml_error error;
        size_t side = i % 2;
        lml_job job = {.shown = jobs->path[i / 2]};
        if (lml_jobs_read(r->all.call, jobs, i / 2, &text, &error) == LML_OK) {
            job.text = (lml_span){text.at ? text.at : "", text.length};
            status = lml_worker_pool_put(pool, side, &job, err);
        } else {
            status = lml_worker_pool_put_error(pool, side, job.shown, &error, err);
        }
    }
    lml_builder_free(&text);
    return status;
}

static lml_status work(run *r, lml_error *err)
{
    lml_worker_pool *pool = NULL;
    lml_worker_pool_orders orders = {.alloc = &r->all.call->alloc,
                                     .task = {.kit = {&r->kits[LML_BEFORE], &r->kits[LML_AFTER]},
                                              .work = work_job,
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
    lml_json_free(r->before);
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
        lml_error_hint(err, "the name of OLD says which recipe it stands for, and NEW too");
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
    status = work(r, err);
    if (status != LML_OK)
        return status;
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
        lml_fail(err, LML_USAGE, "lemel compare wants OLD, NEW and the jobs to work with each");
        lml_error_hint(err, "lemel compare quote my/quote.lua jobs");
        return LML_USAGE;
    }
    lml_status status = measure ? lml_within_read(measure, &within, err) : LML_OK;
    if (status == LML_OK)
        status = lml_jobs_find(call, 2, &jobs, err);
    if (status != LML_OK)
        return status;
    lml_kit kits[2] = {lml_kit_on(&call->alloc), lml_kit_on(&call->alloc)};
    run r = {.all = {.call = call, .jobs = &jobs, .moved = lml_moved_on(&call->alloc, &within)},
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
