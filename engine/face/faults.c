/* Everything that is wrong in the files of a job, reported at once. */
#include "base/locale.h"
#include "face/engine.h"
#include "face/job.h"
#include "face/output.h"
#include "file/shapes.h"
#include "report/declare.h"
#include "report/review.h"
#include "run/engine.h"

#include <stdio.h>

/* A document that is read for this review alone; NULL when it is no JSON, which is noted. */
static lml_status read_file(const lml_engine *engine, const lml_source *source, lml_faults *faults,
                            lml_json_document **doc, lml_error *err)
{
    lml_error error;
    lml_json_limits limits = {.size = engine->limits.job};
    lml_status status = lml_json_read(&engine->alloc, (lml_span){source->text, source->length},
                                      &limits, source->shown, doc, &error);
    if (!status)
        return LML_OK;
    *doc = NULL;
    if (status == LML_NO_MEMORY) {
        if (err)
            *err = error;
        return status;
    }
    lml_faults_note(faults, NULL, &error);
    return LML_OK;
}

/* A file that replaces what the shelf holds, during the review. */
typedef struct laid {
    lml_json_document **slot, *former;
    bool unread; /* it is no JSON, or a later lemel wrote it: nothing in it is checked, and no job
                    is run with it */
} laid;

static lml_status lay(lml_engine *engine, const lml_source *source, const lml_shape *shape,
                      lml_faults *faults, laid *l, lml_error *err)
{
    l->former = *l->slot;
    if (!source)
        return LML_OK;
    lml_json_document *doc;
    lml_status status = read_file(engine, source, faults, &doc, err);
    if (status)
        return status;
    *l->slot = doc;
    if (doc)
        lml_shape_faults(shape, lml_json_root(doc), faults);
    l->unread = !doc || lml_shapes_is_later(lml_json_root(doc));
    return LML_OK;
}

static void lift(laid *l)
{
    if (*l->slot != l->former)
        lml_json_free(*l->slot);
    *l->slot = l->former;
}

/* With a run of its own each: a limit that one of them hits leaves the other be. Without a job it
 * is the house, as that recipe reads it or, NULL, as all do. */
static lml_status on_run(lml_engine *engine, const lml_json_document *job, const char *recipe,
                         lml_faults *faults, lml_error *err)
{
    lml_run run;
    lml_status status = lml_run_open(&run, engine, err);
    if (status)
        return status;
    if (!job) {
        status = lml_review_house(&run, recipe, faults, err);
    } else {
        lml_run_aim(&run, job);
        status = lml_review_job(&run, recipe, faults, err);
    }
    lml_run_close(&run);
    return status;
}

/* What stops the review itself is reported last. */
static lml_status note(lml_status status, lml_faults *faults, const lml_json *node,
                       lml_error *error, lml_error *err)
{
    if (status == LML_NOT_FOUND && node)
        lml_json_place(node, status, error);
    if (status == LML_NO_MEMORY && err)
        *err = *error;
    else if (status)
        lml_faults_note(faults, node, error);
    return status == LML_NO_MEMORY ? status : LML_OK;
}

static lml_status review_job(lml_engine *engine, const lml_source *job, bool runs,
                             lml_faults *faults, lml_error *err)
{
    lml_json_document *doc;
    lml_error error;
    lml_status status = read_file(engine, job, faults, &doc, err);
    if (status || !doc)
        return status;
    const lml_json *root = lml_json_root(doc);
    lml_json_set_house(doc, lml_shelf_house(&engine->shelf));
    lml_shape_faults(&lml_shapes_job, root, faults);
    const lml_json *recipe = lml_json_member(root, "recipe");
    if (runs && recipe && !lml_shapes_is_later(root) &&
        !lml_shape_check(lml_shape_field(&lml_shapes_job, "recipe"), recipe, NULL)) {
        status = on_run(engine, doc, lml_json_text(recipe).at, faults, &error);
        status = note(status, faults, recipe, &error, err);
    }
    lml_json_free(doc);
    if (status || !runs || faults->count > 0)
        return status;
    /* What a recipe refuses is found only by running it: that one of three must be given, say. */
    status = lml_job_try(engine, (lml_span){job->text, job->length}, job->shown, faults, &error);
    return note(status, faults, NULL, &error, err);
}

/* The recipe of a job whose house is looked at; empty where it names none. */
static void read_recipe(const lml_engine *engine, const lml_source *job, char *out, size_t size)
{
    lml_json_document *doc = NULL;
    lml_error ignored;
    lml_json_limits limits = {.size = engine->limits.job};
    out[0] = '\0';
    if (job && lml_json_read(&engine->alloc, (lml_span){job->text, job->length}, &limits,
                             job->shown, &doc, &ignored) == LML_OK) {
        lml_span name = lml_json_text(lml_json_member(lml_json_root(doc), "recipe"));
        if (lml_shelf_can_name(name))
            snprintf(out, size, "%.*s", LML_SPAN_SHOWN(name));
    }
    lml_json_free(doc);
}

/* A house by itself is run as the recipe reads it that stands for a studio: a crucible's rating
 * says nothing without its metal, say. Its units do not concern that recipe. */
static lml_status try_house(lml_engine *engine, lml_faults *faults, lml_error *err)
{
    static const char STUDIO[] = "studio",
                      JOB[] = "{\"recipe\":\"studio\",\"house\":{\"units\":{}}}";
    lml_error error;
    if (!lml_shelf_find(&engine->shelf, LML_PUT_RECIPE, lml_span_of(STUDIO)))
        return LML_OK;
    lml_status status = lml_job_try(engine, lml_span_of(JOB), STUDIO, faults, &error);
    return note(status, faults, NULL, &error, err);
}

static lml_status review(lml_engine *engine, const lml_source *job, const lml_source *house,
                         const lml_source *prices, lml_faults *faults, lml_error *err)
{
    lml_shelf *shelf = &engine->shelf;
    laid own_house = {&shelf->house, shelf->house, false},
         own_prices = {&shelf->prices, shelf->prices, false};
    lml_error error;
    char recipe[LML_NAME_MOST + 1];
    read_recipe(engine, job, recipe, sizeof recipe);
    lml_status status = lay(engine, house, &lml_shapes_house, faults, &own_house, err);
    if (!status && shelf->house && !own_house.unread) {
        status = on_run(engine, NULL, recipe[0] ? recipe : NULL, faults, &error);
        status = note(status, faults, NULL, &error, err);
        if (!status && !job && faults->count == 0)
            status = try_house(engine, faults, err);
    }
    if (!status)
        status = lay(engine, prices, &lml_shapes_prices, faults, &own_prices, err);
    if (!status && job)
        status = review_job(engine, job, !own_house.unread && !own_prices.unread, faults, err);
    lift(&own_prices);
    lift(&own_house);
    return status;
}

lml_status lml_engine_faults(lml_engine *engine, const lml_source *job, const lml_source *house,
                             const lml_source *prices, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"out", out}))
        return LML_BAD_DATA;
    lml_builder b = lml_builder_on(&engine->alloc, engine->limits.result);
    lml_faults faults = lml_faults_on(&b);
    lml_locale entered = lml_locale_enter();
    lml_status status = review(engine, job, house, prices, &faults, err);
    if (!status)
        status = lml_faults_end(&faults, err);
    lml_locale_leave(entered);
    return lml_output_take(&b, status, out, err);
}
