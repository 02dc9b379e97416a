#include "sheet/svg.h"

#include "sheet/escape.h"
#include "sheet/typeset.h"
#include "base/utf8.h"

#include <stdio.h>

/* Two decimals, without the C library's locale. */
static void put(lml_svg *s, double x)
{
    double most = 1e6;
    x = x > most ? most : x < -most ? -most : x == x ? x : 0;
    long hundredths = (long)(x * 100 + (x < 0 ? -.5 : .5));
    if (hundredths < 0)
        lml_builder_add_char(s->out, '-');
    hundredths = hundredths < 0 ? -hundredths : hundredths;
    lml_builder_add_format(s->out, "%ld", hundredths / 100);
    if (hundredths % 100)
        lml_builder_add_format(s->out, hundredths % 10 ? ".%02ld" : ".%ld",
                               hundredths % 10 ? hundredths % 100 : hundredths % 100 / 10);
}

static void put_named(lml_svg *s, const char *name, double x)
{
    lml_builder_add_format(s->out, " %s=\"", name);
    put(s, x);
    lml_builder_add_char(s->out, '"');
}

static void put_pen(lml_svg *s, lml_svg_pen pen)
{
    lml_builder_add_format(s->out, " fill=\"%s\"", pen.fill ? pen.fill : "none");
    if (pen.width > 0) {
        lml_builder_add_format(s->out, " stroke=\"%s\"", pen.stroke ? pen.stroke : LML_SVG_INK);
        put_named(s, "stroke-width", pen.width);
    }
    if (pen.dash)
        lml_builder_add_format(s->out, " stroke-dasharray=\"%s\"", pen.dash);
}

lml_svg lml_svg_open(lml_builder *out, double width, double height, lml_span title)
{
    lml_svg s = {out, width, height};
    lml_builder_add_text(out,
                         "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"pic\" role=\"img\"");
    lml_builder_add_text(out, " width=\"");
    put(&s, width);
    lml_builder_add_text(out, "mm\" height=\"");
    put(&s, height);
    lml_builder_add_text(out, "mm\" viewBox=\"0 0 ");
    put(&s, width);
    lml_builder_add_char(out, ' ');
    put(&s, height);
    lml_builder_add_text(out, "\"><title>");
    lml_escape_put(out, title);
    lml_builder_add_text(out, "</title><desc>");
    return s;
}

void lml_svg_end_desc(lml_svg *s)
{
    lml_builder_add_text(s->out, "</desc>\n");
}

void lml_svg_close(lml_svg *s)
{
    lml_builder_add_text(s->out, "</svg>\n");
}

void lml_svg_line(lml_svg *s, double x1, double y1, double x2, double y2, lml_svg_pen pen)
{
    lml_svg_begin(s);
    lml_svg_move(s, x1, y1);
    lml_svg_to(s, x2, y2);
    lml_svg_end(s, false, pen);
}

void lml_svg_rect(lml_svg *s, double x, double y, double w, double h, lml_svg_pen pen)
{
    lml_builder_add_text(s->out, "<rect");
    put_named(s, "x", x);
    put_named(s, "y", y);
    put_named(s, "width", w > 0 ? w : 0);
    put_named(s, "height", h > 0 ? h : 0);
    if (pen.round > 0)
        put_named(s, "rx", pen.round);
    put_pen(s, pen);
    lml_builder_add_text(s->out, "/>");
}

void lml_svg_circle(lml_svg *s, double x, double y, double r, lml_svg_pen pen)
{
    lml_builder_add_text(s->out, "<circle");
    put_named(s, "cx", x);
    put_named(s, "cy", y);
    put_named(s, "r", r);
    put_pen(s, pen);
    lml_builder_add_text(s->out, "/>");
}

static void put_point(lml_svg *s, char letter, double x, double y)
{
    lml_builder_add_char(s->out, letter);
    put(s, x);
    lml_builder_add_char(s->out, ' ');
    put(s, y);
}

void lml_svg_begin(lml_svg *s)
{
    lml_builder_add_text(s->out, "<path d=\"");
}

void lml_svg_move(lml_svg *s, double x, double y)
{
    put_point(s, 'M', x, y);
}

void lml_svg_to(lml_svg *s, double x, double y)
{
    put_point(s, 'L', x, y);
}

void lml_svg_bend(lml_svg *s, double x1, double y1, double x2, double y2, double x, double y)
{
    put_point(s, 'C', x1, y1);
    put_point(s, ' ', x2, y2);
    put_point(s, ' ', x, y);
}

void lml_svg_end(lml_svg *s, bool close, lml_svg_pen pen)
{
    lml_builder_add_text(s->out, close ? "Z\"" : "\"");
    put_pen(s, pen);
    lml_builder_add_text(s->out, " stroke-linejoin=\"round\"/>");
}

void lml_svg_begin_text(lml_svg *s, double x, double y, lml_svg_type type)
{
    static const char *const anchors[] = {"start", "middle", "end"};
    lml_builder_add_text(s->out, "<text");
    put_named(s, "x", x);
    put_named(s, "y", y);
    put_named(s, "font-size", type.size);
    if (type.anchor != LML_SVG_START)
        lml_builder_add_format(s->out, " text-anchor=\"%s\"", anchors[type.anchor]);
    if (type.bold)
        lml_builder_add_text(s->out, " font-weight=\"700\"");
    if (type.halo)
        lml_builder_add_text(s->out, " paint-order=\"stroke\" stroke=\"#fff\" stroke-width=\".9\" "
                                     "stroke-linejoin=\"round\"");
    lml_builder_add_format(s->out, " fill=\"%s\">", type.white ? "#fff" : LML_SVG_INK);
}

void lml_svg_end_text(lml_svg *s)
{
    lml_builder_add_text(s->out, "</text>");
}

void lml_svg_text(lml_svg *s, double x, double y, lml_svg_type type, lml_span text)
{
    lml_svg_begin_text(s, x, y, type);
    lml_escape_put(s->out, text);
    lml_svg_end_text(s);
}

/* How much of the text comes out no wider than that, the ellipsis with it. */
static lml_span fit(lml_span text, double points, bool bold, double width)
{
    size_t length = 0, n;
    uint32_t code;
    while ((n = lml_utf8_next((lml_span){text.at + length, text.length - length}, &code)) > 0 &&
           lml_typeset_width((lml_span){text.at, length + n}, points, bold) <= width)
        length += n;
    while (length > 0 && text.at[length - 1] == ' ')
        length--;
    return (lml_span){text.at, length};
}

void lml_svg_text_within(lml_svg *s, double x, double y, lml_svg_type type, lml_span text,
                         double width)
{
    const double points = type.size * 72 / 25.4;
    lml_span ellipsis = lml_span_of("\342\200\246");
    bool cut = lml_typeset_width(text, points, type.bold) > width;
    if (cut)
        text = fit(text, points, type.bold, width - lml_typeset_width(ellipsis, points, type.bold));
    if (cut && text.length == 0)
        return;
    lml_svg_begin_text(s, x, y, type);
    lml_escape_put(s->out, text);
    if (cut)
        lml_escape_put(s->out, ellipsis);
    lml_svg_end_text(s);
}

void lml_svg_words(lml_svg *s, double x, double y, lml_svg_type type, const char *words)
{
    lml_svg_text(s, x, y, type, lml_span_of(words));
}

void lml_svg_hatch(lml_svg *s, unsigned id, double gap, double width, int angle)
{
    lml_builder_add_format(s->out, "<defs><pattern id=\"h%u\"", id);
    put_named(s, "width", gap);
    put_named(s, "height", gap);
    lml_builder_add_format(
        s->out, " patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(%d)\"><path d=\"M0 0V",
        angle);
    put(s, gap);
    lml_builder_add_text(s->out, "\" stroke=\"#333\"");
    put_named(s, "stroke-width", width);
    lml_builder_add_text(s->out, "/></pattern></defs>");
}

const char *lml_svg_hatched(unsigned id, char out[LML_SVG_URL])
{
    snprintf(out, LML_SVG_URL, "url(#h%u)", id);
    return out;
}
