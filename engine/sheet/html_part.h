/* The parts of a page in HTML: its entries taken out of their recipes, and drawn card by card.
 */
#ifndef LML_SHEET_HTML_PART_H
#define LML_SHEET_HTML_PART_H

#include "sheet/html_page.h"

/* The cards of a page. Whoever reads them frees them. */
typedef struct lml_cards {
    lml_item *items;
    lml_card *cards;
    size_t most, count; /* of both lists; of cards */
} lml_cards;

lml_status lml_html_part_read(const lml_html *h, const lml_json *entries, lml_cards *out);
void lml_html_part_free(const lml_html *h, lml_cards *cards);

void lml_html_part_draw(lml_html *h, lml_card *card);

#endif
