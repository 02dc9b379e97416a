/* craft.* of metals and of chance, and what the other bindings of craft.* share. Every function
 * takes values with units and gives values with units; the sums are in engine/craft. */
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/word.h"
#include "words/bind_craft.h"
#include "cell/view.h"
#include "cell/what.h"

#include "craft/chance.h"
#include "craft/element.h"
#include "craft/fine.h"
#include "craft/melting.h"
#include "craft/mix.h"
#include "value/wanted.h"
#include "words/bind.h"

const lml_dimension lml_bind_craft_density = {.mass = 1, .length = -3};
const lml_dimension lml_bind_craft_heat_capacity = {.length = 2, .time = -2, .temperature = -1};
const lml_dimension lml_bind_craft_heat = {.length = 2, .time = -2};
const lml_dimension lml_bind_craft_diffusivity = {.length = 2, .time = -1};

enum { SHORT_SUM = 20, LONG_SUM = 200, SEARCH = 20000 }; /* what a call costs of the budget */

/* ---- in -------------------------------------------------------------------------------------- */

double lml_bind_craft_check_quantity(lua_State *L, int index, lml_dimension dimension,
                                     const char *argument, const char *example)
{
    lml_value room;
    const lml_value *v = lml_figure_check(L, index, &room);
    if (v->kind != LML_QUANTITY || !lml_dimension_equal(v->dimension, dimension)) {
        lml_error e;
        lml_fail(&e, LML_BAD_VALUE, "%s must be a value such as %s, but %s was given", argument,
                 example, lml_what_is(L, index));
        lml_raise(L, &e);
    }
    return v->amount;
}

static const lml_argument *argument_named(const lml_argument *list, size_t count, lml_span name)
{
    for (size_t i = 0; i < count; i++)
        if (lml_span_is(name, list[i].name))
            return &list[i];
    return NULL;
}

typedef struct arguments {
    const lml_argument *list;
    size_t count;
} arguments;

static bool is_no_argument(lua_State *L, const void *self)
{
    const arguments *known = self;
    return lua_type(L, -2) != LUA_TSTRING ||
           !argument_named(known->list, known->count, lml_what_need_text(L, -2, "a name"));
}

static void refuse_unknown_arguments(lua_State *L, int table, const char *who,
                                     const lml_argument *list, size_t count)
{
    if (!lml_key_find_odd(L, table, is_no_argument, &(arguments){list, count}))
        return;
    if (lua_type(L, -1) != LUA_TSTRING)
        lml_raise_text(L, LML_BAD_RECIPE, "%s needs named values: { name = value }", who);
    lml_span name = lml_what_need_text(L, -1, "a name");
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < count; i++)
        lml_view_offer(L, &nearest, lml_span_of(list[i].name));
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "%s takes no '%.*s'", who, (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean %.*s?", (int)nearest.best.length, nearest.best.at);
    lml_raise(L, &e);
}

static void take_argument(lua_State *L, const char *who, const lml_argument *a)
{
    if (lml_view_is_withheld(L, -1))
        lml_raise_stop(L);
    if (lua_isnil(L, -1) ||
        lua_islightuserdata(L, -1)) { /* a member of a record that was not given */
        if (!a->optional)
            lml_raise_text(L, LML_BAD_RECIPE, "%s needs %s", who, a->name);
        return;
    }
    if (a->text)
        *a->text = lml_what_need_text(L, -1, a->name).at;
    if (a->flag && !lua_isboolean(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "%s: %s must be true or false, but %s was given", who,
                       a->name, lml_what_is(L, -1));
    if (a->flag)
        *a->flag = lua_toboolean(L, -1);
    if (!a->out)
        return;
    *a->out = a->wanted == LML_WANT_ANYTHING
                  ? lml_bind_craft_check_quantity(L, -1, *a->dimension, a->name, a->example)
                  : lml_figure_amount(L, -1, a->wanted, a->name);
    if (a->deviation) {
        lml_value room;
        *a->deviation = lml_value_deviation(lml_figure_check(L, -1, &room));
    }
}

void lml_bind_craft_take_arguments(lua_State *L, int index, const char *who,
                                   const lml_argument *list, size_t count)
{
    lml_view_push_content(L, index, who);
    refuse_unknown_arguments(L, lua_gettop(L), who, list, count);
    for (size_t i = 0; i < count; i++) {
        lua_getfield(L, -1, list[i].name);
        take_argument(L, who, &list[i]);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* ---- out ------------------------------------------------------------------------------------- */

void lml_bind_craft_push_spread(lua_State *L, double amount, double deviation,
                                lml_dimension dimension)
{
    lml_value v = lml_dimension_none(dimension)
                      ? lml_value_ratio(amount)
                      : lml_value_quantity(amount, dimension, lml_unit_usual(dimension));
    if (deviation > 0) {
        v.spread = LML_DEVIATION;
        v.low = deviation;
    }
    lml_figure_push(L, &v);
}

void lml_bind_craft_push_quantity(lua_State *L, double amount, lml_dimension dimension)
{
    lml_bind_craft_push_spread(L, amount, 0, dimension);
}

void lml_bind_craft_push_ratio(lua_State *L, double ratio)
{
    lml_bind_craft_push_spread(L, ratio, 0, (lml_dimension){0});
}

void lml_bind_craft_push_celsius(lua_State *L, double kelvin, double deviation)
{
    lml_value v = {.kind = LML_TEMPERATURE, .decimals = LML_SHORTEST, .amount = kelvin};
    lml_dimension d;
    lml_unit_read(lml_span_of("°C"), &v.unit, &d, NULL);
    if (deviation > 0) {
        v.spread = LML_DEVIATION;
        v.low = deviation;
    }
    lml_figure_push(L, &v);
}

void lml_bind_craft_set_quantity(lua_State *L, const char *name, double amount,
                                 lml_dimension dimension)
{
    lml_bind_craft_push_quantity(L, amount, dimension);
    lua_setfield(L, -2, name);
}

/* What is not known is no fault of the recipe: nil and the reason in words. */
static int not_known(lua_State *L, const lml_error *e)
{
    lua_pushnil(L);
    lua_pushstring(L, e->message);
    return 2;
}

/* ---- metals ---------------------------------------------------------------------------------- */

/* craft.density(alloy): by measured excess volumes, with its spread. */
static int density(lua_State *L)
{
    lml_composition c = lml_bind_check_composition(L, 1);
    lml_density_estimate d;
    lml_error e;
    lml_box_charge(L, LONG_SUM);
    if (lml_mix_density(&c, &d, &e))
        return lml_raise(L, &e);
    lml_bind_craft_push_spread(L, d.density, d.deviation, lml_bind_craft_density);
    return 1;
}

typedef lml_status of_composition(const lml_composition *, double *, lml_error *);

static int push_of_composition(lua_State *L, of_composition *f, lml_dimension dimension)
{
    lml_composition c = lml_bind_check_composition(L, 1);
    double x;
    lml_error e;
    lml_box_charge(L, LONG_SUM);
    if (f(&c, &x, &e))
        return lml_raise(L, &e);
    lml_bind_craft_push_quantity(L, x, dimension);
    return 1;
}

/* craft.plain_density(alloy): by adding the elements' volumes. */
static int plain_density(lua_State *L)
{
    return push_of_composition(L, lml_mix_plain_density, lml_bind_craft_density);
}

/* craft.heat_capacity(alloy) */
static int heat_capacity(lua_State *L)
{
    return push_of_composition(L, lml_mix_heat_capacity, lml_bind_craft_heat_capacity);
}

/* craft.fusion_heat(alloy) */
static int fusion_heat(lua_State *L)
{
    return push_of_composition(L, lml_mix_fusion_heat, lml_bind_craft_heat);
}

/* craft.liquid_density(alloy, temperature), or nil and why it is not known */
static int liquid_density(lua_State *L)
{
    lml_composition c = lml_bind_check_composition(L, 1);
    double temperature = lml_figure_amount(L, 2, LML_WANT_TEMPERATURE, "the temperature"), x;
    lml_error e;
    lml_box_charge(L, LONG_SUM);
    lml_status status = lml_mix_liquid_density(&c, temperature, &x, &e);
    if (status == LML_NOT_FOUND)
        return not_known(L, &e);
    if (status)
        return lml_raise(L, &e);
    lml_bind_craft_push_quantity(L, x, lml_bind_craft_density);
    return 1;
}

/* craft.melting_range(alloy): solidus, liquidus (with their spread) and source; or nil and why it
 * is not known. */
static int melting_range(lua_State *L)
{
    lml_composition c = lml_bind_check_composition(L, 1);
    lml_melting m;
    lml_error e;
    lml_box_charge(L, SEARCH);
    if (lml_composition_check(&c, &e))
        return lml_raise(L, &e);
    if (lml_melting_range(&c, &m, &e))
        return not_known(L, &e);
    lua_createtable(L, 0, 3);
    lml_bind_craft_push_celsius(L, m.solidus, m.solidus_deviation);
    lua_setfield(L, -2, "solidus");
    lml_bind_craft_push_celsius(L, m.liquidus, m.liquidus_deviation);
    lua_setfield(L, -2, "liquidus");
    lua_pushstring(L, LML_MELTING_SOURCE);
    lua_setfield(L, -2, "source");
    return 1;
}

/* Set the value on top as member `name` of the record under it and of the sources under that; drop
 * it when the fact is not known. */
static void set_fact(lua_State *L, const char *name, lml_fact fact)
{
    if (!fact.source) {
        lua_pop(L, 1);
        return;
    }
    lua_setfield(L, -2, name);
    lua_pushstring(L, fact.source);
    lua_setfield(L, -3, name);
}

/* craft.element "Au": what is known of a metal, and in `sources` from where; what is not known is
 * nil. */
static int element(lua_State *L)
{
    lml_metal metal = lml_what_metal(L, 1);
    const lml_element *of = lml_element_of(metal);
    lml_box_charge(L, LONG_SUM);
    lua_createtable(L, 0, 8); /* sources */
    lua_createtable(L, 0, 10);
    lua_pushnumber(L, of->atomic_weight.value);
    set_fact(L, "atomic_weight", of->atomic_weight);
    lml_bind_craft_push_quantity(L, of->density.value, lml_bind_craft_density);
    set_fact(L, "density", of->density);
    lml_bind_craft_push_quantity(L, of->liquid_density.value, lml_bind_craft_density);
    set_fact(L, "liquid_density", of->liquid_density);
    lml_bind_craft_push_celsius(L, of->melting_point.value, 0);
    set_fact(L, "melts", of->melting_point);
    lml_bind_craft_push_celsius(L, of->boiling_point.value, 0);
    set_fact(L, "boils", of->boiling_point);
    lml_bind_craft_push_quantity(L, lml_element_heat_capacity(metal), lml_bind_craft_heat_capacity);
    set_fact(L, "heat_capacity", of->molar_heat);
    lml_bind_craft_push_quantity(L, lml_element_fusion_heat(metal), lml_bind_craft_heat);
    set_fact(L, "fusion_heat", of->molar_fusion);
    lua_pushstring(L, lml_metal_name(metal));
    lua_setfield(L, -2, "name");
    lua_insert(L, -2);
    lua_setfield(L, -2, "sources");
    return 1;
}

/* ---- fineness -------------------------------------------------------------------------------- */

/* The fineness at index; all of one call must be of one metal. */
static double fineness_at(lua_State *L, int index, const char *argument, lml_metal *metal)
{
    lml_value room;
    double part = lml_figure_amount(L, index, LML_WANT_FINENESS, argument);
    const lml_value *v = lml_figure_check(L, index, &room);
    if (*metal && v->metal != *metal)
        lml_raise_text(L, LML_MISMATCH, "%s is of %s, but the one before is of %s", argument,
                       lml_metal_name((lml_metal)v->metal), lml_metal_name(*metal));
    *metal = (lml_metal)v->metal;
    return part;
}

/* A mass in the unit that the argument at index is in. */
static void push_mass_as(lua_State *L, int index, double amount)
{
    lml_value room, v = lml_value_quantity(amount, (lml_dimension){.mass = 1},
                                           lml_figure_check(L, index, &room)->unit);
    lml_figure_push(L, &v);
}

/* craft.addition(mass, from, target, added): the mass of metal `added` fine that brings `mass` from
 * one fineness to another, up or down. */
static int addition(lua_State *L)
{
    lml_metal metal = LML_NO_METAL;
    double mass = lml_figure_amount(L, 1, LML_WANT_MASS, "the mass");
    double from = fineness_at(L, 2, "the fineness it has", &metal);
    double target = fineness_at(L, 3, "the fineness it should have", &metal);
    double added = fineness_at(L, 4, "the fineness of what is added", &metal), x;
    lml_error e;
    lml_box_charge(L, SHORT_SUM);
    if (lml_fine_addition(mass, from, target, added, &x, &e))
        return lml_raise(L, &e);
    push_mass_as(L, 1, x);
    return 1;
}

/* craft.split(total, target, first, second): how much of each of two finenesses makes the total. */
static int split(lua_State *L)
{
    lml_metal metal = LML_NO_METAL;
    double total = lml_figure_amount(L, 1, LML_WANT_MASS, "the total");
    double target = fineness_at(L, 2, "the fineness it should have", &metal);
    double fineness[2] = {0}, mass[2];
    fineness[0] = fineness_at(L, 3, "the first fineness", &metal);
    fineness[1] = fineness_at(L, 4, "the second fineness", &metal);
    lml_error e;
    lml_box_charge(L, SHORT_SUM);
    if (lml_fine_split(total, target, fineness, mass, &e))
        return lml_raise(L, &e);
    push_mass_as(L, 1, mass[0]);
    push_mass_as(L, 1, mass[1]);
    return 2;
}

/* ---- chance ---------------------------------------------------------------------------------- */

/* craft.normal(z): the chance that a normal figure lies below its mean plus z deviations. */
static int normal(lua_State *L)
{
    double z = lml_figure_amount(L, 1, LML_WANT_NUMBER, "z");
    lml_box_charge(L, SHORT_SUM);
    lml_bind_craft_push_ratio(L, lml_chance_normal(z));
    return 1;
}

/* craft.normal_quantile(chance): z, the inverse. */
static int normal_quantile(lua_State *L)
{
    double p = lml_figure_amount(L, 1, LML_WANT_RATIO, "the chance"), z;
    lml_error e;
    lml_box_charge(L, LONG_SUM);
    if (lml_chance_normal_quantile(p, &z, &e))
        return lml_raise(L, &e);
    lua_pushnumber(L, z);
    return 1;
}

/* craft.student_quantile(chance, freedom): t for a mean of freedom + 1 readings. */
static int student_quantile(lua_State *L)
{
    double p = lml_figure_amount(L, 1, LML_WANT_RATIO, "the chance"), t;
    double freedom = lml_figure_amount(L, 2, LML_WANT_WHOLE, "the degrees of freedom");
    lml_error e;
    lml_box_charge(L, SEARCH);
    if (lml_chance_student_quantile(p, freedom, &t, &e))
        return lml_raise(L, &e);
    lua_pushnumber(L, t);
    return 1;
}

const lml_word lml_bind_craft[] = {
    {"addition", addition, "mass: value, from: value, target: value, added: value", "value",
     "How much metal of the fineness added brings mass from one fineness to another.",
     "craft.addition(Q \"7 g\", Q \"10 kt\", Q \"14 kt\", Q \"24 kt\"):nearest \"0.01 g\"",
     "2.80 g"},
    {"density", density, "metal: alloy|table", "value",
     "Its density, from measured alloys, with its spread.",
     "craft.density { Au = \"916.67 ‰\", Cu = \"83.33 ‰\" }:nearest \"0.1 g/cm3\"", "17.5 g/cm3"},
    {"element", element, "symbol: string", "table", "The properties of a metal, with sources.",
     "craft.element(\"Ag\").melts", "961.78 °C"},
    {"fusion_heat", fusion_heat, "metal: alloy|table", "value", "The heat of fusion.",
     "craft.fusion_heat { Au = \"1000 ‰\" }:as \"J/g\"", "63.71639613767961 J/g"},
    {"heat_capacity", heat_capacity, "metal: alloy|table", "value", "The specific heat capacity.",
     "craft.heat_capacity { Au = \"1000 ‰\" }:as \"J/(g·K)\"", "0.12895589337825194 J/(g·K)"},
    {"liquid_density", liquid_density, "metal: alloy|table, temperature: value", "value?, string?",
     "Its density when molten, or nil and why it is not known.",
     "craft.liquid_density({ Au = \"1000 ‰\" }, Q \"1064 °C\"):nearest \"0.01 g/cm3\"",
     "17.31 g/cm3"},
    {"melting_range", melting_range, "metal: alloy|table", "table?, string?",
     "solidus, liquidus and source, or nil and why they are not known.",
     "craft.melting_range({ Au = \"1000 ‰\" }).liquidus:nearest \"1 Δ°C\"", "1064 °C"},
    {"normal", normal, "z: number", "number",
     "The chance that a normal figure is below its mean plus z deviations.", "craft.normal(0)",
     "0.5"},
    {"normal_quantile", normal_quantile, "chance: value|number", "number",
     "The inverse: z for a chance.", "craft.normal_quantile(Q \"50 %\")", "0"},
    {"plain_density", plain_density, "metal: alloy|table", "value",
     "Its density if the volumes of its metals added.",
     "craft.plain_density { Au = \"750 ‰\", Ag = \"250 ‰\" }:nearest \"0.01 g/cm3\"",
     "15.95 g/cm3"},
    {"split", split, "total: value, target: value, first: value, second: value", "value, value",
     "How much of each of two finenesses makes the total.",
     "(craft.split(Q \"80 g\", Q \"520 ‰ Au\", Q \"200 ‰ Au\", Q \"600 ‰ Au\")):nearest \"0.1 g\"",
     "16.0 g"},
    {"student_quantile", student_quantile, "chance: value|number, freedom: number", "number",
     "t, for the mean of freedom + 1 readings.", "craft.student_quantile(0.5, 4)", "0"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
