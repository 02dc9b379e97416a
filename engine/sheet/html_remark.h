/* Notes, cautions, points to confirm and stops in HTML.
 */
#ifndef LML_SHEET_HTML_REMARK_H
#define LML_SHEET_HTML_REMARK_H

#include "sheet/html_page.h"

void lml_html_remark_draw(lml_html *h, const lml_json *remark);

#endif
