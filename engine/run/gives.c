#include "run/gives.h"

#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "cell/what.h"
#include "run/load.h"
#include "run/part.h"
#include "run/take.h"

#include <stdio.h>

void lml_gives_open(lua_State *L, int part, const lml_recipe *r)
{
    lua_pushlightuserdata(L, (void *)(uintptr_t)&r->gives);
    lua_setfield(L, part, "gives");
}

void lml_gives_withhold(lua_State *L, int part, const lml_recipe *r)
{
    lua_getfield(L, part, "withheld");
    for (size_t i = 0; i < r->gives.field_count; i++) {
        if (lua_getfield(L, -1, r->gives.fields[i].name) == LUA_TNIL) {
            lua_pushfstring(L, "%s/stopped", r->name);
            lua_setfield(L, -3, r->gives.fields[i].name);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

static bool is_no_give(lua_State *L, const void *recipe)
{
    const lml_recipe *r = recipe;
    return lua_type(L, -2) != LUA_TSTRING ||
           !lml_shape_field_named(&r->gives, lml_what_need_text(L, -2, "a name"));
}

/* Two figures in a give may be called alike: a long name is cut, and "a.b" may be one name or two.
 */
static void keep_step(lua_State *L, int part, const char *called, uint32_t step)
{
    lua_getfield(L, part, "numbers");
    if (lua_getfield(L, -1, called) == LUA_TNUMBER)
        step = lml_trace_both(L, (uint32_t)lua_tointeger(L, -1), step);
    lua_pushinteger(L, (lua_Integer)step);
    lua_setfield(L, -3, called);
    lua_pop(L, 2);
}

/* A bare number or a text is no block that could be known again: its step is kept beside it, also
 * of one in a list, and of the keys of a record. On top of the stack is the figure; the function of
 * the recipe begins in the line. */
static void keep_numbers(lua_State *L, int part, const char *shown, const char *called, int line,
                         int depth)
{
    const int type = lua_type(L, -1), top = lua_gettop(L);
    if (type == LUA_TNUMBER || type == LUA_TSTRING) {
        uint32_t step = depth == 0 ? lml_trace_bare(L, -1, shown, line)
                                   : lml_trace_bare_within(L, -1, shown, line);
        if (step)
            keep_step(L, part, called, step);
        return;
    }
    if (depth > LML_PART_DEEP || !lml_view_test_content(L, -1))
        return;
    lml_box_need_stack(L, 8);
    const lua_Integer keys = lml_key_push_sorted(L, top + 1);
    for (lua_Integer i = 1; i <= keys; i++) {
        char inner[LML_PART_NAME], key[LML_PART_NAME];
        lua_rawgeti(L, top + 2, i);
        lml_part_name_member(L, called, -1, inner);
        lml_part_name_key(inner, key);
        if (lua_type(L, -1) == LUA_TSTRING)
            keep_numbers(L, part, shown, key, line, depth + 1);
        lua_rawget(L, top + 1);
        keep_numbers(L, part, shown, inner, line, depth + 1);
        lua_settop(L, top + 2);
    }
    lua_settop(L, top);
}

/* What a rule answers is its point's: it declares no gives of its own. */
static void refuse_answer(const lml_recipe *r, const char *returned, lml_error *err)
{
    char names[200] = "";
    for (size_t i = 0, used = 0; i < r->gives.field_count && used < sizeof names; i++)
        used += (size_t)snprintf(names + used, sizeof names - used, "%s%s", used ? ", " : "",
                                 r->gives.fields[i].name);
    lml_fail(err, LML_BAD_RECIPE, "%s: work returns '%s', which the point '%s' does not answer",
             r->name, returned, r->rule);
    lml_error_hint(err, "it answers: %s", names);
}

static void refuse_name(lua_State *L, const lml_recipe *r)
{
    lml_error e;
    lml_what_push_text(L, -1);
    if (r->rule) {
        refuse_answer(r, lua_tostring(L, -1), &e);
    } else {
        lml_fail(&e, LML_BAD_RECIPE, "%s: work returns '%s', which gives does not declare", r->name,
                 lua_tostring(L, -1));
        lml_error_hint(&e, "write %s = give.mass \"...\" (or its kind) under gives",
                       lua_tostring(L, -1));
    }
    lml_raise_as_is(L, &e);
}

/* Push what the table at index `returned` has of each give, or nil. Returns how many it has; raises
 * if it has anything else. */
static size_t push_returned(lua_State *L, int returned, const lml_recipe *r)
{
    lml_error e;
    size_t given = 0;
    if (!lua_istable(L, returned)) {
        lml_fail(&e, LML_BAD_RECIPE, "%s: work returns %s, but a table of its gives is needed",
                 r->name, lml_what_is(L, returned));
        lml_error_hint(&e, "end it with: return { %s = ... }",
                       r->gives.field_count ? r->gives.fields[0].name : "name");
        lml_raise_as_is(L, &e);
    }
    lml_box_need_stack(L, (int)r->gives.field_count + 12);
    for (size_t i = 0; i < r->gives.field_count; i++)
        given += lua_getfield(L, returned, r->gives.fields[i].name) != LUA_TNIL;
    if (lml_key_has_more(L, returned, given) && lml_key_find_odd(L, returned, is_no_give, r))
        refuse_name(L, r);
    return given;
}

/* Push the value at the index as the give takes it. */
static void push_taken(lua_State *L, int part, int index, const lml_recipe *r, const lml_shape *f,
                       int line)
{
    char gives[120], path[120];
    if (!lml_take_at_once(L, f, index)) {
        lml_text_join(gives, sizeof gives, r->name, " gives '", f->name);
        lml_text_join(path, sizeof path, gives, "'", "");
        lml_take_value(L, f, index, path);
    }
    if (lml_box_of(L)->trace)
        keep_numbers(L, part, lml_load_need_item(L, LML_PUT_RECIPE, r->name)->shown, f->name, line,
                     0);
}

/* Check the table at index `returned` against the gives and set part.results, and part.whole where
 * none of them is left out, as a withheld figure may be; if that is there it is kept, for the
 * sheets to know where it was printed. */
void lml_gives_take(lua_State *L, int part, int returned, const lml_recipe *r, int line)
{
    lml_error e;
    const int first = lua_gettop(L) + 1;
    const size_t given = push_returned(L, returned, r);
    lua_createtable(L, 0, (int)given);
    lua_getfield(L, part, "withheld");
    const int withheld = lua_gettop(L), results = withheld - 1;
    for (size_t i = 0; i < r->gives.field_count; i++, lua_settop(L, withheld)) {
        const lml_shape *f = &r->gives.fields[i];
        if (!lua_isnil(L, first + (int)i)) {
            push_taken(L, part, first + (int)i, r, f, line);
            lua_setfield(L, results, f->name);
        } else if (lua_getfield(L, withheld, f->name) == LUA_TNIL && !f->optional) {
            lml_fail(&e, LML_BAD_RECIPE, "%s gives '%s' (%s), but work did not return it", r->name,
                     f->name, f->title);
            lml_error_hint(&e, "put %s = ... into the table that work returns", f->name);
            lml_raise_as_is(L, &e);
        }
    }
    lua_pushboolean(L, given == r->gives.field_count);
    lua_setfield(L, part, "whole");
    lua_settop(L, results);
    lua_setfield(L, part, "results");
    lua_settop(L, first - 1);
}

/* As they are where all of them are there: nothing writes to a part's results. */
void lml_gives_push(lua_State *L, int part, const lml_recipe *r)
{
    const int top = lua_gettop(L);
    lua_getfield(L, part, "whole");
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    lua_pushnil(L);
    if (lua_toboolean(L, top + 1) && !lua_next(L, top + 2)) {
        lua_replace(L, top + 1);
        lua_settop(L, top + 1);
        lml_view_push(L, LML_CLASS_RECORD, r->name);
        return;
    }
    lua_settop(L, top);
    lua_createtable(L, 0, (int)r->gives.field_count);
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    for (size_t i = 0; i < r->gives.field_count; i++) {
        const char *name = r->gives.fields[i].name;
        if (lua_getfield(L, -2, name) != LUA_TNIL) {
            lml_view_push_withheld(L);
        } else if (lua_getfield(L, -2, name) == LUA_TNIL) {
            lua_pop(L, 1);
            lml_view_push_absent(L);
        }
        lua_setfield(L, -5, name);
        lua_pop(L, 1);
    }
    lua_pop(L, 2);
    lml_view_push(L, LML_CLASS_RECORD, r->name);
}
