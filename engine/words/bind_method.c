/* The methods of values: value:up_to "0.1 g" and the like. */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/word.h"
#include "words/bind.h"
#include "shelf/house_unit.h"
#include "shelf/shelf.h"
#include "cell/view.h"
#include "cell/what.h"

#include "value/value.h"
#include "value/moment.h"
#include "read/memo.h"
#include "value/money.h"
#include "value/show.h"
#include "value/wanted.h"
#include "value/compare.h"
#include "value/step.h"
#include "value/fineness.h"
#include "cell/key.h"

enum { METHOD = 15 };

static const lml_value *self(lua_State *L)
{
    lml_box_charge(L, METHOD);
    const lml_value *v = lml_class_test(L, 1, LML_CLASS_VALUE);
    if (!v)
        lml_raise_hint(L, LML_BAD_RECIPE, "call it with a colon: value:up_to \"0.1 g\"",
                       "a value is needed before the colon, but %s was given", lml_what_is(L, 1));
    return v;
}

static int to_step(lua_State *L, lml_direction direction)
{
    const lml_value *v = self(L);
    lml_value room, out;
    lml_error e;
    if (lml_step_round(v, lml_figure_check(L, 2, &room), direction, &out, &e))
        return lml_raise(L, &e);
    lml_figure_push(L, &out);
    return 1;
}

static int value_up_to(lua_State *L)
{
    return to_step(L, LML_TO_UP);
}

static int value_down_to(lua_State *L)
{
    return to_step(L, LML_TO_DOWN);
}

static int value_nearest(lua_State *L)
{
    return to_step(L, LML_TO_NEAREST);
}

static lml_value in_unit(lua_State *L, const lml_value *v)
{
    lml_value out;
    lml_error e;
    if (lml_write_as(v, lml_what_need_text(L, 2, "a unit in quotes"), &out, &e))
        lml_raise(L, &e);
    return out;
}

static int value_as(lua_State *L)
{
    lml_value out = in_unit(L, self(L));
    out.kept = true;
    lml_figure_push(L, &out);
    return 1;
}

/* value:as_house("vacuum", "0.01 inHg"): for a figure in a sentence, in the unit that
 * the house prints this kind in, with the decimals that tell such steps apart there. Where the
 * house says no unit, and in a proof, which does not look at the house, it is rounded to the step
 * as by nearest. With "up" or "down" no figure is printed below or above the value, in no unit. */
static lml_direction direction_at(lua_State *L, int index)
{
    static const char *const names[] = {
        [LML_TO_NEAREST] = "nearest", [LML_TO_UP] = "up", [LML_TO_DOWN] = "down", NULL};
    return (lml_direction)luaL_checkoption(L, index, "nearest", names);
}

static int value_as_house(lua_State *L)
{
    const lml_value *v = self(L);
    lml_span kind = lml_what_need_text(L, 2, "a kind in quotes, such as \"vacuum\"");
    lml_wanted wanted = lml_wanted_by_name(kind);
    if (wanted >= LML_WANT_NUMBER)
        return lml_raise_hint(L, LML_BAD_RECIPE, "such as mass, length, temperature or vacuum",
                              "'%.*s' is not a kind of figure with a unit", (int)kind.length,
                              kind.at);
    lml_value room, rounded, out;
    lml_error e;
    lml_direction direction = direction_at(L, 4);
    if (lml_step_round(v, lml_figure_check(L, 3, &room), direction, &rounded, &e))
        return lml_raise(L, &e);
    out = rounded;
    char apart[LML_UNIT_TEXT];
    lml_span unit = lml_house_unit(lml_shelf_house_in(L), wanted, apart);
    if (unit.length > 0) {
        if (lml_show_value_in(&rounded, unit, &out, &e))
            return lml_raise(L, &e);
        out.amount = v->amount; /* 990 mbar that were read are not printed as 989.8 */
        rounded = out;
        if (direction != LML_TO_NEAREST && out.decimals != LML_SHORTEST &&
            lml_step_to_decimals(&rounded, direction, &out, &e))
            return lml_raise(L, &e);
    }
    lml_figure_push(L, &out);
    return 1;
}

/* The bare number of the value in a unit: the one way out of units, and it names the unit. */
static int value_number(lua_State *L)
{
    const lml_value *v = self(L);
    if (lua_isnoneornil(L, 2)) {
        if (v->kind == LML_QUANTITY && lml_dimension_none(v->dimension)) {
            lua_pushnumber(L, v->amount);
            return 1;
        }
        return lml_raise_hint(L, LML_BAD_RECIPE, "write value:number \"g\"",
                              "the number of %s depends on the unit, but none is named",
                              lml_what_is(L, 1));
    }
    double number;
    lml_error e;
    if (lml_write_number_in(v, lml_what_need_text(L, 2, "a unit in quotes"), &number, &e))
        return lml_raise(L, &e);
    lua_pushnumber(L, number);
    return 1;
}

static int value_is_zero(lua_State *L)
{
    lua_pushboolean(L, lml_compare_is_zero(self(L)));
    return 1;
}

static int value_metal_in(lua_State *L)
{
    const lml_value *v = self(L);
    lml_value room, out;
    lml_error e;
    if (lml_fineness_mass(v, lml_figure_check(L, 2, &room), &out, &e))
        return lml_raise_operands(L, &e, 1, 2);
    lml_figure_push(L, &out);
    return 1;
}

/* value:from "client says": the same figure with the word that is printed beside it. */
static int value_from(lua_State *L)
{
    lml_value v = *self(L);
    lml_span word = lml_what_need_text(L, 2, "where the figure came from");
#define X(name, words)                                                                             \
    if (lml_span_is(word, words)) {                                                                \
        v.origin = LML_##name;                                                                     \
        lml_figure_push(L, &v);                                                                    \
        return 1;                                                                                  \
    }
    LML_ORIGIN_MAP(X)
#undef X
    return lml_raise_hint(L, LML_BAD_RECIPE,
                          "assumed, client says, stamp says, weighed here, measured here, assay "
                          "report, supplier sheet, studio history, estimated",
                          "\"%.*s\" is not one of the origins", (int)word.length, word.at);
}

/* The same kind of value with another amount, for the ends of a spread. */
static int push_amount(lua_State *L, const lml_value *v, double amount)
{
    lml_value out = *v;
    out.spread = LML_NO_SPREAD;
    out.decimals = LML_SHORTEST;
    out.amount = amount;
    lml_figure_push(L, &out);
    return 1;
}

static bool has_amount(const lml_value *v)
{
    return v->kind <= LML_FINE_MASS;
}

/* One standard deviation; of "12.3..12.5 g" that of an even spread. Zero when none was given. */
static int value_deviation(lua_State *L)
{
    const lml_value *v = self(L);
    if (!has_amount(v))
        return lml_raise_text(L, LML_BAD_RECIPE, "%s has no spread", lml_what_is(L, 1));
    double deviation = lml_value_deviation(v);
    lml_value out = *v;
    if (v->kind == LML_TEMPERATURE) {
        out = lml_value_quantity(deviation, (lml_dimension){.temperature = 1},
                                 lml_unit_usual((lml_dimension){.temperature = 1}));
    } else if (v->kind == LML_FINENESS) {
        out.kind = LML_FINENESS_DIFFERENCE;
    }
    return push_amount(L, &out, deviation);
}

/* An end of what it may be; of a value without a range that is the value. */
static int push_end(lua_State *L, const lml_value *v, bool low)
{
    if (v->spread == LML_BETWEEN)
        return push_amount(L, v, low ? v->low : v->high);
    lua_pushvalue(L, 1);
    return 1;
}

static int value_low(lua_State *L)
{
    return push_end(L, self(L), true);
}

static int value_high(lua_State *L)
{
    return push_end(L, self(L), false);
}

/* money:rounded "half up" to what can be paid; money:rounded("half up", "0.05 USD") to a cash step.
 */
static int value_rounded(lua_State *L)
{
    const lml_value *v = self(L);
    lml_rounding mode;
    lml_value room, out;
    lml_error e;
    if (lua_isnoneornil(L, 2))
        return lml_raise_hint(L, LML_BAD_RECIPE,
                              "write rounded \"half up\", \"half even\", \"half down\", \"down\", "
                              "\"up\", \"floor\" or \"ceiling\"",
                              "rounded needs a rounding rule");
    if (lml_rounding_named(lml_what_need_name(L, 2, "the name of a rounding rule"), &mode, &e))
        return lml_raise(L, &e);
    lml_status s = lua_isnoneornil(L, 3)
                       ? lml_money_round(v, mode, &out, &e)
                       : lml_money_round_to(v, lml_figure_check(L, 3, &room), mode, &out, &e);
    if (s)
        return lml_raise(L, &e);
    lml_figure_push(L, &out);
    return 1;
}

enum { SHARE_MOST = 1000 };

/* money:share { 5, 3, 2 }: parts in the proportion of the weights that sum to the whole. */
static int value_share(lua_State *L)
{
    const lml_value *v = self(L);
    lml_view_push_content(L, 2, "share");
    size_t count = lml_key_length(L, -1);
    int list = lua_gettop(L);
    if (count == 0 || count > SHARE_MOST)
        return lml_raise_text(L, LML_BAD_RECIPE, "share takes 1 to %d weights", SHARE_MOST);
    double *weights = lua_newuserdatauv(L, count * sizeof *weights, 0);
    lml_value *parts = lua_newuserdatauv(L, count * sizeof *parts, 0);
    lml_box_charge(L, count * 60 + count * count /
                                       2); /* each odd cent goes to the largest remainder of all */
    lml_error e;
    lml_value first = lml_value_number(0);
    for (size_t i = 0; i < count; i++) {
        lml_value room;
        int order;
        lua_rawgeti(L, list, (lua_Integer)i + 1);
        const lml_value *w = lml_figure_check(L, -1, &room);
        first = i == 0 ? *w : first;
        if (lml_compare(w, &first, &order,
                        &e)) /* grams and carats weigh alike, grams and litres do not */
            return lml_raise(L, &e);
        if (w->kind > LML_MONEY)
            return lml_raise_text(L, LML_BAD_RECIPE, "%s cannot be a weight to share by",
                                  lml_what_is(L, -1));
        if (w->kind == LML_TEMPERATURE) /* 20 °C is not twice as much as 10 °C */
            lml_raise_hint(L, LML_MISMATCH, "share by amounts: masses, times, counts, money",
                           "%s cannot be a weight to share by: its zero does not mean nothing",
                           lml_what_is(L, -1));
        weights[i] = w->kind == LML_MONEY ? (double)w->exact : w->amount;
        lua_pop(L, 1);
    }
    if (lml_money_share(v, weights, count, parts, &e))
        return lml_raise(L, &e);
    lua_createtable(L, (int)count, 0);
    for (size_t i = 0; i < count; i++) {
        lml_figure_push(L, &parts[i]);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

static const lml_value *moment(lua_State *L)
{
    const lml_value *v = self(L);
    if (v->kind != LML_MOMENT)
        lml_raise_text(L, LML_BAD_RECIPE, "a moment is needed, but %s was given",
                       lml_what_is(L, 1));
    return v;
}

static int value_weekday(lua_State *L)
{
    lml_value out = lml_moment_weekday(moment(L));
    lml_figure_push(L, &out);
    return 1;
}

static int value_time_of_day(lua_State *L)
{
    lml_value out = lml_moment_time_of_day(moment(L));
    lml_figure_push(L, &out);
    return 1;
}

/* moment:next "06:30" or "Saturday": the first moment at or after it that has this time of day or
 * weekday. */
static int value_next(lua_State *L)
{
    const lml_value *v = moment(L);
    lml_value room, out;
    lml_error e;
    if (lml_moment_next(v, lml_figure_check(L, 2, &room), &out, &e))
        return lml_raise(L, &e);
    lml_figure_push(L, &out);
    return 1;
}

const lml_word lml_bind_methods[] = {
    {"as", value_as, "unit: string", "value", "The same value, printed in that unit.",
     "Q(\"1 ozt\"):as \"g\"", "31.1034768 g"},
    {"as_house", value_as_house, "kind: string, step: string|value, direction?: string", "value",
     "For a sentence: in the house's unit for that kind, to about that step.",
     "Q(\"28.2385 inHg\"):as_house(\"vacuum\", \"0.01 inHg\")", "28.24 inHg"},
    {"deviation", value_deviation, "", "value", "One standard deviation.",
     "Q(\"12.4 g ± 0.1 g\"):deviation()", "0.1 g"},
    {"down_to", value_down_to, "step: string|value", "value", "Rounded down to a step.",
     "Q(\"12.37 g\"):down_to \"0.1 g\"", "12.3 g"},
    {"from", value_from, "known: string", "value", "The same value, marked with how it is known.",
     "Q(\"12.5 g\"):from \"client says\"", "12.5 g"},
    {"high", value_high, "", "value", "The upper end of what it may be.",
     "Q(\"12.3..12.5 g\"):high()", "12.5 g"},
    {"is_zero", value_is_zero, "", "boolean", "Whether it is zero.", "Q(\"0 g\"):is_zero()",
     "true"},
    {"low", value_low, "", "value", "The lower end of what it may be.", "Q(\"12.3..12.5 g\"):low()",
     "12.3 g"},
    {"metal_in", value_metal_in, "fineness: value", "value",
     "The mass of metal of that fineness that holds this fine mass.",
     "Q(\"7.5 g Au\"):metal_in(Q \"750 ‰ Au\")", "10 g"},
    {"nearest", value_nearest, "step: string|value", "value", "Rounded to the nearest step.",
     "Q(\"12.37 g\"):nearest \"0.1 g\"", "12.4 g"},
    {"next", value_next, "when: string|value", "value",
     "The first moment from this one on with that time of day, or of that weekday.",
     "Q(\"2026-11-24T14:20\"):next \"06:30\"", "2026-11-25T06:30"},
    {"number", value_number, "unit?: string", "number",
     "The bare number in that unit; a ratio needs none.", "Q(\"1 ozt\"):number \"g\"",
     "31.1034768"},
    {"rounded", value_rounded, "rule: string, step?: string", "value",
     "Money to the cent, or to a cash step: half even, half up, down, up.",
     "Q(\"12.345 CAD\"):rounded(\"half up\", \"0.05 CAD\")", "12.35 CAD"},
    {"share", value_share, "weights: number[]", "value[]",
     "Money in parts that sum to the whole, to the cent.", "Q(\"100 USD\"):share({ 1, 1, 1 })[1]",
     "33.34 USD"},
    {"time_of_day", value_time_of_day, "", "value", "The time of day of a moment.",
     "Q(\"2026-11-24T14:20\"):time_of_day()", "14:20"},
    {"up_to", value_up_to, "step: string|value", "value", "Rounded up to a step.",
     "Q(\"12.31 g\"):up_to \"0.1 g\"", "12.4 g"},
    {"weekday", value_weekday, "", "value", "The weekday of a moment.",
     "Q(\"2026-11-24\"):weekday()", "Tuesday"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

/* Fields that are not methods; the methods are upvalue 1. */
static int value_index(lua_State *L)
{
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    const lml_value *v = self(L);
    lml_span name = lml_what_need_text(L, 2, "a name");
    if (lml_span_is(name, "metal") && v->metal) {
        lua_pushstring(L, lml_metal_symbol((lml_metal)v->metal));
        return 1;
    }
    lml_nearest nearest = lml_nearest_to(name);
    for (const lml_word *m = lml_bind_methods; m->name; m++)
        lml_view_offer(L, &nearest, lml_span_of(m->name));
    for (const lml_word *m = lml_bind_about; m->name; m++)
        lml_view_offer(L, &nearest, lml_span_of(m->name));
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "%s has no '%.*s'", lml_what_is(L, 1), (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean :%.*s?", (int)nearest.best.length, nearest.best.at);
    return lml_raise(L, &e);
}

void lml_bind_push_methods(lua_State *L)
{
    lua_newtable(L);
    lml_word_set_all(L, lml_bind_methods);
    lml_word_set_all(L, lml_bind_about);
    lml_trace_wrap(L, lml_bind_methods, "", NULL);
    lml_trace_wrap(L, lml_bind_about, "", NULL);
    lua_pushcclosure(L, value_index, 1);
}
