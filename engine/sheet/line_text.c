#include "sheet/line_text.h"

#include "sheet/datum.h"

static const lml_json *member(const lml_json *line, const char *name)
{
    return lml_json_member(line, name);
}

static lml_span value_of(const lml_json *figure)
{
    return lml_json_text(member(figure, "value"));
}

static void put_moment(lml_days days, const lml_value *moment, bool has_clock, lml_builder *out)
{
    lml_days_put_day(days, moment, false, out);
    if (!has_clock)
        return;
    lml_builder_add_char(out, ' ');
    lml_days_put_clock(moment, out);
}

static void put_hours(long minutes, lml_builder *out)
{
    lml_builder_add_format(out, "%ld h", minutes / 60);
    if (minutes % 60 > 0)
        lml_builder_add_format(out, " %02ld", minutes % 60);
}

void lml_line_text_put_figure(lml_days days, const lml_json *figure, lml_builder *out)
{
    lml_value moment;
    bool has_clock;
    long minutes;
    if (lml_span_is(lml_json_text(member(figure, "kind")), "moment") &&
        lml_days_read(value_of(figure), &moment, &has_clock))
        put_moment(days, &moment, has_clock, out);
    else if (lml_days_long_time(figure, &minutes))
        put_hours(minutes, out);
    else if (lml_span_is(lml_json_text(member(figure, "kind")), "text"))
        lml_days_put_sentence(days, value_of(figure), out);
    else
        lml_datum_put(figure, out);
}

/* Between what it must be: "8 min to 12 min", "60 min or more". */
static void put_limits(lml_days days, const lml_json *line, lml_builder *out)
{
    const lml_json *least = member(line, "least"), *most = member(line, "most");
    lml_line_text_put_figure(days, least ? least : most, out);
    if (least && most) {
        lml_builder_add_text(out, " to ");
        lml_line_text_put_figure(days, most, out);
    } else {
        lml_builder_add_text(out, least ? " or more" : " or less");
    }
}

/* On the same day as the line above, blanks stand in the place of the day. */
static void put_at(lml_days days, const lml_json *line, const lml_json *before, lml_builder *out)
{
    lml_value at, last;
    bool has_clock, same = false;
    const lml_json *moment = member(line, "at"), *till = member(line, "till");
    if (!lml_days_read(value_of(moment), &at, &has_clock))
        return;
    if (lml_days_read(value_of(member(before, "at")), &last, NULL))
        same = lml_days_minutes(&at) >= 0 &&
               (long)(lml_days_minutes(&at) / 1440) == (long)(lml_days_minutes(&last) / 1440);
    size_t start = out->length;
    lml_days_put_day(days, &at, false, out);
    if (same && out->at && has_clock) {
        size_t columns = out->length - start;
        out->length = start;
        for (size_t i = 0; i < columns; i++)
            lml_builder_add_text(out, "\302\240");
    }
    if (has_clock) {
        lml_builder_add_text(out, "\302\240");
        lml_days_put_clock(&at, out);
    }
    if (lml_days_read(value_of(till), &last, NULL)) {
        lml_builder_add_text(out, " to ");
        lml_days_put_clock(&last, out);
    }
}

/* So long after a clock was started. */
static void put_after(lml_days days, const lml_json *line, lml_builder *out)
{
    if (member(line, "after")) {
        lml_builder_add_text(out, "from ");
        lml_line_text_put_figure(days, member(line, "after"), out);
    }
    if (member(line, "latest")) {
        lml_builder_add_text(out, member(line, "after") ? ", latest " : "latest ");
        lml_line_text_put_figure(days, member(line, "latest"), out);
    }
}

static void part(lml_builder *out, size_t start, const char *mark)
{
    if (out->length > start)
        lml_builder_add_text(out, mark);
}

void lml_line_text_put(lml_days days, const lml_json *line, const lml_json *before,
                       lml_builder *out)
{
    size_t start = out->length;
    const lml_json *value = member(line, "value"), *chance = member(line, "chance");
    bool limited = member(line, "least") || member(line, "most");
    if (value)
        lml_line_text_put_figure(days, value, out);
    if (member(line, "also") &&
        !lml_span_equal(lml_json_text(member(value, "text")),
                        lml_json_text(member(member(line, "also"), "text")))) {
        lml_builder_add_text(out, " = ");
        lml_datum_put(member(line, "also"), out);
    }
    if (lml_json_yes(member(line, "whole")))
        lml_builder_add_text(out, " all");
    if (member(line, "shows") &&
        !lml_span_equal(lml_json_text(member(value, "text")),
                        lml_json_text(member(member(line, "shows"), "text")))) {
        lml_builder_add_text(out, " to ");
        lml_datum_put(member(line, "shows"), out);
    }
    if (chance) {
        part(out, start, ", ");
        lml_datum_write(chance, out);
        lml_builder_add_text(out, member(line, "least") ? " chance of lying below "
                                                        : " chance of lying above ");
        lml_datum_write(member(line, member(line, "least") ? "least" : "most"), out);
    } else if (limited) {
        part(out, start, ", ");
        put_limits(days, line, out);
    }
    if (member(line, "at")) {
        part(out, start, ", ");
        put_at(days, line, before, out);
    }
    if (member(line, "after") || member(line, "latest")) {
        part(out, start, ", ");
        put_after(days, line, out);
    }
}

void lml_line_text_put_recorded(lml_days days, const lml_json *line, lml_builder *out)
{
    const lml_json *recorded = member(line, "recorded");
    lml_value moment;
    bool has_clock;
    lml_span text = lml_json_text(member(recorded, "text"));
    lml_builder_add_span(out, text);
    if (!lml_days_read(lml_json_text(member(recorded, "at")), &moment, &has_clock))
        return;
    if (text.length > 0)
        lml_builder_add_text(out, "  ");
    put_moment(days, &moment, has_clock, out);
}
