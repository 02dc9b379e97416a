/* Leftover: what a casting leaves beside the piece, by the names that a record has for it. An
 * agreement on the button, or on the filings, is about the entries of these names: metal accounts
 * and the book both ask here. What follows a comma says which part of it: "button, the rest".
 *
 *     lml_leftover_of(lml_span_of("saw lemel"))  is LML_LEFTOVER_FILINGS
 */
#ifndef LML_FILE_LEFTOVER_H
#define LML_FILE_LEFTOVER_H

#include "base/span.h"

typedef enum lml_leftover {
    LML_LEFTOVER_NONE,
    LML_LEFTOVER_BUTTON, /* with its sprues, or these alone */
    LML_LEFTOVER_FILINGS
} lml_leftover;

lml_leftover lml_leftover_of(lml_span what);
/* "button", "filings"; NULL for none. */
const char *lml_leftover_name(lml_leftover leftover);

#endif
