/* Pictures of a page: a curve over time, and a body in its vessel.
 *
 * A picture is data. What cannot be is refused here, so that no face of a sheet has to doubt it: a
 * curve that goes back in time. A flow is in bind_sheet_flow.c.
 */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "run/bind_sheet.h"
#include "run/part.h"
#include "shelf/house_unit.h"
#include "shelf/shelf.h"
#include "value/compare.h"
#include "value/show.h"
#include "value/step.h"

#include <stdio.h>
#include <string.h>

enum { STEPS_MOST = 60, READS_MOST = 24 };

/* Copy a value of the table at `from` into that at `to`: of that kind, or of any. The value, kept
 * in *room, or NULL where it is left out. */
static const lml_value *take(lua_State *L, int from, const char *name, const char *whose,
                             lml_wanted wanted, int to, lml_value *room)
{
    lml_error e;
    const lml_value *v = lml_bind_sheet_push_option(L, from, name, whose, room);
    if (!v) {
        lua_pop(L, 1);
        return NULL;
    }
    if (wanted != LML_WANT_ANYTHING && lml_wanted_check(wanted, v, &e)) {
        lml_error_context(&e, e.status, "'%s' of %s", name, whose);
        lml_raise(L, &e);
    }
    if (v != room)
        *room = *v;
    lml_box_charge(L, LML_BIND_SHEET_OPTION);
    lua_setfield(L, to, name);
    return room;
}

static const lml_value *need(lua_State *L, int from, const char *name, const char *whose,
                             lml_wanted wanted, int to, lml_value *room)
{
    const lml_value *v = take(L, from, name, whose, wanted, to, room);
    if (!v)
        lml_raise_text(L, LML_BAD_RECIPE, "%s has no '%s'", whose, name);
    return v;
}

static void need_alike(lua_State *L, const lml_value *v, const lml_value *first, const char *name,
                       const char *whose)
{
    int order;
    lml_error e;
    if (lml_compare(v, first, &order, &e) == LML_OK)
        return;
    lml_error_context(&e, e.status, "'%s' of %s", name, whose);
    lml_raise(L, &e);
}

/* Push the list of that name, as it can be read by number; how many it has, from 1 to `most`. */
static lua_Integer push_list(lua_State *L, int from, const char *name, const char *whose, int most)
{
    lua_getfield(L, from, name);
    if (!lml_view_test_content(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "'%s' of %s is a list, and %s was given", name, whose,
                       lml_what_is(L, -1));
    lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
    if (count < 1 || count > most)
        lml_raise_text(L, LML_BAD_RECIPE, "'%s' of %s has 1 to %d entries, and not %d", name, whose,
                       most, (int)count);
    return count;
}

/* Push the content of the entry `i` of the list on top of the stack. */
static int push_entry(lua_State *L, lua_Integer i, const char *whose)
{
    lml_box_charge(L, LML_BIND_SHEET_ENTRY);
    lml_box_need_stack(L, 12);
    lua_rawgeti(L, -1, i);
    if (!lml_view_test_content(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "%s is a table, and %s was given", whose,
                       lml_what_is(L, -1));
    lua_remove(L, -2);
    return lua_gettop(L);
}

/* ---- curve ------------------------------------------------------------------------------------
 */

static void refuse_back(lua_State *L, const char *whose, const char *does, const lml_value *a,
                        const char *before, const lml_value *b)
{
    char one[60], other[60];
    lml_raise_hint(L, LML_BAD_RECIPE, "give the steps in the order in which they are run",
                   "the curve goes back in time: %s %s at %s, and %s at %s", whose, does,
                   lml_bind_sheet_shown(a, one, sizeof one), before,
                   lml_bind_sheet_shown(b, other, sizeof other));
}

/* Where the curve has come to: its last value, and when. */
typedef struct reached {
    lml_value value, at;
} reached;

static void put_step(lua_State *L, int i, reached *last, int steps)
{
    char whose[40];
    lml_value to, begins, there, ends, room;
    snprintf(whose, sizeof whose, "step %d of a curve", i);
    int step = push_entry(L, i, whose), out = step + 1;
    lua_createtable(L, 0, 8);
    need_alike(L, need(L, step, "to", whose, LML_WANT_ANYTHING, out, &to), &last->value, "to",
               whose);
    need(L, step, "begins", whose, LML_WANT_MOMENT, out, &begins);
    need(L, step, "there", whose, LML_WANT_MOMENT, out, &there);
    need(L, step, "ends", whose, LML_WANT_MOMENT, out, &ends);
    take(L, step, "rate", whose, LML_WANT_ANYTHING, out, &room);
    take(L, step, "hold", whose, LML_WANT_TIME, out, &room);
    if (lml_bind_sheet_push_words(L, step, "name", whose))
        lua_setfield(L, out, "name");
    lua_settop(L, out);
    if (last->at.kind == LML_MOMENT && begins.exact < last->at.exact)
        refuse_back(L, whose, "begins", &begins, "what is before it ends", &last->at);
    if (there.exact < begins.exact)
        refuse_back(L, whose, "is there", &there, "it begins", &begins);
    if (ends.exact < there.exact)
        refuse_back(L, whose, "ends", &ends, "it is there", &there);
    int order = 0;
    if (lml_compare(&to, &last->value, &order, NULL) == LML_OK && order < 0) {
        lua_pushboolean(L, 1);
        lua_setfield(L, out, "down");
    }
    *last = (reached){to, ends};
    lua_rawseti(L, steps, i);
    lua_settop(L, step - 1);
}

/* What an instrument reads at some moments: { at = ..., value = ... }. */
static void put_reads(lua_State *L, int entry, const lml_value *from)
{
    static const char whose[] = "a reading of a curve";
    if (lua_getfield(L, 2, "reads") == LUA_TNIL) {
        lua_pop(L, 1);
        return;
    }
    lua_pop(L, 1);
    lua_Integer count = push_list(L, 2, "reads", "a curve", READS_MOST);
    int list = lua_gettop(L);
    lua_createtable(L, (int)count, 0);
    lua_insert(L, list);
    for (int i = 1; i <= (int)count; i++) {
        lml_value value, at;
        int read = push_entry(L, i, whose);
        lua_createtable(L, 0, 2);
        need(L, read, "at", whose, LML_WANT_MOMENT, read + 1, &at);
        need_alike(L, need(L, read, "value", whose, LML_WANT_ANYTHING, read + 1, &value), from,
                   "value", whose);
        lua_rawseti(L, list, i);
        lua_settop(L, read - 1);
    }
    lua_pushvalue(L, list);
    lua_setfield(L, entry, "reads");
    lua_settop(L, entry);
}

/* The hours in which nobody is there: { from = "22:00", to = "06:30" }. */
static void put_nobody(lua_State *L, int entry)
{
    static const char whose[] = "'nobody' of a curve";
    if (lua_getfield(L, 2, "nobody") == LUA_TNIL) {
        lua_settop(L, entry);
        return;
    }
    if (!lml_view_test_content(L, -1))
        lml_raise_hint(L, LML_BAD_RECIPE, "write nobody = { from = \"22:00\", to = \"06:30\" }",
                       "%s is a table, and %s was given", whose, lml_what_is(L, -1));
    lml_value room;
    int hours = lua_gettop(L);
    lua_createtable(L, 0, 2);
    need(L, hours, "from", whose, LML_WANT_TIME_OF_DAY, hours + 1, &room);
    need(L, hours, "to", whose, LML_WANT_TIME_OF_DAY, hours + 1, &room);
    lua_setfield(L, entry, "nobody");
    lua_settop(L, entry);
}

int lml_bind_sheet_curve(lua_State *L)
{
    static const char *const known[] = {"title",  "of",         "from",  "loaded", "steps",
                                        "nobody", "alone_most", "reads", "unit",   NULL};
    static const char whose[] = "a curve";
    lml_value from, room;
    reached last = {.at = lml_value_number(0)};
    int entry = lml_bind_sheet_begin_picture(L, "curve", whose, known);
    last.value = *need(L, 2, "from", whose, LML_WANT_ANYTHING, entry, &from);
    take(L, 2, "loaded", whose, LML_WANT_MOMENT, entry, &room);
    const lml_value *most = take(L, 2, "alone_most", whose, LML_WANT_ANYTHING, entry, &room);
    if (most)
        need_alike(L, most, &from, "alone_most", whose);
    if (lml_bind_sheet_push_words(L, 2, "unit", whose))
        lua_setfield(L, entry, "unit");
    lua_settop(L, entry);
    put_nobody(L, entry);
    put_reads(L, entry, &from);
    lua_Integer count = push_list(L, 2, "steps", whose, STEPS_MOST);
    int list = lua_gettop(L);
    lua_createtable(L, (int)count, 0);
    lua_insert(L, list);
    for (int i = 1; i <= (int)count; i++)
        put_step(L, i, &last, list);
    lua_pushvalue(L, list);
    lua_setfield(L, entry, "steps");
    lua_settop(L, entry);
    return lml_bind_sheet_end(L);
}

/* ---- section ----------------------------------------------------------------------------------
 */

/* Copy the body of revolution `name` of the picture: { name, diameter, height, foot }. */
static void put_body(lua_State *L, int entry, const char *name, lml_value *diameter,
                     lml_value *height, lml_value *foot)
{
    char whose[60];
    lml_text_join(whose, sizeof whose, "the ", name, " of a section");
    lua_getfield(L, 2, name);
    if (!lml_view_test_content(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "%s is a table, and %s was given", whose,
                       lml_what_is(L, -1));
    int from = lua_gettop(L), to = from + 1;
    lua_createtable(L, 0, 4);
    need(L, from, "diameter", whose, LML_WANT_LENGTH, to, diameter);
    need(L, from, "height", whose, LML_WANT_LENGTH, to, height);
    *foot = lml_value_quantity(0, height->dimension, height->unit);
    take(L, from, "foot", whose, LML_WANT_LENGTH, to, foot);
    if (lml_bind_sheet_push_words(L, from, "name", whose))
        lua_setfield(L, to, "name");
    lua_settop(L, to);
    if (diameter->amount <= 0 || height->amount <= 0 || foot->amount < 0)
        lml_raise_text(L, LML_BAD_RECIPE, "%s has a size that is nothing or negative", whose);
    lua_setfield(L, entry, name);
    lua_settop(L, entry);
}

/* A length in the house's unit, down to a thousandth of it: a difference has digits that nobody can
 * measure. */
static lml_value readable(lua_State *L, const lml_value *v)
{
    char apart[LML_UNIT_TEXT];
    lml_span unit = lml_house_unit(lml_shelf_house_in(L), LML_WANT_LENGTH, apart);
    lml_value fine = *v, out;
    if (unit.length > 0 && lml_show_value_in(v, unit, &fine, NULL))
        fine = *v;
    fine.decimals = 3;
    if (lml_step_to_decimals(&fine, LML_TO_DOWN, &out, NULL))
        return *v;
    out.decimals = LML_SHORTEST;
    return out;
}

/* What lies between body and vessel, { value, least, under }, under that name in the entry. */
static void put_clearance(lua_State *L, int entry, int least, const char *name, double si,
                          const lml_value *like)
{
    static const double NOISE = 1e-9; /* metres */
    lml_value room, value = lml_value_quantity(si, like->dimension, like->unit);
    value = readable(L, &value);
    lua_createtable(L, 0, 3);
    int out = lua_gettop(L);
    lml_figure_push(L, &value);
    lua_setfield(L, out, "value");
    const lml_value *v =
        least ? lml_bind_sheet_push_option(L, least, name, "'least' of a section", &room) : NULL;
    lml_error e;
    if (v) {
        if (lml_wanted_check(LML_WANT_LENGTH, v, &e)) {
            lml_error_context(&e, e.status, "'%s' in 'least' of a section", name);
            lml_raise(L, &e);
        }
        lua_pushboolean(L, si < v->amount - NOISE);
        lua_setfield(L, out, "under");
        lua_setfield(L, out, "least");
    }
    lua_settop(L, out);
    lua_setfield(L, entry, name);
}

/* page:section { vessel = flask, body = tree, least = { wall = ..., top = ... }, fill = "rim", over
 * = ... } */
int lml_bind_sheet_section(lua_State *L)
{
    static const char *const known[] = {"title", "of",   "vessel", "body",
                                        "least", "fill", "over",   NULL};
    static const char whose[] = "a section";
    lml_value width, height, none, across, high, foot, room;
    lml_error e;
    int entry = lml_bind_sheet_begin_picture(L, "section", whose, known);
    put_body(L, entry, "vessel", &width, &height, &none);
    put_body(L, entry, "body", &across, &high, &foot);
    int least = 0;
    if (lua_getfield(L, 2, "least") != LUA_TNIL) {
        if (!lml_view_test_content(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "'least' of a section is { wall = ..., top = ... }");
        least = lua_gettop(L);
    }
    put_clearance(L, entry, least, "wall", (width.amount - across.amount) / 2, &width);
    put_clearance(L, entry, least, "top", height.amount - foot.amount - high.amount, &height);
    lua_settop(L, entry);
    if (lua_getfield(L, 2, "fill") == LUA_TSTRING &&
        lml_span_is(lml_what_need_text(L, -1, "'fill'"), "rim")) {
        height = lml_value_bare(&height);
        lml_figure_push(L, &height);
        lua_setfield(L, entry, "fill");
    } else if (!lua_isnil(L, -1)) {
        const lml_value *v = take(L, 2, "fill", whose, LML_WANT_LENGTH, entry, &room);
        if (v->amount < 0 || v->amount > height.amount)
            lml_raise_text(L, LML_BAD_RECIPE,
                           "'fill' of a section is above the rim of the vessel, or negative");
    }
    lua_settop(L, entry);
    const lml_value *over = take(L, 2, "over", whose, LML_WANT_ANYTHING, entry, &room);
    if (over && lml_wanted_check(LML_WANT_LENGTH, over, NULL) &&
        lml_wanted_check(LML_WANT_RATIO, over, &e))
        lml_raise_text(L, LML_BAD_RECIPE,
                       "'over' of a section is a length, or a share of what it holds");
    return lml_bind_sheet_end(L);
}
