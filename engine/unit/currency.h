/* Currencies by their ISO 4217 code, with their minor units.
 *
 * A table as of the date it states; index 0 is none. Cash steps (0.05 and the like) are law by
 * place and are in scripts/, not here.
 */
#ifndef LML_UNIT_CURRENCY_H
#define LML_UNIT_CURRENCY_H

#include "base/text.h"

typedef struct lml_currency_row {
    char code[4];
    uint8_t minor; /* digits of the minor unit */
} lml_currency_row;

size_t lml_currency_count(void);
const lml_currency_row *lml_currency_at(uint16_t index);
uint16_t lml_currency_by_code(lml_span code); /* 0 when unknown; exact case */
/* The currency of a country by its ISO 3166-1 code, or that of a part of it ("AU-VIC"): a code of
 * ISO 4217 begins with the letters of its country. 0 where none does, as of those that pay in
 * euros, or several do. */
uint16_t lml_currency_of_place(lml_span place);

#endif
