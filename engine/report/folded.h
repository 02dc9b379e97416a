/* Folded: a bare number that Lua made of nothing but constants, "1 + CUT" or "pi", read from the
 * text of its line.
 *
 * Lua's own sums leave no trace. But where a line has in brackets, or at the front of a product,
 * only numbers, pi and constants that the text defines once as a number, they come to the same on
 * each run; and a number that is this very one was made by them.
 *
 *     if (lml_folded_find(&tokens, 25, 1.04, &found)) ...      found.words: "1 + CUT"
 */
#ifndef LML_REPORT_FOLDED_H
#define LML_REPORT_FOLDED_H

#include "report/operand.h"

typedef struct lml_folded {
    lml_span words;  /* as the line has them */
    size_t constant; /* of the one name in it, where it is defined: the place of the number among
                        the tokens; 0 where there is none or more than one */
} lml_folded;

bool lml_folded_find(const lml_tokens *t, unsigned line, double x, lml_folded *out);

#endif
