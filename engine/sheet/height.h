/* Height: about how high the cards of a working page come out, so that the roomiest setting is
 * taken that fits on one sheet of paper.
 *
 * An estimate from the widths of the Arial family and the heights of rows in sheet.css: the browser
 * breaks the page where it is wrong, and nothing is lost.
 */
#ifndef LML_SHEET_HEIGHT_H
#define LML_SHEET_HEIGHT_H

#include "sheet/html_part.h"

/* The roomiest density in which the page's cards fit into `room` millimetres; 0 when none does,
 * since it takes a second sheet anyway. */
unsigned lml_height_choose(const lml_html *h, const lml_cards *cards, double room);

#endif
