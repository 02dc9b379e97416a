/* Standing: what of a record was not taken back. What was recorded and never done, "poured", is
 * taken back by an entry "not poured", each the last that stands; what was weighed is weighed
 * again.
 */
#ifndef LML_FILE_STANDING_H
#define LML_FILE_STANDING_H

#include "file/json.h"

/* Of "not poured", "poured"; empty for any other name. */
lml_span lml_standing_denied(lml_span name);
/* Whether no later entry takes this one back. */
bool lml_standing_is(const lml_json *entry);
/* Whether this entry is a pour, and stands. */
bool lml_standing_is_pour(const lml_json *entry);
/* The last entry of that name that stands, or NULL. `seen`: how many there are. */
const lml_json *lml_standing_last(const lml_json *record, lml_span name, size_t *seen);

#endif
