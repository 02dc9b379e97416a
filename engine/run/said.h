/* Said: a figure from a place in the job or the house, or passed from one recipe to another, read
 * and checked.
 */
#ifndef LML_RUN_SAID_H
#define LML_RUN_SAID_H

#include "run/run.h"

/* Everything on the command line is text: there a text may be a bare number. */
bool lml_said_is_typed(const lml_run *run, const lml_shape *shape, const lml_json *node);
/* Raise unless the node fits the shape. */
void lml_said_check(lua_State *L, const lml_shape *shape, const lml_json *node);
/* Push the value at the node, once it is checked. */
void lml_said_take(lua_State *L, const lml_run *run, const lml_shape *shape, const lml_json *node,
                   const char *path);
/* Push a figure from the arguments of a use, if present. It is called so in what is at `in`
 * ("job."). Raises. */
bool lml_said_push_argument(lua_State *L, const lml_shape *shape, int arguments, const char *in);
/* The same of what the arguments have of it, at the index: nil, or a mark, if it is not present. */
bool lml_said_push_passed(lua_State *L, const lml_shape *shape, int index, const char *in);
/* The value on top of the stack comes from the node. */
void lml_said_keep(lua_State *L, const lml_json *node);
/* Push the list or record that was last kept of the node, if the shape takes it alike. */
bool lml_said_push_kept(lua_State *L, const lml_shape *shape, const lml_json *node);
/* Note if a recipe passes a figure (on top of the stack) that differs from what the job or the
 * house (`whose`) says at the node. A value of another kind under the same name is ignored. Not
 * where the result would not have it. Raises. */
void lml_said_note_replaced(lua_State *L, const lml_recipe *recipe, const lml_shape *shape,
                            int arguments, const lml_json *node, const char *whose);

#endif
