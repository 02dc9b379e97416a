/* Defaults that are lists and records: declared as a Lua table, kept as JSON, and turned into a
 * table again if a job leaves them out.
 *
 *     default = { bench = "68 USD/h" }      is kept as      {"bench":"68 USD/h"}
 */
#ifndef LML_SHELF_DEFAULT_H
#define LML_SHELF_DEFAULT_H

#include "cell/state.h"

/* Push the table at the index as JSON. `where` is the name of its owner. Raises LML_BAD_RECIPE
 * where it holds anything but texts, bare numbers, true, false and tables. */
void lml_default_push_json(lua_State *L, int table, const char *where);
/* Push the table that such a JSON says. */
void lml_default_push_table(lua_State *L, lml_span json);

#endif
