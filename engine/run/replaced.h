/* Replaced: figures that a recipe passes to another instead of those of the job or the house, down
 * to single figures of lists and records, so that the result and the cost sheet can report them.
 */
#ifndef LML_RUN_REPLACED_H
#define LML_RUN_REPLACED_H

#include "shelf/recipe.h"

#include <lua.h>

/* Note among the settings each passed figure (on top of the stack) that differs from `said` (the
 * index of the value from the job or the house; `whose` says which). Figures that are in neither
 * replace nothing. Entries of a list are matched by `name`, else by position. Raises. */
void lml_replaced_note(lua_State *L, const lml_recipe *recipe, const char *field, int said,
                       const char *whose);

#endif
