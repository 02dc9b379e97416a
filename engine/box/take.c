#include "box/take.h"

#include "base/decimal.h"
#include "box/bind.h"
#include "box/engine.h"
#include "box/run.h"
#include "box/view.h"
#include "file/alloy_read.h"
#include "value/arithmetic.h"
#include "value/read.h"
#include "value/write.h"

#include <stdio.h>
#include <string.h>

enum { PATH_MOST = 160 };

/* Raise an error about a figure: at its place in the job when it stands there, else by its path. */
static void refuse(lua_State *L, lml_error *e, const lml_json *node, const char *path)
{
    if (node)
        lml_json_place(node, e->status, e);
    else
        lml_error_context(e, e->status, "in %s", path);
    lml_raise_as_is(L, e);
}

static bool has_unit(lml_wanted w)
{
    return (w > LML_WANT_ANYTHING && w < LML_WANT_NUMBER) || w == LML_WANT_MOMENT ||
           w == LML_WANT_TIME_OF_DAY || w == LML_WANT_WEEKDAY;
}

/* ---- alloys ------------------------------------------------------------------------------------ */

/* Whether the list of alloys at index has one called `name`; pushes its table. */
static bool find_alloy(lua_State *L, int list, lml_span name, lml_nearest *nearest)
{
    list = lua_absindex(L, list);
    lua_Integer n = (lua_Integer)lua_rawlen(L, list);
    lml_charge(L, (uint64_t)n);
    for (lua_Integer i = 1; i <= n; i++) {
        lua_rawgeti(L, list, i);
        lua_getfield(L, -1, "name");
        if (lua_type(L, -1) == LUA_TSTRING) {
            size_t length;
            const char *at = lua_tolstring(L, -1, &length);
            lml_span known = {at, length};
            if (lml_span_equal(known, name)) {
                lua_pop(L, 1);
                return true;
            }
            lml_nearest_offer(nearest, known);
        }
        lua_pop(L, 2);
    }
    return false;
}

void lml_push_alloy_named(lua_State *L, lml_span name, const lml_json *node, const char *path)
{
    lml_run *run = lml_box_of(L)->run;
    lml_nearest nearest = lml_nearest_to(name);
    lml_alloy alloy;
    lml_error e;
    lml_charge(L, 100);
    const lml_json *stock =
        run && !run->proof ? lml_json_member(lml_engine_house(run->engine), "stock") : NULL;
    for (const lml_json *s = lml_json_first(stock); s; s = lml_json_next(s)) {
        if (lml_span_equal(lml_json_name(s), name)) {
            if (lml_alloy_read(s, &alloy, &e) || lml_alloy_complete(&alloy, &e))
                refuse(L, &e, s, path);
            lml_push_alloy(L, &alloy);
            return;
        }
        lml_nearest_offer(&nearest, lml_json_name(s));
    }
    if (run && lml_engine_has_script(run->engine, "alloys")) {
        lml_push_module(L, "alloys");
        lua_getfield(L, -1, "alloys");
        if (lua_istable(L, -1) && find_alloy(L, -1, name, &nearest)) {
            if (lml_alloy_from_table(L, -1, &alloy, &e))
                refuse(L, &e, node, path);
            lua_pop(L, 3);
            lml_push_alloy(L, &alloy);
            return;
        }
        lua_pop(L, 2);
    }
    lml_fail(&e, LML_BAD_VALUE, "no alloy is called \"%.*s\"", (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean \"%.*s\"?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&e, "put it into the house's stock, or give its composition here");
    refuse(L, &e, node, path);
}

/* ---- ring sizes -------------------------------------------------------------------------------- */

/* "US 6 1/4" -> { system = "US", size = 6.25, text = "US 6 1/4" }. A British letter counts from A = 0. */
static bool push_ring_size(lua_State *L, lml_span text)
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
        if (lml_value_read(size, LML_WANT_NUMBER, LML_NO_METAL, &v, NULL))
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
    lml_push_view(L, LML_CLASS_RECORD, "a ring size");
    return true;
}

/* ---- texts ------------------------------------------------------------------------------------- */

static void check_bounds(lua_State *L, const lml_shape *s, const lml_value *v, const char *path)
{
    const char *const bound[] = {s->from, s->to};
    for (int i = 0; i < 2; i++) {
        lml_value b;
        lml_error e;
        int order;
        if (!bound[i])
            continue;
        lml_status status = lml_value_read(lml_span_of(bound[i]), s->wanted, s->metal, &b, &e);
        if (!status)
            status = lml_compare(v, &b, &order, &e);
        if (status)
            refuse(L, &e, NULL, path);
        if (i == 0 ? order < 0 : order > 0) {
            char text[LML_VALUE_TEXT];
            lml_value_text(v, text);
            lml_fail(&e, LML_BAD_VALUE, "%s is %s (%s)", text,
                     i == 0 ? "below the least allowed" : "above the most allowed", bound[i]);
            refuse(L, &e, NULL, path);
        }
    }
}

void lml_take_text(lua_State *L, const lml_shape *s, lml_span text, const char *path)
{
    lml_value v;
    lml_error e;
    lml_shape part = *s; /* of an assay */
    lml_charge(L, 20);
    if (has_unit(s->wanted) || s->wanted == LML_WANT_ANYTHING) {
        if (lml_shape_value_text(s, text, &v, &e))
            refuse(L, &e, NULL, path);
        check_bounds(L, s, &v, path);
        lml_push_value(L, &v);
        return;
    }
    switch (s->wanted) {
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
        if (lml_value_read(text, s->wanted, LML_NO_METAL, &v, &e))
            refuse(L, &e, NULL, path);
        check_bounds(L, s, &v, path);
        lua_pushnumber(L, v.amount);
        return;
    case LML_WANT_YES_NO:
        if (lml_span_is(text, "true") || lml_span_is(text, "false")) {
            lua_pushboolean(L, lml_span_is(text, "true"));
            return;
        }
        break;
    case LML_WANT_CHOICE:
        for (const char *const *c = s->choices; *c; c++) {
            if (lml_span_is(text, *c)) {
                lua_pushlstring(L, text.at, text.length);
                return;
            }
        }
        break;
    case LML_WANT_TEXT:
    case LML_WANT_OWNER:
        lua_pushlstring(L, text.at, text.length);
        return;
    case LML_WANT_ALLOY:
        lml_push_alloy_named(L, text, NULL, path);
        return;
    case LML_WANT_ASSAY:
        if (text.length && !(text.at[0] >= '0' && text.at[0] <= '9')) { /* as in file/alloy_read */
            lml_push_alloy_named(L, text, NULL, path);
            return;
        }
        part.wanted = LML_WANT_FINENESS;
        if (!lml_shape_value_text(&part, text, &v, &e)) {
            lml_assay a;
            memset(&a, 0, sizeof a);
            a.found.part[v.metal] = v.amount;
            a.found.part[0] = 1 - v.amount;
            a.deviation.part[v.metal] = lml_value_deviation(&v);
            lml_push_assay(L, &a);
            return;
        }
        refuse(L, &e, NULL, path);
        return;
    case LML_WANT_RING_SIZE:
        if (push_ring_size(L, text))
            return;
        break;
    case LML_WANT_LIST:
        if (lml_span_is(text, "[]")) {
            lua_newtable(L);
            lml_push_view(L, LML_CLASS_LIST, path);
            return;
        }
        break;
    case LML_WANT_BY_NAME:
        if (lml_span_is(text, "{}")) {
            lua_newtable(L);
            lml_push_view(L, LML_CLASS_RECORD, path);
            return;
        }
        break;
    default:
        break;
    }
    lml_fail(&e, LML_BAD_VALUE, "\"%.*s\" is not %s", (int)(text.length > 60 ? 60 : text.length),
             text.at, lml_wanted_words(s->wanted));
    lml_error_hint(&e, "such as %s", lml_wanted_example(s->wanted));
    refuse(L, &e, NULL, path);
}

/* ---- nodes ------------------------------------------------------------------------------------- */

static void join_path(char *out, const char *path, const char *name)
{
    snprintf(out, PATH_MOST, "%s.%s", path, name);
}

static void take_fields(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    luaL_checkstack(L, 10, "a record is nested too deep");
    lua_createtable(L, 0, (int)s->field_count);
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        const lml_json *m = lml_json_member(node, f->name);
        char inner[PATH_MOST];
        join_path(inner, path, f->name);
        if (m)
            lml_take_node(L, f, m, inner);
        else if (f->default_text) {
            lml_take_text(L, f, lml_span_of(f->default_text), inner);
            lml_take_origin(L, LML_ASSUMED);
        } else
            lml_push_absent(L);
        lua_setfield(L, -2, f->name);
    }
}

void lml_take_node(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    lml_error e;
    lml_charge(L, 20);
    if (has_unit(s->wanted) || s->wanted == LML_WANT_NUMBER || s->wanted == LML_WANT_WHOLE) {
        lml_value v;
        if (lml_shape_value(s, node, &v, &e))
            lml_raise_as_is(L, &e);
        lml_push_value(L, &v);
        return;
    }
    lml_span text = lml_json_text(node);
    switch (s->wanted) {
    case LML_WANT_RECORD:
        take_fields(L, s, node, path);
        lml_push_view(L, LML_CLASS_RECORD, path);
        return;
    case LML_WANT_BY_NAME:
    case LML_WANT_LIST: {
        bool list = s->wanted == LML_WANT_LIST;
        luaL_checkstack(L, 10, "a list is nested too deep");
        lua_newtable(L);
        lua_Integer i = 0;
        for (const lml_json *m = lml_json_first(node); m; m = lml_json_next(m)) {
            char inner[PATH_MOST];
            i++;
            lml_span name = lml_json_name(m);
            if (list)
                snprintf(inner, sizeof inner, "%s[%d]", path, (int)i);
            else
                snprintf(inner, sizeof inner, "%s.%.*s", path, (int)name.length, name.at);
            if (list) {
                lml_take_node(L, s->of, m, inner);
                lua_rawseti(L, -2, i);
            } else {
                lua_pushlstring(L, name.at, name.length);
                lml_take_node(L, s->of, m, inner);
                lua_rawset(L, -3);
            }
        }
        lml_push_view(L, list ? LML_CLASS_LIST : LML_CLASS_RECORD, path);
        return;
    }
    case LML_WANT_YES_NO:
        lua_pushboolean(L, lml_json_yes(node));
        return;
    case LML_WANT_ALLOY:
        if (lml_alloy_is_name(node)) {
            lml_push_alloy_named(L, text, node, path);
            return;
        } else {
            lml_alloy alloy;
            if (lml_alloy_read(node, &alloy, &e) || lml_alloy_complete(&alloy, &e))
                lml_raise_as_is(L, &e);
            lml_push_alloy(L, &alloy);
            return;
        }
    case LML_WANT_ASSAY:
        if (lml_assay_is_name(node)) {
            lml_push_alloy_named(L, text, node, path);
            return;
        } else {
            lml_assay assay;
            if (lml_assay_read(node, s->metal, &assay, &e))
                lml_raise_as_is(L, &e);
            lml_push_assay(L, &assay);
            return;
        }
    case LML_WANT_ANYTHING:
        if (lml_json_kind_of(node) == LML_JSON_NUMBER)
            lua_pushnumber(L, lml_json_number(node));
        else if (lml_json_kind_of(node) == LML_JSON_YES_NO)
            lua_pushboolean(L, lml_json_yes(node));
        else
            lua_pushlstring(L, text.at, text.length);
        return;
    default:
        lml_take_text(L, s, text, path);
    }
}

/* ---- Lua values -------------------------------------------------------------------------------- */

static void refuse_kind(lua_State *L, const lml_shape *s, int index, const char *path)
{
    lml_error e;
    lml_fail(&e, LML_BAD_VALUE, "%s is due, and %s was given", lml_wanted_words(s->wanted),
             lml_what_is(L, index));
    refuse(L, &e, NULL, path);
}

static void take_record(lua_State *L, const lml_shape *s, int index, const char *path)
{
    if (!lml_test_content(L, index))
        refuse_kind(L, s, index, path);
    int content = lua_gettop(L);
    lua_pushnil(L);
    while (lua_next(L, content)) {
        lua_pop(L, 1);
        if (lua_type(L, -1) != LUA_TSTRING || !lml_shape_field(s, lua_tostring(L, -1))) {
            lml_error e;
            lml_push_text_of(L, -1);
            lml_span name = lml_need_text(L, -1, "a name");
            lml_nearest nearest = lml_nearest_to(name);
            for (size_t i = 0; i < s->field_count; i++)
                lml_nearest_offer(&nearest, lml_span_of(s->fields[i].name));
            lml_fail(&e, LML_BAD_VALUE, "'%.*s' is not asked here", (int)name.length, name.at);
            if (lml_nearest_found(&nearest))
                lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length,
                               nearest.best.at);
            refuse(L, &e, NULL, path);
        }
    }
    lua_createtable(L, 0, (int)s->field_count);
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        char inner[PATH_MOST];
        join_path(inner, path, f->name);
        lua_getfield(L, content, f->name);
        if (lml_is_withheld(L, -1))
            lml_raise_stop(L);
        if (!lua_isnil(L, -1) && lua_type(L, -1) != LUA_TLIGHTUSERDATA) {
            lml_take_value(L, f, -1, inner);
        } else if (f->default_text) {
            lml_take_text(L, f, lml_span_of(f->default_text), inner);
            lml_take_origin(L, LML_ASSUMED);
        } else if (f->optional) {
            lml_push_absent(L);
        } else {
            lml_error e;
            lml_fail(&e, LML_BAD_VALUE, "'%s' (%s) is missing", f->name, f->title);
            refuse(L, &e, NULL, path);
        }
        lua_setfield(L, content + 1, f->name);
        lua_settop(L, content + 1);
    }
    lua_remove(L, content);
    lml_push_view(L, LML_CLASS_RECORD, path);
}

static void take_entries(lua_State *L, const lml_shape *s, int index, const char *path)
{
    bool list = s->wanted == LML_WANT_LIST;
    if (!lml_test_content(L, index))
        refuse_kind(L, s, index, path);
    int content = lua_gettop(L);
    lua_newtable(L);
    lua_Integer count = list ? (lua_Integer)lua_rawlen(L, content) : lml_sorted_keys(L, content);
    for (lua_Integer i = 1; i <= count; i++) {
        char inner[PATH_MOST];
        if (list) {
            snprintf(inner, sizeof inner, "%s[%d]", path, (int)i);
            lua_rawgeti(L, content, i);
            lml_take_value(L, s->of, -1, inner);
            lua_rawseti(L, content + 1, i);
        } else {
            lua_rawgeti(L, content + 2, i);
            lml_need_text(L, -1, "a name");
            join_path(inner, path, lua_tostring(L, -1));
            lua_pushvalue(L, -1);
            lua_rawget(L, content);
            lml_take_value(L, s->of, -1, inner);
            lua_pushvalue(L, -3);
            lua_insert(L, -2);
            lua_rawset(L, content + 1);
        }
        lua_settop(L, list ? content + 1 : content + 2);
    }
    lua_settop(L, content + 1);
    lua_remove(L, content);
    lml_push_view(L, list ? LML_CLASS_LIST : LML_CLASS_RECORD, path);
}

void lml_take_value(lua_State *L, const lml_shape *s, int index, const char *path)
{
    index = lua_absindex(L, index);
    luaL_checkstack(L, 12, "a figure is nested too deep");
    lml_charge(L, 10);
    lml_error e;
    lml_wanted w = s->wanted;
    if (w == LML_WANT_ANYTHING) {
        lua_pushvalue(L, index);
        return;
    }
    if (w == LML_WANT_RECORD) {
        take_record(L, s, index, path);
        return;
    }
    if (w == LML_WANT_LIST || w == LML_WANT_BY_NAME) {
        take_entries(L, s, index, path);
        return;
    }
    if (lua_type(L, index) == LUA_TSTRING) {
        lml_take_text(L, s, lml_need_text(L, index, "a text"), path);
        return;
    }
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    bool ratio_number = v && v->kind == LML_QUANTITY && lml_dimension_none(v->dimension);
    if (v && has_unit(w)) {
        if (lml_wanted_check(w, v, &e))
            refuse(L, &e, NULL, path);
        check_bounds(L, s, v, path);
        lua_pushvalue(L, index);
        return;
    }
    if ((w == LML_WANT_NUMBER || w == LML_WANT_WHOLE) &&
        (lua_type(L, index) == LUA_TNUMBER || (w == LML_WANT_NUMBER && ratio_number))) {
        double x = ratio_number ? v->amount : lua_tonumber(L, index);
        lml_value n = lml_number(x);
        if (x - x != 0 || (w == LML_WANT_WHOLE && x != (double)(int64_t)x))
            refuse_kind(L, s, index, path);
        check_bounds(L, s, &n, path);
        lua_pushnumber(L, x);
        return;
    }
    if (w == LML_WANT_RATIO && lua_type(L, index) == LUA_TNUMBER) {
        lml_value r = lml_ratio(lua_tonumber(L, index));
        check_bounds(L, s, &r, path);
        lml_push_value(L, &r);
        return;
    }
    if (w == LML_WANT_YES_NO && lua_isboolean(L, index)) {
        lua_pushvalue(L, index);
        return;
    }
    if (w == LML_WANT_RING_SIZE && lml_test(L, index, LML_CLASS_RECORD)) {
        lua_pushvalue(L, index);
        return;
    }
    if ((w == LML_WANT_ALLOY && lml_test(L, index, LML_CLASS_ALLOY)) ||
        (w == LML_WANT_ASSAY && (lml_test(L, index, LML_CLASS_ASSAY) ||
                                 lml_test(L, index, LML_CLASS_ALLOY)))) {
        lua_pushvalue(L, index);
        return;
    }
    if (w == LML_WANT_ALLOY && lml_test_content(L, index)) {
        lml_alloy alloy;
        if (lml_alloy_from_table(L, -1, &alloy, &e))
            refuse(L, &e, NULL, path);
        lua_pop(L, 1);
        lml_push_alloy(L, &alloy);
        return;
    }
    if (w == LML_WANT_ASSAY && lml_test_content(L, index)) {
        lml_assay assay;
        if (lml_assay_from_table(L, -1, &assay, &e))
            refuse(L, &e, NULL, path);
        lua_pop(L, 1);
        lml_push_assay(L, &assay);
        return;
    }
    refuse_kind(L, s, index, path);
}

void lml_take_origin(lua_State *L, lml_origin origin)
{
    const lml_value *v = lml_test(L, -1, LML_CLASS_VALUE);
    if (!v)
        return;
    lml_value marked = *v;
    marked.origin = (uint8_t)origin;
    lua_pop(L, 1);
    lml_push_value(L, &marked);
}
