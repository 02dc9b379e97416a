/* The next moment that has a time of day, or is a weekday. */
#include "value/moment.h"

#include "value/write.h"

enum { DAY = 86400 };

static lml_value moment_at(int64_t exact)
{
    return (lml_value){.kind = LML_MOMENT, .decimals = LML_SHORTEST, .exact = exact};
}

/* When the day of the moment begins. */
static int64_t day_of(const lml_value *moment)
{
    return moment->exact - lml_moment_time_of_day(moment).exact;
}

/* The start of the first day with that weekday, or `from` itself when that is its day. */
static lml_value next_weekday(const lml_value *from, int64_t weekday)
{
    int64_t wait = (weekday - lml_moment_weekday(from).exact + 7) % 7;
    if (wait == 0)
        return *from;
    lml_value out = moment_at(day_of(from) + wait * DAY);
    out.mode = LML_DATE_ONLY;
    return out;
}

lml_status lml_moment_next(const lml_value *from, const lml_value *when, lml_value *out,
                           lml_error *err)
{
    lml_value next;
    if (from->kind != LML_MOMENT || (when->kind != LML_TIME_OF_DAY && when->kind != LML_WEEKDAY)) {
        char text[LML_VALUE_TEXT], what[80];
        lml_write_text(from->kind != LML_MOMENT ? from : when, text);
        lml_value_what(from->kind != LML_MOMENT ? from : when, what, sizeof what);
        lml_fail(err, LML_BAD_VALUE, "next needs a time of day or a weekday, but %s is %s", text,
                 what);
        lml_error_hint(err, "write it like next \"06:30\" or next \"Saturday\"");
        return LML_BAD_VALUE;
    }
    if (when->kind == LML_WEEKDAY) {
        next = next_weekday(from, when->exact);
    } else {
        next = moment_at(day_of(from) + when->exact);
        if (next.exact < from->exact)
            next.exact += DAY;
    }
    if (next.exact > LML_MOMENT_LAST)
        return lml_fail(err, LML_OVERFLOW, "the moment is beyond the year %d", LML_YEAR_LAST);
    *out = next;
    return LML_OK;
}
