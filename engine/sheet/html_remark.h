/* Notes, cautions, points to confirm and stops in HTML.
 */
#ifndef LML_SHEET_HTML_REMARK_H
#define LML_SHEET_HTML_REMARK_H

#include "sheet/html_page.h"

void lml_html_remark_draw(lml_html *h, const lml_json *remark);

enum { LML_HTML_HAZARD = 64 };
/* The hazard of a caution in capitals; how many letters at the start of its text say the same. */
size_t lml_html_remark_hazard(const lml_json *remark, char word[LML_HTML_HAZARD]);

#endif
