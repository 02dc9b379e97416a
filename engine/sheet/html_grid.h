/* Grids, and lines to sign on, in HTML.
 */
#ifndef LML_SHEET_HTML_GRID_H
#define LML_SHEET_HTML_GRID_H

#include "sheet/html_page.h"

/* Items from the first on that are rows of the same grid; else 1, which is a whole grid. */
size_t lml_html_grid_run(const lml_item *items, size_t count);
/* How many were drawn. */
size_t lml_html_grid_draw(lml_html *h, const lml_item *items, size_t count);
void lml_html_grid_draw_sign(lml_html *h, const lml_json *sign);

#endif
