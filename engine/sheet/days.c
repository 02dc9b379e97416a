#include "sheet/days.h"

static const char *const months[] = {"",    "Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
enum { MINUTE = 60, LONG_TIME = 91 /* from here on a kiln's controller shows hours */ };

lml_days lml_days_of(const lml_json *result)
{
    lml_span form = lml_json_text(lml_json_member(lml_json_member(result, "house"), "days"));
    return (lml_days){.month_first = lml_span_is(form, "Fri Nov 27")};
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
