#include "sheet/picture_section.h"

#include "sheet/html_figure.h"
#include "sheet/svg.h"
#include "sheet/typeset.h"

/* All lengths in millimetres on paper but those that end in _true. */
typedef struct cut {
    lml_svg s;
    double x, y, width, height; /* of the vessel's inside */
    double body_x, body_y, body_width, body_height, foot;
    double fill; /* from the bottom */
} cut;

static const lml_json *member(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static double size(const lml_json *record, const char *name)
{
    return lml_json_number(member(member(record, name), "value"));
}

static cut lay_out(lml_html *h, const lml_json *entry)
{
    const double width = 46, high = lml_html_section_high(h->density);
    const lml_json *vessel = member(entry, "vessel"), *body = member(entry, "body");
    double across_true = size(vessel, "diameter"), high_true = size(vessel, "height");
    double across = (width - 19) / (across_true > 0 ? across_true : 1),
           up = (high - 12) / (high_true > 0 ? high_true : 1);
    double k = across < up ? across : up;
    cut c = {.s = {.out = h->out, .width = width, .height = high},
             .x = 3.5,
             .width = across_true * k,
             .height = high_true * k};
    c.y = high - 6 - c.height;
    c.body_width = size(body, "diameter") * k;
    c.body_height = size(body, "height") * k;
    c.foot = size(body, "foot") * k;
    c.body_x = c.x + (c.width - c.body_width) / 2;
    c.body_y = c.y + c.height - c.foot - c.body_height;
    c.fill = size(entry, "fill") * k;
    return c;
}

static void draw_vessel(lml_html *h, cut *c)
{
    char hatch[LML_SVG_URL];
    unsigned id = ++h->ids;
    double fill = c->fill > 0 ? (c->fill < c->height ? c->fill : c->height) : c->height;
    lml_svg_hatch(&c->s, id, 1.1, .12, 90);
    lml_svg_rect(&c->s, c->x, c->y + c->height - fill, c->width, fill,
                 (lml_svg_pen){.fill = lml_svg_hatched(id, hatch)});
    lml_svg_rect(&c->s, c->x - .9, c->y, .9, c->height, (lml_svg_pen){.fill = LML_SVG_INK});
    lml_svg_rect(&c->s, c->x + c->width, c->y, .9, c->height, (lml_svg_pen){.fill = LML_SVG_INK});
    lml_svg_rect(&c->s, c->x - 2.2, c->y + c->height, c->width + 4.4, 1.6,
                 (lml_svg_pen){.fill = "#444", .round = .6});
}

static void draw_body(cut *c)
{
    double middle = c->x + c->width / 2, floor = c->y + c->height;
    lml_svg_rect(&c->s, c->body_x, c->body_y, c->body_width, c->body_height,
                 (lml_svg_pen){.fill = "#fff", .width = .3, .dash = "1.1 .7", .round = 1.2});
    if (c->foot > 0) {
        lml_svg_begin(&c->s);
        lml_svg_move(&c->s, middle - 3, floor);
        lml_svg_to(&c->s, middle - .8, floor - c->foot);
        lml_svg_to(&c->s, middle + .8, floor - c->foot);
        lml_svg_to(&c->s, middle + 3, floor);
        lml_svg_end(&c->s, true, (lml_svg_pen){.fill = LML_SVG_INK});
    }
    lml_svg_rect(&c->s, middle - .8, c->body_y + c->body_height * .1, 1.6, c->body_height * .9,
                 (lml_svg_pen){.fill = LML_SVG_INK});
}

/* The figure of a clearance as its recipe wrote it, and what it may not be under. */
static void put_clearance(lml_html *h, cut *c, double x, double y, lml_svg_anchor anchor,
                          const lml_json *clearance)
{
    bool under = lml_json_yes(member(clearance, "under"));
    lml_svg_begin_text(&c->s, x, y,
                       (lml_svg_type){.size = 3.1, .anchor = anchor, .bold = true, .halo = true});
    lml_escape_put(h->out, lml_html_figure_cut(member(clearance, "value")).number);
    if (under)
        lml_html_put(h, " !");
    lml_svg_end_text(&c->s);
}

static void draw_wall(lml_html *h, cut *c, const lml_json *wall)
{
    double y = c->body_y + c->body_height * .4, from = c->body_x + c->body_width,
           to = c->x + c->width;
    lml_svg_line(&c->s, from, y, to + 2.4, y, (lml_svg_pen){.width = .3});
    lml_svg_line(&c->s, from, y - .9, from, y + .9, (lml_svg_pen){.width = .3});
    put_clearance(h, c, to + 2.7, y + 1, LML_SVG_START, wall);
    lml_svg_begin_text(&c->s, to + 2.7, y + 3.7, (lml_svg_type){.size = 2.3});
    lml_escape_put(h->out, lml_html_figure_cut(member(wall, "value")).unit);
    lml_html_put(h, " wall");
    lml_svg_end_text(&c->s);
}

static void draw_top(lml_html *h, cut *c, const lml_json *top)
{
    double x = c->x + c->width / 2 + .5, from = c->y, to = c->body_y,
           middle = (from + to) / 2 + 1.1;
    lml_svg_line(&c->s, x, from, x, to, (lml_svg_pen){.width = .3});
    lml_svg_line(&c->s, x - .9, to, x + .9, to, (lml_svg_pen){.width = .3});
    put_clearance(h, c, x - 1, middle, LML_SVG_END, top);
    const double size = 2.3, points_in_mm = 72 / 25.4;
    lml_span unit = lml_html_figure_cut(member(top, "value")).unit;
    double wide = lml_typeset_width(unit, size * points_in_mm, false) +
                  lml_typeset_width(lml_span_of(" above"), size * points_in_mm, false);
    lml_svg_begin_text(&c->s, x + 1, middle, (lml_svg_type){.size = size, .halo = true});
    lml_escape_put(h->out, unit);
    lml_html_put(h, x + 2.5 + wide < c->x + c->width ? " above" : "");
    lml_svg_end_text(&c->s);
}

static void draw_fill(lml_html *h, cut *c, const lml_json *entry)
{
    if (!member(entry, "fill"))
        return;
    double y = c->y + c->height - c->fill, part = c->fill / (c->height > 0 ? c->height : 1);
    lml_svg_line(&c->s, c->x - 2.6, y, c->x + c->width + 2.6, y, (lml_svg_pen){.width = .5});
    lml_svg_begin_text(&c->s, c->x - 3, y - 1.5, (lml_svg_type){.size = 2.5, .halo = true});
    if (part > .999) {
        lml_html_put(h, "fill to the rim");
    } else {
        lml_html_put(h, "fill to ");
        lml_html_figure_put_plain(h, member(entry, "fill"));
    }
    if (lml_html_figure_number(member(entry, "over")) > 0) {
        lml_html_put(h, ", ");
        lml_html_figure_put_plain(h, member(entry, "over"));
        lml_html_put(h, " into the collar");
    }
    lml_svg_end_text(&c->s);
}

static void put_size(lml_html *h, const lml_json *record)
{
    lml_escape_put_member(h->out, record, "name");
    lml_html_put(h, lml_html_text(record, "name").length > 0 ? ": " : "");
    lml_html_figure_put_plain(h, member(record, "diameter"));
    lml_html_put(h, " \303\227 ");
    lml_html_figure_put_plain(h, member(record, "height"));
}

static void put_description(lml_html *h, const lml_json *entry)
{
    static const struct {
        const char *name, *words;
    } gaps[] = {{"wall", " beside it"}, {"top", " above it"}};
    lml_html_put(h, "inside ");
    put_size(h, member(entry, "vessel"));
    lml_html_put(h, "; in it ");
    put_size(h, member(entry, "body"));
    if (member(member(entry, "body"), "foot")) {
        lml_html_put(h, " on ");
        lml_html_figure_put_plain(h, member(member(entry, "body"), "foot"));
    }
    for (size_t i = 0; i < sizeof gaps / sizeof *gaps; i++) {
        const lml_json *gap = member(entry, gaps[i].name);
        if (!member(gap, "value"))
            continue;
        lml_html_put(h, "; ");
        lml_html_figure_put_plain(h, member(gap, "value"));
        lml_html_put(h, gaps[i].words);
        if (member(gap, "least")) {
            lml_html_put(h, ", at least ");
            lml_html_figure_put_plain(h, member(gap, "least"));
        }
    }
    if (member(entry, "fill")) {
        lml_html_put(h, "; filled to ");
        lml_html_figure_put_plain(h, member(entry, "fill"));
    }
    if (member(entry, "over")) {
        lml_html_put(h, " and ");
        lml_html_figure_put_plain(h, member(entry, "over"));
        lml_html_put(h, " over it");
    }
}

void lml_picture_section_draw(lml_html *h, const lml_json *entry)
{
    cut c = lay_out(h, entry);
    lml_span title = lml_html_text(entry, "title");
    c.s = lml_svg_open(h->out, c.s.width, c.s.height,
                       title.length > 0 ? title : lml_span_of("Cut open"));
    put_description(h, entry);
    lml_svg_end_desc(&c.s);
    draw_vessel(h, &c);
    draw_body(&c);
    if (member(member(entry, "wall"), "value"))
        draw_wall(h, &c, member(entry, "wall"));
    if (member(member(entry, "top"), "value"))
        draw_top(h, &c, member(entry, "top"));
    draw_fill(h, &c, entry);
    lml_svg_begin_text(&c.s, c.x - 2.2, c.s.height - .9, (lml_svg_type){.size = 2.6, .bold = true});
    put_size(h, member(entry, "vessel"));
    lml_svg_end_text(&c.s);
    lml_svg_close(&c.s);
}
