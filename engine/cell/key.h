/* Keys: tables walked in a fixed order, because Lua's differs from state to state: numbers first,
 * then texts in byte order.
 *
 *     for (lua_Integer i = 1, n = lml_key_push_sorted(L, table); i <= n; i++) lua_rawgeti(L, -1, i)
 * ...
 */
#ifndef LML_CELL_KEY_H
#define LML_CELL_KEY_H

#include "base/span.h"

#include <lua.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The length of the list at index, as Lua's # gives it, cut to what an int holds: a table with gaps
 * may report more. */
static inline size_t lml_key_length(lua_State *L, int index)
{
    lua_Unsigned length = lua_rawlen(L, index);
    return length < SIZE_MAX ? (size_t)length : SIZE_MAX;
}

/* Whether the key at a comes before the key at b. */
bool lml_key_before(lua_State *L, int a, int b);
/* Sort a list of keys in place. */
void lml_key_sort(lua_State *L, int keys, lua_Integer count);
/* Push a list of the keys of the table, sorted. Returns how many. Raises on keys that are neither;
 * charges. */
lua_Integer lml_key_push_sorted(lua_State *L, int table);

/* Push a function that gives the keys in that order, each with its value, and then nil. What is
 * taken out of the table meanwhile is passed over. */
void lml_key_push_walk(lua_State *L, int table);

enum { LML_KEY_FEW = 32 };
typedef struct lml_key_name {
    lml_span text;
    int place; /* on the stack */
} lml_key_name;
/* Push the keys of the table that are texts, those of marks too, and set where they are, in the
 * order of their bytes. Returns how many; -1, with nothing pushed, for more than a few, or where a
 * key is neither a text nor a place in the table's list. */
int lml_key_push_few(lua_State *L, int table, lml_key_name name[LML_KEY_FEW]);

/* Push the first key, in that order, for which `odd` is true; false, with nothing pushed, if there
 * is none. So a refusal names the same key each time. `odd` gets the key at -2 and its value at
 * -1. */
typedef bool lml_key_is_odd(lua_State *L, const void *self);
bool lml_key_find_odd(lua_State *L, int table, lml_key_is_odd *odd, const void *self);
/* Whether the table has more keys than that. Charges. */
bool lml_key_has_more(lua_State *L, int table, size_t most);

#endif
