#include "cell/trace_known.h"

#include "base/decimal.h"
#include "cell/class.h"
#include "value/alloy.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Their addresses are the keys of the tables in the registry. */
static const char keys[LML_TRACE_KNOWN_TABLES];

lml_trace *lml_trace_known_in(lua_State *L)
{
    return lml_box_of(L)->trace;
}

void lml_trace_known_push(lua_State *L, lml_trace_known table)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &keys[table]) == LUA_TTABLE)
        return;
    lua_pop(L, 1);
    lua_newtable(L);
    if (table == LML_TRACE_KNOWN_STEPS || table == LML_TRACE_KNOWN_PRINTED) {
        lua_newtable(L);
        lua_pushliteral(L, "k");
        lua_setfield(L, -2, "__mode");
        lua_setmetatable(L, -2);
    }
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &keys[table]);
}

bool lml_trace_known_kind(lua_State *L, int index)
{
    return lml_class_test(L, index, LML_CLASS_VALUE) || lml_class_test(L, index, LML_CLASS_ALLOY) ||
           lml_class_test(L, index, LML_CLASS_ASSAY);
}

uint32_t lml_trace_known_take(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    lua_rawget(L, -2);
    uint32_t step = (uint32_t)lua_tointeger(L, -1);
    lua_pop(L, 2);
    return step;
}

void lml_trace_known_set(lua_State *L, lml_trace_known table, int index, uint32_t step)
{
    index = lua_absindex(L, index);
    lml_trace_known_push(L, table);
    lua_pushvalue(L, index);
    lua_pushinteger(L, (lua_Integer)step);
    lua_rawset(L, -3);
    lua_pop(L, 1);
}

uint32_t lml_trace_of(lua_State *L, int index)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t)
        return 0;
    index = lua_absindex(L, index);
    if (lua_type(L, index) == LUA_TNUMBER) {
        double x = lua_tonumber(L, index);
        return lml_trace_step_of_number(t, x);
    }
    bool text = lua_type(L, index) == LUA_TSTRING; /* it is known by what it says */
    if (!text && !lml_trace_known_kind(L, index) && !lml_class_test(L, index, LML_CLASS_ERROR))
        return 0;
    lml_trace_known_push(L, text ? LML_TRACE_KNOWN_TEXTS : LML_TRACE_KNOWN_STEPS);
    return lml_trace_known_take(L, index);
}

void lml_trace_known_note(lua_State *L, int index, uint32_t step)
{
    index = lua_absindex(L, index);
    if (lua_type(L, index) == LUA_TNUMBER) {
        lml_trace_note_number(lml_trace_known_in(L), lua_tonumber(L, index), step);
        return;
    }
    lml_trace_known_set(
        L, lua_type(L, index) == LUA_TSTRING ? LML_TRACE_KNOWN_TEXTS : LML_TRACE_KNOWN_STEPS, index,
        step);
}

const char *lml_trace_known_text(lua_State *L, lml_trace *t, int index)
{
    char text[LML_VALUE_TEXT + 2];
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
    size_t length = 0;
    if (v) {
        length = lml_write_text(v, text);
    } else if (alloy) {
        length = (size_t)snprintf(text, sizeof text, "%.*s", LML_TRACE_TEXT, alloy->name);
    } else if (lua_type(L, index) == LUA_TNUMBER && isfinite(lua_tonumber(L, index))) {
        length = lml_decimal_write_double(lua_tonumber(L, index), text);
    } else if (lua_type(L, index) == LUA_TSTRING) {
        /* by hand: most of what is kept, and a format costs four times as much */
        const char *at = lua_tostring(L, index);
        size_t shown = strnlen(at, LML_TRACE_TEXT);
        text[0] = text[shown + 1] = '"';
        memcpy(text + 1, at, shown);
        length = shown + 2;
    } else if (lua_isboolean(L, index)) {
        length = (size_t)snprintf(text, sizeof text, "%s", lua_toboolean(L, index) ? "yes" : "no");
    } else {
        length = (size_t)snprintf(text, sizeof text, "%s",
                                  lml_class_test(L, index, LML_CLASS_ASSAY) ? "an assay" : "");
    }
    return lml_trace_keep(t, text, length);
}

void lml_trace_known_line(lua_State *L, lml_trace *t, lml_step *step)
{
    lua_Debug at;
    for (int level = 1; level < 8 && lua_getstack(L, level, &at); level++) {
        if (!lua_getinfo(L, "Sl", &at) || at.currentline < 0)
            continue;
        const char *name = at.source[0] == '@' || at.source[0] == '=' ? at.source + 1 : at.source;
        step->file = lml_trace_keep(t, name, strlen(name));
        step->line = (unsigned)at.currentline;
        return;
    }
    step->file = "";
}
