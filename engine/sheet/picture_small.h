/* Small pictures beside lines: a figure with its spread against its limit, times on a clock, what a
 * sum is made of.
 */
#ifndef LML_SHEET_PICTURE_SMALL_H
#define LML_SHEET_PICTURE_SMALL_H

#include "sheet/html_page.h"

/* Whether a line has a figure with a spread, and a limit. */
bool lml_picture_small_can_show(const lml_json *line);
/* The normal curve, the part beyond the limit hatched. */
void lml_picture_small_draw_mark(lml_html *h, const lml_json *line);

/* Seconds: begun, the next begun, too late, and the whole bar. */
typedef struct lml_picture_times {
    double from, next, latest, most;
} lml_picture_times;
void lml_picture_small_draw_times(lml_html *h, lml_picture_times times, const lml_json *after,
                                  const lml_json *latest);

/* The lines that a total of money sums up, as one bar; nothing unless they come to it to the last
 * cent. */
void lml_picture_small_draw_shares(lml_html *h, const lml_item *items, size_t count);

#endif
