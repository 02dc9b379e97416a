#include "sheet/picture_small.h"

#include "base/real.h"
#include "sheet/html_figure.h"
#include "sheet/svg.h"
#include "sheet/typeset.h"

#include <stdio.h>

static const lml_json *member(const lml_json *line, const char *name)
{
    return lml_json_member(line, name);
}

/* ---- a figure with its spread against its limit -----------------------------------------------
 */

static const lml_json *limit_of(const lml_json *line)
{
    return member(line, "least") ? member(line, "least") : member(line, "most");
}

static bool same_unit(const lml_json *a, const lml_json *b)
{
    return lml_span_equal(lml_html_text(a, "unit"), lml_html_text(b, "unit")) &&
           lml_span_equal(lml_html_text(a, "kind"), lml_html_text(b, "kind"));
}

static double number(const lml_json *figure, const char *name)
{
    return lml_json_number(member(figure, name));
}

bool lml_picture_small_can_show(const lml_json *line)
{
    const lml_json *value = member(line, "value"), *limit = limit_of(line);
    double sd = number(value, "sd");
    return limit && !(member(line, "least") && member(line, "most")) && sd > 0 &&
           same_unit(value, limit) && lml_json_kind_of(member(value, "value")) == LML_JSON_NUMBER &&
           lml_json_kind_of(member(limit, "value")) == LML_JSON_NUMBER;
}

typedef struct bell {
    double middle, sd, low, high;
    double left, width, top, foot;
} bell;

static double across(const bell *b, double v)
{
    return b->left + b->width * (v - b->low) / (b->high - b->low);
}

static double height_at(const bell *b, double v)
{
    double z = (v - b->middle) / b->sd;
    return b->foot - (b->foot - b->top) * lml_real_exp(-z * z / 2);
}

static void trace(lml_svg *s, const bell *b, double from, double to, bool closed, lml_svg_pen pen)
{
    enum { STEPS = 60 };
    lml_svg_begin(s);
    if (closed)
        lml_svg_move(s, across(b, from), b->foot);
    for (int i = 0; i <= STEPS; i++) {
        double v = from + (to - from) * i / STEPS;
        if (i == 0 && !closed)
            lml_svg_move(s, across(b, v), height_at(b, v));
        else
            lml_svg_to(s, across(b, v), height_at(b, v));
    }
    if (closed)
        lml_svg_to(s, across(b, to), b->foot);
    lml_svg_end(s, closed, pen);
}

static void put_words(lml_html *h, lml_svg *s, double x, double y, lml_svg_type type,
                      const char *words, const lml_json *figure)
{
    lml_svg_begin_text(s, x, y, type);
    lml_html_put(h, words);
    lml_html_figure_put_plain(h, figure);
    lml_svg_end_text(s);
}

static double words_x(const bell *b, bool before, double x, double width)
{
    double edge = before ? width : b->left + b->width + 2 - width;
    return before ? (x < edge ? edge : x) : x > edge ? edge : x;
}

enum { CHANCE = 3 /* millimetres high */ };

static double chance_width(const lml_json *line)
{
    double points = CHANCE * 72 / 25.4;
    return lml_typeset_width(lml_span_of("chance "), points, true) +
           lml_typeset_width(lml_html_text(member(line, "chance"), "text"), points, true) + .5;
}

void lml_picture_small_draw_mark(lml_html *h, const lml_json *line)
{
    const lml_json *value = member(line, "value"), *limit = limit_of(line);
    bool least = member(line, "least") != NULL;
    /* On a full page the bell is lower, as height_item.c counts it: a choice of ours. */
    const double less = h->density == 2 ? 2.2 : 0;
    bell b = {.middle = number(value, "value"),
              .sd = number(value, "sd"),
              .left = 2,
              .width = 68,
              .top = 1.5,
              .foot = 8 - less};
    double at = number(limit, "value");
    b.low = b.middle - 3.2 * b.sd;
    b.high = b.middle + 3.2 * b.sd;
    b.low = at - b.sd < b.low ? at - b.sd : b.low;
    b.high = at + b.sd > b.high ? at + b.sd : b.high;
    char hatch[LML_SVG_URL];
    unsigned id = ++h->ids;
    lml_html_put(h, "<figure class=\"mark\">");
    lml_svg s = lml_svg_open(h->out, 72, 12 - less, lml_html_text(line, "label"));
    lml_html_figure_put_plain(h, value);
    lml_html_put(h, least ? "; at least " : "; at most ");
    lml_html_figure_put_plain(h, limit);
    if (member(line, "chance")) {
        lml_html_put(h, least ? "; chance of lying below it " : "; chance of lying above it ");
        lml_html_figure_put_plain(h, member(line, "chance"));
    }
    lml_svg_end_desc(&s);
    lml_svg_hatch(&s, id, .9, .35, 45);
    trace(&s, &b, b.low, b.high, true, (lml_svg_pen){.fill = "#eee"});
    trace(&s, &b, least ? b.low : at, least ? at : b.high, true,
          (lml_svg_pen){.fill = lml_svg_hatched(id, hatch)});
    trace(&s, &b, b.low, b.high, false, (lml_svg_pen){.width = .35});
    lml_svg_line(&s, b.left, b.foot, b.left + b.width, b.foot, (lml_svg_pen){.width = .3});
    double x = across(&b, at), middle = across(&b, b.middle);
    lml_svg_line(&s, middle, b.top, middle, b.foot + 1,
                 (lml_svg_pen){.width = .2, .dash = ".8 .6"});
    bool before = x < middle;
    /* Words end at the limit, unless it stands too near the edge for them. */
    double said = words_x(&b, before, before ? x + .6 : x - .6, 24),
           odds = words_x(&b, before, before ? x - 1 : x + 1, chance_width(line));
    bool clear = !member(line, "chance") || (before ? odds < x : odds > x);
    lml_svg_line(&s, x, clear ? .5 : 4.2 - less / 4, x, b.foot + 1, (lml_svg_pen){.width = .6});
    put_words(
        h, &s, said, b.foot + 3.6,
        (lml_svg_type){.size = 2.7, .anchor = before ? LML_SVG_END : LML_SVG_START, .bold = true},
        least ? "least " : "most ", limit);
    put_words(h, &s, before ? middle - .6 : middle + .6, b.foot + 3.6,
              (lml_svg_type){.size = 2.7, .anchor = before ? LML_SVG_START : LML_SVG_END}, "",
              value);
    if (member(line, "chance"))
        put_words(h, &s, odds, 3.6 - less / 4,
                  (lml_svg_type){.size = CHANCE,
                                 .anchor = before ? LML_SVG_END : LML_SVG_START,
                                 .bold = true,
                                 .halo = true},
                  "chance ", member(line, "chance"));
    lml_svg_close(&s);
    lml_html_put(h, "</figure>\n");
}

/* ---- times on a clock -------------------------------------------------------------------------
 */

void lml_picture_small_draw_times(lml_html *h, lml_picture_times times, const lml_json *after,
                                  const lml_json *latest)
{
    const double width = 26, k = times.most > 0 ? width / times.most : 0;
    lml_svg s = lml_svg_open(h->out, width, 3, lml_span_of("When"));
    lml_html_put(h, "from ");
    lml_html_figure_put_plain(h, after);
    if (latest) {
        lml_html_put(h, " to ");
        lml_html_figure_put_plain(h, latest);
    }
    lml_svg_end_desc(&s);
    lml_svg_line(&s, 0, 2.6, width, 2.6, (lml_svg_pen){.width = .15, .stroke = "#999"});
    double shift = times.next > times.from ? times.next : times.from;
    lml_svg_rect(&s, times.from * k, .5, (shift - times.from) * k, 1.9,
                 (lml_svg_pen){.fill = "#222"});
    if (times.latest > shift)
        lml_svg_rect(&s, shift * k, .6, (times.latest - shift) * k, 1.8,
                     (lml_svg_pen){.fill = "#fff", .width = .2});
    lml_svg_close(&s);
}

/* ---- what a sum is made of --------------------------------------------------------------------
 */

/* Money in cents, as it is written; false of what is none, or has more than two decimals. */
static bool read_cents(const lml_json *money, int64_t *out)
{
    lml_span text = lml_html_text(money, "value");
    int64_t cents = 0;
    size_t i = 0, decimals = 0;
    if (!lml_span_is(lml_html_text(money, "kind"), "money"))
        return false;
    for (; i < text.length && text.at[i] != '.'; i++) {
        if (!lml_span_digit_at(text, i) || cents > INT64_MAX / 1000)
            return false; /* what is negative is no part of a bar */
        cents = cents * 10 + (text.at[i] - '0');
    }
    for (i++; i < text.length; i++, decimals++) {
        if (!lml_span_digit_at(text, i) || decimals >= 2)
            return false;
        cents = cents * 10 + (text.at[i] - '0');
    }
    for (; decimals < 2; decimals++)
        cents *= 10;
    *out = cents;
    return true;
}

enum { SHARES_MOST = 5 };
static const double LABEL = 3.1; /* millimetres high */

static void draw_bar(lml_html *h, const lml_item *items, size_t count, int64_t total)
{
    static const char *const fills[SHARES_MOST] = {"#2b2b2b", "#8a8a8a", "#c4c4c4", "#e8e8e8",
                                                   "#fff"};
    const double width = h->width - 14, high = 6;
    double x = 0;
    size_t share = 0;
    lml_html_put(h, "<figure class=\"shares\">");
    lml_svg s = lml_svg_open(h->out, width, 11, lml_span_of("What it is made of"));
    lml_html_put(h, "the lines below it, to scale");
    lml_svg_end_desc(&s);
    for (size_t i = 0; i < count; i++) {
        int64_t cents;
        if (!lml_html_is(items[i].entry, "line") ||
            !read_cents(member(items[i].entry, "value"), &cents) || cents == 0)
            continue;
        double w = width * (double)cents / (double)total;
        lml_svg_rect(&s, x, 0, w, high, (lml_svg_pen){.fill = fills[share], .width = .25});
        char words[24];
        snprintf(words, sizeof words, "%ld %%", (long)(100 * (double)cents / (double)total + .5));
        if (w > 9)
            lml_svg_words(
                &s, x + w / 2, 4.1,
                (lml_svg_type){
                    .size = 3, .anchor = LML_SVG_MIDDLE, .bold = true, .white = share == 0},
                words);
        lml_span label = lml_html_text(items[i].entry, "label");
        if (lml_typeset_width(label, LABEL * 72 / 25.4, false) < w - .6) /* its line says it too */
            lml_svg_text(&s, x + .3, 9.8, (lml_svg_type){.size = LABEL}, label);
        x += w;
        share++;
    }
    lml_svg_close(&s);
    lml_html_put(h, "</figure>\n");
}

void lml_picture_small_draw_shares(lml_html *h, const lml_item *items, size_t count)
{
    /* Each total sums up the lines before it since the first; the last that does is drawn. */
    int64_t sum = 0, cents = 0, drawn = 0;
    size_t shares = 0, end = 0;
    for (size_t i = 0; i < count; i++) {
        const lml_json *line = items[i].entry;
        if (!read_cents(member(line, "value"), &cents))
            break;
        if (lml_html_is(line, "total") && cents == sum && shares >= 2 && shares <= SHARES_MOST) {
            end = i;
            drawn = cents;
        } else if (lml_html_is(line, "line")) {
            sum += cents;
            shares += cents > 0;
        }
    }
    if (end > 0 && drawn > 0)
        draw_bar(h, items, end, drawn);
}
