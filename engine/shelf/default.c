#include "shelf/default.h"

#include "base/decimal.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/what.h"

#include <stdlib.h>
#include <string.h>

enum { DEPTH_MOST = 8, SLOTS = 12, LENGTH_MOST = 64 * 1024 };

/* ---- to JSON -----------------------------------------------------------------------------------
 */

/* In quotes. A default is one line of plain letters, so that only these two need a \. */
static void push_quoted(lua_State *L, int index)
{
    lua_pushliteral(L, "\"");
    luaL_gsub(L, lml_what_need_text(L, index, "a text in a default").at, "\\", "\\\\");
    luaL_gsub(L, lua_tostring(L, -1), "\"", "\\\"");
    lua_remove(L, -2);
    lua_pushliteral(L, "\"");
    lua_concat(L, 3);
}

static void push_json(lua_State *L, int index, const char *where, int depth);

/* The list or the record so far, on top of the stack, with one more piece. */
static void add(lua_State *L, const char *where)
{
    lua_concat(L, 2);
    lml_box_charge(L, 2 + lua_rawlen(L, -1) / 16);
    if (lua_rawlen(L, -1) > LENGTH_MOST)
        lml_raise_text(L, LML_LIMIT, "%s: its default is longer than %d bytes", where, LENGTH_MOST);
}

static void push_json_table(lua_State *L, int index, const char *where, int depth)
{
    lml_box_need_stack(L, SLOTS);
    if (depth > DEPTH_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: its default is nested too deep", where);
    bool is_list = lua_rawlen(L, index) > 0;
    lua_Integer count = lml_key_push_sorted(L, index);
    int keys = lua_gettop(L);
    lua_pushstring(L, is_list ? "[" : "{");
    for (lua_Integer i = 1; i <= count; i++) {
        if (i > 1) {
            lua_pushliteral(L, ",");
            add(L, where);
        }
        lua_rawgeti(L, keys, i);
        if (is_list ? !lua_isinteger(L, -1) || lua_tointeger(L, -1) != i
                    : lua_type(L, -1) != LUA_TSTRING)
            lml_raise_hint(L, LML_BAD_RECIPE, "write { \"a\", \"b\" }, or { first = \"a\" }",
                           "%s: its default is a list and a record at once", where);
        int key = lua_gettop(L);
        if (!is_list) {
            push_quoted(L, key);
            lua_pushliteral(L, ":");
            lua_concat(L, 2);
        } else {
            lua_pushliteral(L, "");
        }
        lua_pushvalue(L, key);
        lua_rawget(L, index);
        push_json(L, lua_gettop(L), where, depth);
        lua_remove(L, -2);
        lua_concat(L, 2);
        lua_remove(L, key);
        add(L, where);
    }
    lua_pushstring(L, is_list ? "]" : "}");
    add(L, where);
    lua_remove(L, keys);
}

static void push_json(lua_State *L, int index, const char *where, int depth)
{
    int type = lua_type(L, index);
    if (type == LUA_TTABLE)
        push_json_table(L, index, where, depth + 1);
    else if (type == LUA_TSTRING)
        push_quoted(L, index);
    else if (type == LUA_TBOOLEAN || (type == LUA_TNUMBER && lml_figure_is_finite(L, index)))
        lml_what_push_text(L, index);
    else
        lml_raise_hint(L, LML_BAD_RECIPE, "write values in quotes: default = { \"2 g\" }",
                       "%s: its default contains %s", where, lml_what_is(L, index));
}

void lml_default_push_json(lua_State *L, int table, const char *where)
{
    push_json_table(L, lua_absindex(L, table), where, 0);
}

/* ---- and back ----------------------------------------------------------------------------------
 */

/* At the first quote: what is between the two, without the \ before a letter. */
static const char *push_text(lua_State *L, const char *at, const char *stop)
{
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    for (at++; at < stop && *at != '"'; at++) {
        if (*at == '\\')
            at++;
        luaL_addchar(&b, *at);
    }
    luaL_pushresult(&b);
    return at + 1;
}

static const char *push_value(lua_State *L, const char *at, const char *stop);

static const char *push_inner(lua_State *L, const char *at, const char *stop)
{
    bool is_list = *at == '[';
    lml_box_need_stack(L, SLOTS);
    lua_newtable(L);
    int table = lua_gettop(L);
    at++;
    for (lua_Integer i = 1; at < stop && *at != ']' && *at != '}'; i++) {
        lml_box_charge(L, 2);
        if (is_list)
            lua_pushinteger(L, i);
        else
            at = push_text(L, at, stop) + 1;
        at = push_value(L, at, stop);
        lua_rawset(L, table);
        at += at < stop && *at == ',';
    }
    return at + 1;
}

static const char *push_value(lua_State *L, const char *at, const char *stop)
{
    if (*at == '"')
        return push_text(L, at, stop);
    if (*at == '[' || *at == '{')
        return push_inner(L, at, stop);
    lml_span rest = lml_span_between(at, stop);
    if (lml_span_starts(rest, "true") || lml_span_starts(rest, "false")) {
        lua_pushboolean(L, *at == 't');
        return at + (*at == 't' ? 4 : 5);
    }
    lml_decimal d;
    size_t used = lml_decimal_read(rest, &d);
    lua_pushnumber(L, lml_decimal_scale(&d, (lml_rational){1, 1}));
    return at + (used ? used : rest.length);
}

void lml_default_push_table(lua_State *L, lml_span json)
{
    lml_box_charge(L, json.length / 4);
    push_inner(L, json.at, json.at + json.length);
}
