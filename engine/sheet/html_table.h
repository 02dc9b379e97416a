/* Lines that stand in a table: a ladder for a tared scale, a clock, sums, and what is only read.
 */
#ifndef LML_SHEET_HTML_TABLE_H
#define LML_SHEET_HTML_TABLE_H

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

void lml_html_line_put_label(lml_html *h, const lml_json *line);
/* An empty box, or what was recorded in it. */
void lml_html_line_put_box(lml_html *h, const lml_json *line);

/* Of the lots and, after them, their total. */
void lml_html_table_draw_ladder(lml_html *h, const lml_item *items, size_t lots);
/* Of lines that say `after`. */
void lml_html_table_draw_clock(lml_html *h, const lml_item *items, size_t count);
void lml_html_table_draw_read(lml_html *h, const lml_item *items, size_t count);

#endif
