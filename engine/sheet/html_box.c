#include "sheet/html_box.h"

#include "sheet/html_figure.h"

static const lml_json *member(const lml_json *line, const char *name)
{
    return lml_json_member(line, name);
}

lml_html_act lml_html_act_of(const lml_html *h, const lml_json *line)
{
    if (!h->working || lml_html_is(line, "total"))
        return LML_HTML_READ;
    if (lml_html_acts(line, "weigh"))
        return LML_HTML_WEIGH;
    if (lml_html_acts(line, "set"))
        return LML_HTML_SET;
    if (lml_html_acts(line, "tick"))
        return LML_HTML_TICK;
    /* What is recorded has a box, whatever older results call it. */
    bool measured =
        lml_html_acts(line, "measure") || lml_html_is(line, "box") || member(line, "record");
    return measured ? LML_HTML_MEASURE : LML_HTML_READ;
}

void lml_html_box_put_label(lml_html *h, const lml_json *line)
{
    lml_html_put(h, "<span class=\"lab\">");
    lml_html_figure_put_sentence(h, line, "label");
    if (lml_html_text(line, "owner").length > 0) {
        lml_html_put(h, " <em class=\"owner\">");
        lml_escape_put_member(h->out, line, "owner");
        lml_html_put(h, "</em>");
    }
    if (lml_html_text(line, "origin").length > 0) {
        lml_html_put(h, " <em class=\"origin\">");
        lml_escape_put_member(h->out, line, "origin");
        lml_html_put(h, "</em>");
    }
    if (lml_json_yes(member(line, "whole")))
        lml_html_put(h, " <em class=\"origin\">all of it</em>");
    lml_html_put(h, "</span>");
}

/* The first word of the unit: what is in the box. */
static lml_span unit_of(const lml_json *line)
{
    static const char *const of[] = {"value", "least", "most"};
    lml_span unit = lml_span_of(NULL);
    for (size_t i = 0; i < sizeof of / sizeof *of && unit.length == 0; i++)
        unit = lml_html_figure_cut(member(line, of[i])).unit;
    if (unit.length == 0)
        unit = lml_html_text(line, "unit");
    const char *blank = unit.length > 0 ? memchr(unit.at, ' ', unit.length) : NULL;
    return blank ? lml_span_between(unit.at, blank) : unit;
}

static void put_recorded(lml_html *h, const lml_json *recorded)
{
    lml_value at;
    bool clock, read = lml_days_read(lml_html_text(recorded, "at"), &at, &clock);
    lml_html_put(h, "<b>");
    if (lml_html_text(recorded, "text").length > 0)
        lml_escape_put_member(h->out, recorded, "text");
    else if (read && clock)
        lml_days_put_clock(&at, h->out);
    lml_html_put(h, "</b><u>");
    if (read) {
        lml_days_put_day(h->days, &at, false, h->out);
        if (clock) {
            lml_html_put(h, " ");
            lml_days_put_clock(&at, h->out);
        }
    }
    lml_html_put(h, "</u>");
}

void lml_html_box_put(lml_html *h, const lml_json *line)
{
    const lml_json *recorded = member(line, "recorded");
    lml_html_put(h, recorded ? "<span class=\"box done\">" : "<span class=\"box\">");
    lml_html_put(h, "<small>");
    lml_escape_put_member(h->out, line, "record");
    lml_html_put(h, "</small>");
    if (recorded) {
        put_recorded(h, recorded);
    } else {
        lml_html_put(h, "<u>");
        lml_escape_put(h->out, unit_of(line));
        lml_html_put(h, "</u>");
    }
    lml_html_put(h, "</span>");
}
