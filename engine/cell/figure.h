/* A figure: a value on the Lua stack, as a userdata or a bare number.
 *
 *     lml_value room;
 *     const lml_value *v = lml_figure_check(L, 1, &room);
 *     lml_figure_push(L, v);
 */
#ifndef LML_CELL_FIGURE_H
#define LML_CELL_FIGURE_H

#include "value/value.h"
#include "value/wanted.h"

#include <lua.h>

/* Once a state. */
void lml_figure_prepare(lua_State *L);
/* A bare number for LML_NUMBER, else a userdata. */
void lml_figure_push(lua_State *L, const lml_value *v);
/* The value at index: a userdata, a number (kept in *room) or a text in the value grammar. Raises
 * on anything else, and on numbers that are not finite. */
const lml_value *lml_figure_check(lua_State *L, int index, lml_value *room);
/* Push the value of the text at index, from the run's cache. */
void lml_figure_push_read(lua_State *L, int index);
/* Whether the Lua number at index is finite. */
bool lml_figure_is_finite(lua_State *L, int index);
/* The amount in SI of a value of the given dimension; raises naming
 * `argument`. A text is read. */
double lml_figure_amount(lua_State *L, int index, lml_wanted wanted, const char *argument);

#endif
