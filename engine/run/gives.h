/* Gives: what a recipe's work gave back, as its part has it and as others read it. All may raise.
 *
 * A part has "results", which are as the gives take them; "withheld", which names the code that
 * withholds a give; "gives", the shape of all of them; and "whole" where none is left out.
 */
#ifndef LML_RUN_GIVES_H
#define LML_RUN_GIVES_H

#include "shelf/recipe.h"

#include <lua.h>

/* Set what the part may name: its gives. */
void lml_gives_open(lua_State *L, int part, const lml_recipe *r);
/* Withhold all that no stop withholds yet: the recipe was stopped. */
void lml_gives_withhold(lua_State *L, int part, const lml_recipe *r);
/* Check the table at index `returned` against the gives and set part.results. A withheld figure may
 * be left out; if it is there it is kept, for the sheets to know where it was printed. The recipe's
 * function begins in the line, which the steps of a traced run tell. */
void lml_gives_take(lua_State *L, int part, int returned, const lml_recipe *r, int line);
/* Push what other recipes read: the results, with withheld and absent ones marked. */
void lml_gives_push(lua_State *L, int part, const lml_recipe *r);

#endif
