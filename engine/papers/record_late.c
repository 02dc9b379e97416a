#include "papers/record_late.h"

#include "file/standing.h"
#include "read/read.h"

#include <string.h>

static lml_span text_of(const lml_json *entry, const char *name)
{
    return lml_json_text(lml_json_member(entry, name));
}

/* Of a moment that a shape or the command has checked; else the earliest there is. */
static int64_t moment_of(lml_span text)
{
    lml_value v;
    return lml_read_value(text, LML_WANT_MOMENT, LML_NO_METAL, &v, NULL) == LML_OK ? v.exact
                                                                                   : INT64_MIN;
}

bool lml_record_late_than(const lml_json *entry, const char *at)
{
    return moment_of(text_of(entry, "at")) > moment_of(lml_span_of(at));
}

bool lml_record_late_is_after(const char *at, lml_span moment)
{
    return moment.length > 0 && moment_of(lml_span_of(at)) > moment_of(moment);
}

lml_span lml_record_late_counts(const lml_json *record, const char *at, lml_span what,
                                const lml_span *way)
{
    lml_span found = {"", 0};
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        if (!lml_record_late_than(e, at))
            continue;
        if (lml_standing_is_pour(e))
            return found;
        if (lml_span_equal(text_of(e, "what"), what) &&
            (!way || lml_span_equal(text_of(e, "way"), *way)))
            found = text_of(e, "at");
    }
    return found;
}

lml_span lml_record_late_next_round(const lml_json *record, const char *at, lml_span what,
                                    lml_span way)
{
    bool poured = false;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        if (!lml_record_late_than(e, at))
            continue;
        if (poured && lml_span_equal(text_of(e, "what"), what) &&
            lml_span_equal(text_of(e, "way"), way))
            return text_of(e, "at");
        poured = poured || lml_standing_is_pour(e);
    }
    return (lml_span){"", 0};
}

/* What is weighed out, or left, of a lot is called after it. */
static lml_span lot_of(lml_span what)
{
    static const char *const before[] = {"weighed ", "rest of "};
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        if (lml_span_starts(what, before[i]))
            return lml_span_between(what.at + strlen(before[i]), what.at + what.length);
    return (lml_span){"", 0};
}

/* The first entry of that name, of those with `way` unless that is NULL. */
static const lml_json *first_of(const lml_json *record, lml_span what, const char *way)
{
    const lml_json *found = NULL;
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e)) {
        bool fits = lml_span_equal(text_of(e, "what"), what) &&
                    (!way || lml_span_is(text_of(e, "way"), way));
        if (fits && (!found || moment_of(text_of(e, "at")) < moment_of(text_of(found, "at"))))
            found = e;
    }
    return found;
}

lml_status lml_record_late_check(const lml_json *record, const lml_entry *entry, lml_span what,
                                 const char *from, lml_error *err)
{
    lml_span lot = from ? lml_span_of(from) : lot_of(what);
    const lml_json *first = first_of(record, lot, from ? NULL : "in");
    if (!first || !lml_record_late_than(first, entry->at))
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "%.*s: %s is before %.*s was %s, at %.*s", LML_SPAN_SHOWN(what),
             entry->at, LML_SPAN_SHOWN(lot), from ? "weighed" : "handed over",
             LML_SPAN_SHOWN(text_of(first, "at")));
    lml_error_hint(
        err,
        "write the day and hour of the weighing; if the moment of %.*s is wrong, correct "
        "that entry in the job's file first. Nothing was recorded",
        LML_SPAN_SHOWN(lot));
    return LML_BAD_VALUE;
}
