/* Member: one member of a JSON record, found without reading the rest.
 *
 * For answers of the engine, which are sound and on one line without blanks; what is not ends the
 * search.
 *
 *     lml_member(result, "stopped")   true
 */
#ifndef LML_WORKER_MEMBER_H
#define LML_WORKER_MEMBER_H

#include "base/text.h"

/* Its own bytes; the empty span when the record has no such member. */
lml_span lml_member(lml_span record, const char *name);

#endif
