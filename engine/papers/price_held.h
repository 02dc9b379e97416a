/* Price held: compares a metal's new price with the one in the list.
 */
#ifndef LML_PAPERS_PRICE_HELD_H
#define LML_PAPERS_PRICE_HELD_H

#include "file/json.h"
#include "value/metal.h"
#include "value/write.h"

/* The new price, as texts and as values. */
typedef struct lml_price_quoted {
    lml_metal metal;
    const char *price, *at, *from;
    lml_value value, moment;
} lml_price_quoted;

/* The price before, `stood`, must be earlier, but not by years, in the same currency, and not far
 * off; one that is near `wrong`, which it replaces, is not far off. Either may be NULL. `anyway`
 * accepts one that is far off. `change` is new / old - 1. LML_BAD_VALUE, LML_MISMATCH. */
lml_status lml_price_held(const lml_json *stood, const lml_json *wrong, const lml_price_quoted *q,
                          bool anyway, double *change, lml_error *err);
/* Whether the new price corrects that one: another price, or from another, of the same moment. */
bool lml_price_held_corrects(const lml_json *stood, const lml_price_quoted *q);
/* The same price by the ounce or the gram, whichever was not typed, for a person to check: "85.21
 * USD/g", or empty texts. */
void lml_price_held_by_others(const lml_price_quoted *q, char out[2][LML_VALUE_TEXT]);

#endif
