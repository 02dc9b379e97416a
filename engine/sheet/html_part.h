/* The parts of a page in HTML: its entries taken out of their recipes, and drawn card by card.
 */
#ifndef LML_SHEET_HTML_PART_H
#define LML_SHEET_HTML_PART_H

#include "sheet/html_page.h"

/* The cards of a page. The reader frees them. */
typedef struct lml_cards {
    lml_item *items;
    lml_card *cards;
    size_t most, count; /* of both lists; of cards */
} lml_cards;

lml_status lml_html_part_read(const lml_html *h, const lml_json *entries, lml_cards *out);
/* From its item `at` on a card becomes one of its own. There is room for as many as there are
 * items.
 */
void lml_html_part_split(lml_cards *cards, size_t card, size_t at);
void lml_html_part_free(const lml_html *h, lml_cards *cards);

/* Whether a page's recipe hands on to others: then what it notes itself is at the foot. */
bool lml_html_part_hands_on(const lml_json *entries);
/* The first of these notes, or the next; NULL when there is none. */
const lml_json *lml_html_part_loose(const lml_html *h, const lml_json *after);

/* Whether a card goes into one of two columns; cautions at the end go across. */
bool lml_html_part_beside(const lml_html *h, const lml_card *card);
void lml_html_part_draw(lml_html *h, lml_card *card);

#endif
