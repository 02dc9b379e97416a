/* Leftover: metal left over from a casting, by the names that a record uses for it. An agreement on
 * the button, or on the filings, applies to the entries with these names; metal accounts and the
 * book both use this. What follows a comma says which part of it: "button, the rest".
 *
 *     lml_leftover_of(lml_span_of("saw lemel"))  is LML_LEFTOVER_FILINGS
 */
#ifndef LML_FILE_LEFTOVER_H
#define LML_FILE_LEFTOVER_H

#include "base/span.h"

typedef enum lml_leftover {
    LML_LEFTOVER_NONE,
    LML_LEFTOVER_BUTTON, /* with its sprues, or the sprues alone */
    LML_LEFTOVER_FILINGS
} lml_leftover;

lml_leftover lml_leftover_of(lml_span what);
/* "button", "filings"; NULL for neither. */
const char *lml_leftover_name(lml_leftover leftover);

#endif
