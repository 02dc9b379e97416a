/* Height: estimates the height of a working page's cards, to choose the most spacious layout that
 * fits on one sheet of paper.
 *
 * An estimate from the widths of letters and the heights of rows in sheet.css: if it is wrong, the
 * browser breaks the page, and nothing is lost.
 */
#ifndef LML_SHEET_HEIGHT_H
#define LML_SHEET_HEIGHT_H

#include "sheet/html_part.h"

/* What the first sheet of paper has for head and cards, and each later one, which has no banner;
 * and what stands below the last card. */
typedef struct lml_height_page {
    double room, later, foot;
    unsigned before; /* sheets that the reasons of a stop fill before that */
} lml_height_page;

/* Of a page that has reasons of that height above its cards. */
lml_height_page lml_height_page_of(const lml_html *h, double reasons, double foot);

/* Cuts what is taller than a sheet of paper, between its rows, into cards that go on in two
 * columns.
 */
void lml_height_cut(const lml_html *h, lml_cards *cards, lml_height_page page);

/* Takes the roomiest density in which the cards of a page go onto the fewest sheets of paper;
 * marks the cards at which a new sheet begins. How many sheets they are. */
unsigned lml_height_choose(const lml_html *h, lml_cards *cards, lml_height_page page,
                           unsigned *density);

/* Cards in two columns. */
typedef struct lml_height_columns {
    size_t second; /* the card with which the second begins */
    bool left;     /* the last card, cautions alone, stands below the first */
    bool over;     /* the first card, cautions below a picture, stands above the second */
    double high;
} lml_height_columns;
lml_height_columns lml_height_split(const lml_html *h, const lml_cards *cards, size_t from,
                                    size_t to);

/* Of a remark, and of what was drawn already in small letters, across the page. */
double lml_height_remark(const lml_html *h, const lml_json *remark);
double lml_height_markup(const lml_html *h, lml_span markup);

#endif
