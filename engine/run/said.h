/* Said: a figure as the job or the house says it at a place of a file, or as a recipe passes it to
 * another, read and checked.
 */
#ifndef LML_RUN_SAID_H
#define LML_RUN_SAID_H

#include "run/run.h"

/* What the command line gave is text throughout: there a bare number may be one. */
bool lml_said_is_typed(const lml_run *run, const lml_shape *shape, const lml_json *node);
/* Push what is said at the node; the second also where it is typed. Raises. */
void lml_said_take_checked(lua_State *L, const lml_shape *shape, const lml_json *node,
                           const char *path);
void lml_said_take(lua_State *L, const lml_run *run, const lml_shape *shape, const lml_json *node,
                   const char *path);
/* Push a figure from the arguments of a use, when it is there. Raises. */
bool lml_said_push_argument(lua_State *L, const lml_shape *shape, int arguments, const char *path);
/* The value on top of the stack is what is said at the node. */
void lml_said_keep(lua_State *L, const lml_json *node);
/* Note where a recipe passes another figure than what the job or the house (`whose`) says at the
 * node: on top of the stack is what it passes. What cannot be read as that kind is another thing of
 * that name, and is passed over. Raises. */
void lml_said_note_replaced(lua_State *L, const lml_recipe *recipe, const lml_shape *shape,
                            int arguments, const lml_json *node, const char *whose,
                            const char *path);

#endif
