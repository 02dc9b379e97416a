/* Taking a figure in: from a job's JSON, a recipe's arguments or a text to a checked Lua value. All
 * push exactly one value, and raise if it does not fit the shape.
 *
 * Nodes were checked by lml_shape_check before; what only the box can check (alloy names) is
 * checked here. `path` names the figure in messages ("job.wax"). The shape of a list or record must
 * last as long as the state.
 */
#ifndef LML_RUN_TAKE_H
#define LML_RUN_TAKE_H

#include "cell/state.h"
#include "file/shape.h"

void lml_take_node(lua_State *L, const lml_shape *shape, const lml_json *node, const char *path);
void lml_take_text(lua_State *L, const lml_shape *shape, lml_span text, const char *path);
/* What was taken before, as the same shape says, is passed on as it is, under its first name. */
void lml_take_value(lua_State *L, const lml_shape *shape, int index, const char *path);
/* The same where nothing is wrong and it is soon seen: no path is needed then. Otherwise false,
 * with nothing pushed. */
bool lml_take_at_once(lua_State *L, const lml_shape *shape, int index);
/* Whether both shapes take alike: the same values, and to the same. Charges. */
bool lml_take_alike(lua_State *L, const lml_shape *a, const lml_shape *b);
/* Mark every value in the one on top of the stack with an origin (a userdata is replaced by a
 * marked copy; views are left alone). */
void lml_take_origin(lua_State *L, lml_origin origin);
/* For lml_key_find_odd over a table that ought to be such a record. */
bool lml_take_is_no_field(lua_State *L, const void *record);

/* Raise if two entries of the list on top of the stack, a table of views, share the value that must
 * be unique. `node` is the list in the job, or NULL. */
void lml_take_apart(lua_State *L, const lml_shape *list, const lml_json *node, const char *path);

enum { LML_TAKE_NAME = 100 /* bytes of the name of an entry */, LML_TAKE_PATH = 160 };
/* "job.stones" and "mass" to "job.stones.mass". */
void lml_take_path(char out[LML_TAKE_PATH], const char *path, const char *name);
/* Raise an error about a figure: with its place in the job if it has one, else with its path. */
void lml_take_refuse(lua_State *L, lml_error *e, const lml_json *node, const char *path);
/* Raise unless the value is within the bounds of its shape. */
void lml_take_bounds(lua_State *L, const lml_shape *shape, const lml_value *v, const char *path);
lml_status lml_take_check_bounds(lua_State *L, const lml_shape *shape, const lml_value *v,
                                 lml_error *err);
/* Push the record of a ring size: "US 6 1/4" -> { system = "US", size = 6.25, text = "US 6 1/4" }.
 * False, with nothing pushed, if the text is not a ring size. */
bool lml_take_push_ring_size(lua_State *L, lml_span text);
/* Push the alloy of that name: the house's stock first, then the table of alloys. Raises with the
 * nearest name. */
void lml_take_push_alloy_named(lua_State *L, lml_span name, const lml_json *node, const char *path);
/* Whether one alloy alone can be meant by a name that none has: its own, into `out`. */
bool lml_take_alloy_meant(lua_State *L, lml_span name, char *out, size_t size);
/* The same where a fineness is allowed too: a text that begins like one and is not an alloy's name
 * is refused as a fineness. */
void lml_take_push_assay_named(lua_State *L, lml_span name, const lml_json *node, const char *path);

#endif
