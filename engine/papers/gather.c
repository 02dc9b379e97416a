#include "papers/gather.h"

#include "base/locale.h"
#include "face/engine.h"
#include "file/shapes.h"
#include "papers/given.h"
#include "papers/paper.h"
#include "papers/promise.h"

#include <string.h>

enum { LISTED_MOST = 100 };

/* ---- figures ---- */

/* A figure as a job writes it; nothing where no text says it. */
static lml_status put_figure(lml_json_writer *w, const lml_json *figure, lml_error *err)
{
    lml_error unsaid;
    lml_builder text = lml_builder_on(w->to->alloc, 0);
    lml_json_writer own = lml_json_writer_on(&text, false);
    lml_status status = lml_promise_write(&own, (lml_span){"", 0}, figure, &unsaid);
    if (status == LML_OK)
        status = lml_json_writer_end(&own, &unsaid);
    if (status == LML_OK) {
        lml_json_write_name(w, lml_json_name(figure));
        lml_json_write_raw(w, (lml_span){text.at, text.length});
    } else if (status == LML_NO_MEMORY) {
        lml_builder_free(&text);
        return lml_fail(err, status, "%s", unsaid.message);
    }
    lml_builder_free(&text);
    return LML_OK;
}

lml_status lml_gather_put_figures(lml_json_writer *w, const lml_gather_figures *of, lml_error *err)
{
    lml_status status = LML_OK;
    lml_json_write_name(w, lml_span_of(of->name));
    lml_json_write_open_record(w);
    for (const lml_json *m = lml_json_first(of->figures); m && status == LML_OK;
         m = lml_json_next(m))
        if (of->wants(m, of->self))
            status = put_figure(w, m, err);
    lml_json_write_close(w);
    return status;
}

lml_span lml_gather_called(const char *path)
{
    const char *slash = strrchr(path, '/');
    lml_span name = lml_span_of(slash ? slash + 1 : path);
    if (name.length > 5 && memcmp(name.at + name.length - 5, ".json", 5) == 0)
        name.length -= 5;
    return name;
}

/* ---- the job that lists others ---- */

/* One gathering: the job with the list, what its recipe asks of each, and the current one. */
typedef struct gathering {
    lml_engine *engine;
    const char *shown;
    const lml_json *jobs;    /* the list in the job */
    const lml_json *asked;   /* what is asked of each: fields, as lml_engine_inspect tells them */
    const lml_json *results; /* of those the figures: fields too; NULL is none */
    lml_span recipe;
} gathering;

static const lml_json *field_called(const lml_json *fields, lml_span name)
{
    for (const lml_json *f = lml_json_first(fields); f; f = lml_json_next(f))
        if (lml_span_equal(lml_json_text(lml_json_member(f, "name")), name))
            return f;
    return NULL;
}

static bool is_asked(const gathering *g, const char *name)
{
    return field_called(g->asked, lml_span_of(name)) != NULL;
}

static bool is_result_asked(const lml_json *figure, const void *self)
{
    const gathering *g = self;
    return field_called(g->results, lml_json_name(figure)) != NULL;
}

/* A setting of the recipe that asks, which the other job has for itself. */
static bool is_own(const lml_json *setting, const void *self)
{
    const gathering *g = self;
    lml_span name = lml_json_name(setting);
    return lml_span_is(lml_json_text(lml_json_member(setting, "from")), "job") &&
           name.length > g->recipe.length && name.at[g->recipe.length] == '.' &&
           memcmp(name.at, g->recipe.at, g->recipe.length) == 0;
}

/* What is not to be used of it, and why: its stops and open points. */
static void put_stops(lml_json_writer *w, const lml_json *result)
{
    lml_json_write_name(w, lml_span_of("stops"));
    lml_json_write_open_list(w);
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        lml_span level = lml_json_text(lml_json_member(remark, "level"));
        if (!lml_span_is(level, "stop") && !lml_span_is(level, "confirm"))
            continue;
        lml_json_write_open_record(w);
        lml_json_write_name(w, lml_span_of("code"));
        lml_json_write_text(w, lml_json_text(lml_json_member(remark, "code")));
        lml_json_write_name(w, lml_span_of("text"));
        lml_json_write_text(w, lml_json_text(lml_json_member(remark, "text")));
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static lml_status put_entry(const gathering *g, const lml_source *job, const lml_json *result,
                            lml_json_writer *w, lml_error *err)
{
    const lml_gather_figures results = {"results", lml_json_member(result, "results"),
                                        is_result_asked, g},
                             own = {"own", lml_json_member(result, "settings"), is_own, g};
    lml_status status = LML_OK;
    lml_json_write_open_record(w);
    lml_json_write_name(w, lml_span_of("job"));
    lml_json_write_text(w, lml_gather_called(job->shown));
    lml_json_write_member(w, "file", job->shown);
    if (g->results)
        status = lml_gather_put_figures(w, &results, err);
    if (status == LML_OK && is_asked(g, "own"))
        status = lml_gather_put_figures(w, &own, err);
    if (is_asked(g, "stops"))
        put_stops(w, result);
    lml_json_write_close(w);
    return status;
}

static lml_status work_one(const gathering *g, const lml_source *job, lml_json_writer *w,
                           lml_error *err)
{
    lml_text text = {.text = NULL};
    lml_json_document *result = NULL;
    lml_status status = lml_engine_run(g->engine, job->text, job->length, job->shown, &text, err);
    if (status != LML_OK)
        return lml_error_context(err, status, "in %s, which %s lists", job->shown, g->shown);
    status = lml_paper_result(lml_engine_alloc(g->engine), &text, &result, err);
    if (status == LML_OK)
        status = put_entry(g, job, lml_json_root(result), w, err);
    lml_json_free(result);
    lml_text_free(g->engine, &text);
    return status;
}

/* ---- what is refused ---- */

/* The node of the list that names the job says where. */
static lml_status check_twice(const gathering *g, const lml_source *listed, size_t i,
                              const lml_json *node, lml_error *err)
{
    for (size_t k = 0; k < i; k++)
        if (strcmp(listed[k].shown, listed[i].shown) == 0 ||
            (listed[k].length == listed[i].length &&
             memcmp(listed[k].text, listed[i].text, listed[i].length) == 0)) {
            lml_json_fail(node, err, LML_BAD_DATA, "%s is the job that is listed as %s already",
                          listed[i].shown, listed[k].shown);
            lml_error_hint(err, "list each job once");
            return LML_BAD_DATA;
        }
    if (strcmp(listed[i].shown, g->shown) != 0)
        return LML_OK;
    lml_json_fail(node, err, LML_BAD_DATA, "%s lists itself", g->shown);
    lml_error_hint(err, "list the jobs whose flasks go into the kiln");
    return LML_BAD_DATA;
}

static lml_status check_one(const gathering *g, const lml_source *job, const lml_json *node,
                            lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_status status =
        lml_json_read(lml_engine_alloc(g->engine), (lml_span){job->text, job->length}, NULL,
                      job->shown, &doc, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_job, lml_json_root(doc), err);
    if (status != LML_OK) {
        lml_json_free(doc);
        return lml_error_context(err, status, "in %s, which %s lists", job->shown, g->shown);
    }
    bool lists = lml_json_member(lml_json_root(doc), "jobs") != NULL;
    lml_json_free(doc);
    if (!lists)
        return LML_OK;
    lml_json_fail(node, err, LML_BAD_DATA, "%s lists other jobs itself", job->shown);
    lml_error_hint(err, "list its jobs here instead");
    return LML_BAD_DATA;
}

static lml_status check_count(const gathering *g, const lml_json *job, size_t count, lml_error *err)
{
    if (!g->jobs)
        return lml_json_fail(job, err, LML_BAD_DATA,
                             "the job lists no others, but the texts of %zu were given", count);
    if (count > LISTED_MOST)
        return lml_json_fail(g->jobs, err, LML_LIMIT,
                             "%zu jobs are listed, but at most %d can be: split the list", count,
                             LISTED_MOST);
    if (lml_json_count(g->jobs) != count)
        return lml_json_fail(g->jobs, err, LML_BAD_DATA,
                             "%zu jobs are listed, but the texts of %zu were given",
                             lml_json_count(g->jobs), count);
    return LML_OK;
}

/* What the recipe asks of the jobs, out of its declaration. */
static lml_status find_asked(gathering *g, const lml_json *recipe, lml_error *err)
{
    const lml_json *ask = field_called(lml_json_member(recipe, "asks"), lml_span_of(LML_LISTED));
    g->asked = lml_json_member(ask, "fields");
    g->results = lml_json_member(field_called(g->asked, lml_span_of("results")), "fields");
    if (ask)
        return LML_OK;
    lml_json_fail(g->jobs, err, LML_BAD_DATA, "the recipe %.*s reads no other jobs",
                  LML_SPAN_SHOWN(g->recipe));
    lml_error_hint(err, "a job that lists others is of a recipe that asks '" LML_LISTED
                        "', such as day");
    return LML_BAD_DATA;
}

/* ---- together ---- */

static lml_status write_listed(const gathering *g, const lml_source *listed, size_t count,
                               lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_status status = LML_OK;
    const lml_json *node = lml_json_first(g->jobs);
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < count && status == LML_OK; i++, node = lml_json_next(node)) {
        status = check_twice(g, listed, i, node, err);
        if (status == LML_OK)
            status = check_one(g, &listed[i], node, err);
        if (status == LML_OK)
            status = work_one(g, &listed[i], &w, err);
    }
    lml_json_write_close(&w);
    return status == LML_OK ? lml_json_writer_end(&w, err) : status;
}

static lml_status gather(gathering *g, const lml_json *job, const lml_source *listed, size_t count,
                         lml_builder *out, lml_error *err)
{
    lml_text about = {.text = NULL};
    lml_json_document *recipe = NULL;
    lml_span name = lml_json_text(lml_json_member(job, "recipe"));
    g->recipe = name;
    g->jobs = lml_json_member(job, "jobs");
    lml_status status = check_count(g, job, count, err);
    if (status != LML_OK)
        return status;
    status = lml_engine_inspect(g->engine, name.at, &about, err);
    if (status != LML_OK)
        return status == LML_NOT_FOUND ? lml_json_place(lml_json_member(job, "recipe"), status, err)
                                       : status;
    status = lml_paper_result(lml_engine_alloc(g->engine), &about, &recipe, err);
    if (status == LML_OK)
        status = find_asked(g, lml_json_root(recipe), err);
    if (status == LML_OK)
        status = write_listed(g, listed, count, out, err);
    lml_json_free(recipe);
    lml_text_free(g->engine, &about);
    return status;
}

lml_status lml_engine_gather(lml_engine *engine, const char *job, size_t length, const char *shown,
                             const lml_source *listed, size_t count, lml_text *after,
                             lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"after", after}))
        return LML_BAD_DATA;
    if (count > 0 && LML_NEED(err, {"listed jobs", listed}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    gathering g = {.engine = engine, .shown = shown};
    lml_json_document *doc = NULL;
    lml_builder text = lml_builder_on(alloc, 0), value = lml_builder_on(alloc, 0);
    const lml_span name = lml_span_of(LML_LISTED);
    lml_locale entered = lml_locale_enter();
    lml_status status = lml_json_read(alloc, (lml_span){job, length}, NULL, shown, &doc, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_job, lml_json_root(doc), err);
    bool lists = count > 0 || (doc && lml_json_member(lml_json_root(doc), "jobs"));
    if (status == LML_OK && lists)
        status = gather(&g, lml_json_root(doc), listed, count, &value, err);
    lml_builder_add(&text, job, length);
    if (status == LML_OK && lists)
        status = lml_given_put_raw(&text, &name, 1, (lml_span){value.at, value.length}, shown, err);
    lml_json_free(doc);
    lml_builder_free(&value);
    lml_locale_leave(entered);
    return lml_output_take(&text, status, after, err);
}
