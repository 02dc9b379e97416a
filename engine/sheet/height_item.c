#include "sheet/height_item.h"

#include "sheet/html_box.h"
#include "sheet/html_figure.h"
#include "sheet/html_grid.h"
#include "sheet/html_remark.h"
#include "sheet/html_line.h"
#include "sheet/picture_curve.h"
#include "sheet/picture_small.h"
#include "sheet/remark.h"
#include "sheet/typeset.h"

/* Millimetres and points by density. A point is 0.353 mm. What sheet.css says is named beside a
 * figure; what it does not say, since it depends on how a browser sets things, was fitted in
 * Chromium, November 2026: tests/page sees whether pages still end where they are said to. */
typedef struct look {
    double title, heading, gap;       /* of a card, and below it */
    double said, said_line, said_gap; /* a remark: points, a line, above and below it */
    double text, text_line, text_gap; /* a sentence */
    double row, gate, tick, box;      /* lines */
    double lot, time, hand;           /* lines of tables */
    double hands, program;            /* how wide the list beside a curve is; its program */
} look;
static const look looks[LML_DENSITIES] = {{.title = 5.1,
                                           .heading = 4.6,
                                           .gap = 1.4,
                                           .said = 7.3,
                                           .said_line = 2.94,
                                           .said_gap = .5,
                                           .text = 8.4,
                                           .text_line = 3.62,
                                           .text_gap = .3,
                                           .row = 9.3,
                                           .gate = 10.1,
                                           .tick = 6.7,
                                           .box = 8.2,
                                           .lot = 8.6,
                                           .time = 4.5,
                                           .hand = 5.9,
                                           .hands = 62,
                                           .program = 14.6},
                                          {.title = 4.8,
                                           .heading = 4.6,
                                           .gap = 1,
                                           .said = 7.1,
                                           .said_line = 2.76,
                                           .said_gap = .3,
                                           .text = 8.4,
                                           .text_line = 3.38,
                                           .text_gap = .3,
                                           .row = 8.2,
                                           .gate = 9,
                                           .tick = 5.6,
                                           .box = 7.6,
                                           .lot = 8,
                                           .time = 4.5,
                                           .hand = 5.9,
                                           .hands = 62,
                                           .program = 14.6},
                                          {.title = 3.9,
                                           .heading = 3.4,
                                           .gap = .5,
                                           .said = 6.9,
                                           .said_line = 2.68,
                                           .said_gap = .2,
                                           .text = 8,
                                           .text_line = 3.1,
                                           .text_gap = .2,
                                           .row = 7.2,
                                           .gate = 8.1,
                                           .tick = 5.8,
                                           .box = 7,
                                           .lot = 7.5,
                                           .time = 4.1,
                                           .hand = 4.3,
                                           .hands = 74,
                                           .program = 9.8}};
/* .lab: 8.6pt, of lines of 1.1; a line of .facts dd: 9pt of the body's 1.22, and a little. */
static const double label_points = 8.6, label_line = 3.4, fact_line = 3.95;

typedef lml_height_sight sight;

static const look *as_of(const sight *s)
{
    return &looks[s->density];
}

static bool is_dense(const sight *s)
{
    return s->density == LML_HEIGHT_DENSEST;
}

static double most(double a, double b)
{
    return a > b ? a : b;
}

static const lml_json *member(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static double lines_of(lml_span text, double points, bool bold, double width)
{
    lml_typeset t = {.width = width, .lines = 1};
    lml_typeset_run(&t, text, points, bold);
    return t.lines;
}

static double width_of(const char *words, double points, bool bold)
{
    return lml_typeset_width(lml_span_of(words), points, bold);
}

static double label_lines(const lml_json *line, double points, double width)
{
    lml_typeset t = {.width = width, .lines = 1};
    lml_typeset_run(&t, lml_html_text(line, "label"), points, false);
    /* .owner, .origin: 7pt; an owner has a border and 1mm on either side. */
    if (lml_html_text(line, "owner").length > 0)
        lml_typeset_put(&t, 4 + lml_typeset_width(lml_html_text(line, "owner"), 7, false));
    if (lml_html_text(line, "origin").length > 0)
        lml_typeset_put(&t, 1 + lml_typeset_width(lml_html_text(line, "origin"), 7, false));
    if (lml_json_yes(member(line, "whole")))
        lml_typeset_put(&t, 10); /* "all of it", fitted */
    return t.lines;
}

/* A number, and its unit after it: .fig i, .58em and .25em before it; the rest is fitted. */
static double figure_width(const lml_json *figure, double points)
{
    lml_html_number cut = lml_html_figure_cut(figure);
    lml_span words = lml_html_text(figure, "text");
    if (words.length == 0)
        words = lml_html_text(figure, "value");
    if (cut.number.length == 0)
        return lml_typeset_width(words, points > 9 ? points * .75 : points, true);
    return lml_typeset_width(cut.number, points, true) +
           lml_typeset_width(cut.unit, points * .62, false) + points * .09;
}

static double limits_width(const lml_json *line, double points)
{
    const lml_json *least = member(line, "least"), *upto = member(line, "most");
    double wide = least ? figure_width(least, points) : 0;
    wide += upto ? figure_width(upto, points) : 0;
    return wide + (least || upto ? width_of("or more ", points * .62, false) : 0);
}

static double shown_width(const lml_json *line, double points)
{
    const lml_json *value = member(line, "value") ? member(line, "value") : member(line, "at");
    double wide = value ? figure_width(value, points) : limits_width(line, points);
    if (member(line, "also"))
        wide += 2 + lml_typeset_width(lml_html_text(member(line, "also"), "text"), 8.6, false);
    return wide + (value ? limits_width(line, 7.6) : 0);
}

/* ---- remarks ----------------------------------------------------------------------------------
 */

static bool is_caution(const lml_item *item)
{
    return item->is == LML_ITEM_ENTRY && lml_html_is(item->entry, "remark") &&
           lml_span_is(lml_html_text(item->entry, "level"), "caution");
}

/* Where it is dense they run on. .caution hangs 4.8mm; its word is 9.4pt, spaced .02em, after a
 * triangle (.tri) of 4mm. What a word adds to the height of its line, .55 and .35, is fitted. */
static double cautions_height(const sight *s, const lml_item *items, size_t count, size_t *next)
{
    double hang = is_dense(s) ? 0 : 4.8, high = as_of(s)->said_gap;
    lml_typeset t = {.width = s->width - hang, .lines = is_dense(s)};
    for (*next = 0; *next < count && is_caution(&items[*next]); ++*next) {
        const lml_json *remark = items[*next].entry;
        lml_span text = lml_html_text(remark, "text");
        char word[LML_HTML_HAZARD];
        size_t again = lml_html_remark_hazard(remark, word);
        if (!is_dense(s)) {
            t.lines++;
            t.at = -hang;
            high += as_of(s)->said_gap + .55;
        } else {
            high += .35;
        }
        lml_typeset_put(&t, 4.2 + 1.03 * width_of(word, 9.4, true));
        t.at += again > 0 ? 0 : 1;
        lml_typeset_run(&t, (lml_span){text.at + again, text.length - again}, as_of(s)->said,
                        false);
        t.at += 1;
    }
    return high + as_of(s)->said_gap + t.lines * as_of(s)->said_line;
}

double lml_height_item_remark(const sight *s, const lml_json *remark)
{
    /* .remark.stop: 8pt, a border of .6mm and .8mm within, above and below, and .5mm outside. What
     * the word before it takes, 12 and 11, is fitted, with its gap of 1.2mm. */
    bool holds = lml_remark_holds(remark);
    double points = holds ? 8 : as_of(s)->said, lead = holds ? 12 : 11;
    lml_typeset t = {.width = s->width - lead, .lines = 1};
    lml_span reason = lml_html_text(remark, "reason"), text = lml_html_text(remark, "text");
    if (reason.length > 0) {
        lml_typeset_run(&t, reason, points, true);
        text = lml_remark_first_clause(text);
        t.at += 6;
    }
    lml_typeset_run(&t, text, points, false);
    bool asks = lml_span_is(lml_html_text(remark, "level"), "confirm");
    if (holds) /* its code, and how it is confirmed */
        lml_typeset_put(&t, asks ? 100
                                 : lml_typeset_width(lml_html_text(remark, "code"), 8, false) + 3);
    double line = holds ? as_of(s)->said_line * 8 / as_of(s)->said + .1 : as_of(s)->said_line;
    return t.lines * line + (holds ? 3.4 : 2 * as_of(s)->said_gap);
}

/* ---- lines ------------------------------------------------------------------------------------
 */

static bool is_box(const lml_json *line)
{
    return lml_html_text(line, "record").length > 0;
}

/* What is only read: as many on a line as go there. */
static double facts_height(const sight *s, const lml_item *items, size_t count)
{
    lml_typeset t = {.width = s->width, .lines = 1};
    double high = 0;
    for (size_t i = 0; i < count; i++) {
        const lml_json *line = items[i].entry;
        bool big = lml_json_yes(member(line, "big"));
        if (big && !is_dense(s)) {
            high += 6; /* .facts .big: 14pt */
            continue;
        }
        /* .facts dt 8pt, dd 9pt, .d2 .facts .big 12pt, gaps 1.2mm and 4mm */
        double wide = lml_typeset_width(lml_html_text(line, "label"), 8, false) + 1.4 +
                      shown_width(line, big ? 12 : 9);
        high += big ? .6 : 0;
        if (member(line, "chance"))
            wide += 22; /* of its words, at 7.6pt; fitted */
        lml_typeset_put(&t, wide);
        t.at += 4;
    }
    return high + t.lines * fact_line;
}

static double row_height(const sight *s, const lml_json *line, lml_html_act act)
{
    /* By act: .row .fig, .row.weigh, .row.set, .row, .row.do; below, .row.gate .lab 10.5pt, a box
     * of 27mm and its gap of 2mm, at least .row .lab's 22mm for the label. */
    static const double points[] = {14, 19, 16, 14, 11};
    bool big = lml_json_yes(member(line, "big"));
    bool gate = act == LML_HTML_TICK && is_box(line);
    double figure = shown_width(line, big && act != LML_HTML_SET ? 19 : points[act]);
    double rest = s->width - figure - (is_box(line) ? 29 : 0) - (gate ? 9 : 4);
    double low = gate                                                   ? as_of(s)->gate
                 : act == LML_HTML_TICK                                 ? as_of(s)->tick
                 : act == LML_HTML_SET && !is_box(line) && !is_dense(s) ? as_of(s)->row - 1.2
                                                                        : as_of(s)->row;
    return most(low,
                label_lines(line, gate ? 10.5 : label_points, most(rest, 22)) * label_line + .8);
}

/* Boxes abreast. */
static double tiles_height(const sight *s, const lml_item *items, size_t count)
{
    size_t abreast = count % 4 == 0 || count > 6 ? 4 : 3;
    double wide = (s->width - 1.5 * (double)(abreast - 1)) / (double)abreast, high = .8;
    for (size_t from = 0; from < count; from += abreast) {
        double row = 0;
        for (size_t i = from; i < count && i < from + abreast; i++) {
            const lml_json *line = items[i].entry;
            double one = label_lines(line, abreast == 4 ? 7.3 : 7.8, wide) * 2.9 + as_of(s)->box;
            if (member(line, "value") || lml_html_figure_has_limits(line)) {
                double points = abreast == 4 || is_dense(s) ? 10.5 : 11.5;
                double lines = shown_width(line, points) > wide ? 2 : 1;
                one += lines * points * .375;
            }
            row = most(row, one);
        }
        high += row + (from > 0 ? is_dense(s) ? .4 : .8 : 0);
    }
    return high;
}

static double ladder_height(const sight *s, const lml_item *items, size_t lots)
{
    double high = is_dense(s) ? 7.2 : 8.2;
    for (size_t i = 0; i < lots; i++) {
        const lml_json *line = items[i].entry;
        double rest =
            s->width - 31 - shown_width(line, 15) * .86 -
            most(13, lml_typeset_width(lml_html_text(member(line, "shows"), "text"), 11.5, false));
        high += most(as_of(s)->lot, label_lines(line, label_points, rest) * label_line + .6);
    }
    return high;
}

static double clock_height(const sight *s, const lml_item *items, size_t count)
{
    double high = s->headed ? 0 : 2.8;
    for (size_t i = 0; i < count; i++) {
        const lml_json *line = items[i].entry;
        double rest = s->width - 17 - (is_box(line) ? 22 : 37);
        double low = is_box(line) ? 7.4 : as_of(s)->time;
        high += most(low, label_lines(line, 8.2, rest) * 3.3 + .4);
    }
    return high;
}

/* How many lines stand together, and how high they are together: as html_line.c draws them. */
static double lines_height(const sight *s, const lml_item *items, size_t count, size_t *next)
{
    const lml_json *line = items[0].entry;
    *next = 1;
    if (lml_html_withheld(line))
        return most(as_of(s)->row, 2 * label_line + 1);
    if (s->h->working && lml_picture_small_can_show(line)) /* .against: 72mm of picture, 2mm */
        return most(is_dense(s) ? 10.4 : 12.6,
                    label_lines(line, label_points, s->width - 74) * label_line + .4);
    size_t run = *next = lml_html_line_run(s->h, items, count);
    lml_html_act act = lml_html_act_of(s->h, line);
    if (lml_html_line_is_timed(&items[0]) && s->h->working)
        return clock_height(s, items, run);
    if (act == LML_HTML_READ)
        return facts_height(s, items, run);
    size_t ladder = lml_html_line_ladder(items, run, count);
    if (act == LML_HTML_WEIGH && ladder > 0) {
        *next = ladder;
        return ladder_height(s, items, run) - (ladder > run ? 0 : 4);
    }
    if (act == LML_HTML_MEASURE && run > 1 && !lml_json_yes(member(line, "big")))
        return tiles_height(s, items, run);
    double high = 0;
    for (size_t i = 0; i < run; i++)
        high += row_height(s, items[i].entry, act);
    return high;
}

/* A vessel is beside the lines that follow it, up to the next clock. */
static double section_height(const sight *s, const lml_item *items, size_t count, size_t *next)
{
    double high = 0, width = s->width - 47.5;
    for (*next = 1;
         *next < count && lml_html_line_is(&items[*next]) && !lml_html_line_is_timed(&items[*next]);
         ++*next) {
        const lml_json *line = items[*next].entry;
        if (!is_box(line)) {
            high += is_dense(s) ? 3.4 : fact_line;
            continue;
        }
        high += label_lines(line, 8.2, width) * (is_dense(s) ? 2.9 : 3.2) +
                most(as_of(s)->box, 6.9) + (is_dense(s) ? .5 : 1.2);
        if (shown_width(line, is_dense(s) ? 16 : 19) + 19 > width)
            high += as_of(s)->box;
    }
    return most(high + .4, lml_html_section_high(s->density) + .4);
}

/* ---- pictures and tables ----------------------------------------------------------------------
 */

static bool is_mark(const lml_item *item)
{
    return lml_html_line_is(item) && member(item->entry, "at") && !lml_html_withheld(item->entry) &&
           lml_html_acts(item->entry, "tick");
}

static double curve_height(const sight *s, const lml_item *items, size_t count, size_t *next)
{
    double high = 0, rest = as_of(s)->hands - 19 - 7;
    lml_span day = lml_span_of(NULL);
    for (*next = 1; *next < count && is_mark(&items[*next]); ++*next) {
        const lml_json *line = items[*next].entry;
        lml_span at = lml_html_text(member(line, "at"), "value");
        at.length = at.length > 10 ? 10 : at.length;
        if (!lml_span_equal(at, day))
            high += is_dense(s) ? 3.4 : 5;
        day = at;
        double lines = label_lines(line, is_dense(s) ? 7.8 : 8.2, rest - (is_box(line) ? 14 : 0));
        high += is_box(line) ? 7.4 : most(as_of(s)->hand, lines * 3.05 + (is_dense(s) ? .4 : .9));
    }
    bool under = *next - 1 > LML_PICTURE_CURVE_BESIDE;
    return under ? most(high, lml_html_curve_high(s->density) + 2 * as_of(s)->program)
                 : most(high, lml_html_curve_high(s->density)) + as_of(s)->program;
}

/* .grid td: 8.4pt of lines of 1.22, .5mm above and below, a rule of .15mm; .grid th and .total take
 * a line each. How much wider than the rest the column is that breaks, 1.4, is fitted. */
static double grid_height(const lml_item *items, size_t rows, double width)
{
    double high = 4.5;
    const lml_json *grid = items[0].entry;
    size_t columns = lml_json_count(member(grid, "columns"));
    for (size_t i = 0; i < rows; i++) {
        double lines = 1;
        for (const lml_json *c = lml_json_first(items[i].row); c; c = lml_json_next(c)) {
            lml_span said = lml_html_text(c, "text");
            said = said.length > 0 ? said : lml_html_text(c, "value");
            lines = most(lines, lines_of(said, 8.4, false, width * 1.4 / (double)(columns + 1)));
        }
        high += lines * 3.7 + 1.1;
    }
    return high + (lml_json_count(member(grid, "total")) > 0 ? 5 : 0);
}

double lml_height_item_of(const sight *s, const lml_item *items, size_t count, size_t *next)
{
    const lml_json *entry = items[0].entry;
    *next = 1;
    if (items[0].is == LML_ITEM_HEADING)
        return as_of(s)->heading;
    if (is_caution(&items[0]))
        return cautions_height(s, items, count, next);
    if (lml_html_line_is(&items[0]))
        return lines_height(s, items, count, next);
    if (lml_html_is(entry, "remark"))
        return lml_height_item_remark(s, entry);
    if (lml_html_withheld(entry))
        return lml_html_is(entry, "grid") ? 13
                                          : 8; /* .donot, 11pt, two lines of its reason; fitted */
    if (lml_html_is(entry, "section"))
        return section_height(s, items, count, next);
    if (lml_html_is(entry, "curve"))
        return curve_height(s, items, count, next);
    if (lml_html_is(entry, "grid")) {
        *next = lml_html_grid_run(items, count);
        return grid_height(items, *next, s->width);
    }
    if (lml_html_is(entry, "flow"))
        return 48; /* 42 of picture_flow.c, its figcaption, .flow's margins */
    if (lml_html_is(entry, "sign"))
        return 20; /* .signs 10mm, .sign 8mm, a line of words */
    return lines_of(lml_html_text(entry, "text"), as_of(s)->text, false, s->width) *
               as_of(s)->text_line +
           as_of(s)->text_gap;
}

double lml_height_item_title(unsigned density, bool titled)
{
    return looks[density].gap + (titled ? looks[density].title : 0);
}
