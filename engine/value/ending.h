/* What may follow a unit: "abs" or "vac" after a pressure, a metal's symbol after a mass or a
 * ratio.
 *
 * Private to this floor; the reader of values and lml_write_as share it.
 */
#ifndef LML_VALUE_ENDING_H
#define LML_VALUE_ENDING_H

#include "value/value.h"

typedef struct lml_ending {
    lml_span unit; /* what comes before it */
    lml_span word; /* the ending as written; empty when there is none */
    lml_mode mode;
    lml_metal metal;
} lml_ending;

lml_ending lml_ending_of(lml_span unit);
/* Whether `u` is the water of an investment as volume per 100 g of powder, which a ratio may be
 * written in. */
bool lml_ending_is_water_ratio(lml_unit u);

#endif
