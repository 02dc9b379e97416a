/* Lines of a sheet: a label and a figure, a total, a box.
 */
#ifndef LML_SHEET_LINE_H
#define LML_SHEET_LINE_H

#include "sheet/page.h"

/* Lines, totals and boxes from `first` up to, not including, `end`, as one run with one alignment.
 */
void lml_line_draw(lml_page *page, const lml_json *first, const lml_json *end);
/* The results themselves as a run, for a recipe that draws no sheet. */
void lml_line_draw_results(lml_page *page);

#endif
