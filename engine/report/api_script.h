/* The documentation of a script: what it is and each of its functions, from the comments above them
 * in its text.
 *
 * A script gives back a table at the end of its file. Of each member that is one of its functions
 * the comment above it is the sentence, and a line of that comment that is indented by five blanks
 * is an example: `--     calculate(Q "1 g")   -- 2 g`.
 */
#ifndef LML_REPORT_API_SCRIPT_H
#define LML_REPORT_API_SCRIPT_H

#include "base/builder.h"

typedef struct lml_script_function {
    lml_span name, takes; /* "diameter", "(size, chosen)" */
    lml_span comment;     /* whole lines, or empty */
} lml_script_function;

/* The comment that the file begins with, up to its first empty line. */
lml_span lml_api_script_about(lml_span text);
/* The members of what the script gives back, one after the other; *at is 0 before the first, and
 * false is the end. A member that is no function of the script has no `takes`. */
bool lml_api_script_next(lml_span text, size_t *at, lml_script_function *out);
/* The comment as one line, without its examples. */
void lml_api_script_sentence(lml_span comment, lml_builder *out);
/* The next example of a comment and what it comes to, which may be empty; *at as above. */
bool lml_api_script_example(lml_span comment, size_t *at, lml_span *example, lml_span *wanted);

/* The script's part of the page docs/api.md. */
void lml_api_script_guide(lml_builder *out, const char *name, lml_span text);

#endif
