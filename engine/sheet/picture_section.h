/* A section: a vessel cut open, the body in it, the space around it, and how far it is filled.
 */
#ifndef LML_SHEET_PICTURE_SECTION_H
#define LML_SHEET_PICTURE_SECTION_H

#include "sheet/html_page.h"

void lml_picture_section_draw(lml_html *h, const lml_json *section);

#endif
