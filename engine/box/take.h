/* Taking a figure in: from a job's JSON, from a recipe's arguments, or from a text, to a checked Lua
 * value. All push exactly one value, and raise when it is not what the shape says.
 *
 * Nodes were checked by lml_shape_check before; what only the box knows (alloy names) is checked here.
 * `path` names the figure in messages ("job.wax").
 */
#ifndef LML_BOX_TAKE_H
#define LML_BOX_TAKE_H

#include "box/state.h"
#include "file/shape.h"

void lml_take_node(lua_State *L, const lml_shape *shape, const lml_json *node, const char *path);
void lml_take_text(lua_State *L, const lml_shape *shape, lml_span text, const char *path);
void lml_take_value(lua_State *L, const lml_shape *shape, int index, const char *path);
/* Mark every value in what stands on top of the stack with an origin (a userdata is replaced by a marked
 * copy; views are left alone). */
void lml_take_origin(lua_State *L, lml_origin origin);
/* Push the alloy of that name: the house's stock first, then the table of alloys. Raises with the
 * nearest name. */
void lml_push_alloy_named(lua_State *L, lml_span name, const lml_json *node, const char *path);

#endif
