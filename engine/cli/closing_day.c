#include "cli/closing_day.h"

#include "file/json.h"
#include "file/json_write.h"
#include "papers/given.h"
#include "terminal/clock.h"

#include <stdio.h>
#include <string.h>

/* The day that date=DAY says, or today. */
static lml_status closing_day(lml_call *call, char *day, size_t size, lml_error *err)
{
    static const char DATE[] = "date=";
    char now[LML_CLOCK_TEXT];
    for (size_t i = 1; i < call->arguments.words; i++)
        if (strncmp(call->arguments.word[i], DATE, strlen(DATE)) == 0) {
            snprintf(day, size, "%s", call->arguments.word[i] + strlen(DATE));
            return LML_OK;
        }
    lml_status status = lml_clock_now(now, err);
    if (status == LML_OK)
        snprintf(day, size, "%.10s", now);
    return status;
}

/* A job whose offer and record hold all that its closing needs may say nothing under "closing", or
 * only what happens to the surplus. A recipe of its own may ask for no date. */
lml_status lml_closing_day_put(lml_call *call, bool tells, lml_job_text *job, lml_error *err)
{
    char day[80];
    const lml_span steps[] = {lml_span_of("closing"), lml_span_of("date")};
    lml_builder date = lml_builder_on(&call->alloc, 0);
    lml_json_document *doc = NULL;
    lml_span text = {job->text.at ? job->text.at : "", job->text.length};
    lml_status status = lml_json_read(&call->alloc, text, NULL, job->shown, &doc, err);
    const lml_json *root = doc ? lml_json_root(doc) : NULL;
    const lml_json *closing = lml_json_member(root, "closing");
    bool dated = lml_json_member(closing, "date") || lml_json_member(closing, "recipe") ||
                 lml_json_member(lml_json_member(closing, "given"), "date");
    bool missing = lml_json_kind_of(root) == LML_JSON_RECORD && !dated &&
                   (!closing || lml_json_kind_of(closing) == LML_JSON_RECORD);
    lml_json_free(doc);
    if (status != LML_OK || !missing)
        return status;
    lml_json_writer w = lml_json_writer_on(&date, false);
    status = closing_day(call, day, sizeof day, err);
    if (status == LML_OK) {
        lml_json_write_text(&w, lml_span_of(day));
        status = lml_json_writer_end(&w, err);
    }
    if (status == LML_OK && tells)
        lml_builder_add_format(&call->aside, "the invoice is dated %s: date=DAY sets another\n",
                               day);
    if (status == LML_OK)
        status = lml_given_put_raw(&job->text, steps, 2, (lml_span){date.at, date.length},
                                   job->shown, err);
    lml_builder_free(&date);
    return status;
}
