/* Lib recipe: the words that declare a recipe and use another.
 */
#ifndef LML_RUN_LIB_RECIPE_H
#define LML_RUN_LIB_RECIPE_H

#include "base/error.h"
#include "base/text.h"
#include "cell/word.h"

extern const lml_word lml_lib_recipe[]; /* recipe require withheld */

/* Fill the metatables of the classes, once a state. */
void lml_lib_recipe_open(lua_State *L);

/* That no ask or give is of a kind of that name, and which is meant. */
void lml_lib_recipe_no_kind(lml_span name, lml_error *err);

#endif
