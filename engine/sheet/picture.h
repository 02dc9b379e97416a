/* Pictures as text: the same figures, as rows.
 */
#ifndef LML_SHEET_PICTURE_H
#define LML_SHEET_PICTURE_H

#include "sheet/page.h"

bool lml_picture_is(const lml_json *entry);
void lml_picture_draw(lml_page *page, const lml_json *entry);

#endif
