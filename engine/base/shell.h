/* Shell: a word of a command that is printed for the user to copy.
 *
 *     lml_shell_add_word(out, lml_span_of("jobs/Anna's ring.json"))   'jobs/Anna'\''s ring.json'
 *     lml_shell_add_word(out, lml_span_of("jobs/ring.json"))          jobs/ring.json
 */
#ifndef LML_BASE_SHELL_H
#define LML_BASE_SHELL_H

#include "base/builder.h"

enum { LML_SHELL_WORD = 320 };

/* As a POSIX shell reads it back as that one word: in single quotes, unless all of it stands for
 * itself there; a file whose name begins with - as ./-x.json. */
void lml_shell_add_word(lml_builder *out, lml_span word);
/* The same in a buffer, for the hint of an error, which has no more room: a word that does not fit
 * is cut. Returns out. */
const char *lml_shell_word(lml_span word, char out[LML_SHELL_WORD]);

#endif
