/* Figures that are taken by name: alloys and ring sizes. */
#include "run/load.h"
#include "run/near_alloy.h"
#include "run/take.h"

#include "words/bind.h"
#include "run/engine.h"
#include "run/run.h"
#include "cell/class.h"
#include "cell/raise.h"
#include "cell/trace.h"
#include "cell/state.h"
#include "cell/view.h"
#include "file/alloy_read.h"
#include "read/read.h"
#include "value/wanted.h"

#include <stdio.h>

/* ---- alloys ------------------------------------------------------------------------------------
 */

/* `near` is NULL where the nearest is not asked for. */
static void offer(lua_State *L, lml_near_alloy *near, lml_span known)
{
    if (!near)
        return;
    lml_view_offer(L, &near->nearest, known);
    lml_near_alloy_offer(near, known);
}

/* Whether the text at the top of the stack is `name`; a text goes to `near` where it is not. */
static bool is_called(lua_State *L, lml_span name, lml_near_alloy *near)
{
    size_t length;
    if (lua_type(L, -1) != LUA_TSTRING)
        return false;
    const char *at = lua_tolstring(L, -1, &length);
    bool called = lml_span_equal((lml_span){at, length}, name);
    if (!called)
        offer(L, near, (lml_span){at, length});
    return called;
}

/* Whether the list of alloys at index has one called `name`; pushes its table. */
static bool find_alloy(lua_State *L, int list, lml_span name, lml_near_alloy *near)
{
    list = lua_absindex(L, list);
    lua_Integer n = (lua_Integer)lua_rawlen(L, list);
    for (lua_Integer i = 1; i <= n; i++) {
        lml_box_charge(L, 1);
        lua_rawgeti(L, list, i);
        if (!lua_istable(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "the script 'alloys': entry %d is not a table",
                           (int)i);
        lua_getfield(L, -1, "name");
        lua_getfield(L, -2, "also");
        bool also = is_called(L, name, near);
        lua_pop(L, 1);
        bool found = is_called(L, name, near) || also;
        lua_pop(L, 1);
        if (found)
            return true;
        lua_pop(L, 1);
    }
    return false;
}

/* Push the alloy of that name; false when there is none, with the nearest name unless `near` is
 * NULL. */
static bool push_known(lua_State *L, lml_span name, const lml_json *node, const char *path,
                       lml_near_alloy *near)
{
    lml_run *run = lml_box_of(L)->run;
    lml_alloy alloy;
    lml_error e;
    lml_box_charge(L, 100);
    const lml_json *stock = lml_json_member(lml_shelf_house_in(L), "stock");
    for (const lml_json *s = lml_json_first(stock); s; s = lml_json_next(s)) {
        if (lml_span_equal(lml_json_name(s), name)) {
            if (lml_alloy_read(s, &alloy, &e)) /* it says where itself */
                lml_raise_as_is(L, &e);
            if (lml_bind_alloy_complete(&alloy, &e))
                lml_take_refuse(L, &e, s, path);
            lml_bind_push_alloy(L, &alloy);
            lml_trace_say(L, -1,
                          &(lml_said){.what = "the house's stock",
                                      .file = lml_json_path_source(s),
                                      .line = lml_json_line(s)});
            return true;
        }
        offer(L, near, lml_json_name(s));
    }
    if (run && lml_shelf_has_script(&run->engine->shelf, "alloys")) {
        lml_load_push_module(L, "alloys");
        if (!lua_istable(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "the script 'alloys' does not return a table");
        lua_getfield(L, -1, "alloys");
        if (lua_istable(L, -1) && find_alloy(L, -1, name, near)) {
            if (lml_bind_alloy_from_table(L, -1, &alloy, &e))
                lml_take_refuse(L, &e, node, path);
            lua_pop(L, 3);
            lml_bind_push_alloy(L, &alloy);
            lml_trace_say(L, -1,
                          &(lml_said){.what = "the table of alloys", .file = "scripts/alloys.lua"});
            return true;
        }
        lua_pop(L, 2);
    }
    return false;
}

static void refuse_name(lua_State *L, lml_span name, const lml_near_alloy *near,
                        const lml_json *node, const char *path)
{
    lml_error e;
    lml_fail(&e, LML_BAD_VALUE,
             near->meant_count > 1 ? "several alloys may be called \"%.*s\""
                                   : "no alloy is called \"%.*s\"",
             LML_SPAN_SHOWN(name));
    lml_near_alloy_hint(near, &e);
    lml_take_refuse(L, &e, node, path);
}

/* What may be meant is looked for where the name is not known: most are. */
static bool push_or_near(lua_State *L, lml_span name, const lml_json *node, const char *path,
                         lml_near_alloy *near)
{
    if (push_known(L, name, node, path, NULL))
        return true;
    *near = lml_near_alloy_to(name);
    push_known(L, name, node, path, near);
    return false;
}

void lml_take_push_alloy_named(lua_State *L, lml_span name, const lml_json *node, const char *path)
{
    lml_near_alloy near;
    if (!push_or_near(L, name, node, path, &near))
        refuse_name(L, name, &near, node, path);
}

bool lml_take_alloy_meant(lua_State *L, lml_span name, char *out, size_t size)
{
    lml_near_alloy near = lml_near_alloy_to(name);
    int top = lua_gettop(L);
    bool known = push_known(L, name, NULL, "", &near);
    if (!known && near.meant_count == 1)
        snprintf(out, size, "%.*s", LML_SPAN_SHOWN(near.meant));
    lua_settop(L, top);
    return !known && near.meant_count == 1 && near.meant.length < size;
}

void lml_take_push_assay_named(lua_State *L, lml_span name, const lml_json *node, const char *path)
{
    lml_near_alloy near;
    if (push_or_near(L, name, node, path, &near))
        return;
    lml_value ignored;
    lml_error e;
    if (name.at[0] >= '0' && name.at[0] <= '9' && !lml_nearest_found(&near.nearest) &&
        lml_read_value(name, LML_WANT_FINENESS, LML_Au, &ignored, &e))
        lml_take_refuse(L, &e, node, path);
    refuse_name(L, name, &near, node, path);
}

/* ---- ring sizes --------------------------------------------------------------------------------
 */

/* "US 6 1/4" -> { system = "US", size = 6.25, text = "US 6 1/4" }. A British letter counts from A =
 * 0. */
bool lml_take_push_ring_size(lua_State *L, lml_span text)
{
    lml_span t = lml_span_trim(text);
    size_t blank = 0;
    while (blank < t.length && t.at[blank] != ' ')
        blank++;
    lml_span system = {t.at, blank};
    lml_span size = lml_span_trim((lml_span){t.at + blank, t.length - blank});
    double number = 0;
    if (system.length == 0 || size.length == 0)
        return false;
    if (size.at[0] >= 'A' && size.at[0] <= 'Z') {
        number = size.at[0] - 'A';
        size = lml_span_trim((lml_span){size.at + 1, size.length - 1});
    }
    if (size.length) {
        lml_value v;
        if (lml_read_value(size, LML_WANT_NUMBER, LML_NO_METAL, &v, NULL))
            return false;
        number += v.amount;
    }
    lua_createtable(L, 0, 3);
    lua_pushlstring(L, system.at, system.length);
    lua_setfield(L, -2, "system");
    lua_pushnumber(L, number);
    lua_setfield(L, -2, "size");
    lua_pushlstring(L, t.at, t.length);
    lua_setfield(L, -2, "text");
    lml_view_push(L, LML_CLASS_RECORD, "a ring size");
    return true;
}
