#include "papers/record_moment.h"
#include "read/read.h"

#include "file/json.h"

#include <string.h>

/* A job is done within weeks, and a repair comes back within months: an entry further from its date
 * is more likely a wrong year than news. Common practice, no source. */
static const int64_t FAR = 366 * 86400;

static lml_status read_moment(lml_span text, lml_value *out, lml_error *err)
{
    return lml_read_value(text, LML_WANT_MOMENT, LML_NO_METAL, out, err);
}

static lml_status refuse_far(const lml_json *date, const char *at, bool later, lml_error *err)
{
    lml_span text = lml_json_text(date);
    lml_json_fail(date, err, LML_BAD_VALUE, "the job is of %.*s, but %s is more than a year %s it",
                  (int)text.length, text.at, at, later ? "after" : "before");
    lml_error_hint(err, "check the year; if it is right, add --anyway");
    return LML_BAD_VALUE;
}

static lml_status check_date(const lml_json *date, const char *at, const lml_value *moment,
                             lml_error *err)
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

static lml_status check_now(const lml_entry *entry, const lml_value *moment, lml_error *err)
{
    lml_value now;
    lml_status status = read_moment(lml_span_of(entry->now), &now, err);
    if (status != LML_OK || moment->exact <= now.exact)
        return status;
    lml_fail(err, LML_BAD_VALUE, "%s is in the future: this computer's clock says %s", entry->at,
             entry->now);
    lml_error_hint(err, "write when it was read, or --at now; if the clock is wrong, add --anyway");
    return LML_BAD_VALUE;
}

lml_status lml_record_moment_check(const lml_entry *entry, const lml_alloc *alloc, lml_span job,
                                   const char *shown, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_value moment;
    lml_status status = lml_json_read(alloc, job, NULL, shown, &doc, err);
    if (status == LML_OK)
        status = read_moment(lml_span_of(entry->at), &moment, err);
    if (status == LML_OK)
        status = check_date(lml_json_member(lml_json_root(doc), "date"), entry->at, &moment, err);
    if (status == LML_OK && entry->now)
        status = check_now(entry, &moment, err);
    lml_json_free(doc);
    return status;
}
