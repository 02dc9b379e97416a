/* Page: what the parts of one sheet share while it is drawn.
 *
 * The bench and the metal statement are working papers: they have boxes to fill in by hand, codes,
 * and the words that settle an open point. The client's page has none of these.
 */
#ifndef LML_SHEET_PAGE_H
#define LML_SHEET_PAGE_H

#include "file/json.h"
#include "sheet/layout.h"

enum { LML_PAGE_STARTS = 64 };

typedef struct lml_page {
    lml_layout layout;
    const lml_json *result;
    bool working;                          /* for the studio's own eyes */
    const lml_json *entries;               /* all of this page; NULL for what stands on none */
    lml_span recipe;                       /* whose entries are being drawn */
    size_t start[LML_PAGE_STARTS], starts; /* where in the text its parts and headings begin */
} lml_page;

/* line.c: lines, totals and boxes from `first` up to, not including, `end`, as one run with one
 * alignment. */
void lml_line_draw(lml_page *page, const lml_json *first, const lml_json *end);
/* The results themselves as a run, for a recipe that draws no sheet. */
void lml_line_draw_results(lml_page *page);

/* grid.c */
void lml_grid_draw(lml_page *page, const lml_json *grid);

/* remark.c */
void lml_remark_draw(lml_page *page, const lml_json *remark);
/* The remark that withholds a give of a recipe: a stop or an open point that names it, else the
 * only one of that recipe, else the only one there is. NULL when it could be several, or none. */
const lml_json *lml_remark_withholding(const lml_json *result, lml_span recipe, lml_span give);
/* fold.c: the text that stands from `start` on set anew in two columns of `width` side by side, the
 * second beginning with a part, a heading or what stands after an empty line. A short page for a
 * client stays in one. */
enum { LML_FOLD_GAP = 4 };
void lml_fold(lml_page *page, size_t start, size_t width);

/* "stop" or "confirm": a point that keeps a figure back. */
bool lml_remark_holds(const lml_json *remark);

#endif
