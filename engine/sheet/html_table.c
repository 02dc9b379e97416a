#include "sheet/html_table.h"

#include "sheet/html_box.h"
#include "sheet/html_figure.h"
#include "sheet/picture_small.h"

static const lml_json *member(const lml_json *line, const char *name)
{
    return lml_json_member(line, name);
}

/* ---- a ladder for a tared scale ---------------------------------------------------------------
 */

static void put_number(lml_html *h, const lml_json *figure)
{
    lml_html_number cut = lml_html_figure_cut(figure);
    if (cut.number.length > 0)
        lml_escape_put(h->out, cut.number);
    else
        lml_html_figure_put_plain(h, figure);
}

static void draw_lot(lml_html *h, const lml_item *item)
{
    const lml_json *line = item->entry;
    if (lml_html_withheld(line)) {
        lml_html_put(h, "<tr><td></td><td>");
        lml_html_box_put_label(h, line);
        lml_html_put(h, "</td><td colspan=\"3\">");
        lml_html_figure_put_withheld(h, line, item->recipe);
        lml_html_put(h, "</td></tr>\n");
        return;
    }
    lml_html_put(h, "<tr><td class=\"k\"><span class=\"tick\"></span></td><td>");
    lml_html_box_put_label(h, line);
    lml_html_put(h, "</td><td class=\"add\"><b>");
    put_number(h, member(line, "value"));
    lml_html_put(h, "</b></td><td class=\"sum\">");
    put_number(h, member(line, "shows"));
    lml_html_put(h, "</td><td class=\"bx\">");
    lml_html_box_put(h, line);
    lml_html_put(h, "</td></tr>\n");
}

static void draw_total(lml_html *h, const lml_item *item)
{
    const lml_json *total = item->entry;
    if (lml_html_withheld(total)) {
        lml_html_put(h, "<tr class=\"total\"><td></td><td>");
        lml_html_box_put_label(h, total);
        lml_html_put(h, "</td><td colspan=\"3\">");
        lml_html_figure_put_withheld(h, total, item->recipe);
        lml_html_put(h, "</td></tr>");
        return;
    }
    lml_html_put(h, "<tr class=\"total\"><td></td><td colspan=\"2\">");
    lml_html_box_put_label(h, total);
    lml_html_put(h, "</td><td class=\"sum\">");
    lml_html_figure_put(h, member(total, "value"));
    lml_html_put(h, "</td><td class=\"bx\">");
    if (lml_html_text(total, "record").length > 0)
        lml_html_box_put(h, total);
    lml_html_put(h, "</td></tr>");
}

void lml_html_table_draw_ladder(lml_html *h, const lml_item *items, size_t lots,
                                const lml_item *total)
{
    lml_span unit = lml_span_of(NULL);
    lml_html_put(h, "<table class=\"ladder\"><thead><tr><th></th><th>onto the tared scale</th>"
                    "<th class=\"add\">add");
    for (size_t i = 0; i < lots && unit.length == 0; i++)
        unit = lml_html_figure_cut(member(items[i].entry, "value")).unit;
    if (unit.length > 0) { /* of what is withheld nothing is known */
        lml_html_put(h, ", ");
        lml_escape_put(h->out, unit);
    }
    lml_html_put(h, "</th><th class=\"sum\">scale shows</th><th>as weighed</th></tr></thead>\n"
                    "<tbody>");
    for (size_t i = 0; i < lots; i++)
        draw_lot(h, &items[i]);
    if (total)
        draw_total(h, total);
    lml_html_put(h, "</tbody></table>\n");
}

/* ---- a clock ----------------------------------------------------------------------------------
 */

static double seconds_of(const lml_json *time)
{
    lml_span unit = lml_html_text(time, "unit");
    double value = lml_json_number(member(time, "value"));
    double of = lml_span_is(unit, "s") ? 1 : lml_span_is(unit, "h") ? 3600 : 60;
    return value * of > 0 && value * of < 1e6 ? value * of : 0;
}

/* 4:30, of minutes and seconds. */
static void put_minutes(lml_html *h, const lml_json *time)
{
    long s = (long)(seconds_of(time) + .5);
    lml_builder_add_format(h->out, "%ld:%02ld", s / 60, s % 60);
}

static void draw_time(lml_html *h, const lml_item *item, double from, double next, double most)
{
    const lml_json *line = item->entry, *latest = member(line, "latest");
    lml_html_put(h, "<tr><td class=\"k\">");
    if (lml_html_act_of(h, line) == LML_HTML_TICK)
        lml_html_put(h, "<span class=\"tick\"></span>");
    lml_html_put(h, "</td><td class=\"t\">");
    put_minutes(h, member(line, "after"));
    lml_html_put(h, "</td><td>");
    lml_html_box_put_label(h, line);
    if (lml_json_member(line, "value")) {
        lml_html_put(h, " ");
        lml_html_figure_put_plain(h, lml_json_member(line, "value"));
    }
    bool box = lml_html_text(line, "record").length > 0;
    if (box && !latest) { /* it stands where the times would */
        lml_html_put(h, "</td><td class=\"late\" colspan=\"2\">");
        lml_html_box_put(h, line);
        lml_html_put(h, "</td></tr>\n");
        return;
    }
    lml_html_put(h, "</td><td class=\"bar\">");
    lml_picture_small_draw_times(
        h, (lml_picture_times){from, next, latest ? seconds_of(latest) : next, most},
        member(line, "after"), latest);
    lml_html_put(h, "</td><td class=\"late\">");
    if (latest) {
        lml_html_put(h, "by ");
        put_minutes(h, latest);
    }
    if (box)
        lml_html_box_put(h, line);
    lml_html_put(h, "</td></tr>\n");
}

void lml_html_table_draw_clock(lml_html *h, const lml_item *items, size_t count)
{
    double most = 1;
    for (size_t i = 0; i < count; i++) {
        double after = seconds_of(member(items[i].entry, "after")),
               latest = seconds_of(member(items[i].entry, "latest"));
        most = after > most ? after : most;
        most = latest > most ? latest : most;
    }
    lml_html_put(h, "<table class=\"clock\">");
    if (!h->headed)
        lml_html_put(h, "<thead><tr><th></th><th colspan=\"4\">minutes since the clock was "
                        "started</th></tr></thead>");
    lml_html_put(h, "\n<tbody>");
    for (size_t i = 0; i < count; i++) {
        const lml_item *item = &items[i];
        if (lml_html_withheld(item->entry)) {
            lml_html_put(h, "<tr><td></td><td></td><td>");
            lml_html_box_put_label(h, item->entry);
            lml_html_put(h, "</td><td colspan=\"2\">");
            lml_html_figure_put_withheld(h, item->entry, item->recipe);
            lml_html_put(h, "</td></tr>\n");
            continue;
        }
        double from = seconds_of(member(item->entry, "after"));
        double next = i + 1 < count ? seconds_of(member(items[i + 1].entry, "after")) : from;
        draw_time(h, item, from, next > from ? next : from, most);
    }
    lml_html_put(h, "</tbody></table>\n");
}

/* ---- what is only read ------------------------------------------------------------------------
 */

static void put_value(lml_html *h, const lml_item *item)
{
    const lml_json *line = item->entry;
    if (lml_html_withheld(line)) {
        lml_html_figure_put_withheld(h, line, item->recipe);
        return;
    }
    if (member(line, "value"))
        lml_html_figure_put(h, member(line, "value"));
    static const struct {
        const char *name, *words;
    } more[] = {
        {"at", ""}, {"till", " until "}, {"after", " after "}, {"latest", " at the latest "}};
    for (size_t i = 0; i < sizeof more / sizeof *more; i++)
        if (member(line, more[i].name)) {
            lml_html_put(h, more[i].words);
            lml_html_figure_put(h, member(line, more[i].name));
        }
    if (member(line, "also")) {
        lml_html_put(h, " <span class=\"also\">");
        lml_html_figure_put_plain(h, member(line, "also"));
        lml_html_put(h, "</span>");
    }
    if (lml_html_figure_has_limits(line)) {
        lml_html_put(h, " <small>");
        lml_html_figure_put_limits(h, line);
        lml_html_put(h, "</small>");
    }
    if (member(line, "chance")) {
        lml_html_put(h, " <small>");
        lml_html_figure_put_plain(h, member(line, "chance"));
        lml_html_put(h, member(line, "least") ? " chance of lying below it</small>"
                                              : " chance of lying above it</small>");
    }
}

/* Few facts of a bench share a line; elsewhere each has its own. */
static void draw_fact(lml_html *h, const lml_item *item)
{
    bool big = lml_json_yes(member(item->entry, "big"));
    lml_html_put(h, big ? "<div class=\"big\"><dt>" : "<div><dt>");
    lml_html_box_put_label(h, item->entry);
    lml_html_put(h, "</dt><dd>");
    put_value(h, item);
    lml_html_put(h, "</dd></div>");
}

/* A sentence where other lines have a figure. */
static bool is_sentence(const lml_json *line)
{
    enum { WORDS = 24 };
    const lml_json *value = member(line, "value");
    return !lml_html_withheld(line) && lml_span_is(lml_html_text(value, "kind"), "text") &&
           lml_html_text(value, "value").length > WORDS;
}

static void draw_sum(lml_html *h, const lml_item *item)
{
    if (h->working && is_sentence(item->entry)) {
        lml_html_put(h, "<tr><td colspan=\"2\">");
        lml_html_box_put_label(h, item->entry);
        lml_html_put(h, ": ");
        put_value(h, item);
        lml_html_put(h, "</td></tr>\n");
        return;
    }
    bool total = lml_html_is(item->entry, "total"), big = lml_json_yes(member(item->entry, "big"));
    lml_builder_add_format(h->out, "<tr class=\"%s%s\"><td>", total ? "total" : "line",
                           big ? " big" : "");
    lml_html_box_put_label(h, item->entry);
    lml_html_put(h, "</td><td class=\"v\">");
    put_value(h, item);
    lml_html_put(h, "</td></tr>\n");
}

void lml_html_table_draw_read(lml_html *h, const lml_item *items, size_t count)
{
    if (h->bench) {
        lml_html_put(h, "<dl class=\"facts\">");
        for (size_t i = 0; i < count; i++)
            draw_fact(h, &items[i]);
        lml_html_put(h, "</dl>\n");
        return;
    }
    if (!h->working)
        lml_picture_small_draw_shares(h, items, count);
    lml_html_put(h, "<table class=\"sums\"><tbody>");
    for (size_t i = 0; i < count; i++)
        draw_sum(h, &items[i]);
    lml_html_put(h, "</tbody></table>\n");
}
