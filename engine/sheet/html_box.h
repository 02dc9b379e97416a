/* Parts of a line of a sheet in HTML: its action, its label, and the box to write in.
 */
#ifndef LML_SHEET_HTML_BOX_H
#define LML_SHEET_HTML_BOX_H

#include "sheet/html_page.h"

/* What a person does with a line. */
typedef enum lml_html_act {
    LML_HTML_READ,
    LML_HTML_WEIGH,
    LML_HTML_SET,
    LML_HTML_MEASURE,
    LML_HTML_TICK
} lml_html_act;
lml_html_act lml_html_act_of(const lml_html *h, const lml_json *line);

/* The label, whose metal it is, and how the figure is known. */
void lml_html_box_put_label(lml_html *h, const lml_json *line);
/* An empty box, or what was recorded in it. */
void lml_html_box_put(lml_html *h, const lml_json *line);

#endif
