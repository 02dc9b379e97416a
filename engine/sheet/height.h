/* Height: about how high the cards of a working page come out, so that the roomiest setting is
 * taken that fits on one sheet of paper.
 *
 * An estimate from the widths of the Arial family and the heights of rows in sheet.css: the browser
 * breaks the page where it is wrong, and nothing is lost.
 */
#ifndef LML_SHEET_HEIGHT_H
#define LML_SHEET_HEIGHT_H

#include "sheet/html_part.h"

/* Takes the roomiest density in which the cards of a page go onto the fewest sheets of paper, each
 * with `room` millimetres, and `foot` of them below the last card; marks the cards at which a new
 * sheet begins. How many sheets they are. */
unsigned lml_height_choose(const lml_html *h, lml_cards *cards, double room, double foot,
                           unsigned *density);
/* The card with which the second of two columns begins, of those from `from` up to `to`. */
size_t lml_height_split(const lml_html *h, const lml_cards *cards, size_t from, size_t to);
/* Of a remark that goes across the page. */
double lml_height_remark(const lml_html *h, const lml_json *remark);

#endif
