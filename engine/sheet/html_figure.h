/* A figure in HTML: its number and its unit apart, so that the number can be large.
 */
#ifndef LML_SHEET_HTML_FIGURE_H
#define LML_SHEET_HTML_FIGURE_H

#include "sheet/html_page.h"

/* The number at the start of a text, and what follows it; an empty number where it is words. */
typedef struct lml_html_number {
    lml_span number, unit;
} lml_html_number;
lml_html_number lml_html_figure_cut(const lml_json *figure);

/* The number of its text, in the unit that is printed; 0 where it is words. */
double lml_html_figure_number(const lml_json *figure);

/* <b>13.651</b><i>g</i>; a moment is its clock and its day. */
void lml_html_figure_put(lml_html *h, const lml_json *figure);
/* The same as plain text: "13.651 g", "5 h 06 min", "Fri 27 Nov 03:06". */
/* A sentence or a label, its moments in the house's form. */
void lml_html_figure_put_sentence(lml_html *h, const lml_json *record, const char *name);
void lml_html_figure_put_text(lml_html *h, lml_span sentence);
void lml_html_figure_put_plain(lml_html *h, const lml_json *figure);
/* "8 to 12 min", "60 min or more": between what the figure of a line must lie; and the same with
 * large numbers, where it is what a line has to say. */
void lml_html_figure_put_limits(lml_html *h, const lml_json *line);
void lml_html_figure_put_bold_limits(lml_html *h, const lml_json *line);
bool lml_html_figure_has_limits(const lml_json *line);

/* DO NOT, and why, unless this card has already said so. */
void lml_html_figure_put_withheld(lml_html *h, const lml_json *entry, lml_span recipe);

#endif
