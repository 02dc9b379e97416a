#include "cli/boxes.h"

#include "cli/ask.h"
#include "cli/closing_day.h"

static lml_status work_job(lml_call *call, const char *path, const lml_job_text *of, lml_text *out,
                           lml_error *err)
{
    lml_target target = {.kind = LML_TARGET_JOB, .path = path};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = *of;
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    bool stopped = false;
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_ask_run(&kit, &job, &answer, &stopped, err);
    if (status == LML_OK)
        status = lml_builder_status(&answer, err);
    if (status == LML_OK)
        *out = (lml_text){answer.at, answer.length, answer.capacity, stopped};
    else
        lml_builder_free(&answer);
    lml_kit_free(&kit);
    return status;
}

static lml_status work(lml_call *call, const char *path, const lml_builder *text, bool closing,
                       lml_text *out, lml_error *err)
{
    lml_job_text job = {.text = *text, .shown = path, .closing = closing};
    return work_job(call, path, &job, out, err);
}

lml_status lml_boxes_read(lml_call *call, const char *path, const lml_builder *text, lml_text *out,
                          lml_error *err)
{
    return work(call, path, text, false, out, err);
}

lml_status lml_boxes_read_afresh(lml_call *call, const char *path, const lml_builder *text,
                                 lml_text *out, lml_error *err)
{
    lml_job_text job = {.text = *text, .shown = path, .afresh = true};
    return work_job(call, path, &job, out, err);
}

lml_status lml_boxes_read_closing(lml_call *call, const char *path, const lml_builder *text,
                                  lml_text *out, lml_error *err)
{
    return work(call, path, text, true, out, err);
}

lml_text lml_boxes_of_closing(lml_call *call, const char *path, const lml_builder *text)
{
    lml_text result = {.text = NULL};
    lml_job_text own = {.text = lml_builder_on(&call->alloc, 0), .shown = path, .closing = true};
    lml_builder_add(&own.text, text->at, text->length);
    if (lml_builder_status(&own.text, NULL) == LML_OK &&
        lml_closing_day_put(call, false, &own, NULL) == LML_OK)
        (void)work(call, path, &own.text, true, &result, NULL);
    lml_builder_free(&own.text);
    return result;
}

lml_text lml_boxes_of(lml_call *call, const char *path, const lml_builder *text)
{
    lml_text result = {.text = NULL};
    (void)lml_boxes_read(call, path, text, &result, NULL);
    return result;
}

void lml_boxes_end(const lml_call *call, lml_text *result)
{
    if (result->text)
        lml_alloc_free(&call->alloc, result->text, result->size);
    *result = (lml_text){.text = NULL};
}
