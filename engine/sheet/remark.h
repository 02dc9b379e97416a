/* Notes, cautions, points to confirm and stops of a sheet.
 */
#ifndef LML_SHEET_REMARK_H
#define LML_SHEET_REMARK_H

#include "sheet/page.h"

#define LML_LEFT_OUT "(Something is left out here until this is resolved.)"

void lml_remark_draw(lml_page *page, const lml_json *remark);
/* What it says; LML_LEFT_OUT where an ellipsis is all that is left of it. */
lml_span lml_remark_text(const lml_json *remark);
/* A question up to where its first clause ends. */
lml_span lml_remark_first_clause(lml_span text);
/* "stop" or "confirm": a point that withholds a figure. */
bool lml_remark_holds(const lml_json *remark);
/* The remark of that code; NULL when there is none. */
const lml_json *lml_remark_called(const lml_json *result, lml_span code);
/* The remark that withholds a give of a recipe: a stop or an open point that names it, else the
 * only one of that recipe, else the only one there is. NULL when it could be several, or none. */
const lml_json *lml_remark_withholding(const lml_json *result, lml_span recipe, lml_span give);

/* DO NOT, and why, in place of a picture or of the rows of a list. */
void lml_remark_draw_withheld(lml_page *page, const lml_json *entry);

#endif
