/* Datum: what Lua holds at one place, as bytes, to be pushed again in another state of this build.
 *
 * It knows what recipes are given and return: values, alloys, texts, records, lists and tables of
 * them. The bytes are the same for what is the same, so they can be compared. They are of this
 * build of lemel alone.
 *
 *     if (lml_datum_add(L, -1, &bytes)) ...
 *     lml_span rest = {bytes.at, bytes.length};
 *     if (lml_datum_push(L, &rest)) ...       it is on the stack
 */
#ifndef LML_CELL_DATUM_H
#define LML_CELL_DATUM_H

#include "base/text.h"

#include <lua.h>

/* Append the bytes of what stands at the index. False for what it does not know (functions, a
 * sheet, what is nested too deep); what it appended until then is of no use. May raise as
 * lml_box_charge does; whoever counts steps puts the count back. */
bool lml_datum_add(lua_State *L, int index, lml_builder *to);
/* Take the next one off `from` and push it; false, and nothing pushed, when the bytes are none.
 * Raises when memory is short. */
bool lml_datum_push(lua_State *L, lml_span *from);

#endif
