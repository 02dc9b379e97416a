/* A grid of a sheet.
 */
#ifndef LML_SHEET_GRID_H
#define LML_SHEET_GRID_H

#include "sheet/page.h"

void lml_grid_draw(lml_page *page, const lml_json *grid);

#endif
