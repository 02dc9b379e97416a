/* A curve against the clock: what a kiln does, the hours in which nobody is there, and who must be
 * there when.
 */
#ifndef LML_SHEET_PICTURE_CURVE_H
#define LML_SHEET_PICTURE_CURVE_H

#include "sheet/html_page.h"

/* With more marks than these the program stands below the curve, beside their list. */
enum { LML_PICTURE_CURVE_BESIDE = 7 };

/* items[0] is the curve. The lines to tick that follow it and have a moment are its marks: they are
 * listed beside it and marked as drawn. */
void lml_picture_curve_draw(lml_html *h, lml_item *items, size_t count);

#endif
