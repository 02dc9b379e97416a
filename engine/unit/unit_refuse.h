/* Words that are not units, and the messages for them.
 */
#ifndef LML_UNIT_UNIT_REFUSE_H
#define LML_UNIT_UNIT_REFUSE_H

#include "unit/amount.h"
#include "unit/unit.h"

/* Refuse `word` with both its meanings when it is one of the ambiguous words; LML_OK when not. */
lml_status lml_unit_refuse_ambiguous(lml_span whole, lml_span word, const lml_amount *amount,
                                     lml_error *err);
/* Refuse K alone, and a word of the unit `part` that is no unit, with the nearest one. Always
 * LML_BAD_VALUE. */
lml_status lml_unit_refuse_kelvin(lml_span whole, lml_span word, const lml_amount *amount,
                                  lml_error *err);
lml_status lml_unit_refuse_unknown(lml_span whole, lml_span part, lml_span word, lml_error *err);

#endif
