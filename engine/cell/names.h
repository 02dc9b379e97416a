/* Names: what a chunk can reach. All chunks of a state share one read-only table of names; each has
 * an empty environment of its own, whose reads go there and whose writes are refused.
 *
 *     lml_names_keep(L);           the table on top, once per state
 *     lml_names_environment(L);    for each chunk
 */
#ifndef LML_CELL_NAMES_H
#define LML_CELL_NAMES_H

#include <lua.h>

/* Make the table on top of the stack the shared one, and pop it. */
void lml_names_keep(lua_State *L);
/* Push it. */
void lml_names_push(lua_State *L);
/* A C function for Lua: returns a fresh environment. */
int lml_names_environment(lua_State *L);
/* Replace the table on top of the stack by a read-only view of it. `what` names it in refusals. */
void lml_names_read_only(lua_State *L, const char *what);

#endif
