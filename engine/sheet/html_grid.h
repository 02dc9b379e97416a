/* Grids, and lines to sign on, in HTML.
 */
#ifndef LML_SHEET_HTML_GRID_H
#define LML_SHEET_HTML_GRID_H

#include "sheet/html_page.h"

void lml_html_grid_draw(lml_html *h, const lml_json *grid, lml_span recipe);
void lml_html_grid_draw_sign(lml_html *h, const lml_json *sign);

#endif
