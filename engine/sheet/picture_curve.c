#include "sheet/picture_curve.h"

#include "sheet/html_box.h"
#include "sheet/html_figure.h"
#include "sheet/svg.h"

#include <math.h>
#include <stdio.h>

enum { MARKS_MOST = 64, DAY = 24 * 60 };

typedef struct frame {
    lml_svg s;
    double left, top, width, height; /* of the plot, millimetres */
    double begin, end;               /* minutes since 1970 */
    double low, high;                /* of what is drawn, in the printed unit */
    unsigned night;                  /* its hatching */
} frame;

typedef struct mark {
    lml_item *item;
    double at, x; /* minutes; where its number stands, millimetres */
} mark;

static const lml_json *member(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static bool read_minutes(const lml_json *figure, double *out)
{
    lml_value moment;
    if (!lml_days_read(lml_html_text(figure, "value"), &moment, NULL))
        return false;
    *out = lml_days_minutes(&moment);
    return true;
}

static double minutes_of(const lml_json *step, const char *name)
{
    double at = 0;
    return read_minutes(member(step, name), &at) ? at : 0;
}

/* "22:00" as minutes since midnight. */
static double time_of_day(const lml_json *figure)
{
    lml_value v;
    return lml_moment_read_time_of_day(lml_html_text(figure, "value"), &v, NULL) == LML_OK
               ? (double)v.exact / 60
               : 0;
}

static double across(const frame *f, double minutes)
{
    double x = f->left + f->width * (minutes - f->begin) / (f->end - f->begin);
    return x < f->left ? f->left : x > f->left + f->width ? f->left + f->width : x;
}

static double up(const frame *f, double value)
{
    return f->top + f->height * (1 - (value - f->low) / (f->high - f->low));
}

static const lml_json *steps_of(const lml_json *curve)
{
    return lml_json_first(member(curve, "steps"));
}

/* ---- what it spans ----------------------------------------------------------------------------
 */

static void reach(double *low, double *high, double x)
{
    *low = x < *low ? x : *low;
    *high = x > *high ? x : *high;
}

static void span_times(frame *f, const lml_json *curve, const mark *marks, size_t count)
{
    double at;
    f->begin = minutes_of(steps_of(curve), "begins");
    f->end = f->begin + 60;
    if (read_minutes(member(curve, "loaded"), &at))
        reach(&f->begin, &f->end, at);
    for (const lml_json *s = steps_of(curve); s; s = lml_json_next(s))
        reach(&f->begin, &f->end, minutes_of(s, "ends"));
    for (size_t i = 0; i < count; i++) {
        reach(&f->begin, &f->end, marks[i].at);
        if (read_minutes(member(marks[i].item->entry, "till"), &at))
            reach(&f->begin, &f->end, at);
    }
    f->begin = floor(f->begin / 60) * 60 - 30;
    f->end += 45;
}

static void span_values(frame *f, const lml_json *curve)
{
    f->low = 0;
    f->high = 0;
    reach(&f->low, &f->high, lml_html_figure_number(member(curve, "from")));
    for (const lml_json *s = steps_of(curve); s; s = lml_json_next(s))
        reach(&f->low, &f->high, lml_html_figure_number(member(s, "to")));
    if (member(curve, "alone_most"))
        reach(&f->low, &f->high, lml_html_figure_number(member(curve, "alone_most")));
    f->high += (f->high - f->low) * .1;
    if (f->high <= f->low)
        f->high = f->low + 1;
}

/* ---- the ground it is drawn on ----------------------------------------------------------------
 */

static void draw_hours_alone(lml_html *h, frame *f, const lml_json *curve, double from, double to,
                             bool words)
{
    const lml_json *nobody = member(curve, "nobody"), *most = member(curve, "alone_most");
    double x1 = across(f, from), x2 = across(f, to);
    char hatch[LML_SVG_URL];
    if (x2 - x1 < .1)
        return;
    if (!words) {
        lml_svg_rect(&f->s, x1, f->top, x2 - x1, f->height, (lml_svg_pen){.fill = "#ebebeb"});
        lml_svg_rect(&f->s, x1, f->top, x2 - x1, f->height,
                     (lml_svg_pen){.fill = lml_svg_hatched(f->night, hatch)});
        return;
    }
    if (x2 - x1 > 34) {
        lml_svg_begin_text(&f->s, (x1 + x2) / 2, f->top + 2.7,
                           (lml_svg_type){.size = 2.6, .anchor = LML_SVG_MIDDLE, .halo = true});
        lml_html_put(h, "nobody there ");
        lml_escape_put_member(h->out, member(nobody, "from"), "value");
        lml_html_put(h, " to ");
        lml_escape_put_member(h->out, member(nobody, "to"), "value");
        lml_svg_end_text(&f->s);
    }
    if (!most)
        return;
    double y = up(f, lml_html_figure_number(most));
    lml_svg_line(&f->s, x1, y, x2, y, (lml_svg_pen){.width = .5, .dash = "1.6 .9"});
    if (x2 - x1 > 34) {
        lml_svg_begin_text(&f->s, x1 + .8, y - .9, (lml_svg_type){.size = 2.6, .halo = true});
        lml_html_put(h, "not above ");
        lml_html_figure_put_plain(h, most);
        lml_svg_end_text(&f->s);
    }
}

/* The ground, or with `words` what is written on it, over all lines that cross it. */
static void draw_nights(lml_html *h, frame *f, const lml_json *curve, bool words)
{
    const lml_json *nobody = member(curve, "nobody");
    if (!nobody)
        return;
    double from = time_of_day(member(nobody, "from")), to = time_of_day(member(nobody, "to"));
    if (to <= from)
        to += DAY;
    for (double day = floor(f->begin / DAY) * DAY - DAY; day < f->end; day += DAY)
        if (day + to > f->begin && day + from < f->end)
            draw_hours_alone(h, f, curve, day + from, day + to, words);
}

static void put_day(lml_html *h, frame *f, double at, double x)
{
    lml_value moment = lml_days_at(at);
    lml_svg_begin_text(&f->s, x, f->top + f->height + 7.8,
                       (lml_svg_type){.size = 2.9, .bold = true});
    lml_days_put_day(h->days, &moment, false, h->out);
    lml_svg_end_text(&f->s);
}

static void draw_clock(lml_html *h, frame *f)
{
    double foot = f->top + f->height, span = f->end - f->begin;
    double step = span > 72 * 60 ? 12 * 60 : span > 36 * 60 ? 6 * 60 : span > 9 * 60 ? 2 * 60 : 60;
    double midnight = (floor(f->begin / DAY) + 1) * DAY;
    if (midnight > f->end || across(f, midnight) - f->left > 18)
        put_day(h, f, f->begin, f->left);
    for (double at = (floor(f->begin / step) + 1) * step; at < f->end; at += step) {
        double x = across(f, at);
        bool midnight_here = fmod(at, DAY) == 0;
        char hour[24];
        snprintf(hour, sizeof hour, "%d", (int)(fmod(at, DAY) / 60));
        lml_svg_line(&f->s, x, foot, x, foot + 1.2, (lml_svg_pen){.width = .25});
        lml_svg_words(&f->s, x, foot + 4, (lml_svg_type){.size = 2.6, .anchor = LML_SVG_MIDDLE},
                      hour);
        if (!midnight_here)
            continue;
        lml_svg_line(&f->s, x, f->top, x, foot + 5,
                     (lml_svg_pen){.width = .2, .stroke = LML_SVG_MID});
        if (x + 16 < f->left + f->width)
            put_day(h, f, at, x + .8);
    }
    lml_svg_line(&f->s, f->left, foot, f->left + f->width, foot, (lml_svg_pen){.width = .35});
}

/* A round step of which at most five go into the height. */
static double round_step(double range)
{
    double step = 1;
    while (step * 10 < range)
        step *= 10;
    while (step > range && step > 1e-3)
        step /= 10;
    return range / step > 5 ? step * 2 : range / step > 2.5 ? step : step / 2;
}

static void draw_scale(lml_html *h, frame *f, const lml_json *curve)
{
    double step = round_step(f->high - f->low);
    for (double v = ceil(f->low / step) * step; v < f->high - step / 4; v += step) {
        char words[24];
        snprintf(words, sizeof words, step < 1 ? "%.1f" : "%.0f", v);
        lml_svg_line(&f->s, f->left, up(f, v), f->left + f->width, up(f, v),
                     (lml_svg_pen){.width = .12, .stroke = "#aaa"});
        lml_svg_words(&f->s, f->left - .8, up(f, v) + .9,
                      (lml_svg_type){.size = 2.5, .anchor = LML_SVG_END}, words);
    }
    lml_svg_begin_text(&f->s, f->left - .8, f->top - 1.4,
                       (lml_svg_type){.size = 2.5, .anchor = LML_SVG_END});
    lml_escape_put(h->out, lml_html_figure_cut(member(steps_of(curve), "to")).unit);
    lml_svg_end_text(&f->s);
}

/* ---- the curve itself -------------------------------------------------------------------------
 */

static void trace(frame *f, const lml_json *curve, lml_svg_pen pen)
{
    double value = lml_html_figure_number(member(curve, "from")), at;
    if (!read_minutes(member(curve, "loaded"), &at))
        at = minutes_of(steps_of(curve), "begins");
    lml_svg_begin(&f->s);
    lml_svg_move(&f->s, across(f, at), up(f, value));
    for (const lml_json *s = steps_of(curve); s; s = lml_json_next(s)) {
        lml_svg_to(&f->s, across(f, minutes_of(s, "begins")), up(f, value));
        value = lml_html_figure_number(member(s, "to"));
        lml_svg_to(&f->s, across(f, minutes_of(s, "there")), up(f, value));
        lml_svg_to(&f->s, across(f, minutes_of(s, "ends")), up(f, value));
    }
    lml_svg_end(&f->s, false, pen);
}

static void draw_holds(frame *f, const lml_json *curve)
{
    for (const lml_json *s = steps_of(curve); s; s = lml_json_next(s)) {
        double x = (across(f, minutes_of(s, "there")) + across(f, minutes_of(s, "ends"))) / 2;
        lml_svg_text(
            &f->s, x, up(f, lml_html_figure_number(member(s, "to"))) - 1.3,
            (lml_svg_type){.size = 3.8, .anchor = LML_SVG_MIDDLE, .bold = true, .halo = true},
            lml_html_figure_cut(member(s, "to")).number);
    }
}

static void put_clock(lml_html *h, double minutes)
{
    lml_value moment = lml_days_at(minutes);
    lml_days_put_clock(&moment, h->out);
}

static void draw_start(lml_html *h, frame *f, const lml_json *curve)
{
    double at = minutes_of(steps_of(curve), "begins");
    double x = across(f, at), y = up(f, lml_html_figure_number(member(curve, "from")));
    bool room = x - f->left > 22;
    lml_svg_circle(&f->s, x, y, 1, (lml_svg_pen){.fill = "#fff", .width = .5});
    lml_svg_begin_text(
        &f->s, room ? x - 1 : x + 1.6, y - 2,
        (lml_svg_type){
            .size = 3.1, .anchor = room ? LML_SVG_END : LML_SVG_START, .bold = true, .halo = true});
    lml_html_put(h, "starts ");
    put_clock(h, at);
    lml_svg_end_text(&f->s);
}

static void draw_reads(lml_html *h, frame *f, const lml_json *curve)
{
    const lml_json *read = lml_json_first(member(curve, "reads"));
    for (; read; read = lml_json_next(read)) {
        double at = minutes_of(read, "at");
        double x = across(f, at), y = up(f, lml_html_figure_number(member(read, "value")));
        bool room = f->left + f->width - x > 24;
        double foot = f->top + f->height - .6; /* above the line of the hours */
        lml_svg_circle(&f->s, x, y, .9, (lml_svg_pen){.fill = "#fff", .width = .4});
        lml_svg_begin_text(&f->s, room ? x + 1.4 : x - 1.4, y + 2.8 < foot ? y + 2.8 : foot,
                           (lml_svg_type){.size = 2.7,
                                          .anchor = room ? LML_SVG_START : LML_SVG_END,
                                          .bold = true,
                                          .halo = true});
        put_clock(h, at);
        lml_html_put(h, ": ");
        lml_html_figure_put_plain(h, member(read, "value"));
        lml_svg_end_text(&f->s);
    }
}

/* ---- its marks --------------------------------------------------------------------------------
 */

static size_t take_marks(lml_item *items, size_t count, mark *marks)
{
    size_t taken = 0;
    for (size_t i = 1; i < count && taken < MARKS_MOST; i++) {
        double at;
        if (items[i].is != LML_ITEM_ENTRY || !lml_html_acts(items[i].entry, "tick") ||
            lml_html_withheld(items[i].entry) || !read_minutes(member(items[i].entry, "at"), &at))
            continue;
        items[i].drawn = true;
        marks[taken++] = (mark){.item = &items[i], .at = at};
    }
    return taken;
}

/* Close numbers move apart, so that none hides another. */
static void spread(const frame *f, mark *marks, size_t count)
{
    double gap = 4.6, first = f->left, last = f->left + f->width + 1;
    if (count > 1 && gap * (double)(count - 1) > last - first)
        gap = (last - first) / (double)(count - 1);
    for (size_t i = 0; i < count; i++)
        marks[i].x = across(f, marks[i].at);
    for (size_t i = 1; i < count; i++)
        if (marks[i].x < marks[i - 1].x + gap)
            marks[i].x = marks[i - 1].x + gap;
    double over = count > 0 ? marks[count - 1].x - last : 0;
    for (size_t i = count; over > 0 && i-- > 0;) {
        double most = last - gap * (double)(count - 1 - i);
        if (marks[i].x > most)
            marks[i].x = most;
    }
}

/* Under the curve and its figures, which they would cross. */
static void draw_mark_lines(frame *f, const mark *marks, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double x = across(f, marks[i].at);
        lml_svg_line(&f->s, x, f->top - 1.2, x, f->top + f->height,
                     (lml_svg_pen){.width = .18, .dash = ".6 .8"});
    }
}

static void draw_marks(frame *f, const mark *marks, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double x = across(f, marks[i].at);
        char number[24];
        snprintf(number, sizeof number, "%zu", i + 1);
        lml_svg_line(&f->s, marks[i].x, f->top - 3.2, x, f->top - 1.2, (lml_svg_pen){.width = .18});
        lml_svg_circle(&f->s, marks[i].x, f->top - 5.2, 2.1, (lml_svg_pen){.fill = LML_SVG_INK});
        lml_svg_words(
            &f->s, marks[i].x, f->top - 4.1,
            (lml_svg_type){
                .size = i < 9 ? 3 : 2.5, .anchor = LML_SVG_MIDDLE, .bold = true, .white = true},
            number);
    }
}

static void draw_list(lml_html *h, const mark *marks, size_t count)
{
    double day = -1;
    lml_html_put(h, "<table class=\"hands\"><tbody>");
    for (size_t i = 0; i < count; i++) {
        const lml_json *line = marks[i].item->entry;
        double today = floor(marks[i].at / DAY);
        if (today != day) {
            lml_value moment = lml_days_at(marks[i].at);
            lml_html_put(h, "<tr class=\"day\"><td colspan=\"3\">");
            lml_days_put_day(h->days, &moment, false, h->out);
            lml_html_put(h, "</td></tr>");
            day = today;
        }
        lml_builder_add_format(h->out, "<tr><td class=\"t\"><span class=\"n\">%zu</span> <b>",
                               i + 1);
        put_clock(h, marks[i].at);
        lml_html_put(h, "</b>");
        double till;
        if (read_minutes(member(line, "till"), &till)) {
            lml_html_put(h, "<small>to ");
            put_clock(h, till);
            lml_html_put(h, "</small>");
        }
        lml_html_put(h, "</td><td>");
        lml_html_box_put_label(h, line);
        if (member(line, "value")) {
            lml_html_put(h, " ");
            lml_html_figure_put_plain(h, member(line, "value"));
        }
        lml_html_put(h, "</td><td class=\"bx\">");
        if (lml_html_text(line, "record").length > 0)
            lml_html_box_put(h, line);
        else
            lml_html_put(h, "<span class=\"tick\"></span>");
        lml_html_put(h, "</td></tr>\n");
    }
    lml_html_put(h, "</tbody></table>\n");
}

/* ---- the program, as a controller takes it ----------------------------------------------------
 */

static void draw_program(lml_html *h, const lml_json *curve)
{
    unsigned number = 0;
    lml_html_put(h, "<div class=\"program\">");
    for (const lml_json *s = steps_of(curve); s; s = lml_json_next(s)) {
        lml_builder_add_format(h->out, "<div class=\"seg\"><div><span class=\"k\">%u</span>",
                               ++number);
        lml_html_figure_put(h, member(s, "to"));
        lml_html_put(h, "<span class=\"rate\">");
        lml_escape_put_member(h->out, s, "name");
        if (member(s, "rate")) {
            lml_html_put(h,
                         lml_json_yes(member(s, "down")) ? " down at <br/><b>" : " up at <br/><b>");
            lml_html_figure_put_plain(h, member(s, "rate"));
            lml_html_put(h, "</b>");
        }
        lml_html_put(h, "</span></div><div>");
        if (member(s, "hold")) {
            lml_html_put(h, "<span>hold <b>");
            lml_html_figure_put_plain(h, member(s, "hold"));
            lml_html_put(h, "</b></span> ");
        }
        lml_html_put(h, "<span class=\"when\">");
        put_clock(h, minutes_of(s, "there"));
        lml_html_put(h, " to ");
        put_clock(h, minutes_of(s, "ends"));
        lml_html_put(h, "</span></div></div>");
    }
    lml_html_put(h, "</div>\n");
}

static void put_description(lml_html *h, const lml_json *curve)
{
    lml_html_put(h, "from ");
    lml_html_figure_put_plain(h, member(curve, "from"));
    double at;
    if (read_minutes(member(curve, "loaded"), &at)) {
        lml_html_put(h, ", loaded ");
        lml_html_figure_put_plain(h, member(curve, "loaded"));
    }
    for (const lml_json *s = steps_of(curve); s; s = lml_json_next(s)) {
        lml_html_put(h, "; begins ");
        lml_html_figure_put_plain(h, member(s, "begins"));
        lml_html_put(h, ", ");
        lml_html_figure_put_plain(h, member(s, "to"));
        lml_html_put(h, " from ");
        lml_html_figure_put_plain(h, member(s, "there"));
        lml_html_put(h, " to ");
        lml_html_figure_put_plain(h, member(s, "ends"));
    }
}

void lml_picture_curve_draw(lml_html *h, lml_item *items, size_t count)
{
    const lml_json *curve = items[0].entry;
    mark marks[MARKS_MOST];
    size_t marked = take_marks(items, count, marks);
    double beside = marked == 0 ? 0 : h->density == 2 ? 76 : 64; /* as wide as sheet.css has it */
    double width = h->width - beside, height = lml_html_curve_high(h->density);
    lml_span title = lml_html_text(curve, "title");
    bool under = marked > LML_PICTURE_CURVE_BESIDE; /* a long list leaves room below the picture */
    lml_html_put(h, "<div class=\"curve\"><div class=\"left\"><figure>");
    frame f = {.left = 9.5, .top = 9.5, .width = width - 12.5, .height = height - 19.5};
    span_times(&f, curve, marks, marked);
    span_values(&f, curve);
    spread(&f, marks, marked);
    f.s = lml_svg_open(h->out, width, height,
                       title.length > 0 ? title : lml_span_of("Against the clock"));
    put_description(h, curve);
    lml_svg_end_desc(&f.s);
    f.night = ++h->ids;
    lml_svg_hatch(&f.s, f.night, 1.5, .15, 45);
    draw_nights(h, &f, curve, false);
    draw_clock(h, &f);
    draw_scale(h, &f, curve);
    draw_mark_lines(&f, marks, marked);
    draw_nights(h, &f, curve, true);
    trace(&f, curve, (lml_svg_pen){.stroke = "#fff", .width = 2.2});
    trace(&f, curve, (lml_svg_pen){.width = .9});
    draw_holds(&f, curve);
    draw_start(h, &f, curve);
    draw_reads(h, &f, curve);
    draw_marks(&f, marks, marked);
    lml_svg_close(&f.s);
    lml_html_put(h, "</figure>\n");
    if (under)
        draw_program(h, curve);
    lml_html_put(h, "</div>\n");
    if (marked > 0)
        draw_list(h, marks, marked);
    lml_html_put(h, "</div>\n");
    if (!under)
        draw_program(h, curve);
}
