/* Q and the functions over values: sum max min mean abs root exp log floor ceil, and the makers of
 * what no text can write. */
#include "base/real.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/word.h"
#include "words/bind.h"
#include "cell/view.h"
#include "cell/what.h"

#include "value/arithmetic.h"
#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"
#include "words/lib.h"
#include "value/power.h"
#include "value/compare.h"
#include "value/mean.h"

#include <math.h>
#include <string.h>

/* ---- Q -----------------------------------------------------------------------------------------
 */

static int q(lua_State *L)
{
    if (lua_type(L, 1) != LUA_TSTRING)
        return lml_raise_hint(L, LML_BAD_RECIPE, "write Q \"12.5 g\"",
                              "Q needs a value in quotes, but was given %s", lml_what_is(L, 1));
    lml_figure_push_read(L, 1);
    return 1;
}

/* fineness("Au", ratio) */
static int fineness(lua_State *L)
{
    lml_metal metal = lml_what_metal(L, 1);
    double part = lml_figure_amount(L, 2, LML_WANT_RATIO, "the part of the metal");
    if (!(part >= 0 && part <= 1))
        return lml_raise_text(L, LML_BAD_VALUE, "a fineness is between 0 and 1000 ‰");
    lml_value v = {.kind = LML_FINENESS, .metal = (uint8_t)metal, .decimals = LML_SHORTEST};
    lml_dimension none;
    lml_unit_read(lml_span_of("‰"), &v.unit, &none, NULL);
    v.amount = part;
    lml_figure_push(L, &v);
    return 1;
}

/* ---- over many ---------------------------------------------------------------------------------
 */

/* Push the item at i of the list at index `list`, or its member or function value as argument 2
 * says: sum(pieces), sum(pieces, "fine"), sum(pieces, function(p) return p.fine * 2 end). */
static void push_item(lua_State *L, int list, lua_Integer i)
{
    lml_box_charge(L, 2);
    lua_rawgeti(L, list, i);
    if (lua_type(L, 2) == LUA_TSTRING) {
        lua_pushvalue(L, 2);
        lua_gettable(L, -2);
        if (lua_isnil(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "item %d of the list has no '%s'", (int)i,
                           lua_tostring(L, 2));
        lua_remove(L, -2);
        lml_trace_term(L, -1);
    } else if (lua_isfunction(L, 2)) {
        lua_pushvalue(L, 2);
        lua_insert(L, -2);
        lua_call(L, 1, 1);
        lml_trace_term(L, -1);
    }
}

static lua_Integer list_of(lua_State *L, const char *who)
{
    lua_settop(L, 2);
    lml_view_push_content(L, 1, who);
    lua_Integer n = (lua_Integer)lua_rawlen(L, -1);
    lml_box_charge(L, 5);
    return n;
}

/* The sum of a list; of an empty list the number 0, which adds to nothing but numbers and ratios.
 * One that could not be added to another of its kind is refused alone too: else a rule holds until
 * a second piece comes in. */
static int sum(lua_State *L)
{
    lua_Integer n = list_of(L, "sum");
    lml_value total = lml_value_number(0), room;
    for (lua_Integer i = 1; i <= n; i++) {
        push_item(L, 3, i);
        const lml_value *v = lml_figure_check(L, -1, &room);
        lml_value next = *v;
        lml_error e;
        if (i > 1 && lml_arithmetic_add(&total, v, &next, &e))
            return lml_raise(L, &e);
        total = next;
        lua_pop(L, 1);
    }
    lml_error e;
    if (n == 1 && lml_arithmetic_add(&total, &total, &room, &e) == LML_MISMATCH)
        return lml_raise(L, &e);
    if (n == 1 && total.kind != LML_NUMBER) { /* as after an addition */
        total.spread = LML_NO_SPREAD;
        total.origin = LML_UNSTATED;
        total.decimals = LML_SHORTEST;
    }
    lml_figure_push(L, &total);
    return 1;
}

static int extreme(lua_State *L, int sign)
{
    int n = lua_gettop(L);
    if (n == 0)
        return lml_raise_text(L, LML_BAD_RECIPE, "max and min need at least one value");
    int best = 1;
    for (int i = 1; i <= n; i++) {
        lml_box_charge(L, 1);
        lml_value room_a, room_b;
        const lml_value *a = lml_figure_check(L, i, &room_a),
                        *b = lml_figure_check(L, best, &room_b);
        int order;
        lml_error e;
        if (lml_compare(a, b, &order, &e))
            return lml_raise_operands(L, &e, i, best);
        if (order * sign > 0)
            best = i;
    }
    if (lua_type(L, best) == LUA_TSTRING)
        lml_figure_push_read(L, best);
    else
        lua_pushvalue(L, best);
    return 1;
}

static int largest(lua_State *L)
{
    return extreme(L, 1);
}

static int smallest(lua_State *L)
{
    return extreme(L, -1);
}

enum { MEAN_MOST = 10000 };

static int mean(lua_State *L)
{
    lua_Integer n = list_of(L, "mean");
    if (n < 1 || n > MEAN_MOST)
        return lml_raise_text(L, LML_BAD_RECIPE, "mean takes a list of 1 to %d values", MEAN_MOST);
    lml_value *values = lua_newuserdatauv(L, (size_t)n * sizeof *values, 0);
    for (lua_Integer i = 1; i <= n; i++) {
        lml_value room;
        push_item(L, 3, i);
        values[i - 1] = *lml_figure_check(L, -1, &room);
        lua_pop(L, 1);
    }
    lml_value out;
    lml_error e;
    if (lml_mean(values, (size_t)n, &out, &e))
        return lml_raise(L, &e);
    lml_figure_push(L, &out);
    return 1;
}

static int absolute(lua_State *L)
{
    lml_value room, out;
    lml_error e;
    if (lml_arithmetic_absolute(lml_figure_check(L, 1, &room), &out, &e))
        return lml_raise(L, &e);
    lml_figure_push(L, &out);
    return 1;
}

static int root(lua_State *L)
{
    lml_value room, out;
    lml_error e;
    lua_Integer degree = luaL_optinteger(L, 2, 2);
    int known = degree >= 1 && degree < 100 ? (int)degree : 0; /* of which there is no root */
    if (lml_power_root(lml_figure_check(L, 1, &room), known, &out, &e))
        return lml_raise(L, &e);
    lml_figure_push(L, &out);
    return 1;
}

static int push_finite(lua_State *L, double x, const char *who)
{
    if (!isfinite(x))
        return lml_raise_text(L, LML_OVERFLOW, "%s has no finite result here", who);
    lua_pushnumber(L, x);
    return 1;
}

static int exponential(lua_State *L)
{
    return push_finite(L, lml_real_exp(lml_figure_amount(L, 1, LML_WANT_NUMBER, "exp")), "exp");
}

static int logarithm(lua_State *L)
{
    return push_finite(L, lml_real_log(lml_figure_amount(L, 1, LML_WANT_NUMBER, "log")), "log");
}

static int round_down(lua_State *L)
{
    return push_finite(L, floor(lml_figure_amount(L, 1, LML_WANT_NUMBER, "floor")), "floor");
}

static int round_up(lua_State *L)
{
    return push_finite(L, ceil(lml_figure_amount(L, 1, LML_WANT_NUMBER, "ceil")), "ceil");
}

const lml_word lml_lib_value[] = {
    {"Q", q, "text: string|value", "value", "The value that a text says.",
     "Q \"2 dwt\" + Q \"1 g\"", "2.64301493137256 dwt"},
    {"abs", absolute, "v: value|number", "value", "The absolute value.",
     "abs(Q \"2 g\" - Q \"5 g\")", "3 g"},
    {"ceil", round_up, "x: number", "number", "Rounded up to a whole number.", "ceil(2.1)", "3"},
    {"exp", exponential, "x: number", "number", "e to that power.", "exp(0)", "1"},
    {"fineness", fineness, "metal: string, ratio: value|number", "value",
     "A fineness of that metal.", "fineness(\"Au\", 0.75)", "750 ‰ Au"},
    {"floor", round_down, "x: number", "number", "Rounded down to a whole number.", "floor(2.9)",
     "2"},
    {"log", logarithm, "x: number", "number", "The natural logarithm.", "log(1)", "0"},
    {"max", largest, "...: value|number", "value", "The largest of them.",
     "max(Q \"2 g\", Q \"1 dwt\")", "2 g"},
    {"mean", mean, "list: value[]", "value",
     "The mean of a list, also of temperatures, which cannot be summed.",
     "mean { Q \"20 °C\", Q \"30 °C\" }", "25 °C"},
    {"min", smallest, "...: value|number", "value", "The smallest of them.",
     "min(Q \"2 g\", Q \"1 dwt\")", "1 dwt"},
    {"root", root, "v: value|number, n?: number", "value", "The square root, or the nth.",
     "root(Q \"9 mm2\")", "3 mm"},
    {"sum", sum, "list: any[], of?: string|function", "value",
     "The sum; with a name of that member of each item, with a function of its result for each.",
     "sum({ { fine = Q \"2 g\" }, { fine = Q \"3 g\" } }, \"fine\")", "5 g"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

/* ---- checks ------------------------------------------------------------------------------------
 */
