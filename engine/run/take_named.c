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
#include "file/ring_size.h"
#include "read/read.h"
#include "value/wanted.h"

#include <stdio.h>

/* ---- alloys ------------------------------------------------------------------------------------
 */

/* An alloy with two names is offered once: by the second where the first is not meant. A name may
 * be empty. */
static void offer(lua_State *L, lml_near_alloy *near, lml_span own, lml_span also)
{
    const lml_span names[] = {own, also};
    int meant = near->meant_count;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (names[i].length == 0 || !lml_near_alloy_of_one_metal(near->nearest.wanted, names[i]))
            continue;
        lml_view_offer(L, &near->nearest, names[i]);
        if (near->meant_count == meant)
            lml_near_alloy_offer(near, names[i]);
    }
}

static lml_span unless_in(const lml_json *stock, lml_span name)
{
    return lml_json_member(stock, name.at) ? (lml_span){"", 0} : name;
}

/* The text at that name of the table at the top of the stack, which holds it; empty if there is
 * none. */
static lml_span text_at(lua_State *L, const char *name)
{
    lml_span text = {"", 0};
    lua_getfield(L, -1, name);
    if (lua_type(L, -1) == LUA_TSTRING)
        text.at = lua_tolstring(L, -1, &text.length);
    lua_pop(L, 1);
    return text;
}

/* Whether the list of alloys at index has one called `name`; pushes its table. What the stock has
 * of that name is meant in its place. */
static bool find_alloy(lua_State *L, int list, lml_span name, const lml_json *stock,
                       lml_near_alloy *near)
{
    list = lua_absindex(L, list);
    lua_Integer n = (lua_Integer)lua_rawlen(L, list);
    for (lua_Integer i = 1; i <= n; i++) {
        lml_box_charge(L, 1);
        lua_rawgeti(L, list, i);
        if (!lua_istable(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "the script 'alloys': entry %d is not a table",
                           (int)i);
        lml_span own = text_at(L, "name"), also = text_at(L, "also");
        if (lml_span_equal(own, name) || (also.length > 0 && lml_span_equal(also, name)))
            return true;
        if (near)
            offer(L, near, unless_in(stock, own), unless_in(stock, also));
        lua_pop(L, 1);
    }
    return false;
}

/* Push the alloy of that name; false when there is none, with the nearest names unless `near` is
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
        if (near)
            offer(L, near, lml_json_name(s), (lml_span){"", 0});
    }
    if (run && lml_shelf_has_script(&run->engine->shelf, "alloys")) {
        lml_load_push_module(L, "alloys");
        if (!lua_istable(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "the script 'alloys' does not return a table");
        lua_getfield(L, -1, "alloys");
        if (lua_istable(L, -1) && find_alloy(L, -1, name, stock, near)) {
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
    char full[LML_RING_SIZE_TEXT];
    if (!lml_ring_size_read(text, lml_shelf_house_in(L), full))
        return false;
    lml_span t = lml_span_of(full);
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
