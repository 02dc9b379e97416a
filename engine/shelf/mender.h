/* Mender: what other languages write, and what is in a line that Lua cannot read, in our words.
 * Part of shelf/mend.c, which has found where Lua stopped.
 */
#ifndef LML_SHELF_MENDER_H
#define LML_SHELF_MENDER_H

#include "base/error.h"
#include "shelf/token.h"

enum { LML_MEND_BACK = 5 };

/* What is known: where Lua stopped, and the tokens around it. */
typedef struct lml_mender {
    lml_span source;
    const char *shown;
    lml_error *err;
    int line;                      /* where Lua stopped */
    char near[40];                 /* the word it stopped at, "" when it says none */
    lml_token last[LML_MEND_BACK]; /* the token it stopped at, and those before, newest first */
    lml_token next;                /* the one behind it */
} lml_mender;

/* Put the message, with its line, and the hint in the place of Lua's. Returns true. */
bool lml_mender_tell(lml_mender *m, int line, const char *hint, const char *format, ...)
    LML_PRINTF(4, 5);
/* Whether Lua's message has the part. */
bool lml_mender_says(const lml_mender *m, const char *part);
/* The line as it is written, without what is around it. */
lml_span lml_mender_line(const lml_mender *m, int line);
/* How many blanks stand before what is in the line. */
int lml_mender_indent(const lml_mender *m, int line);

/* The mends; true when one of them applies, and was told. */
bool lml_mender_habits(lml_mender *m);
/* What is left when nothing else applies. */
bool lml_mender_rest(lml_mender *m);

#endif
