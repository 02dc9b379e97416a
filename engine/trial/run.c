#include "trial/run.h"

#include "base/nearest.h"
#include "face/engine.h"
#include "face/tries.h"
#include "papers/leaf.h"
#include "papers/paper.h"

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
