#include "cli/fault_list.h"

#include "cli/ask.h"
#include "file/faults.h"
#include "sheet/complain.h"

#include <stdlib.h>
#include <string.h>

static lml_source text_of(const lml_builder *text, const char *shown)
{
    return (lml_source){text->at ? text->at : "", text->length, shown};
}

static lml_source settings(const lml_kit *kit, lml_put what)
{
    const lml_kit_text *text = lml_kit_settings(kit, what);
    return text ? (lml_source){text->text.at, text->text.length, text->shown}
                : (lml_source){NULL, 0, NULL};
}

lml_status lml_fault_list_read(const lml_call *call, const lml_kit *kit, lml_fault_list_of what,
                               const lml_job_text *job, lml_json_document **out, lml_error *err)
{
    lml_kit apart = *kit;
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_ask_files files = {.job = {NULL, 0, NULL}};
    apart.without_settings = true;
    if (what != LML_FAULT_LIST_PRICES)
        files.house = settings(kit, LML_PUT_HOUSE);
    if (what != LML_FAULT_LIST_HOUSE)
        files.prices = settings(kit, LML_PUT_PRICES);
    if (job)
        files.job = text_of(&job->text, job->shown);
    lml_status status = lml_ask_faults(&apart, &files, &answer, err);
    if (status == LML_OK)
        status = lml_ask_parse(call, &answer, out, err);
    lml_builder_free(&answer);
    return status;
}

void lml_fault_list_leave_out_said(const lml_call *call, lml_error *error)
{
    int kept = 0;
    for (int i = 0; i < error->contexts && !call->arguments.given[LML_OPTION_VERBOSE]; i++) {
        if (lml_span_starts(lml_span_of(error->context[i]), LML_SAID_IN))
            continue;
        if (kept++ < i)
            memcpy(error->context[kept - 1], error->context[i], sizeof error->context[i]);
    }
    if (!call->arguments.given[LML_OPTION_VERBOSE])
        error->contexts = kept;
}

/* Settings are checked with every job, but reported once. */
static void tell(lml_call *call, const lml_error *fault)
{
    lml_builder text = lml_builder_on(&call->alloc, 0);
    lml_complain_write(fault, &text);
    bool told = call->aside.at && text.at && strstr(call->aside.at, text.at);
    if (!told)
        lml_builder_add(&call->aside, text.at, text.length);
    lml_builder_free(&text);
}

/* In the order of the lines of each file, the files as they come. */
static int by_line(const void *a, const void *b)
{
    const lml_json *one = *(const lml_json *const *)a, *other = *(const lml_json *const *)b;
    double line = lml_json_number(lml_json_member(one, "line")),
           other_line = lml_json_number(lml_json_member(other, "line"));
    bool same = lml_span_equal(lml_json_text(lml_json_member(one, "file")),
                               lml_json_text(lml_json_member(other, "file")));
    if (same && line != other_line)
        return line < other_line ? -1 : 1;
    return lml_json_raw(one).at < lml_json_raw(other).at ? -1 : 1;
}

/* All but the one of that message; `job` is NULL where none was typed. */
static void tell_all(lml_call *call, const lml_json *faults, const lml_job_text *job,
                     const char *but)
{
    const lml_json *fault[LML_FAULTS_MOST + 1];
    size_t count = 0;
    const lml_json *f = lml_json_first(faults);
    for (; f && count < sizeof fault / sizeof *fault; f = lml_json_next(f))
        fault[count++] = f;
    qsort(fault, count, sizeof *fault, by_line);
    for (size_t i = 0; i < count; i++) {
        lml_error error;
        lml_faults_read(fault[i], &error);
        lml_fault_list_leave_out_said(call, &error);
        if (but && strcmp(error.message, but) == 0)
            continue;
        if (job)
            lml_job_text_blame(call, 1, job, &error);
        tell(call, &error);
    }
}

void lml_fault_list_tell(lml_call *call, const lml_json *faults)
{
    tell_all(call, faults, NULL, NULL);
}

static bool holds(const lml_json *faults, const lml_error *err)
{
    for (const lml_json *f = lml_json_first(faults); f; f = lml_json_next(f))
        if (lml_span_is(lml_json_text(lml_json_member(f, "message")), err->message))
            return true;
    return false;
}

void lml_fault_list_tell_others(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                const lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_error ignored; /* the caller reports the refusal in any case */
    if (err->status != LML_BAD_DATA && err->status != LML_BAD_VALUE &&
        err->status != LML_MISMATCH && err->status != LML_BAD_RECIPE)
        return;
    if (lml_fault_list_read(call, kit, LML_FAULT_LIST_JOB, job, &doc, &ignored) != LML_OK)
        return;
    if (holds(lml_json_root(doc), err))
        tell_all(call, lml_json_root(doc), job, err->message);
    lml_json_free(doc);
}
