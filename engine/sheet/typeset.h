/* Typeset: how wide a text comes out, and on how many lines, before a browser has set it.
 *
 * In the Arial family, whose letters have the same widths as those of Liberation Sans and
 * Helvetica. Lines are broken at blanks, as browsers do, and within a word that fits on no line.
 *
 *     lml_typeset_width(lml_span_of("270 g"), 19, true)    17.2 millimetres
 *     lml_typeset t = {.width = 93, .lines = 1};
 *     lml_typeset_run(&t, text, 6.9, false);               t.lines is how many it takes
 */
#ifndef LML_SHEET_TYPESET_H
#define LML_SHEET_TYPESET_H

#include "base/span.h"

#include <stdbool.h>

typedef struct lml_typeset {
    double width; /* of a line, millimetres */
    double at;    /* how full the last one is */
    unsigned lines;
} lml_typeset;

double lml_typeset_width(lml_span text, double points, bool bold);
/* Sets the text where the last one ended. */
void lml_typeset_run(lml_typeset *t, lml_span text, double points, bool bold);
/* Something of its own width, that no line breaks: a picture, a figure. */
void lml_typeset_put(lml_typeset *t, double width);

#endif
