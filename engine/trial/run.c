#include "trial/run.h"

#include "base/nearest.h"
#include "face/engine.h"
#include "face/tries.h"
#include "papers/leaf.h"
#include "papers/paper.h"

#include <stdio.h>
#include <string.h>

lml_status lml_run_trial(lml_engine *engine, lml_span job, const char *shown,
                         lml_json_document **result, lml_error *err)
{
    lml_text text = {.text = NULL};
    *result = NULL;
    lml_status status = lml_tries_work(engine, job, shown, &text, err);
    if (status == LML_OK)
        status = lml_paper_result(lml_engine_alloc(engine), &text, result, err);
    if (status != LML_OK)
        *result = NULL;
    lml_text_free(engine, &text);
    return status;
}

static lml_status offer_name(void *self, const char *name, const lml_json *datum, lml_error *err)
{
    (void)err;
    if (!strpbrk(name, ".[")) /* its own name in the result outlives this call */
        lml_nearest_offer(self, lml_json_name(datum));
    return LML_OK;
}

static bool is_withheld(const lml_json *result, const char *name)
{
    lml_span top = {name, strcspn(name, ".[")};
    const lml_json *w = lml_json_first(lml_json_member(result, "withheld"));
    while (w && !lml_span_equal(lml_json_text(w), top))
        w = lml_json_next(w);
    return w != NULL;
}

lml_status lml_run_refuse_figure(const lml_json *result, const char *name, lml_error *err)
{
    if (is_withheld(result, name)) {
        lml_fail(err, LML_NOT_FOUND, "%s is withheld by a stop or a point that is not confirmed",
                 name);
        lml_error_hint(err, "lemel run says which it is, and what to do about it");
        return LML_NOT_FOUND;
    }
    lml_nearest near = lml_nearest_to(lml_span_of(name));
    lml_leaf_each(lml_json_member(result, "results"), offer_name, &near, NULL);
    lml_fail(err, LML_NOT_FOUND, "the job has no figure '%s'", name);
    if (lml_nearest_found(&near))
        lml_error_hint(err, "did you mean '%.*s'?", LML_SPAN_SHOWN(near.best));
    else
        lml_error_hint(err, "lemel run JOB --format json lists them under \"results\"");
    return LML_NOT_FOUND;
}

bool lml_run_knows(const lml_json *result, const char *name)
{
    return lml_leaf_find(lml_json_member(result, "results"), lml_span_of(name)) != NULL;
}

lml_span lml_run_name_shown(const char *text)
{
    const size_t length = strlen(text);
    return text[0] == '"' ? (lml_span){text + 1, length - 2} : (lml_span){text, length};
}

const lml_json *lml_run_datum(const lml_json *result, const char *text)
{
    const lml_json *m = lml_json_first(lml_json_member(result, "shown"));
    while (m && !lml_span_is(lml_json_name(m), text))
        m = lml_json_next(m);
    return m ? m : lml_leaf_find(lml_json_member(result, "results"), lml_span_of(text));
}

const lml_json *lml_run_name_datum(const lml_json *result, const lml_run_name *name)
{
    return name->why ? lml_json_member(lml_json_root(name->why), "is")
                     : lml_leaf_find(lml_json_member(result, "results"), lml_span_of(name->text));
}

enum { BESIDE = 4 /* figures that are named in a hint */ };

/* The numbers that its recipe gives with it; whether there are any. */
static bool hint_beside(const lml_run_name *name, lml_error *err)
{
    char list[sizeof err->hint];
    size_t used = 0, shown = 0;
    lml_value v;
    const lml_json *one = lml_json_first(lml_json_member(lml_json_root(name->why), "beside"));
    for (; one && shown < BESIDE; one = lml_json_next(one)) {
        const lml_span figure = lml_json_text(lml_json_member(one, "figure"));
        if (!lml_leaf_read(lml_json_member(one, "is"), &v) ||
            used + figure.length + 3 > sizeof list)
            continue;
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%.*s", shown++ > 0 ? ", " : "",
                                 LML_SPAN_SHOWN(figure));
    }
    if (shown > 0)
        lml_error_hint(err, "its recipe gives with it, among others: %s", list);
    return shown > 0;
}

lml_status lml_run_refuse_kind(const lml_json *datum, const lml_run_name *name, lml_error *err)
{
    const lml_span kind = lml_json_text(lml_json_member(datum, "kind"));
    lml_fail(err, LML_BAD_VALUE, "'%.*s' is no number that could lie higher or lower",
             LML_SPAN_SHOWN(lml_run_name_shown(name->text)));
    if (lml_span_is(kind, "list") || lml_span_is(kind, "record") || lml_span_is(kind, "by_name"))
        lml_error_hint(err, "name a figure in it, as \"weigh[0].mass\"");
    else if (!err || !name->why || !hint_beside(name, err))
        lml_error_hint(err, "lemel why shows what its recipe gives with it; lemel run JOB --format "
                            "json lists the figures under \"results\"");
    return LML_BAD_VALUE;
}

void lml_run_name_take(const lml_json *result, lml_json_document *why, lml_run_name *out)
{
    const lml_json *answer = lml_json_root(why);
    const lml_span figure = lml_json_text(lml_json_member(answer, "figure"));
    const bool is_line = lml_json_yes(lml_json_member(answer, "line"));
    snprintf(out->text, sizeof out->text, is_line ? "\"%.*s\"" : "%.*s", LML_SPAN_SHOWN(figure));
    if (is_line || !lml_run_knows(result, out->text))
        out->why = why;
    else
        lml_json_free(why);
}

lml_status lml_run_find_name(lml_engine *engine, lml_span job, const char *shown,
                             const lml_asked_why *asked, const lml_json *result, lml_run_name *out,
                             lml_error *err)
{
    lml_text answer = {.text = NULL};
    lml_json_document *why = NULL;
    snprintf(out->text, sizeof out->text, "%s", asked->figure);
    if (lml_run_knows(result, asked->figure))
        return LML_OK;
    lml_status status = lml_engine_why(engine, job.at, job.length, shown, asked, &answer, err);
    if (status == LML_OK)
        status = lml_paper_result(lml_engine_alloc(engine), &answer, &why, err);
    if (status == LML_OK)
        lml_run_name_take(result, why, out);
    lml_text_free(engine, &answer);
    return status;
}

lml_status lml_run_names_open(lml_run_names *out, const lml_alloc *alloc, const char *const *figure,
                              size_t count, lml_error *err)
{
    *out = (lml_run_names){.alloc = alloc, .count = count};
    out->name = lml_alloc_get(alloc, (count + 1) * sizeof *out->name);
    if (!out->name)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the names of figures");
    for (size_t i = 0; i < count; i++) {
        out->name[i].why = NULL;
        snprintf(out->name[i].text, LML_LEAF_NAME, "%s", figure[i]);
    }
    return LML_OK;
}

void lml_run_names_free(lml_run_names *names)
{
    for (size_t i = 0; names->name && i < names->count; i++)
        lml_json_free(names->name[i].why);
    if (names->name)
        lml_alloc_free(names->alloc, names->name, (names->count + 1) * sizeof *names->name);
}
