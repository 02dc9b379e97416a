/* Sure, in the engine's own process. */
#include "base/locale.h"
#include "face/engine.h"
#include "face/output.h"
#include "face/tries.h"
#include "papers/paper.h"
#include "trial/run.h"
#include "trial/engine_sure.h"
#include "trial/sure.h"

static lml_status run_next(lml_engine *engine, lml_sure *sure, const char *shown, bool *any,
                           lml_error *err)
{
    lml_builder text = lml_builder_on(lml_engine_alloc(engine), 0);
    lml_status status = lml_sure_next(sure, &text, err);
    *any = status == LML_OK && text.length > 0;
    if (*any) {
        lml_text drawn = {.text = NULL};
        lml_error why;
        lml_status ran =
            lml_tries_draw(engine, (lml_span){text.at, text.length}, shown, &drawn, &why);
        if (ran == LML_NO_MEMORY)
            status = lml_fail(err, ran, "%s", why.message);
        else
            status = lml_sure_take(sure, (lml_span){drawn.text, drawn.length}, &why, err);
        lml_text_free(engine, &drawn);
    }
    lml_builder_free(&text);
    return status;
}

static lml_status write_report(const lml_sure *sure, lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    lml_sure_write(sure, &w);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

static lml_status run_all(lml_engine *engine, const lml_sure_orders *orders, lml_builder *out,
                          lml_error *err)
{
    lml_sure *sure = NULL;
    bool any = true;
    lml_status status = lml_sure_open(&sure, orders, err);
    lml_tries_close(engine);
    if (status == LML_OK)
        status = lml_tries_open(engine, lml_sure_about(sure), err);
    while (status == LML_OK && any)
        status = run_next(engine, sure, orders->shown, &any, err);
    if (status == LML_OK)
        status = write_report(sure, out, err);
    lml_tries_close(engine);
    lml_sure_free(sure);
    return status;
}

/* The figures as the job itself calls them. */
static lml_status find_names(lml_engine *engine, const lml_sure_orders *orders,
                             const lml_asked_sure *asked, lml_run_names *out, lml_error *err)
{
    lml_status status = lml_run_names_open(out, orders->alloc, asked->figure, asked->figures, err);
    for (size_t i = 0; i < asked->figures && status == LML_OK; i++)
        status = lml_run_find_name(
            engine, orders->job, orders->shown,
            &(lml_asked_why){.figure = asked->figure[i], .closing = asked->closing}, orders->result,
            &out->name[i], err);
    return status;
}

lml_status lml_engine_sure_digits(lml_engine *engine, const lml_sure_question *q, lml_text *out,
                                  lml_error *err)
{
    const lml_asked_sure *asked = q->asked;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_text result = {.text = NULL};
    lml_json_document *doc = NULL;
    lml_builder report = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    lml_status status = asked->closing
                            ? lml_engine_close(engine, q->job, q->length, q->shown, &result, err)
                            : lml_engine_run_why(engine, q->job, q->length, q->shown, &result, err);
    /* Its steps may be too many to be kept. */
    if (status != LML_OK && status != LML_NO_MEMORY && !asked->closing)
        status = lml_engine_run(engine, q->job, q->length, q->shown, &result, err);
    if (status == LML_OK)
        status = lml_paper_result(alloc, &result, &doc, err);
    lml_sure_orders orders = {.alloc = alloc,
                              .job = {q->job, q->length},
                              .shown = q->shown,
                              .house = lml_engine_house(engine),
                              .figures = asked->figures,
                              .closing = asked->closing,
                              .most = asked->draws,
                              .digits = q->digits};
    lml_run_names names = {.name = NULL};
    if (status == LML_OK) {
        orders.result = lml_json_root(doc);
        status = find_names(engine, &orders, asked, &names, err);
    }
    if (status == LML_OK) {
        orders.named = names.name;
        status = run_all(engine, &orders, &report, err);
    }
    lml_run_names_free(&names);
    lml_json_free(doc);
    lml_text_free(engine, &result);
    lml_locale_leave(entered);
    return lml_output_take(&report, status, out, err);
}

lml_status lml_engine_sure(lml_engine *engine, const char *job, size_t length, const char *shown,
                           const lml_asked_sure *asked, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"asked", asked},
                 {"out", out}))
        return LML_BAD_DATA;
    return lml_engine_sure_digits(engine, &(lml_sure_question){job, length, shown, asked, 1}, out,
                                  err);
}
