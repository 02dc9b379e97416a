/* Grids of a sheet.
 */
#ifndef LML_SHEET_GRID_H
#define LML_SHEET_GRID_H

#include "sheet/page.h"

/* Draws the grid and those that follow it with the same columns but for the first heading: what
 * came in and what went out. Their columns are of one width. Returns the entry after them. */
const lml_json *lml_grid_draw(lml_page *page, const lml_json *grid);

#endif
