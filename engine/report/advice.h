/* Advice: slips that are found in a recipe's text, and its proofs, without working it.
 *
 *   - what is wrong with its proofs as they are written
 *   - names and kinds that do not go together: see report/advice_kinds.h and advice_names.h
 *   - an ask or an allowance that nothing reads, a give that nothing sets
 *   - no proofs
 *   - a figure set at the top of the file that says no source: write it behind -- on its line
 *   - a function with more than 200 numbers and texts: a table of figures should be a script
 *
 * Where a use cannot be seen (a whole job or results passed to a script), any script that has the
 * word counts as a use: better no advice than wrong advice.
 */
#ifndef LML_REPORT_ADVICE_H
#define LML_REPORT_ADVICE_H

#include "run/run.h"

/* For lml_engine_advise: a list of what was found, in the order of lines, `wrong` where the recipe
 * is refused for it. LML_BAD_RECIPE when it cannot be described. */
lml_status lml_advice_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err);

#endif
