/* Datum: a Lua value as bytes, to be pushed again in another state of this build.
 *
 * It handles what recipes are given and return: values, alloys, texts, records, lists and tables of
 * them. Equal values have equal bytes, so they can be compared. The format belongs to this build of
 * lemel alone.
 *
 *     if (lml_datum_add(L, -1, &bytes)) ...
 *     lml_span rest = {bytes.at, bytes.length};
 *     if (lml_datum_is(L, -1, &rest)) ...     still the same
 *     if (lml_datum_push(L, &rest)) ...       it is on the stack
 */
#ifndef LML_CELL_DATUM_H
#define LML_CELL_DATUM_H

#include "base/text.h"

#include <lua.h>

/* Append the bytes of the value at the index. False for what it does not handle (functions, a
 * sheet, deep nesting); what it appended so far is then useless. May raise as lml_box_charge does;
 * a caller that counts steps restores the count. */
bool lml_datum_add(lua_State *L, int index, lml_builder *to);
/* Whether the value at the index is the next datum in `from`, and would be added as those bytes:
 * that is then taken off. Reads no further than the first difference. Raises if memory is short. */
bool lml_datum_is(lua_State *L, int index, lml_span *from);
/* Take the next datum off `from` and push it; false, with nothing pushed, if the bytes are not a
 * datum. Raises if memory is short. */
bool lml_datum_push(lua_State *L, lml_span *from);

#endif
