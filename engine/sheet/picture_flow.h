/* A flow: where metal comes from and where it is, by owner. The heights are the amounts.
 */
#ifndef LML_SHEET_PICTURE_FLOW_H
#define LML_SHEET_PICTURE_FLOW_H

#include "sheet/html_page.h"

void lml_picture_flow_draw(lml_html *h, const lml_json *flow);

#endif
