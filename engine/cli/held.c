#include "cli/held.h"

#include "cli/ask.h"
#include "terminal/clock.h"

#include <string.h>

void lml_job_texts_free(const lml_call *call, lml_job_texts *t)
{
    for (size_t i = 0; i < t->count && t->text; i++)
        lml_builder_free(&t->text[i]);
    lml_alloc_free(&call->alloc, t->text, t->count * sizeof *t->text);
    lml_alloc_free(&call->alloc, t->source, (t->count + 1) * sizeof *t->source);
}

lml_status lml_job_texts_read(const lml_call *call, const lml_jobs *jobs, lml_job_texts *out,
                              lml_error *err)
{
    lml_status status = LML_OK;
    *out = (lml_job_texts){
        .count = jobs->count,
        .text = lml_alloc_get(&call->alloc, jobs->count * sizeof *out->text),
        .source = lml_alloc_get(&call->alloc, (jobs->count + 1) * sizeof *out->source)};
    for (size_t i = 0; i < jobs->count && out->text; i++)
        out->text[i] = lml_builder_on(&call->alloc, 0);
    if (!out->text || !out->source)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the jobs of the book");
    for (size_t i = 0; i < jobs->count && status == LML_OK; i++) {
        const lml_builder *text = &out->text[i];
        status = lml_jobs_read(call, jobs, i, &out->text[i], err);
        out->source[i] = (lml_source){text->at ? text->at : "", text->length, jobs->path[i]};
    }
    return status;
}

lml_status lml_held_moment(const lml_call *call, char *now, const char **at, lml_error *err)
{
    *at = call->arguments.value[LML_OPTION_AT];
    if (!*at || strcmp(*at, "now") != 0)
        return LML_OK;
    *at = now;
    return lml_clock_now(now, err);
}

static const char *file_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* The place of this job among the others: that of its own file, or one behind them. */
static lml_status place_of(const lml_job_texts *all, lml_span before, const char *shown,
                           size_t *out, lml_error *err)
{
    *out = all->count;
    for (size_t i = 0; i < all->count; i++) {
        const lml_source *s = &all->source[i];
        if (strcmp(file_name(s->shown), file_name(shown)) != 0)
            continue;
        if (!lml_span_equal((lml_span){s->text, s->length}, before)) {
            lml_fail(err, LML_BAD_DATA, "%s and %s are two jobs of one name", shown, s->shown);
            lml_error_hint(err, "rename one of them: a record names the job that metal was taken "
                                "from by its file's name");
            return LML_BAD_DATA;
        }
        *out = i;
    }
    return LML_OK;
}

static lml_status put(const lml_call *call, lml_job_texts *all, size_t place, const char *at,
                      lml_job_text *job, lml_error *err)
{
    lml_engine *engine = NULL;
    lml_text text = {.text = NULL};
    lml_status status = lml_ask_engine(call, &engine, err);
    all->source[place] =
        (lml_source){job->text.at ? job->text.at : "", job->text.length, job->shown};
    size_t count = all->count + (place == all->count);
    if (status == LML_OK)
        status = lml_engine_book_held(engine, all->source, count, place, at, &text, err);
    if (status == LML_OK) {
        job->text.length = 0;
        lml_builder_add(&job->text, text.text, text.length);
        status = lml_builder_status(&job->text, err);
    }
    if (engine)
        lml_text_free(engine, &text);
    lml_engine_free(engine);
    return status;
}

static lml_status ask_book(const lml_call *call, const char *path, lml_span before,
                           lml_job_text *job, lml_error *err)
{
    const char *at;
    char now[LML_CLOCK_TEXT];
    lml_jobs jobs;
    lml_job_texts all;
    size_t place;
    lml_status status = lml_held_moment(call, now, &at, err);
    if (status == LML_OK)
        status = lml_jobs_find_in(call, path, &jobs, err);
    if (status != LML_OK)
        return status;
    status = lml_job_texts_read(call, &jobs, &all, err);
    if (status == LML_OK)
        status = place_of(&all, before, job->shown, &place, err);
    if (status == LML_OK)
        status = put(call, &all, place, at, job, err);
    lml_job_texts_free(call, &all);
    lml_jobs_free(&jobs);
    return status;
}

lml_status lml_held_put(const lml_call *call, size_t first, lml_job_text *job, lml_error *err)
{
    const char *book = call->arguments.value[LML_OPTION_BOOK];
    if (!book && call->arguments.given[LML_OPTION_AT]) {
        lml_fail(err, LML_USAGE, "--at is the day of the book, but no book is named");
        lml_error_hint(err, "add --book jobs, or leave out --at");
        return LML_USAGE;
    }
    lml_builder before = lml_builder_on(&call->alloc, 0);
    if (book)
        lml_builder_add(&before, job->text.at, job->text.length);
    lml_status status = lml_builder_status(&before, err);
    if (status == LML_OK)
        status = lml_job_text_put(call, first, job, err);
    if (status == LML_OK && book)
        status = ask_book(call, book, (lml_span){before.at, before.length}, job, err);
    lml_builder_free(&before);
    return status;
}
