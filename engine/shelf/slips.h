/* Slips that can be seen in a recipe's text before it is worked.
 *
 * A value with a unit is never equal to a bare number, and Lua says so without a word: `job.wax ==
 * 0` is false for every wax. The check sees such a comparison, by == or ~=, when one side is a
 * number as it is written (0, -1.5) and the other is
 *
 *   - a member of the asks or allowances, through records too (job.wax, house.kiln.power), by the
 * names that `work` gives its arguments,
 *   - a local that is set from such a member once and nowhere else (local wax = job.wax), or
 *   - a text in Q (Q "2 g").
 *
 * It does not follow calls, sums, lists or what `use` gives: there the comparison is simply false.
 */
#ifndef LML_SHELF_SLIPS_H
#define LML_SHELF_SLIPS_H

#include "shelf/recipe.h"

typedef struct lml_slip {
    int line;
    lml_span operand, sign, number; /* as written */
    const lml_shape *shape;         /* what the operand is; NULL: a text in Q */
} lml_slip;

/* By == and ~= alone, or also by < > <= >=, which raise when they are made. */
typedef enum lml_slips_by { LML_SLIPS_BY_EQUALITY, LML_SLIPS_BY_ALL } lml_slips_by;

/* Every comparison of a value with a bare number. `tell` returns false to stop. `source`
 * must be Lua that compiles. */
void lml_slips_find(lml_span source, const lml_recipe *recipe, lml_slips_by by,
                    bool (*tell)(void *self, const lml_slip *slip), void *self);
/* Refuses == and ~=. LML_BAD_RECIPE with "shown:line: ". */
lml_status lml_slips_check(lml_span source, const char *shown, const lml_recipe *recipe,
                           lml_error *err);

/* The line where the member is declared that an error about the declaration names: 'begun', or "in
 * begun"; else that of the whole; 0 when there is none. */
int lml_slips_line(lml_span source, const lml_error *err);

#endif
