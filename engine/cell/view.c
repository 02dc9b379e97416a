#include "cell/view.h"

#include "base/letter.h"
#include "value/write.h"
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/what.h"

#include <string.h>

static const char ABSENT, WITHHELD, UNTOLD;

void lml_view_push_absent(lua_State *L)
{
    lua_pushlightuserdata(L, (void *)(uintptr_t)&ABSENT);
}

void lml_view_push_withheld(lua_State *L)
{
    lua_pushlightuserdata(L, (void *)(uintptr_t)&WITHHELD);
}

void lml_view_push_untold(lua_State *L)
{
    lua_pushlightuserdata(L, (void *)(uintptr_t)&UNTOLD);
}

bool lml_view_is_withheld(lua_State *L, int index)
{
    return lua_touserdata(L, index) == (const void *)&WITHHELD;
}

/* The table is its user value. */
typedef struct view {
    const struct lml_shape *taken;
    size_t length;
    char name[];
} view;

void lml_view_push_taken(lua_State *L, lml_class class, const char *what,
                         const struct lml_shape *shape)
{
    const size_t length = strlen(what);
    view *v = lml_class_new(L, class, sizeof *v + length + 1, 1);
    v->taken = shape;
    v->length = length;
    memcpy(v->name, what, length + 1);
    lua_insert(L, -2);
    lua_setiuservalue(L, -2, 1);
}

void lml_view_push(lua_State *L, lml_class class, const char *what)
{
    lml_view_push_taken(L, class, what, NULL);
}

static const view *view_at(lua_State *L, int index)
{
    const view *v = lml_class_test(L, index, LML_CLASS_RECORD);
    return v ? v : lml_class_test(L, index, LML_CLASS_LIST);
}

const struct lml_shape *lml_view_taken(lua_State *L, int index)
{
    const view *v = view_at(L, index);
    return v ? v->taken : NULL;
}

lml_span lml_view_name(lua_State *L, int index)
{
    const view *v = view_at(L, index);
    return v ? (lml_span){v->name, v->length} : (lml_span){"", 0};
}

bool lml_view_test_content(lua_State *L, int index)
{
    const int type = lua_type(L, index);
    if (type == LUA_TTABLE) {
        lua_pushvalue(L, index);
        if (lua_getmetatable(L, index)) { /* one of ours: __index is behind it */
            lua_getfield(L, -1, "__index");
            lua_replace(L, -3);
            lua_pop(L, 1);
        }
        return true;
    }
    if (type != LUA_TUSERDATA)
        return false;
    const lml_class class = lml_class_of(L, index);
    if (class == LML_CLASS_RECORD || class == LML_CLASS_LIST) {
        lua_getiuservalue(L, index, 1);
        return true;
    }
    return false;
}

void lml_view_push_content(lua_State *L, int index, const char *who)
{
    if (!lml_view_test_content(L, index))
        lml_raise_hint(L, LML_BAD_RECIPE, "write it in braces: { ... }",
                       "%s needs a table or a list, but was given %s", who, lml_what_is(L, index));
}

/* The member on top of the stack, and its type. */
static bool is_there(lua_State *L, int type)
{
    if (type != LUA_TLIGHTUSERDATA)
        return type != LUA_TNIL;
    if (lml_view_is_withheld(L, -1))
        lml_raise_stop(L);
    lua_pop(L, 1);
    lua_pushnil(L);
    return false;
}

bool lml_view_get_member(lua_State *L, int content, const char *name)
{
    return is_there(L, lua_getfield(L, content, name)); /* no content has a metatable */
}

bool lml_view_get_named(lua_State *L, int content)
{
    return is_there(L, lua_rawget(L, content));
}

void lml_view_offer(lua_State *L, lml_nearest *nearest, lml_span name)
{
    enum { LONG = 400 /* bytes: such names are not compared letter by letter */, LETTERS = 12 };
    size_t a = nearest->wanted.length, b = name.length;
    lml_box_charge(L, a > LONG || b > LONG ? (a + b) / LONG : 4 + a * b / LETTERS);
    lml_nearest_offer(nearest, name);
}

static int refuse_untold(lua_State *L)
{
    lml_span name = lml_what_need_text(L, 2, "a name");
    lml_error e;
    lml_fail(&e, LML_BAD_DATA, "%s.%.*s is read here, but the proof does not give it",
             lml_view_name(L, 1).at, (int)name.length, name.at);
    lml_error_hint(&e, "write given = { %.*s = \"...\" } in the proof", (int)name.length, name.at);
    return lml_raise(L, &e);
}

static int record_index(lua_State *L)
{
    lua_getiuservalue(L, 1, 1);
    lua_pushvalue(L, 2);
    const int type = lua_rawget(L, 3);
    if (type != LUA_TLIGHTUSERDATA && type != LUA_TNIL)
        return 1;
    if (type == LUA_TLIGHTUSERDATA) {
        if (lua_touserdata(L, -1) == (const void *)&UNTOLD)
            return refuse_untold(L);
        if (!lml_view_is_withheld(L, -1)) {
            lua_pushnil(L);
            return 1;
        }
        return lml_raise_stop(L);
    }
    const char *what = lml_view_name(L, 1).at;
    if (lua_type(L, 2) != LUA_TSTRING)
        return lml_raise_text(L, LML_BAD_RECIPE, "%s is read by name, but %s was given", what,
                              lml_what_is(L, 2));
    lml_span wanted = lml_what_need_text(L, 2, "a name");
    lml_nearest nearest = lml_nearest_to(wanted);
    lua_newtable(L);
    lua_Integer count = 0;
    lml_memory_charge_walk(L);
    lua_pushnil(L);
    while (lua_next(L, 3)) {
        lml_box_charge(L, 1);
        lua_pop(L, 1);
        lua_pushvalue(L, -1);
        lua_rawseti(L, -3, ++count);
    }
    lml_key_sort(L, -1, count); /* of two that are equally near the first is named */
    for (lua_Integer i = 1; i <= count; i++) {
        if (lua_rawgeti(L, -1, i) == LUA_TSTRING)
            lml_view_offer(L, &nearest, lml_what_need_text(L, -1, "a name"));
        lua_pop(L, 1);
    }
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "%s has no '%.*s'", what, (int)wanted.length, wanted.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean %s.%.*s?", what, (int)nearest.best.length,
                       nearest.best.at);
    else
        lml_error_hint(
            &e, "job holds what the recipe asks for, house what it allows; declare it there");
    return lml_raise(L, &e);
}

static int list_index(lua_State *L)
{
    lua_getiuservalue(L, 1, 1);
    lua_pushvalue(L, 2);
    if (lua_type(L, 2) != LUA_TNUMBER)
        return lml_raise_text(L, LML_BAD_RECIPE, "a list is read by number, but %s was given",
                              lml_what_is(L, 2));
    lua_rawget(L, 3);
    return 1;
}

static int list_length(lua_State *L)
{
    lua_getiuservalue(L, 1, 1);
    lua_pushinteger(L, (lua_Integer)lua_rawlen(L, -1));
    return 1;
}

static int refuse_write(lua_State *L)
{
    return lml_raise_hint(L, LML_BAD_RECIPE, "keep what you calculate in a local",
                          "%s cannot be changed", lml_view_name(L, 1).at);
}

void lml_view_open(lua_State *L)
{
    static const luaL_Reg record[] = {
        {"__index", record_index}, {"__newindex", refuse_write}, {NULL, NULL}};
    static const luaL_Reg list[] = {{"__index", list_index},
                                    {"__len", list_length},
                                    {"__newindex", refuse_write},
                                    {NULL, NULL}};
    lml_class_push(L, LML_CLASS_RECORD);
    luaL_setfuncs(L, record, 0);
    lml_class_push(L, LML_CLASS_LIST);
    luaL_setfuncs(L, list, 0);
    lua_pop(L, 2);
}

/* ---- texts -------------------------------------------------------------------------------------
 */

/* The bytes at the start that are printable ASCII or end a line. */
static size_t clean_run(lml_span text)
{
    size_t n = 0;
    do
        n += lml_letter_plain((lml_span){text.at + n, text.length - n});
    while (n < text.length && text.at[n] == '\n' && ++n);
    return n;
}

bool lml_view_is_plain(lml_span text)
{
    return clean_run(text) == text.length;
}

void lml_view_push_clean(lua_State *L, int index, const char *what, size_t most)
{
    lml_span text = lml_what_need_text(L, index, what);
    if (text.length > most)
        lml_raise_text(L, LML_BAD_RECIPE, "%s has more than %d bytes", what, (int)most);
    lml_box_charge(L, text.length / 16);
    size_t clean = clean_run(text);
    if (clean == text.length) { /* as it is: most texts */
        lua_pushvalue(L, index);
        return;
    }
    if (memchr(text.at, '\0', text.length))
        lml_what_need_name(L, index, what);
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    luaL_addlstring(&b, text.at, clean);
    for (lml_span rest = {text.at + clean, text.length - clean}; rest.length > 0;) {
        uint32_t code;
        size_t length = lml_letter_find_hidden(rest, "\n", &code);
        luaL_addlstring(&b, rest.at, length);
        if (length < rest.length) {
            size_t hidden =
                lml_utf8_next((lml_span){rest.at + length, rest.length - length}, &code);
            luaL_addchar(&b, '?');
            length += hidden ? hidden : 1;
        }
        rest = (lml_span){rest.at + length, rest.length - length};
    }
    luaL_pushresult(&b);
}
