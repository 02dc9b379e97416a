/* The few words of plain Lua that a recipe gets, each our own: nothing here shows an address,
 * swallows a limit, or walks a table in an order that differs from machine to machine. */
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/word.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "cell/what.h"

#include "base/decimal.h"
#include "base/error.h"
#include "shelf/shelf.h"
#include "value/write.h"
#include "words/lib.h"

#include <stdio.h>
#include <string.h>

enum { WALKED = 2, /* each turn of ipairs */ OWN_ERROR = 200 };

static int base_tostring(lua_State *L)
{
    luaL_checkany(L, 1);
    lml_what_push_text(L, 1);
    return 1;
}

static int base_type(lua_State *L)
{
    luaL_checkany(L, 1);
    lua_pushstring(L, lml_what_type(L, 1));
    return 1;
}

static int base_tonumber(lua_State *L)
{
    luaL_checkany(L, 1);
    if (lua_type(L, 1) == LUA_TNUMBER) {
        lua_settop(L, 1);
        return 1;
    }
    if (lua_type(L, 1) == LUA_TSTRING) {
        lml_span text = lml_span_trim(lml_what_need_text(L, 1, "a text"));
        lml_decimal d;
        size_t used = lml_decimal_read(text, &d);
        if (used > 0 && used == text.length) {
            double x = lml_decimal_scale(&d, (lml_rational){1, 1});
            if (x - x == 0) {
                lua_pushnumber(L, x);
                return 1;
            }
        }
    } else if (lml_class_test(L, 1, LML_CLASS_VALUE)) {
        return lml_raise_hint(L, LML_BAD_VALUE, "write value:number \"g\" for the number of grams",
                              "%s is not a bare number", lml_what_is(L, 1));
    }
    lua_pushnil(L);
    return 1;
}

/* What lemel's own recipes and scripts say is of what a person wrote: the line that says it comes
 * last, for a reader who asks. Of all others it comes first, so that no stranger's words are taken
 * for lemel's. */
static void push_own(lua_State *L, lml_error *e)
{
    lua_Debug ar;
    const lml_box *box = lml_box_of(L);
    bool known =
        box->shelf && lua_getstack(L, 1, &ar) && lua_getinfo(L, "Sl", &ar) && ar.source[0] == '@';
    lml_box_charge(L, known ? lml_raise_look_cost(L, ar.source) : 1);
    if (!known || !lml_shelf_is_lemels(box->shelf, ar.source + 1)) {
        lml_raise_push(L, e);
        return;
    }
    lml_error_context(e, e->status, LML_SAID_IN "%s:%d", ar.source + 1, ar.currentline);
    lml_box_charge(L, OWN_ERROR);
    lml_raise_push_as_is(L, e);
}

/* The texts from the second argument on: where the figure stands that is refused. */
static void note_steps(lua_State *L, lml_error *e)
{
    char steps[sizeof e->context[0]];
    size_t used = 0;
    if (lml_box_of(L)->proof)
        return; /* it has no file */
    for (int i = 2; lua_type(L, i) == LUA_TSTRING && used < sizeof steps; i++) {
        lml_span step = lml_what_need_text(L, i, "a step");
        const char mark[2] = {i > 2 ? LML_SAID_STEP : '\0'};
        used += (size_t)snprintf(steps + used, sizeof steps - used, "%s%.*s", mark,
                                 LML_SPAN_SHOWN(step));
    }
    if (used > 0)
        lml_error_context(e, e->status, LML_SAID_OF "%s", steps);
}

static int base_error(lua_State *L)
{
    if (lml_class_test(L, 1, LML_CLASS_ERROR)) {
        lua_settop(L, 1);
        return lua_error(L);
    }
    lml_span text = lml_what_need_text(L, 1, "the text of an error");
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "%.*s", (int)(text.length > 300 ? 300 : text.length), text.at);
    note_steps(L, &e);
    const int words = lua_gettop(L);
    push_own(L, &e);
    lml_trace_raised(L, words);
    return lua_error(L);
}

static int base_assert(lua_State *L)
{
    luaL_checkany(L, 1);
    if (lua_toboolean(L, 1))
        return lua_gettop(L);
    if (lua_isnoneornil(L, 2))
        return lml_raise_text(L, LML_BAD_RECIPE, "an assertion of the recipe failed");
    lua_remove(L, 1);
    return base_error(L);
}

/* Limits, lack of memory and stops are not for a recipe to handle. */
static bool passes_through(lua_State *L, int failed)
{
    lml_box *box = lml_box_of(L);
    if (failed == LUA_ERRMEM)
        lml_box_out_of_memory(box);
    if (lml_box_is_overflow(L, -1))
        lml_box_too_deep(box);
    const lml_error *e = lml_class_test(L, -1, LML_CLASS_ERROR);
    return box->dead || box->stopping ||
           (e && (e->status == LML_LIMIT || e->status == LML_NO_MEMORY || e->status == LML_FAULT));
}

static int base_pcall(lua_State *L)
{
    luaL_checkany(L, 1);
    lua_pushboolean(L, 1); /* below the results, where there is room for it */
    lua_insert(L, 1);
    int failed = lua_pcall(L, lua_gettop(L) - 2, LUA_MULTRET, 0);
    if (failed) {
        if (passes_through(L, failed))
            return lua_error(L);
        lml_trace_caught(L, -1);
        lua_pushboolean(L, 0);
        lua_replace(L, 1);
    }
    return lua_gettop(L);
}

static int base_select(lua_State *L)
{
    int n = lua_gettop(L);
    if (lua_type(L, 1) == LUA_TSTRING && strcmp(lua_tostring(L, 1), "#") == 0) {
        lua_pushinteger(L, n - 1);
        return 1;
    }
    lua_Integer i = luaL_checkinteger(L, 1);
    if (i < 1)
        return lml_raise_text(L, LML_BAD_RECIPE, "select counts from 1");
    return i >= n ? 0 : n - (int)i;
}

/* ---- pairs and ipairs --------------------------------------------------------------------------
 */

static int base_pairs(lua_State *L)
{
    lml_view_push_content(L, 1, "pairs");
    lml_key_push_walk(L, -1);
    return 1;
}

static int ipairs_next(lua_State *L)
{
    int is_whole;
    lua_Integer i = lua_tointegerx(L, 2, &is_whole);
    if (!is_whole)
        i = luaL_checkinteger(L, 2); /* says so */
    lml_box_charge(L, WALKED);
    if (i < 0 || i == LUA_MAXINTEGER)
        return 0;
    lua_pushinteger(L, ++i);
    return lua_rawgeti(L, lua_upvalueindex(1), i) == LUA_TNIL ? 1 : 2;
}

static int base_ipairs(lua_State *L)
{
    lml_view_push_content(L, 1, "ipairs");
    lua_pushcclosure(L, ipairs_next, 1);
    lua_pushnil(L);
    lua_pushinteger(L, 0);
    return 3;
}

const lml_word lml_lib_base[] = {
    {"assert", base_assert, "condition: any, text?: string", "any",
     "Ends the work with the text when the condition is not met.", "assert(2 > 1, \"two is more\")",
     "true"},
    {"error", base_error, "text: string, ...: string", "",
     "Ends the work with a text of your own. The names behind it lead to the figure it is about: "
     "error(\"...\", \"lots\", l.name, \"price\").",
     "pcall(error, \"no metal\", \"lots\")", "false"},
    {"ipairs", base_ipairs, "list: any[]", "function",
     "Walks a list from its first item on: for i, item in ipairs(list) do ... end.",
     "(function() local n = 0 for i, v in ipairs { 5, 7 } do n = n + i * v end return n end)()",
     "19"},
    {"pairs", base_pairs, "names: table", "function",
     "Walks a table, sorted by name: for name, item in pairs(t) do ... end.",
     "(function() local all = \"\" for name in pairs { b = 1, a = 2 } do all = all .. name "
     "end return all end)()",
     "ab"},
    {"pcall", base_pcall, "f: function, ...: any", "boolean, any",
     "Calls a function and says whether it went well; a stop and the end of the budget pass "
     "through.",
     "(pcall(error, \"no metal\"))", "false"},
    {"select", base_select, "n: number|string, ...: any", "any",
     "The arguments from the nth on, or with \"#\" how many there are.",
     "select(\"#\", \"a\", \"b\")", "2"},
    {"tonumber", base_tonumber, "text: any", "number?", "The number that a text says, or nil.",
     "tonumber \"12.5\"", "12.5"},
    {"tostring", base_tostring, "anything: any", "string", "As it would be printed.",
     "tostring(Q \"12.50 g\")", "12.5 g"},
    {"type", base_type, "anything: any", "string",
     "The sort of value (quantity, money, moment ...), or its Lua type.", "type(Q \"12.5 g\")",
     "quantity"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
