/* The table functions of a recipe: raw access, lengths by rawlen, every one charged. */
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/word.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "words/lib.h"

enum { UNPACK_MOST = 200, CONCAT_MOST = 64 * 1024 };

static lua_Integer own_table(lua_State *L, const char *who)
{
    if (!lua_istable(L, 1) || lua_getmetatable(L, 1)) /* one with a metatable is read-only */
        lml_raise_text(L, LML_BAD_RECIPE, "%s needs a table of your own, but was given %s", who,
                       lua_istable(L, 1) ? "a table that cannot be changed" : lml_what_is(L, 1));
    lml_box_charge(L, 1);
    return (lua_Integer)lua_rawlen(L, 1);
}

static int table_insert(lua_State *L)
{
    lua_Integer n = own_table(L, "table.insert");
    lua_Integer at = n + 1;
    if (lua_gettop(L) == 3) {
        at = luaL_checkinteger(L, 2);
        if (at < 1 || at > n + 1)
            return lml_raise_text(L, LML_BAD_RECIPE, "table.insert: place %lld is not in the list",
                                  (long long)at);
        for (lua_Integer i = n; i >= at; i--) {
            lml_box_charge(L, 1);
            lua_rawgeti(L, 1, i);
            lua_rawseti(L, 1, i + 1);
        }
    } else if (lua_gettop(L) != 2) {
        return lml_raise_text(L, LML_BAD_RECIPE, "table.insert takes a list and what to put in it");
    }
    lua_rawseti(L, 1, at);
    return 0;
}

static int table_remove(lua_State *L)
{
    lua_Integer n = own_table(L, "table.remove");
    lua_Integer at = luaL_optinteger(L, 2, n);
    if (at < 1 || at > n) {
        lua_pushnil(L);
        return 1;
    }
    lua_rawgeti(L, 1, at);
    for (lua_Integer i = at; i < n; i++) {
        lml_box_charge(L, 1);
        lua_rawgeti(L, 1, i + 1);
        lua_rawseti(L, 1, i);
    }
    lua_pushnil(L);
    lua_rawseti(L, 1, n);
    return 1;
}

static int table_concat(lua_State *L)
{
    lml_view_push_content(L, 1, "table.concat");
    lua_replace(L, 1);
    lml_span separator =
        lua_isnoneornil(L, 2) ? lml_span_of("") : lml_what_need_text(L, 2, "a separator");
    lua_Integer n = (lua_Integer)lua_rawlen(L, 1);
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    size_t made = 0;
    for (lua_Integer i = 1; i <= n; i++) {
        if (i > 1)
            luaL_addlstring(&b, separator.at, separator.length);
        lua_rawgeti(L, 1, i);
        lml_what_push_text(L, -1);
        lua_remove(L, -2);
        made += lua_rawlen(L, -1) + separator.length;
        if (made > CONCAT_MOST)
            return lml_raise_text(L, LML_LIMIT, "a text of more than %d bytes exceeds the limit",
                                  CONCAT_MOST);
        lml_box_charge(L, 3 + lua_rawlen(L, -1) / 16);
        luaL_addvalue(&b);
    }
    luaL_pushresult(&b);
    return 1;
}

static int table_unpack(lua_State *L)
{
    lml_view_push_content(L, 1, "table.unpack");
    lua_Integer n = (lua_Integer)lua_rawlen(L, -1);
    if (n > UNPACK_MOST)
        return lml_raise_text(L, LML_LIMIT, "table.unpack gives at most %d values", UNPACK_MOST);
    int list = lua_gettop(L);
    lml_box_charge(L, 5 + (uint64_t)n / 3);
    lml_box_need_stack(L, UNPACK_MOST + 4);
    for (lua_Integer i = 1; i <= n; i++)
        lua_rawgeti(L, list, i);
    return (int)n;
}

/* Whether the value at a sorts before that at b: by the function at index 2, else by <. */
static bool sorts_before(lua_State *L, int a, int b)
{
    lml_box_charge(L, 3);
    if (lua_isnil(L, 2)) {
        bool texts = lua_type(L, a) == LUA_TSTRING && lua_type(L, b) == LUA_TSTRING;
        return texts ? lml_key_before(L, a, b) : lua_compare(L, a, b, LUA_OPLT);
    }
    a = lua_absindex(L, a);
    b = lua_absindex(L, b);
    lua_pushvalue(L, 2);
    lua_pushvalue(L, a);
    lua_pushvalue(L, b);
    lua_call(L, 2, 1);
    bool yes = lua_toboolean(L, -1);
    lua_pop(L, 1);
    return yes;
}

/* Merge [from, middle) and [middle, to) of the list at 3 into the list at 4. A comparator that
 * contradicts itself gives a strange order, but never a step out of bounds. */
static void merge(lua_State *L, lua_Integer from, lua_Integer middle, lua_Integer to)
{
    lua_Integer a = from, b = middle;
    for (lua_Integer i = from; i < to; i++) {
        lml_box_charge(L, 1);
        bool take_b = b < to;
        if (take_b && a < middle) {
            lua_rawgeti(L, 3, b);
            lua_rawgeti(L, 3, a);
            take_b = sorts_before(L, -2, -1);
            lua_pop(L, 2);
        }
        lua_rawgeti(L, 3, take_b ? b++ : a++);
        lua_rawseti(L, 4, i);
    }
}

static int table_sort(lua_State *L)
{
    lua_Integer n = own_table(L, "table.sort");
    lua_settop(L, 2);
    if (!lua_isnil(L, 2) && !lua_isfunction(L, 2))
        return lml_raise_text(L, LML_BAD_RECIPE, "table.sort takes a function that compares two");
    /* A stable merge sort on copies, so that a comparator that changes the list cannot disturb it.
     */
    lua_createtable(L, (int)(n < 10000 ? n : 10000), 0);
    lua_createtable(L, (int)(n < 10000 ? n : 10000), 0);
    for (lua_Integer i = 1; i <= n; i++) {
        lml_box_charge(L, 1);
        lua_rawgeti(L, 1, i);
        lua_rawseti(L, 3, i);
    }
    for (lua_Integer width = 1; width < n; width *= 2) {
        for (lua_Integer from = 1; from <= n; from += 2 * width) {
            lua_Integer middle = from + width < n + 1 ? from + width : n + 1;
            lua_Integer to = from + 2 * width < n + 1 ? from + 2 * width : n + 1;
            merge(L, from, middle, to);
        }
        lua_pushvalue(L, 3);
        lua_copy(L, 4, 3);
        lua_replace(L, 4);
    }
    for (lua_Integer i = 1; i <= n; i++) {
        lml_box_charge(L, 1);
        lua_rawgeti(L, 3, i);
        lua_rawseti(L, 1, i);
    }
    return 0;
}

const lml_word lml_lib_table[] = {
    {"concat", table_concat, "list: string[], between?: string", "string",
     "The texts of a list in one.", "table.concat({ \"gold\", \"silver\" }, \" and \")",
     "gold and silver"},
    {"insert", table_insert, "list: any[], at: any, item?: any", "",
     "Puts an item at the end of a list, or at a place.",
     "(function() local t = { \"a\" } table.insert(t, \"b\") return #t end)()", "2"},
    {"remove", table_remove, "list: any[], at?: number", "any",
     "Takes the last item out of a list, or the one at a place.", "table.remove { \"a\", \"b\" }",
     "b"},
    {"sort", table_sort, "list: any[], before?: function", "",
     "Sorts a list in place; equal items keep their order.",
     "(function() local t = { Q \"5 g\", Q \"2 dwt\" } table.sort(t) return t[1] end)()", "2 dwt"},
    {"unpack", table_unpack, "list: any[]", "any", "The items of a list, one by one.",
     "max(table.unpack { Q \"5 g\", Q \"2 dwt\" })", "5 g"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
