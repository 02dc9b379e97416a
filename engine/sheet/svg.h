/* SVG: a picture within HTML, in millimetres.
 *
 * Black, greys and hatching; every text goes through lml_escape_put. Figures are written with two
 * decimals at most and always with a point.
 *
 *     lml_svg s = lml_svg_open(out, 60, 20, "Burnout");
 *     lml_svg_line(&s, 0, 10, 60, 10, (lml_svg_pen){.width = .3});
 *     lml_svg_close(&s);
 */
#ifndef LML_SHEET_SVG_H
#define LML_SHEET_SVG_H

#include "base/text.h"

typedef struct lml_svg {
    lml_builder *out;
    double width, height;
} lml_svg;

/* How a shape is drawn; NULL or 0 is none. `fill` and `stroke` are words of ours: "#111", "none".
 */
typedef struct lml_svg_pen {
    const char *fill, *stroke, *dash;
    double width;
    double round; /* corners of a rectangle */
} lml_svg_pen;

typedef enum lml_svg_anchor { LML_SVG_START, LML_SVG_MIDDLE, LML_SVG_END } lml_svg_anchor;
typedef struct lml_svg_type {
    double size; /* millimetres */
    lml_svg_anchor anchor;
    bool bold, halo, white;
} lml_svg_type;

#define LML_SVG_INK "#111"
#define LML_SVG_MID "#555"
#define LML_SVG_PALE "#dcdcdc"

/* `title` is escaped; between open and lml_svg_end_desc what is written to `out`, escaped by the
 * writer, is the description. */
lml_svg lml_svg_open(lml_builder *out, double width, double height, lml_span title);
void lml_svg_end_desc(lml_svg *s);
void lml_svg_close(lml_svg *s);

void lml_svg_line(lml_svg *s, double x1, double y1, double x2, double y2, lml_svg_pen pen);
void lml_svg_rect(lml_svg *s, double x, double y, double w, double h, lml_svg_pen pen);
void lml_svg_circle(lml_svg *s, double x, double y, double r, lml_svg_pen pen);
/* A path: begin, its points, end. */
void lml_svg_begin(lml_svg *s);
void lml_svg_move(lml_svg *s, double x, double y);
void lml_svg_to(lml_svg *s, double x, double y);
void lml_svg_bend(lml_svg *s, double x1, double y1, double x2, double y2, double x, double y);
void lml_svg_end(lml_svg *s, bool close, lml_svg_pen pen);

/* Text between begin and end is escaped by the writer. */
void lml_svg_begin_text(lml_svg *s, double x, double y, lml_svg_type type);
void lml_svg_end_text(lml_svg *s);
void lml_svg_text(lml_svg *s, double x, double y, lml_svg_type type, lml_span text);
/* Cut at a letter, with an ellipsis, where it is wider than that: measured in the Arial family. */
void lml_svg_text_within(lml_svg *s, double x, double y, lml_svg_type type, lml_span text,
                         double width);
void lml_svg_words(lml_svg *s, double x, double y, lml_svg_type type, const char *words);

/* Lines at an angle, `gap` apart; filled with by lml_svg_hatched(name). */
void lml_svg_hatch(lml_svg *s, unsigned id, double gap, double width, int angle);
enum { LML_SVG_URL = 24 };
const char *lml_svg_hatched(unsigned id, char out[LML_SVG_URL]);

#endif
