/* Lines that are drawn as a table: a ladder for a tared scale, a clock, sums, and what is only
 * read.
 */
#ifndef LML_SHEET_HTML_TABLE_H
#define LML_SHEET_HTML_TABLE_H

#include "sheet/html_page.h"

/* Of the lots and their total, NULL when that is on a later sheet of paper. */
void lml_html_table_draw_ladder(lml_html *h, const lml_item *items, size_t lots,
                                const lml_item *total);
/* Of lines that say `after`. */
void lml_html_table_draw_clock(lml_html *h, const lml_item *items, size_t count);
void lml_html_table_draw_read(lml_html *h, const lml_item *items, size_t count);

#endif
