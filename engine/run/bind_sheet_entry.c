/* What the words of a page are made of: an entry, its figures and its options. */
#include "base/nearest.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "file/shape.h"
#include "run/bind_sheet.h"
#include "run/part.h"
#include "value/show.h"
#include "words/nil_name.h"

#include <string.h>

/* A page's user value 1 is its list of entries, 2 the part. */
void lml_bind_sheet_begin(lua_State *L, const char *is)
{
    if (!lml_class_test(L, 1, LML_CLASS_PAGE))
        lml_raise_hint(L, LML_BAD_RECIPE, "call it with a colon: sheet.bench:line(\"...\", value)",
                       "a page of the sheet is needed before the colon");
    lml_box_charge(L, LML_BIND_SHEET_ENTRY);
    lua_createtable(L, 0, 6);
    lua_pushstring(L, is);
    lua_setfield(L, -2, "is");
    lml_trace_print(L, -1);
}

int lml_bind_sheet_end(lua_State *L)
{
    lua_getiuservalue(L, 1, 1);
    lua_insert(L, -2);
    lml_part_append(L, -2);
    return 0;
}

static bool printable(lua_State *L, int index)
{
    int type = lua_type(L, index);
    return type == LUA_TNUMBER || type == LUA_TSTRING || type == LUA_TBOOLEAN ||
           lml_class_test(L, index, LML_CLASS_VALUE) || lml_class_test(L, index, LML_CLASS_ALLOY);
}

void lml_bind_sheet_push_figure(lua_State *L, int index, const char *where)
{
    if (lua_type(L, index) == LUA_TNUMBER && !lml_figure_is_finite(L, index))
        lml_raise_hint(L, LML_BAD_RECIPE, "make sure that nothing is divided by zero",
                       "%s: %s cannot be printed", where, lml_what_is(L, index));
    if (!printable(L, index)) {
        char name[80];
        if (lua_isnil(L, index) && lml_nil_name(L, name, sizeof name))
            lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' is nothing (nil)", where, name);
        lml_raise_text(L, LML_BAD_RECIPE, "%s: a figure or a text is needed, but %s was given",
                       where, lml_what_is(L, index));
    }
    if (lua_type(L, index) == LUA_TSTRING)
        lml_wording_push(L, index, "a text on a sheet", LML_PART_TEXT);
    else
        lua_pushvalue(L, index);
}

void lml_bind_sheet_check_give(lua_State *L, int name)
{
    lua_getiuservalue(L, 1, 2);
    lua_getfield(L, -1, "gives");
    const lml_shape *gives = lua_touserdata(L, -1);
    if (!lml_shape_field_named(gives, lml_what_need_text(L, name, "a name")))
        lml_raise_text(L, LML_BAD_RECIPE, "a line prints '%s', but the recipe does not give it",
                       lua_tostring(L, name));
    lua_pop(L, 2);
}

static bool is_no_option(lua_State *L, const void *self)
{
    const char *const *known = self;
    if (lua_type(L, -2) != LUA_TSTRING)
        return lua_type(L, -2) != LUA_TNUMBER;
    lml_span name = lml_what_need_text(L, -2, "a name");
    for (; *known; known++)
        if (lml_span_is(name, *known))
            return false;
    return true;
}

/* All that are known, for a hint. */
static void list_options(const char *const *known, char *out, size_t size)
{
    out[0] = '\0';
    for (size_t length = 0; *known && length + strlen(*known) + 2 < size; known++) {
        strcat(out, length > 0 ? " " : "");
        strcat(out, *known);
        length = strlen(out);
    }
}

void lml_bind_sheet_check_options(lua_State *L, int options, const char *whose,
                                  const char *const *known)
{
    if (!lml_key_find_odd(L, options, is_no_option, known))
        return;
    lml_what_push_text(L, -1);
    lml_span name = lml_what_need_text(L, -1, "the name of an option");
    lml_nearest nearest = lml_nearest_to(name);
    for (const char *const *k = known; *k; k++)
        lml_nearest_offer(&nearest, lml_span_of(*k));
    char all[200];
    list_options(known, all, sizeof all);
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "%s has no option '%.*s'", whose, (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&e, "it has %s", all);
    lml_raise(L, &e);
}

const lml_value *lml_bind_sheet_push_option(lua_State *L, int options, const char *name,
                                            const char *whose, lml_value *room)
{
    if (!lml_view_get_member(L, options, name))
        return NULL;
    int type = lua_type(L, -1);
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    if (v)
        return v;
    if (type != LUA_TSTRING && !(type == LUA_TNUMBER && lml_figure_is_finite(L, -1)))
        lml_raise_text(L, LML_BAD_RECIPE, "the option '%s' of %s is a figure, and %s was given",
                       name, whose, lml_what_is(L, -1));
    v = lml_figure_check(L, lua_gettop(L), room);
    lua_pop(L, 1);
    lml_figure_push(L, v);
    return room;
}

bool lml_bind_sheet_push_words(lua_State *L, int options, const char *name, const char *whose)
{
    if (!lml_view_get_member(L, options, name))
        return false;
    if (lua_type(L, -1) != LUA_TSTRING)
        lml_raise_text(L, LML_BAD_RECIPE, "the option '%s' of %s must be a text", name, whose);
    lml_wording_push(L, -1, "an option on a sheet", LML_PART_TEXT);
    lua_remove(L, -2);
    return true;
}

const char *lml_bind_sheet_shown(const lml_value *v, char *out, size_t size)
{
    char text[LML_VALUE_TEXT];
    lml_show_shown(v, text);
    size_t length = strlen(text) < size ? strlen(text) : size - 1;
    memcpy(out, text, length);
    out[length] = '\0';
    return out;
}

int lml_bind_sheet_begin_picture(lua_State *L, const char *is, const char *whose,
                                 const char *const *known)
{
    lua_settop(L, 2);
    if (!lua_istable(L, 2))
        lml_raise_text(L, LML_BAD_RECIPE, "%s is described by a table", whose);
    lml_bind_sheet_begin(L, is);
    const int entry = 3;
    lml_bind_sheet_check_options(L, 2, whose, known);
    if (lml_bind_sheet_push_words(L, 2, "title", whose))
        lua_setfield(L, entry, "title");
    lua_settop(L, entry);
    if (lua_getfield(L, 2, "of") == LUA_TSTRING) {
        lua_createtable(L, 1, 0);
        lua_insert(L, -2);
        lua_rawseti(L, -2, 1);
    }
    if (!lua_isnil(L, -1)) {
        lml_view_push_content(L, -1, "what a picture rests on");
        lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
        lua_createtable(L, (int)count, 0);
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, -2, i);
            lml_what_need_text(L, -1, "the name of a give");
            lml_bind_sheet_check_give(L, lua_gettop(L));
            lua_rawseti(L, -2, i);
        }
        lua_setfield(L, entry, "of");
    }
    lua_settop(L, entry);
    return entry;
}
