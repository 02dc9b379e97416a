/* Mend: rewrites Lua's syntax errors in our words, with what was probably meant.
 *
 *     "r.lua:7: '}' expected (to close '{' at line 1) near 'allowances'"      becomes
 *     "r.lua:6: a comma is missing before 'allowances'"      write it at the end of line 6: },
 */
#ifndef LML_SHELF_MEND_H
#define LML_SHELF_MEND_H

#include "base/span.h"
#include "base/status.h"

/* `err` holds the compiler's message. If the mistake is not known, it is left unchanged. */
void lml_mend_syntax(lml_span source, const char *shown, lml_error *err);

#endif
