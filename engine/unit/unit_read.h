/* The reader of a unit in a text, after its amount.
 */
#ifndef LML_UNIT_UNIT_READ_H
#define LML_UNIT_UNIT_READ_H

#include "unit/amount.h"
#include "unit/unit.h"

/* Read the unit that `part` of `whole` is. `amount` comes before it, or NULL: an ambiguous word is
 * refused with what the amount would be in each meaning. */
lml_status lml_unit_read_part(lml_span whole, lml_span part, const lml_amount *amount,
                              lml_unit *out, lml_dimension *dimension, lml_error *err);

#endif
