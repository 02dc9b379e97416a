/* Unknown names, and mistakes that can be seen from the words of a recipe: part of what lemel check
 * says.
 */
#ifndef LML_REPORT_ADVICE_NAMES_H
#define LML_REPORT_ADVICE_NAMES_H

#include "cell/state.h"
#include "shelf/recipe.h"

typedef void lml_advice_tell(void *self, int line, const char *text, const char *advice);

/* The words of recipes are taken from the state `L`. `tell_wrong` gets what no run gets past. */
void lml_advice_names(lua_State *L, lml_span source, const lml_recipe *recipe,
                      lml_advice_tell *tell, lml_advice_tell *tell_wrong, void *self);

#endif
