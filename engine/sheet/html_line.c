#include "sheet/html_line.h"

#include "sheet/html_box.h"
#include "sheet/html_figure.h"
#include "sheet/html_table.h"
#include "sheet/picture_small.h"

static const lml_json *member(const lml_json *line, const char *name)
{
    return lml_json_member(line, name);
}

bool lml_html_line_is(const lml_item *item)
{
    return item->is == LML_ITEM_ENTRY &&
           (lml_html_is(item->entry, "line") || lml_html_is(item->entry, "total") ||
            lml_html_is(item->entry, "box"));
}

bool lml_html_line_is_timed(const lml_item *item)
{
    return lml_html_line_is(item) && member(item->entry, "after");
}

static bool is_big(const lml_json *line)
{
    return lml_json_yes(member(line, "big"));
}

/* A figure with its spread, and the limit that it is compared with. */
static bool has_mark(const lml_html *h, const lml_json *line)
{
    return h->working && !lml_html_withheld(line) && lml_picture_small_can_show(line);
}

static void put_also(lml_html *h, const lml_json *line)
{
    if (!member(line, "also") || /* the kiln's unit may be the house's */
        lml_span_equal(lml_html_text(member(line, "also"), "text"),
                       lml_html_text(member(line, "value"), "text")))
        return;
    lml_html_put(h, "<span class=\"also\">");
    lml_html_figure_put_plain(h, member(line, "also"));
    lml_html_put(h, "</span>");
}

/* The figure, else what it must be, else when. */
static void put_figure(lml_html *h, const lml_json *line)
{
    static const char *const figures[] = {"value", "at", "after"};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        if (member(line, figures[i])) {
            lml_html_figure_put(h, member(line, figures[i]));
            return;
        }
    if (lml_html_figure_has_limits(line)) {
        lml_html_put(h, "<span class=\"fig\">");
        lml_html_figure_put_bold_limits(h, line);
        lml_html_put(h, "</span>");
    }
}

/* A time, or a moment: its hour alone on the day of `at`. */
static void put_later(lml_html *h, const lml_json *figure, const lml_json *at)
{
    lml_value moment, first;
    if (lml_days_read(lml_html_text(figure, "value"), &moment, NULL) &&
        lml_days_read(lml_html_text(at, "value"), &first, NULL) &&
        (long)(lml_days_minutes(&moment) / 1440) == (long)(lml_days_minutes(&first) / 1440))
        lml_days_put_clock(&moment, h->out);
    else
        lml_html_figure_put_plain(h, figure);
}

/* Until when, which comes after the figure. */
static void put_until(lml_html *h, const lml_json *line)
{
    static const struct {
        const char *name, *words;
    } more[] = {{"till", "until "}, {"latest", "at the latest "}};
    for (size_t i = 0; i < sizeof more / sizeof *more; i++)
        if (member(line, more[i].name)) {
            lml_html_put(h, " <small>");
            lml_html_put(h, more[i].words);
            put_later(h, member(line, more[i].name), member(line, "at"));
            lml_html_put(h, "</small>");
        }
}

/* What the figure may be, and with what chance it is not. */
static void put_bounds(lml_html *h, const lml_json *line)
{
    bool said = member(line, "value") || member(line, "at") || member(line, "after");
    if (said && lml_html_figure_has_limits(line)) {
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

/* What is weighed or read is written down under the name that it has in the record. */
static bool has_box(const lml_json *line)
{
    return lml_html_text(line, "record").length > 0;
}

static void draw_row(lml_html *h, const lml_item *item)
{
    static const char *const names[] = {"read", "weigh", "set", "measure", "do"};
    const lml_json *line = item->entry;
    lml_html_act act = lml_html_act_of(h, line);
    bool held = lml_html_withheld(line);
    bool gate = act == LML_HTML_TICK && member(line, "record");
    lml_builder_add_format(h->out, "<div class=\"row %s%s%s\">", names[act],
                           is_big(line) ? " big" : "", gate ? " gate" : "");
    if (gate && !held)
        lml_html_put(h, "<span class=\"tick\"></span>");
    lml_html_box_put_label(h, line);
    if (held) {
        lml_html_figure_put_withheld(h, line, item->recipe);
    } else {
        put_bounds(h, line);
        put_figure(h, line);
        put_until(h, line);
        put_also(h, line);
        if ((act == LML_HTML_SET || act == LML_HTML_TICK) && !gate)
            lml_html_put(h, "<span class=\"tick\"></span>");
        if (act != LML_HTML_READ && has_box(line))
            lml_html_box_put(h, line);
    }
    lml_html_put(h, "</div>\n");
}

void lml_html_line_draw_stacked(lml_html *h, const lml_item *item)
{
    const lml_json *line = item->entry;
    lml_html_act act = lml_html_act_of(h, line);
    bool held = lml_html_withheld(line);
    bool look = act == LML_HTML_READ || (act == LML_HTML_MEASURE && !has_box(line));
    lml_html_put(h, look                      ? "<div class=\"stack look\">"
                    : act == LML_HTML_MEASURE ? "<div class=\"stack meas\">"
                                              : "<div class=\"stack\">");
    lml_html_box_put_label(h, line);
    lml_html_put(h, "<div>");
    if (held) {
        lml_html_figure_put_withheld(h, line, item->recipe);
    } else {
        put_figure(h, line);
        put_also(h, line);
        put_bounds(h, line);
        put_until(h, line);
        if (act != LML_HTML_READ && has_box(line))
            lml_html_box_put(h, line);
        else if (act == LML_HTML_SET || act == LML_HTML_TICK)
            lml_html_put(h, "<span class=\"tick\"></span>");
    }
    lml_html_put(h, "</div></div>\n");
}

static void draw_tile(lml_html *h, const lml_item *item)
{
    const lml_json *line = item->entry;
    lml_html_put(h, "<div class=\"tile\">");
    lml_html_box_put_label(h, line);
    if (lml_html_withheld(line)) {
        lml_html_figure_put_withheld(h, line, item->recipe);
    } else {
        if (member(line, "value") || lml_html_figure_has_limits(line)) {
            lml_html_put(h, "<span class=\"want\">");
            put_figure(h, line);
            put_also(h, line);
            lml_html_put(h, "</span>");
        }
        put_bounds(h, line);
        put_until(h, line);
        if (has_box(line))
            lml_html_box_put(h, line);
    }
    lml_html_put(h, "</div>");
}

/* Boxes to fill in, three or four abreast. */
static void draw_tiles(lml_html *h, const lml_item *items, size_t count)
{
    lml_html_put(h, count % 4 == 0 || count > 6 ? "<div class=\"tiles t4\">"
                                                : "<div class=\"tiles\">");
    for (size_t i = 0; i < count; i++)
        draw_tile(h, &items[i]);
    lml_html_put(h, "</div>\n");
}

size_t lml_html_line_run(const lml_html *h, const lml_item *items, size_t count)
{
    lml_html_act act = lml_html_act_of(h, items[0].entry);
    bool timed = lml_html_line_is_timed(&items[0]), big = is_big(items[0].entry);
    size_t n = 1;
    while (n < count && lml_html_line_is(&items[n]) && !items[n].drawn &&
           lml_html_line_is_timed(&items[n]) == timed &&
           (timed || lml_html_act_of(h, items[n].entry) == act) &&
           (act == LML_HTML_READ || is_big(items[n].entry) == big) && !has_mark(h, items[n].entry))
        n++;
    return n;
}

size_t lml_html_line_ladder(const lml_item *items, size_t run, size_t count)
{
    bool total =
        run < count && lml_html_line_is(&items[run]) && lml_html_is(items[run].entry, "total");
    if (run < 2 || !(total || member(items[0].entry, "shows")))
        return 0;
    for (size_t i = 0; i < run; i++)
        if (!member(items[i].entry, "shows") && !lml_html_withheld(items[i].entry))
            return 0;
    return run + total;
}

size_t lml_html_line_draw(lml_html *h, const lml_item *items, size_t count)
{
    if (has_mark(h, items[0].entry)) {
        lml_html_put(h, "<div class=\"against\">");
        lml_html_box_put_label(h, items[0].entry);
        lml_picture_small_draw_mark(h, items[0].entry);
        if (has_box(items[0].entry))
            lml_html_box_put(h, items[0].entry);
        lml_html_put(h, "</div>\n");
        return 1;
    }
    size_t run = lml_html_line_run(h, items, count);
    size_t ladder = lml_html_line_ladder(items, run, count);
    lml_html_act act = lml_html_act_of(h, items[0].entry);
    if (lml_html_line_is_timed(&items[0]) && h->working) {
        lml_html_table_draw_clock(h, items, run);
    } else if (act == LML_HTML_READ) {
        lml_html_table_draw_read(h, items, run);
    } else if (act == LML_HTML_WEIGH && ladder > 0) {
        lml_html_table_draw_ladder(h, items, run, ladder > run ? &items[run] : NULL);
        return ladder;
    } else if (act == LML_HTML_MEASURE && run > 1 && !is_big(items[0].entry)) {
        draw_tiles(h, items, run);
    } else {
        for (size_t i = 0; i < run; i++)
            draw_row(h, &items[i]);
    }
    return run;
}
