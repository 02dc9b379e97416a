/* Moments, times of day, weekdays. */
#include <criterion/criterion.h>

#include "random.h"
#include "value/moment.h"

#include <string.h>
#include <time.h>

static lml_value read_moment(const char *text)
{
    lml_value v = {0};
    lml_error err = {0};
    cr_assert_eq(lml_moment_read(lml_span_of(text), &v, &err), LML_OK, "%s: %s", text, err.message);
    return v;
}

static lml_value read_time(const char *text)
{
    lml_value v = {0};
    cr_assert_eq(lml_moment_read_time_of_day(lml_span_of(text), &v, NULL), LML_OK, "%s", text);
    return v;
}

/* The C library is the outside opinion: gmtime_r of POSIX, proleptic Gregorian. */
Test(moment, agrees_with_the_c_library_over_all_years)
{
    chance c = {20261124};
    const int64_t first = read_moment("0001-01-01").exact;
    const int64_t last = read_moment("9999-12-31T23:59:59").exact;
    for (int i = 0; i < 20000; i++) {
        int64_t seconds = i == 0 ? first : i == 1 ? last : chance_whole(&c, first, last);
        time_t t = (time_t)seconds;
        struct tm tm;
        cr_assert(gmtime_r(&t, &tm));
        lml_value v = {.kind = LML_MOMENT, .exact = seconds};
        lml_civil civil = lml_moment_civil(&v);
        cr_assert(civil.year == tm.tm_year + 1900 && civil.month == tm.tm_mon + 1 &&
                      civil.day == tm.tm_mday && civil.hour == tm.tm_hour &&
                      civil.minute == tm.tm_min && civil.second == tm.tm_sec,
                  "%lld", (long long)seconds);
        lml_value back;
        cr_assert_eq(lml_moment_of(civil, &back, NULL), LML_OK);
        cr_assert_eq(back.exact, seconds);
        cr_assert_eq(lml_moment_weekday(&v).exact, tm.tm_wday ? tm.tm_wday : 7);
    }
}

/* POSIX.1-2017, section 4.16: 86400 seconds a day since the epoch; 2^31 - 1 is 2038-01-19T03:14:07.
 */
Test(moment, counts_from_the_epoch)
{
    cr_expect_eq(read_moment("1970-01-01").exact, 0);
    cr_expect_eq(read_moment("1970-01-01T00:00").exact, 0);
    cr_expect_eq(read_moment("2038-01-19T03:14:07").exact, 2147483647);
    cr_expect_eq(read_moment("2026-11-24").mode, LML_DATE_ONLY);
    cr_expect_eq(read_moment("2026-11-24T14:20").mode, LML_NO_MODE);
}

static void expect_refused(lml_status (*reader)(lml_span, lml_value *, lml_error *),
                           const char *text, const char *message, const char *hint)
{
    lml_error err = {0};
    lml_value v = {.exact = 77};
    cr_expect_eq(reader(lml_span_of(text), &v, &err), LML_BAD_VALUE, "%s", text);
    cr_expect_eq(v.exact, 77, "out is written on success only");
    cr_expect(strstr(err.message, message), "%s: %s", text, err.message);
    cr_expect(strstr(err.hint, hint), "%s: %s", text, err.hint);
    cr_expect_eq(reader(lml_span_of(text), &v, NULL), LML_BAD_VALUE);
}

Test(moment, refuses_what_does_not_exist)
{
    expect_refused(lml_moment_read, "2026-02-29", "does not exist", "February 2026 has 28 days");
    expect_refused(lml_moment_read, "1900-02-29", "does not exist", "28 days");
    expect_refused(lml_moment_read, "2026-04-31", "does not exist", "April 2026 has 30 days");
    expect_refused(lml_moment_read, "2026-13-01", "not a date", "2026-11-24");
    expect_refused(lml_moment_read, "0000-01-01", "not a date", "2026-11-24");
    expect_refused(lml_moment_read, "2026-1-1", "not a date", "2026-11-24");
    expect_refused(lml_moment_read, "24.11.2026", "not a date", "2026-11-24");
    expect_refused(lml_moment_read, "2026-11-24 14:20", "not a moment", "2026-11-24T14:20");
    expect_refused(lml_moment_read, "2026-11-24T24:00", "24:00", "next day");
    expect_refused(lml_moment_read, "2026-11-24T14:60", "14:60", "00:00 to 23:59");
    expect_refused(lml_moment_read, "2026-11-24T14:20Z", "time zone", "local");
    expect_refused(lml_moment_read, "2026-11-24T14:20+01:00", "time zone", "local");
    expect_refused(lml_moment_read, "", "not a date", "2026-11-24");
    lml_value v;
    cr_expect_eq(lml_moment_read(lml_span_of("2000-02-29"), &v, NULL), LML_OK);
    cr_expect_eq(lml_moment_read(lml_span_of("2024-02-29"), &v, NULL), LML_OK);
}

Test(moment, times_of_day)
{
    cr_expect_eq(read_time("22:00").exact, 79200);
    cr_expect_eq(read_time("7:30").exact, 27000);
    cr_expect_eq(read_time("07:30").exact, 27000);
    cr_expect_eq(read_time("0:00").exact, 0);
    cr_expect_eq(read_time("23:59:59").exact, 86399);
    expect_refused(lml_moment_read_time_of_day, "24:00", "not a time of day", "midnight is 0:00");
    expect_refused(lml_moment_read_time_of_day, "7:60", "not a time of day", "23:59");
    expect_refused(lml_moment_read_time_of_day, "7:5", "not a time of day", "7:30");
    expect_refused(lml_moment_read_time_of_day, "10 pm", "not a time of day", "22:00");
    expect_refused(lml_moment_read_time_of_day, "-1:00", "not a time of day", "22:00");
}

Test(moment, weekdays)
{
    lml_value v;
    for (int i = 1; i <= 7; i++) {
        cr_assert_eq(lml_moment_read_weekday(lml_span_of(lml_moment_weekday_name(i)), &v, NULL),
                     LML_OK);
        cr_expect_eq(v.exact, i);
    }
    expect_refused(lml_moment_read_weekday, "Sat", "not a weekday", "write Saturday");
    expect_refused(lml_moment_read_weekday, "monday", "not a weekday", "write Monday");
    expect_refused(lml_moment_read_weekday, "Wendesday", "not a weekday", "write Wednesday");
    expect_refused(lml_moment_read_weekday, "someday", "not a weekday", "Saturday");
    cr_expect_str_eq(lml_moment_weekday_name(0), "");
    cr_expect_str_eq(lml_moment_weekday_name(8), "");
}

/* 2026-11-24 was a Tuesday (the C library says so above). */
Test(moment, the_next_weekday)
{
    static const char *const next[][3] = {
        {"2026-11-24T14:20", "Saturday", "2026-11-28"},
        {"2026-11-24T14:20", "Tuesday", "2026-11-24T14:20"},
        {"2026-11-24T14:20", "Monday", "2026-11-30"},
        {"2026-11-24", "Tuesday", "2026-11-24"},
        {"1969-12-31T23:00", "Thursday", "1970-01-01"},
        {"9999-12-30T23:00", "Friday", "9999-12-31"},
    };
    lml_value out, day;
    for (size_t i = 0; i < sizeof next / sizeof *next; i++) {
        lml_value from = read_moment(next[i][0]), want = read_moment(next[i][2]);
        cr_assert_eq(lml_moment_read_weekday(lml_span_of(next[i][1]), &day, NULL), LML_OK);
        cr_assert_eq(lml_moment_next(&from, &day, &out, NULL), LML_OK);
        cr_expect(out.exact == want.exact && out.mode == want.mode, "%s %s", next[i][0],
                  next[i][1]);
    }
    lml_value last = read_moment("9999-12-31");
    cr_assert_eq(lml_moment_read_weekday(lml_span_of("Monday"), &day, NULL), LML_OK);
    cr_expect_eq(lml_moment_next(&last, &day, &out, NULL), LML_OVERFLOW);
}

/* Nothing else is a when, and no value makes the calendar search without end. */
Test(moment, next_takes_nothing_else)
{
    lml_value from = read_moment("2026-11-24T14:20"), out = {0};
    lml_value others[] = {read_moment("2026-11-25"),
                          lml_value_number(7),
                          {.kind = LML_MONEY, .exact = INT64_MAX / 2},
                          {.kind = LML_MONEY, .exact = INT64_MIN / 2}};
    lml_error err;
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        cr_expect_eq(lml_moment_next(&from, &others[i], &out, &err), LML_BAD_VALUE);
        cr_expect(strstr(err.message, "next needs a time of day or a weekday"), "%s", err.message);
    }
    lml_value time = read_time("7:00");
    cr_expect_eq(lml_moment_next(&time, &time, &out, NULL), LML_BAD_VALUE);
    for (int i = 0; i < 2; i++) {
        lml_value far = {.kind = LML_MOMENT, .exact = i ? INT64_MAX : INT64_MIN};
        cr_expect_eq(lml_moment_civil(&far).year, i ? 9999 : 1);
    }
}

Test(moment, the_next_time_of_day)
{
    lml_value from = read_moment("2026-11-24T14:20"), at = read_time("22:00"), out;
    cr_assert_eq(lml_moment_next(&from, &at, &out, NULL), LML_OK);
    cr_expect_eq(out.exact, read_moment("2026-11-24T22:00").exact);
    at = read_time("7:00");
    cr_assert_eq(lml_moment_next(&from, &at, &out, NULL), LML_OK);
    cr_expect_eq(out.exact, read_moment("2026-11-25T07:00").exact);
    at = read_time("14:20");
    cr_assert_eq(lml_moment_next(&from, &at, &out, NULL), LML_OK);
    cr_expect_eq(out.exact, from.exact, "at or after");
    from = read_moment("9999-12-31T23:00");
    cr_expect_eq(lml_moment_next(&from, &at, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_moment_time_of_day(&from).exact, 23 * 3600);
    from = read_moment("1969-12-31T23:00");
    cr_expect_eq(lml_moment_time_of_day(&from).exact, 23 * 3600, "before the epoch too");
}
