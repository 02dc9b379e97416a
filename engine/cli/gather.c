#include "cli/gather.h"

#include "cli/ask.h"
#include "papers/gather.h"

#include <string.h>

/* Results that are lists say nothing of an allowance. */
static bool is_no_list(const lml_json *figure, const void *self)
{
    (void)self;
    return lml_json_kind_of(lml_json_member(figure, "value")) != LML_JSON_LIST;
}

static lml_status put_figures(lml_json_writer *w, const char *name, const lml_json *figures,
                              lml_error *err)
{
    return lml_gather_put_figures(w, &(lml_gather_figures){name, figures, is_no_list, NULL}, err);
}

static void put_record(lml_json_writer *w, const lml_json *job)
{
    const lml_json *record = lml_json_member(job, "record");
    lml_json_write_name(w, lml_span_of("record"));
    lml_json_write_open_list(w);
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e))
        lml_json_write_raw(w, lml_json_raw(e));
    lml_json_write_close(w);
}

static lml_status put_all(lml_json_writer *w, const char *path, const lml_json *job,
                          const lml_json *result, lml_error *err)
{
    lml_json_write_open_record(w);
    lml_json_write_name(w, lml_span_of("job"));
    lml_json_write_text(w, lml_gather_called(path));
    lml_status status = put_figures(w, "results", lml_json_member(result, "results"), err);
    if (status == LML_OK)
        status = put_figures(w, "settings", lml_json_member(result, "settings"), err);
    put_record(w, job);
    lml_json_write_close(w);
    return status;
}

lml_status lml_gather_one(lml_call *call, const lml_kit *kit, const char *path,
                          const lml_builder *job, lml_builder *out, lml_error *err)
{
    lml_job_text text = {.text = *job, .shown = path};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *doc = NULL, *result = NULL;
    bool stopped = false;
    lml_status status = lml_json_read(&call->alloc, lml_builder_span(job), NULL, path, &doc, err);
    if (status == LML_OK)
        status = lml_ask_run(kit, &text, &answer, &stopped, err);
    if (status == LML_OK)
        status = lml_ask_parse(call, &answer, &result, err);
    if (status == LML_OK) {
        lml_json_writer w = lml_json_writer_on(out, false);
        status = put_all(&w, path, lml_json_root(doc), lml_json_root(result), err);
        if (status == LML_OK)
            status = lml_json_writer_end(&w, err);
    }
    lml_json_free(result);
    lml_json_free(doc);
    lml_builder_free(&answer);
    return status;
}

/* `before`: why the one before it was left out, which may be the same fault of the house. */
static void tell_left_out(lml_call *call, const char *path, const lml_error *error,
                          const lml_error *before)
{
    if (strcmp(error->message, before->message) == 0 && strcmp(error->hint, before->hint) == 0) {
        lml_builder_add_format(&call->aside, "%s is left out for the same reason\n", path);
        return;
    }
    lml_builder_add_format(&call->aside, "%s is left out: %s\n", path, error->message);
    if (error->hint[0])
        lml_builder_add_format(&call->aside, "  %s\n", error->hint);
}

lml_status lml_gather_write(lml_call *call, const lml_kit *kit, const lml_jobs *jobs,
                            lml_json_writer *w, lml_gathered *out, lml_error *err)
{
    lml_builder job = lml_builder_on(&call->alloc, 0), one = lml_builder_on(&call->alloc, 0);
    lml_status status = LML_OK;
    lml_error before = {.message = ""};
    *out = (lml_gathered){0};
    lml_json_write_open_list(w);
    for (size_t i = 0; i < jobs->count && status == LML_OK; i++) {
        lml_error error = {0};
        one.length = 0;
        lml_status own = lml_jobs_read(call, jobs, i, &job, &error);
        if (own == LML_OK)
            own = lml_gather_one(call, kit, jobs->path[i], &job, &one, &error);
        if (own == LML_OK) {
            lml_json_write_raw(w, (lml_span){one.at, one.length});
            out->run++;
        } else if (own == LML_NO_MEMORY) {
            status = lml_fail(err, own, "%s", error.message);
        } else {
            tell_left_out(call, jobs->path[i], &error, &before);
            before = error;
            out->failed++;
        }
    }
    lml_json_write_close(w);
    lml_builder_free(&one);
    lml_builder_free(&job);
    return status;
}
