/* Whether the moment of an entry can be right: a slip of the year, or a moment that has not come yet. */
#include "cli/clock.h"
#include "cli/record_entry.h"
#include "read/read.h"

#include "file/json.h"

#include <string.h>

/* A job is done within weeks, and a repair comes back within months: what lies further from its date is a slip
 * of the year sooner than news. Common practice, no source. */
static const int64_t FAR = 366 * 86400;

static lml_status read_moment(lml_span text, lml_value *out, lml_error *err)
{
    return lml_value_read(text, LML_WANT_MOMENT, LML_NO_METAL, out, err);
}

static lml_status refuse_far(const lml_json *date, const char *at, bool later, lml_error *err)
{
    lml_span text = lml_json_text(date);
    lml_json_fail(date, err, LML_BAD_VALUE, "the job is of %.*s, and %s lies more than a year %s it",
                  (int)text.length, text.at, at, later ? "after" : "before");
    lml_error_hint(err, "look at the year; if it is right, add --anyway");
    return LML_BAD_VALUE;
}

static lml_status check_date(const lml_json *date, const char *at, const lml_value *moment, lml_error *err)
{
    lml_value of_job;
    if (!date)
        return LML_OK;
    lml_status status = read_moment(lml_json_text(date), &of_job, err);
    if (status != LML_OK)
        return lml_json_place(date, status, err);
    int64_t apart = moment->exact - of_job.exact;
    return apart > FAR || apart < -FAR ? refuse_far(date, at, apart > 0, err) : LML_OK;
}

static lml_status check_now(const char *at, const lml_value *moment, lml_error *err)
{
    char text[LML_CLOCK_TEXT];
    lml_value now;
    lml_status status = lml_clock_now(text, err);
    if (status == LML_OK)
        status = read_moment(lml_span_of(text), &now, err);
    if (status != LML_OK || moment->exact <= now.exact)
        return status;
    lml_fail(err, LML_BAD_VALUE, "%s has not come yet: by this computer's clock it is %s", at, text);
    lml_error_hint(err, "write when it was read, or --at now; if the clock is wrong, add --anyway");
    return LML_BAD_VALUE;
}

lml_status lml_record_check_moment(const lml_call *call, const char *path, const lml_builder *job,
                                   lml_error *err)
{
    const char *at = call->arguments.value[LML_OPTION_AT];
    char text[LML_CLOCK_TEXT];
    lml_json_document *doc = NULL;
    lml_value moment;
    bool now = strcmp(at, "now") == 0;
    lml_status status = now ? lml_clock_now(text, err) : LML_OK;
    if (now)
        at = text;
    if (status == LML_OK)
        status = lml_json_read(&call->alloc, (lml_span){job->at, job->length}, NULL, path, &doc, err);
    if (status == LML_OK)
        status = read_moment(lml_span_of(at), &moment, err);
    if (status == LML_OK)
        status = check_date(lml_json_member(lml_json_root(doc), "date"), at, &moment, err);
    if (status == LML_OK && !now)
        status = check_now(at, &moment, err);
    lml_json_free(doc);
    return status;
}
