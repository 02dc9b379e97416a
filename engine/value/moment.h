/* Moments, times of day and weekdays: local, without a clock and without a zone.
 *
 * The proleptic Gregorian calendar, years 1 to 9999.
 */
#ifndef LML_VALUE_MOMENT_H
#define LML_VALUE_MOMENT_H

#include "value/value.h"

enum { LML_YEAR_LAST = 9999 };
/* 9999-12-31T23:59:59 in seconds since 1970. */
#define LML_MOMENT_LAST INT64_C(253402300799)

typedef struct lml_civil {
    int year, month, day, hour, minute, second;
} lml_civil;

/* LML_BAD_VALUE when the date does not exist. */
lml_status lml_moment_of(lml_civil c, lml_value *out, lml_error *err);
lml_civil lml_moment_civil(const lml_value *moment);
/* "2026-11-24", "2026-11-24T14:20" or with seconds. LML_BAD_VALUE. */
lml_status lml_moment_read(lml_span text, lml_value *out, lml_error *err);
lml_status lml_moment_read_time_of_day(lml_span text, lml_value *out, lml_error *err);
lml_status lml_moment_read_weekday(lml_span text, lml_value *out, lml_error *err);
lml_value lml_moment_weekday(const lml_value *moment);
lml_value lml_moment_time_of_day(const lml_value *moment);
/* The first moment at or after `from` that has this time of day; or of that weekday: `from` itself,
 * else a date. LML_BAD_VALUE for any other kind, LML_OVERFLOW beyond the last year. */
lml_status lml_moment_next(const lml_value *from, const lml_value *when, lml_value *out,
                           lml_error *err);
const char *lml_moment_weekday_name(int weekday); /* 1 Monday .. 7 Sunday */

#endif
