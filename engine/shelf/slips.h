/* Slips that can be seen in a recipe's text when it is loaded.
 *
 * A value with a unit is never equal to a bare number, and Lua gives no error: `job.wax == 0` is
 * false for every wax. A recipe is refused for such a comparison, by == or ~=, when one side is a
 * number as it is written (0, -1.5) and the other a text in Q (Q "2 g"), or a name that is known to
 * stand for a value with a unit (shelf/meaning.h). What lemel check says beyond that is in
 * report/advice.h.
 */
#ifndef LML_SHELF_SLIPS_H
#define LML_SHELF_SLIPS_H

#include "shelf/recipe.h"

/* `source` must be Lua that compiles. LML_BAD_RECIPE with "shown:line: ". */
lml_status lml_slips_check(lml_span source, const char *shown, const lml_recipe *recipe,
                           lml_error *err);

/* The line where the member is declared that an error about the declaration names: 'begun', or "in
 * begun"; else that of the whole; 0 when there is none. */
int lml_slips_line(lml_span source, const lml_error *err);

#endif
