#include "face/tries.h"

#include "face/job.h"
#include "run/engine.h"
#include "run/reuse.h"

typedef struct lml_tries {
    lml_reuse reuse;
    char *about; /* what is varied, and `wanted` in it, NUL-ended each */
    size_t length;
    const char *wanted; /* NULL: all gives */
    bool shows;         /* some of them are on sheets only, or of a recipe that the job uses */
    bool closing;
    bool kept;  /* the answers of one try */
    bool ended; /* one failed, and why was found out as well as can be: it takes longer */
} lml_tries;

/* Whether one of the wanted figures is no give of the job. */
static bool has_shown(const char *wanted)
{
    for (const char *at = wanted; *at; at += *at == '\n') {
        const size_t length = strcspn(at, "\n"), plain = strcspn(at, ".\"\n");
        if (*at != '=' && plain < length)
            return true;
        at += length;
    }
    return false;
}

lml_status lml_tries_open(lml_engine *engine, lml_span about, lml_error *err)
{
    if (engine->tries)
        return LML_OK;
    lml_tries *t = lml_alloc_get(&engine->alloc, sizeof *t);
    char *copy = t ? lml_span_copy(&engine->alloc, about) : NULL;
    if (!copy) {
        lml_alloc_free(&engine->alloc, t, sizeof *t);
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a try");
    }
    *t = (lml_tries){
        .reuse = lml_reuse_on(&engine->alloc, NULL), .about = copy, .length = about.length};
    char *gap = strstr(copy, "\n\n");
    if (gap) {
        gap[1] = '\0';
        t->wanted = gap + 2;
    }
    t->reuse.varied = copy;
    t->shows = t->wanted && has_shown(t->wanted);
    engine->marks_tries = t->shows; /* a sheet does not show what came from a withheld figure */
    t->closing = lml_span_starts(about, LML_TRIES_CLOSING);
    lml_reuse_begin(&t->reuse, &engine->shelf, false);
    engine->tries = t;
    return LML_OK;
}

void lml_tries_mark(lml_engine *engine)
{
    engine->marks_tries = true;
}

void lml_tries_close(lml_engine *engine)
{
    lml_tries *t = engine ? engine->tries : NULL;
    if (!t)
        return;
    engine->tries = NULL;
    engine->marks_tries = false;
    lml_reuse_free(&t->reuse);
    lml_alloc_free(&engine->alloc, t->about, t->length + 1);
    lml_alloc_free(&engine->alloc, t, sizeof *t);
}

/* `last`: it is not run again if it fails. */
static lml_status work(lml_engine *engine, lml_span job, const char *shown, lml_reuse *reuse,
                       bool last, lml_text *result, lml_error *err)
{
    lml_tries *t = engine->tries;
    engine->trial = true;
    engine->wanted = t ? t->wanted : NULL;
    engine->no_sheets = !(t && t->shows);
    engine->tells_end = last && !(t && t->ended);
    lml_status status = lml_job_run_bare(engine, job, shown, t && t->closing, reuse, result, err);
    if (t && last && status != LML_OK)
        t->ended = true;
    engine->trial = engine->no_sheets = engine->tells_end = false;
    engine->wanted = NULL;
    return status;
}

lml_status lml_tries_work(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                          lml_error *err)
{
    lml_tries *t = engine->tries;
    lml_reuse *reuse = t && !t->shows ? &t->reuse : NULL;
    if (!reuse)
        return work(engine, job, shown, NULL, true, result, err);
    if (t->kept)
        lml_reuse_again(reuse);
    else
        lml_reuse_begin(reuse, &engine->shelf, false);
    lml_status status = work(engine, job, shown, reuse, !t->kept, result, err);
    if (status == LML_OK && reuse->sure) {
        t->kept = true;
        return status;
    }
    if (!t->kept) {
        lml_reuse_forget(reuse);
        return status;
    }
    if (status == LML_OK)
        lml_alloc_free(&engine->alloc, result->text, result->size);
    return work(engine, job, shown, NULL, true, result, err);
}

lml_status lml_tries_draw(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                          lml_error *err)
{
    engine->draws = true;
    lml_status status = lml_tries_work(engine, job, shown, result, err);
    engine->draws = false;
    return status;
}
