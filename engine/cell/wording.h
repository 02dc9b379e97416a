/* Wording: keeps the words of a recipe apart from lemel's own.
 *
 * Some words on a page are lemel's alone: the tags of remarks in capitals (STOP, CAUTION), page
 * footers, digests, counts of proofs. A recipe's declaration must not look like them. Printed text
 * that does is put in lower case, because it may contain words of the job, for which the recipe is
 * not to blame. Letters that look like Latin ones count as those.
 *
 *     lml_wording_fault(lml_span_of("Worked by need 9.9"))      "Worked by"
 *     lml_wording_push(L, 2, "a label", 200)                     "STOP pouring" becomes "stop
 * pouring"
 */
#ifndef LML_CELL_WORDING_H
#define LML_CELL_WORDING_H

#include "base/text.h"

#include <lua.h>

/* Which of lemel's own words the declared text looks like, or "a line feed"; NULL if none. */
const char *lml_wording_fault(lml_span text);
/* Push the text at index as it is printed: cleaned, on one line, with none of lemel's own words.
 * Raises BAD_RECIPE where it is not a text, or longer than `most`. */
void lml_wording_push(lua_State *L, int index, const char *what, size_t most);
/* The same for a paragraph, which may have line breaks. */
void lml_wording_push_paragraph(lua_State *L, int index, const char *what, size_t most);

#endif
