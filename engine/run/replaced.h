/* Replaced: what a recipe passes to another in place of what the job or the house says, to the last
 * figure of a list or record, so that the result and the cost sheet can tell it.
 */
#ifndef LML_RUN_REPLACED_H
#define LML_RUN_REPLACED_H

#include "shelf/recipe.h"

#include <lua.h>

/* Note among the settings each figure of what is passed (on top of the stack) that is not what
 * `said` says (the index of the same as the job or the house has it; `whose` is which). What they
 * leave unsaid replaces nothing. Entries of a list are told apart by their `name`, else by where
 * they stand. Raises. */
void lml_replaced_note(lua_State *L, const lml_recipe *recipe, const char *field, int said,
                       const char *whose);

#endif
