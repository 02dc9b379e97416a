#include "sheet/days.h"

#include "sheet/datum.h"

#include <string.h>

static const char *const months[] = {"",    "Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
enum {
    MINUTE = 60,
    DATE = 10,     /* 2026-11-27 */
    MOMENT = 16,   /* 2026-11-27T03:06 */
    LONG_TIME = 91 /* from here on a kiln's controller shows hours */
};

lml_days lml_days_of(const lml_json *result)
{
    lml_span form = lml_json_text(lml_json_member(lml_json_member(result, "house"), "days"));
    lml_span date = lml_json_text(lml_json_member(lml_json_member(result, "job"), "date"));
    lml_days days = {.month_first = lml_span_is(form, "Fri Nov 27")};
    lml_value day;
    if (lml_days_read(date, &day, NULL))
        days.year = lml_moment_civil(&day).year;
    return days;
}

bool lml_days_read(lml_span text, lml_value *moment, bool *has_clock)
{
    if (lml_moment_read(text, moment, NULL) != LML_OK)
        return false;
    if (has_clock)
        *has_clock = moment->mode != LML_DATE_ONLY;
    return true;
}

void lml_days_put_day(lml_days days, const lml_value *moment, bool year, lml_builder *out)
{
    lml_civil c = lml_moment_civil(moment);
    lml_value weekday = lml_moment_weekday(moment);
    lml_builder_add(out, lml_moment_weekday_name((int)weekday.exact), 3);
    if (days.month_first)
        lml_builder_add_format(out, " %s %d", months[c.month], c.day);
    else
        lml_builder_add_format(out, " %d %s", c.day, months[c.month]);
    if (year)
        lml_builder_add_format(out, "%s %d", days.month_first ? "," : "", c.year);
}

void lml_days_put_clock(const lml_value *moment, lml_builder *out)
{
    lml_civil c = lml_moment_civil(moment);
    lml_builder_add_format(out, "%02d:%02d", c.hour, c.minute);
}

/* The length of the date, with or without an hour, that begins at `at`; 0 if there is none, or if
 * it is part of a longer number or word. */
static size_t date_at(lml_span text, size_t at, lml_value *out, bool *clock)
{
    static const char joined[] = "-:/.TZ";
    size_t length = text.length - at > DATE && text.at[at + DATE] == 'T' ? MOMENT : DATE;
    if (text.length - at < length ||
        (at > 0 && (lml_span_digit_at(text, at - 1) || strchr("-/.", text.at[at - 1]))))
        return 0;
    size_t end = at + length;
    bool goes_on = end < text.length && (lml_span_digit_at(text, end) ||
                                         (strchr(joined, text.at[end]) && end + 1 < text.length &&
                                          lml_span_digit_at(text, end + 1)));
    return !goes_on && lml_days_read((lml_span){text.at + at, length}, out, clock) ? length : 0;
}

/* In one piece: no line ends within it. */
static void put_whole(lml_days days, const lml_value *moment, bool clock, lml_builder *out)
{
    lml_builder words = lml_builder_on(out->alloc, 0);
    /* What has no hour is the day of a law or a letter, not of this week's work. */
    lml_days_put_day(days, moment, !clock || lml_moment_civil(moment).year != days.year, &words);
    if (clock) {
        lml_builder_add_char(&words, ' ');
        lml_days_put_clock(moment, &words);
    }
    if (lml_builder_status(&words, NULL) != LML_OK)
        out->status = words.status;
    for (size_t i = 0; i < words.length && words.at; i++)
        if (words.at[i] == ' ')
            lml_builder_add_text(out, "\302\240");
        else
            lml_builder_add_char(out, words.at[i]);
    lml_builder_free(&words);
}

/* "427 min" at the place, as a line has it: how long those words are; 0: something else. */
static size_t long_minutes_at(lml_span text, size_t at, long *minutes)
{
    enum { DIGITS = 5 };
    static const char unit[] = " min";
    size_t end = at, length = sizeof unit - 1;
    char before = at > 0 ? text.at[at - 1] : ' ';
    for (*minutes = 0; end < at + DIGITS && lml_span_digit_at(text, end); end++)
        *minutes = *minutes * 10 + (text.at[end] - '0');
    if ((before != ' ' && before != '(') || *minutes < LONG_TIME || end + length > text.length ||
        memcmp(text.at + end, unit, length) != 0)
        return 0;
    end += length;
    return end == text.length || strchr(" .,:;)", text.at[end]) ? end - at : 0;
}

static void put_hours(long minutes, lml_builder *out)
{
    lml_builder_add_format(out, "%ld\302\240h", minutes / 60);
    if (minutes % 60)
        lml_builder_add_format(out, "\302\240%02ld\302\240min", minutes % 60);
}

void lml_days_put_sentence(lml_days days, lml_span text, lml_builder *out)
{
    size_t from = 0;
    for (size_t i = 0; i < text.length;) {
        lml_value moment;
        bool clock;
        long minutes = 0;
        size_t length = lml_span_digit_at(text, i) ? date_at(text, i, &moment, &clock) : 0;
        size_t time = length == 0 ? long_minutes_at(text, i, &minutes) : 0;
        size_t mark = i > 0 ? lml_datum_mark_at(text, i) : 0;
        if (length + time + mark == 0) {
            i++;
            continue;
        }
        lml_builder_add(out, text.at + from, i - from);
        if (length > 0)
            put_whole(days, &moment, clock, out);
        else if (time > 0)
            put_hours(minutes, out);
        length += time + mark;
        from = i += length;
    }
    lml_builder_add(out, text.at + from, text.length - from);
}

double lml_days_minutes(const lml_value *moment)
{
    return (double)moment->exact / MINUTE;
}

lml_value lml_days_at(double minutes)
{
    return (lml_value){.kind = LML_MOMENT, .exact = (int64_t)minutes * MINUTE};
}

bool lml_days_long_time(const lml_json *figure, long *minutes)
{
    lml_span text = lml_json_text(lml_json_member(figure, "text"));
    lml_span unit = lml_json_text(lml_json_member(figure, "unit"));
    bool in_minutes = text.length > 4 && memcmp(text.at + text.length - 4, " min", 4) == 0;
    double value = lml_json_number(lml_json_member(figure, "value"));
    if (!in_minutes || memchr(text.at, 'h', text.length) ||
        !lml_span_is(lml_json_text(lml_json_member(figure, "kind")), "time"))
        return false;
    if (lml_span_is(unit, "h"))
        value *= 60;
    else if (lml_span_is(unit, "s"))
        value /= 60;
    else if (!lml_span_is(unit, "min"))
        return false;
    if (!(value >= LONG_TIME && value < 1e6))
        return false;
    *minutes = (long)(value + .5);
    return true;
}
