#include "value/moment.h"

#include <string.h>

enum { DAY = 86400 };
/* 0001-01-01T00:00:00 in seconds since 1970. */
static const int64_t FIRST_MOMENT = -62135596800;

static const char *const weekdays[] = {"",         "Monday", "Tuesday",  "Wednesday",
                                       "Thursday", "Friday", "Saturday", "Sunday"};
static const char *const months[] = {"",        "January",  "February", "March",  "April",
                                     "May",     "June",     "July",     "August", "September",
                                     "October", "November", "December"};

static int days_in_month(int year, int month)
{
    static const int days[] = {0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return month == 2 && leap ? 29 : days[month];
}

/* Days of the proleptic Gregorian calendar before a year, counted from 0001-01-01. */
static int64_t days_before_year(int year)
{
    int64_t y = year - 1;
    return y * 365 + y / 4 - y / 100 + y / 400;
}

static int64_t day_number(int year, int month, int day)
{
    int64_t days = days_before_year(year) - days_before_year(1970) + day - 1;
    for (int m = 1; m < month; m++)
        days += days_in_month(year, m);
    return days;
}

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

static lml_value exact_value(lml_kind kind, int64_t exact)
{
    return (lml_value){.kind = (uint8_t)kind, .decimals = LML_SHORTEST, .exact = exact};
}

lml_status lml_moment_of(lml_civil c, lml_value *out, lml_error *err)
{
    if (c.year < 1 || c.year > LML_YEAR_LAST || c.month < 1 || c.month > 12) {
        lml_fail(err, LML_BAD_VALUE, "%04d-%02d-%02d is not a date", c.year, c.month, c.day);
        lml_error_hint(err, "write year, month and day: 2026-11-24");
        return LML_BAD_VALUE;
    }
    int days = days_in_month(c.year, c.month);
    if (c.day < 1 || c.day > days) {
        lml_fail(err, LML_BAD_VALUE, "%04d-%02d-%02d does not exist", c.year, c.month, c.day);
        lml_error_hint(err, "%s %d has %d days", months[c.month], c.year, days);
        return LML_BAD_VALUE;
    }
    if (c.hour < 0 || c.hour > 23 || c.minute < 0 || c.minute > 59 || c.second < 0 ||
        c.second > 59) {
        lml_fail(err, LML_BAD_VALUE, "%02d:%02d:%02d is not a time of day", c.hour, c.minute,
                 c.second);
        lml_error_hint(err, "a day runs from 00:00 to 23:59:59; midnight is 00:00 of the next day");
        return LML_BAD_VALUE;
    }
    *out = exact_value(LML_MOMENT, day_number(c.year, c.month, c.day) * DAY + c.hour * 3600 +
                                       c.minute * 60 + c.second);
    return LML_OK;
}

lml_civil lml_moment_civil(const lml_value *moment)
{
    int64_t exact =
        moment->exact; /* never outside by any rule; the search below must end all the same */
    exact = exact < FIRST_MOMENT ? FIRST_MOMENT : exact > LML_MOMENT_LAST ? LML_MOMENT_LAST : exact;
    int64_t days = floor_div(exact, DAY), seconds = exact - days * DAY;
    /* A first guess from the mean year, at most one year off. */
    int64_t from_start = days + days_before_year(1970);
    int year = (int)(from_start * 400 / 146097) + 1;
    while (days_before_year(year) > from_start)
        year--;
    while (days_before_year(year + 1) <= from_start)
        year++;
    int64_t rest = from_start - days_before_year(year);
    int month = 1;
    for (; month < 12 && rest >= days_in_month(year, month); month++)
        rest -= days_in_month(year, month);
    return (lml_civil){year,
                       month,
                       (int)rest + 1,
                       (int)(seconds / 3600),
                       (int)(seconds / 60 % 60),
                       (int)(seconds % 60)};
}

/* ---- reading ---- */

/* Exactly `digits` digits at *at; moves past them. */
static bool take_number(lml_span *at, size_t digits, int *out)
{
    if (at->length < digits)
        return false;
    int n = 0;
    for (size_t i = 0; i < digits; i++) {
        if (at->at[i] < '0' || at->at[i] > '9')
            return false;
        n = n * 10 + (at->at[i] - '0');
    }
    *out = n;
    at->at += digits;
    at->length -= digits;
    return true;
}

static bool take(lml_span *at, const char *text)
{
    if (!lml_span_starts(*at, text))
        return false;
    at->at += strlen(text);
    at->length -= strlen(text);
    return true;
}

/* hh:mm[:ss]; the hour may have one digit when `short_hour`. */
static bool take_time(lml_span *at, bool short_hour, lml_civil *c)
{
    size_t digits = short_hour && at->length > 1 && at->at[1] == ':' ? 1 : 2;
    if (!take_number(at, digits, &c->hour) || !take(at, ":") || !take_number(at, 2, &c->minute))
        return false;
    return !take(at, ":") || take_number(at, 2, &c->second);
}

static lml_status refuse(lml_span text, const char *message, const char *hint, lml_error *err)
{
    lml_fail(err, LML_BAD_VALUE, "\"%.*s\" %s", LML_SPAN_SHOWN(text), message);
    lml_error_hint(err, "%s", hint);
    lml_error_label(err, text.at, text.length, 0, text.length, "");
    return LML_BAD_VALUE;
}

lml_status lml_moment_read(lml_span text, lml_value *out, lml_error *err)
{
    lml_civil c = {0};
    lml_span at = text;
    static const char form[] = "write it like 2026-11-24 or 2026-11-24T14:20";
    if (!take_number(&at, 4, &c.year) || !take(&at, "-") || !take_number(&at, 2, &c.month) ||
        !take(&at, "-") || !take_number(&at, 2, &c.day))
        return refuse(text, "is not a date", form, err);
    bool date_only = at.length == 0;
    if (!date_only && (!take(&at, "T") || !take_time(&at, false, &c)))
        return refuse(text, "is not a moment", form, err);
    if (at.length) {
        bool zone = *at.at == 'Z' || *at.at == '+' || *at.at == '-';
        return refuse(text, zone ? "names a time zone" : "is not a moment",
                      zone ? "a moment is local time: leave out the zone" : form, err);
    }
    lml_status s = lml_moment_of(c, out, err);
    if (s != LML_OK) {
        lml_error_label(err, text.at, text.length, 0, text.length, "");
        return s;
    }
    out->mode = date_only ? LML_DATE_ONLY : LML_NO_MODE;
    return LML_OK;
}

lml_status lml_moment_read_time_of_day(lml_span text, lml_value *out, lml_error *err)
{
    lml_civil c = {0};
    lml_span at = text;
    if (!take_time(&at, true, &c) || at.length)
        return refuse(text, "is not a time of day", "write it like 7:30 or 22:00", err);
    if (c.hour > 23 || c.minute > 59 || c.second > 59)
        return refuse(text, "is not a time of day",
                      "a day runs from 0:00 to 23:59; midnight is 0:00", err);
    *out = exact_value(LML_TIME_OF_DAY, c.hour * 3600 + c.minute * 60 + c.second);
    return LML_OK;
}

/* "Sat" or "sat" for Saturday: nearer to what was meant than an edit distance tells. */
static bool abbreviates(lml_span text, const char *name)
{
    return text.length >= 2 && text.length <= strlen(name) &&
           lml_nearest_distance(text, (lml_span){name, text.length}, 0) == 0;
}

lml_status lml_moment_read_weekday(lml_span text, lml_value *out, lml_error *err)
{
    lml_nearest near = lml_nearest_to(text);
    const char *meant = NULL;
    for (int i = 1; i <= 7; i++) {
        if (lml_span_is(text, weekdays[i])) {
            *out = exact_value(LML_WEEKDAY, i);
            return LML_OK;
        }
        lml_nearest_offer(&near, lml_span_of(weekdays[i]));
        if (abbreviates(text, weekdays[i]))
            meant = weekdays[i];
    }
    lml_span mend = meant                      ? lml_span_of(meant)
                    : lml_nearest_found(&near) ? near.best
                                               : lml_span_of("it like Saturday");
    refuse(text, "is not a weekday", "", err);
    lml_error_hint(err, "write %.*s", LML_SPAN_SHOWN(mend));
    return LML_BAD_VALUE;
}

/* ---- parts ---- */

lml_value lml_moment_weekday(const lml_value *moment)
{
    /* 1970-01-01 was a Thursday. */
    int64_t days = floor_div(moment->exact, DAY) + 3;
    return exact_value(LML_WEEKDAY, days - floor_div(days, 7) * 7 + 1);
}

lml_value lml_moment_time_of_day(const lml_value *moment)
{
    return exact_value(LML_TIME_OF_DAY, moment->exact - floor_div(moment->exact, DAY) * DAY);
}

const char *lml_moment_weekday_name(int weekday)
{
    return weekdays[weekday >= 1 && weekday <= 7 ? weekday : 0];
}
