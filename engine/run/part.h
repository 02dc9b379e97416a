/* Parts: what one recipe's run wrote and remarked, as a Lua table out of recipes' reach.
 *
 *     { recipe, title, pages = { bench = { entry ... }, ... }, remarks = { remark ... },
 *       gives = { name = true }, withheld = { name = code }, results = { name = value },
 *       outer = the part of the recipe that uses it, failed = true }
 *
 * An entry is a table whose `is` says what it is: part heading line total text grid box remark.
 */
#ifndef LML_RUN_PART_H
#define LML_RUN_PART_H

#include "cell/state.h"

size_t lml_page_count(void);
const char *lml_page_name(size_t i);

/* Push a new empty part. */
void lml_push_part(lua_State *L, const char *recipe, const char *title);
/* Let the child's pages stand in the parent's, here. */
void lml_part_enclose(lua_State *L, int parent, int child);
/* Its recipe failed, and whoever uses it may go on: no gate has looked at what it wrote, so of it
 * and of the parts in it only the remarks are printed, and one more says why. Raises. */
void lml_part_fail(lua_State *L, int part, const lml_error *why);
/* Push the `sheet` that writes into the part at index. */
void lml_push_sheet(lua_State *L, int part);

#endif
