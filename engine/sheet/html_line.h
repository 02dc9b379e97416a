/* Lines of a sheet in HTML: what is weighed, set, measured, ticked, or only read.
 */
#ifndef LML_SHEET_HTML_LINE_H
#define LML_SHEET_HTML_LINE_H

#include "sheet/html_page.h"

/* Whether an item is a line, a total or a box. */
bool lml_html_line_is(const lml_item *item);
/* Draw the lines at the start of the items that belong together; how many those were. */
size_t lml_html_line_draw(lml_html *h, const lml_item *items, size_t count);
/* How many of the items from the first on are alike for the eye. */
size_t lml_html_line_run(const lml_html *h, const lml_item *items, size_t count);
/* Whether that run is lots that go onto one tared scale: how many lines they are with their total,
 * which may be on a later sheet of paper; else 0. */
size_t lml_html_line_ladder(const lml_item *items, size_t run, size_t count);
/* One line with its label above: beside a picture. */
void lml_html_line_draw_stacked(lml_html *h, const lml_item *item);
/* Whether it is a time since a clock was started. */
bool lml_html_line_is_timed(const lml_item *item);

#endif
