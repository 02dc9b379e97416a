#include "cell/what.h"

#include "base/decimal.h"
#include "cell/class.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "value/alloy.h"
#include "value/write.h"

#include <string.h>

enum {
    WRITTEN = 40,
    POINT_WRITTEN = 250 /* its shortest decimal is searched for */,
    NUMBER_WRITTEN = 20
};

void lml_what_charge_written(lua_State *L, const lml_value *v)
{
    lml_box_charge(L, v->kind == LML_TEMPERATURE ? POINT_WRITTEN : WRITTEN);
}

void lml_what_push_text(lua_State *L, int index)
{
    index = lua_absindex(L, index);
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v) {
        char text[LML_VALUE_TEXT];
        lml_what_charge_written(L, v);
        size_t length = lml_write_text(v, text);
        lua_pushlstring(L, text, length);
        return;
    }
    switch (lua_type(L, index)) {
    case LUA_TNUMBER: {
        double x = lua_tonumber(L, index);
        char text[LML_NUMBER_TEXT];
        lml_box_charge(L, NUMBER_WRITTEN);
        if (x - x == 0) /* neither inf nor nan */
            lua_pushlstring(L, text, lml_decimal_write_double(x, text));
        else
            lua_pushstring(L, x != x ? "not a number" : x > 0 ? "infinity" : "-infinity");
        return;
    }
    case LUA_TSTRING:
        lua_pushvalue(L, index);
        return;
    case LUA_TBOOLEAN:
        lua_pushstring(L, lua_toboolean(L, index) ? "true" : "false");
        return;
    default: {
        const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
        const lml_error *error = lml_class_test(L, index, LML_CLASS_ERROR);
        lua_pushstring(L, alloy ? alloy->name : error ? error->message : lml_what_type(L, index));
    }
    }
}

const char *lml_what_is(lua_State *L, int index)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v) {
        char what[80];
        index = lua_absindex(L, index);
        lua_pushstring(L, lml_value_what(v, what, sizeof what));
        lml_what_push_text(L, index);
        return lua_pushfstring(L, "%s (%s)", lua_tostring(L, -2), lua_tostring(L, -1));
    }
    switch (lua_type(L, index)) {
    case LUA_TNIL:
    case LUA_TNONE:
        return "nothing";
    case LUA_TBOOLEAN:
        return lua_toboolean(L, index) ? "true" : "false";
    case LUA_TNUMBER:
        lml_what_push_text(L, index);
        return lua_pushfstring(L, "the bare number %s", lua_tostring(L, -1));
    case LUA_TSTRING: {
        size_t length;
        const char *at = lua_tolstring(L, index, &length);
        return length <= 60 ? lua_pushfstring(L, "the text \"%s\"", at) : "a text";
    }
    case LUA_TTABLE:
        return "a table";
    case LUA_TFUNCTION:
        return "a function";
    default: {
        const char *name = lml_what_type(L, index);
        return lua_pushfstring(L, "%s %s", strchr("aeo", name[0]) ? "an" : "a", name);
    }
    }
}

const char *lml_what_type(lua_State *L, int index)
{
    static const char *const name[LML_CLASSES] = {
        [LML_CLASS_ALLOY] = "alloy", [LML_CLASS_ASSAY] = "assay", [LML_CLASS_RECORD] = "record",
        [LML_CLASS_LIST] = "list",   [LML_CLASS_ERROR] = "error", [LML_CLASS_SHEET] = "sheet",
        [LML_CLASS_PAGE] = "page",   [LML_CLASS_USES] = "uses"};
    const int type = lua_type(L, index);
    if (type != LUA_TUSERDATA)
        return lua_typename(L, type < 0 ? LUA_TNIL : type);
    const lml_class class = lml_class_of(L, index);
    if (class == LML_CLASS_VALUE) {
        const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
        return lml_kind_name((lml_kind)v->kind);
    }
    return class < LML_CLASSES ? name[class] : lua_typename(L, type);
}

void lml_what_refuse_text(lua_State *L, int index, const char *what)
{
    lml_raise_text(L, LML_BAD_VALUE, "%s is needed, but %s was given", what, lml_what_is(L, index));
}

const char *lml_what_need_name(lua_State *L, int index, const char *what)
{
    lml_span name = lml_what_need_text(L, index, what);
    if (memchr(name.at, '\0', name.length))
        lml_raise_hint(L, LML_BAD_RECIPE, "take out the \\0",
                       "%s holds a NUL, a byte that nothing shows: \"%s\"", what, name.at);
    return name.at;
}

lml_metal lml_what_metal(lua_State *L, int index)
{
    lml_span symbol = lml_what_need_text(L, index, "the symbol of a metal");
    lml_metal metal = lml_metal_by_symbol(symbol);
    if (!metal)
        lml_raise_hint(L, LML_BAD_VALUE, "write Au, Ag, Cu, Zn, Ni, Pd, Pt ...",
                       "\"%.*s\" is not the symbol of a known metal", (int)symbol.length,
                       symbol.at);
    return metal;
}
