/* What is at an index of the stack: its text, its kind, and its name in messages.
 *
 *     lml_raise_text(L, LML_BAD_VALUE, "a table is needed, but %s was given", lml_what_is(L, 1));
 */
#ifndef LML_CELL_WHAT_H
#define LML_CELL_WHAT_H

#include "base/text.h"
#include "value/metal.h"
#include "value/value.h"

#include <lua.h>

/* "a mass (12 g)", "a text", "nothing", "a list": what is at index, for messages. Valid until the
 * next call; the text is on the Lua stack no longer than the current C function. */
const char *lml_what_is(lua_State *L, int index);

/* The span of the string at index; not valid after it leaves the stack. Raises on anything else,
 * naming `what` in the message. */
void lml_what_refuse_text(lua_State *L, int index, const char *what);
static inline lml_span lml_what_need_text(lua_State *L, int index, const char *what)
{
    if (lua_type(L, index) != LUA_TSTRING)
        lml_what_refuse_text(L, index, what);
    lml_span text;
    text.at = lua_tolstring(L, index, &text.length);
    return text;
}
/* The same for a name that C looks up: a NUL in it is refused, because C would ignore what
 * follows. */
const char *lml_what_need_name(lua_State *L, int index, const char *what);
/* "mass"... the kind of a value, or the Lua type. */
const char *lml_what_type(lua_State *L, int index);

/* Push the text of any value, as tostring does. */
void lml_what_push_text(lua_State *L, int index);

/* The charge for writing a value as a text. */
void lml_what_charge_written(lua_State *L, const lml_value *v);

/* The metal whose symbol is at index. Raises. */
lml_metal lml_what_metal(lua_State *L, int index);

#endif
