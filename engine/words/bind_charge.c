/* craft.charge: what to weigh out of which lots; the sums are in craft/charge.
 *
 * The solver owns memory of its own, so all that it needs is read from Lua first, into blocks that
 * Lua owns, and all that it found is copied out before anything is pushed.
 */
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/word.h"
#include "words/bind_craft.h"
#include "cell/view.h"
#include "shelf/house_unit.h"
#include "shelf/shelf.h"
#include "cell/what.h"

#include "craft/charge.h"
#include "unit/unit_table.h"
#include "value/value.h"
#include "value/write.h"
#include "value/money.h"
#include "value/wanted.h"
#include "read/read.h"
#include "words/bind.h"
#include "value/step.h"
#include "cell/key.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    LIMITS = 1 + LML_CHARGE_RULES + 2 * LML_CHARGE_LOTS,
    BLENDS = 4,
    STEPS_AN_ENTRY = 200,
    STEPS_AT_LEAST = 2000
};

static const char WHO[] = "craft.charge";

/* What is asked: the problem with the lists that it points to, and how the answer is to be given.
 */
typedef struct question {
    lml_charge_problem problem;
    lml_charge_lot lot[LML_CHARGE_LOTS];
    lml_charge_rule rule[LML_CHARGE_RULES];
    bool group[LML_CHARGE_RULES][LML_CHARGE_LOTS];
    lml_charge_blend blend[BLENDS];
    lml_composition like;
    double step;
    uint16_t currency; /* of all prices; 0 when no lot has one */
} question;

/* The result. */
typedef struct outcome {
    bool possible;
    double mass[LML_CHARGE_LOTS];
    int order[LML_CHARGE_LOTS], used;
    lml_charge_mix mix;
    lml_charge_binding limit[LIMITS]; /* that bind, or that clash */
    int limits;
    char reason[400], hint[sizeof((lml_error *)0)->hint];
} outcome;

/* ---- the question ---------------------------------------------------------------------------- */

/* Push the member of the table or record on top, nil when it is not given. */
static void push_member(lua_State *L, const char *name)
{
    lml_view_push_content(L, -1, WHO);
    lml_view_get_member(L, -1, name);
    lua_remove(L, -2);
}

/* Push the list that is member `name` of the table on top; nothing and 0 when there is none. */
static int push_list(lua_State *L, const char *name, int most)
{
    push_member(L, name);
    if (lua_isnil(L, -1)) {
        lua_newtable(L);
        lua_replace(L, -2);
        return 0;
    }
    lml_view_push_content(L, -1, name);
    lua_replace(L, -2);
    size_t count = lml_key_length(L, -1);
    if (count > (size_t)most)
        lml_raise_text(L, LML_LIMIT, "%s: %s has %d entries, but at most %d are allowed", WHO, name,
                       (int)count, most);
    return (int)count;
}

static void read_price(lua_State *L, question *q, lml_charge_lot *lot)
{
    push_member(L, "price");
    if (!lua_isnil(L, -1)) {
        lml_value room;
        lot->price = lml_figure_amount(L, -1, LML_WANT_PRICE, "the price of a lot");
        const lml_value *v = lml_figure_check(L, -1, &room);
        lml_dimension d = v->dimension;
        if (q->currency && q->currency != d.currency)
            lml_raise_text(L, LML_MISMATCH, "%s: the prices of the lots are in two currencies",
                           WHO);
        q->currency = d.currency;
        if (!lml_dimension_equal(d,
                                 (lml_dimension){.mass = -1, .money = 1, .currency = d.currency}))
            lml_raise_hint(L, LML_MISMATCH, "write it for the metal as it is, like 58.80 USD/g",
                           "%s: the price of a lot must be per mass, but %s was given", WHO,
                           lml_what_is(L, -1));
    }
    lua_pop(L, 1);
}

/* The lot that is the table on top. */
static void read_lot(lua_State *L, question *q, lml_charge_lot *lot)
{
    double available = NAN, rank = NAN;
    const lml_argument due[] = {
        {.name = "name", .text = &lot->name},
        {.name = "owner", .text = &lot->owner, .optional = true},
        {.name = "available", .wanted = LML_WANT_MASS, .out = &available, .optional = true},
        {.name = "must_use", .flag = &lot->must_use, .optional = true},
        {.name = "old", .flag = &lot->is_old, .optional = true},
        {.name = "generation",
         .wanted = LML_WANT_NUMBER,
         .out = &lot->generation,
         .optional = true},
        {.name = "price", .optional = true},
        {.name = "rank", .wanted = LML_WANT_NUMBER, .out = &rank, .optional = true},
        {.name = "composition"}};
    lml_bind_craft_take_arguments(L, -1, WHO, due, sizeof due / sizeof *due);
    lot->unlimited = isnan(available);
    lot->available = lot->unlimited ? 0 : available;
    read_price(L, q, lot);
    if (!isnan(rank))
        lot->price = rank;
    push_member(L, "composition");
    lml_assay assay = lml_bind_check_assay(L, -1);
    lua_pop(L, 1);
    lot->composition = assay.found;
    lot->deviation = assay.deviation;
}

static void read_lots(lua_State *L, question *q)
{
    int count = push_list(L, "lots", LML_CHARGE_LOTS);
    for (int i = 0; i < count; i++) {
        lua_rawgeti(L, -1, i + 1);
        memset(&q->lot[i], 0, sizeof q->lot[i]);
        read_lot(L, q, &q->lot[i]);
        for (int j = 0; j < i; j++)
            if (strcmp(q->lot[i].name, q->lot[j].name) == 0)
                lml_raise_text(L, LML_BAD_VALUE, "%s: two lots are called \"%s\"", WHO,
                               q->lot[i].name);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    q->problem.lots = count;
}

static lml_charge_rule *new_rule(lua_State *L, question *q)
{
    if (q->problem.rules == LML_CHARGE_RULES)
        lml_raise_text(L, LML_LIMIT, "%s takes at most %d rules", WHO, LML_CHARGE_RULES);
    return &q->rule[q->problem.rules++];
}

/* Two rules when both ends are given. */
static void add_rules(lua_State *L, question *q, lml_charge_rule rule, double low, double high)
{
    if (!isnan(low)) {
        rule.at_least = true;
        rule.limit = low;
        *new_rule(L, q) = rule;
    }
    if (!isnan(high)) {
        rule.at_least = false;
        rule.limit = high;
        *new_rule(L, q) = rule;
    }
}

/* A fineness of that metal, or a text that reads as one. */
static double bound_of(lua_State *L, const char *name, lml_metal metal)
{
    double part = NAN;
    push_member(L, name);
    if (lua_type(L, -1) == LUA_TSTRING) {
        lml_value v;
        lml_error e;
        if (lml_read_value(lml_what_need_text(L, -1, name), LML_WANT_FINENESS, metal, &v, &e))
            lml_raise(L, &e);
        if (v.metal != metal)
            lml_raise_text(L, LML_MISMATCH, "%s: a bound of %s is given as a fineness of %s", WHO,
                           lml_metal_name(metal), lml_metal_name((lml_metal)v.metal));
        part = v.amount;
    } else if (!lua_isnil(L, -1)) {
        lml_value room;
        part = lml_figure_amount(L, -1, LML_WANT_FINENESS, name);
        const lml_value *v = lml_figure_check(L, -1, &room);
        if (v->metal != metal)
            lml_raise_text(L, LML_MISMATCH, "%s: a bound of %s is given as a fineness of %s", WHO,
                           lml_metal_name(metal), lml_metal_name((lml_metal)v->metal));
    }
    lua_pop(L, 1);
    return part;
}

static void read_bounds(lua_State *L, question *q)
{
    int count = push_list(L, "bounds", LML_CHARGE_RULES);
    for (int i = 1; i <= count; i++) {
        lml_charge_rule rule = {0};
        lua_rawgeti(L, -1, i);
        const lml_argument due[] = {
            {.name = "metal"},
            {.name = "low", .optional = true},
            {.name = "high", .optional = true},
            {.name = "guard", .wanted = LML_WANT_NUMBER, .out = &rule.guard, .optional = true}};
        lml_bind_craft_take_arguments(L, -1, WHO, due, sizeof due / sizeof *due);
        push_member(L, "metal");
        rule.metal = lml_what_metal(L, -1);
        lua_pop(L, 1);
        double low = bound_of(L, "low", rule.metal), high = bound_of(L, "high", rule.metal);
        add_rules(L, q, rule, low, high);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* The flags of the lots that the list on top names, or of old metal when it is the text "old". */
static void read_group(lua_State *L, const question *q, bool *group)
{
    bool old =
        lua_type(L, -1) == LUA_TSTRING && lml_span_is(lml_what_need_text(L, -1, "the lots"), "old");
    for (int j = 0; j < q->problem.lots; j++)
        group[j] = old && q->lot[j].is_old;
    if (old)
        return;
    lml_view_push_content(L, -1, "the lots of a share");
    for (int i = 1; i <= (int)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        lml_span name = lml_what_need_text(L, -1, "the name of a lot");
        int j = 0;
        while (j < q->problem.lots && !lml_span_is(name, q->lot[j].name))
            j++;
        if (j == q->problem.lots)
            lml_raise_text(L, LML_NOT_FOUND, "%s: a share names \"%s\", which is not a lot", WHO,
                           name.at);
        group[j] = true;
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

static void read_shares(lua_State *L, question *q)
{
    int count = push_list(L, "shares", LML_CHARGE_RULES);
    for (int i = 0; i < count; i++) {
        double least = NAN, most = NAN;
        lml_charge_rule rule = {.group = q->group[i]};
        lua_rawgeti(L, -1, i + 1);
        const lml_argument due[] = {
            {.name = "lots"},
            {.name = "name", .text = &rule.name},
            {.name = "least", .wanted = LML_WANT_RATIO, .out = &least, .optional = true},
            {.name = "most", .wanted = LML_WANT_RATIO, .out = &most, .optional = true}};
        lml_bind_craft_take_arguments(L, -1, WHO, due, sizeof due / sizeof *due);
        push_member(L, "lots");
        read_group(L, q, q->group[i]);
        lua_pop(L, 1);
        add_rules(L, q, rule, least, most);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* Weights by metal, out of member `name` of the table on top; "unnamed" is what no lot names. */
static void read_weights(lua_State *L, const char *name, double weight[])
{
    push_member(L, name);
    lml_view_push_content(L, -1, name);
    lua_pushnil(L);
    while (lua_next(L, -2)) {
        lua_pushvalue(L, -2);
        bool unnamed =
            lua_type(L, -1) == LUA_TSTRING && strcmp(lua_tostring(L, -1), "unnamed") == 0;
        lml_metal metal = unnamed ? LML_NO_METAL : lml_what_metal(L, -1);
        lua_pop(L, 1);
        weight[metal] = lml_figure_amount(L, -1, LML_WANT_NUMBER, "a weight of a blend");
        lua_pop(L, 1);
    }
    lua_pop(L, 2);
}

static void read_blends(lua_State *L, question *q)
{
    int count = push_list(L, "blends", BLENDS);
    for (int i = 0; i < count; i++) {
        double least = NAN, most = NAN;
        lml_charge_rule rule = {.blend = &q->blend[i]};
        lua_rawgeti(L, -1, i + 1);
        const lml_argument due[] = {
            {.name = "part"},
            {.name = "whole"},
            {.name = "name", .text = &rule.name},
            {.name = "least", .wanted = LML_WANT_NUMBER, .out = &least, .optional = true},
            {.name = "most", .wanted = LML_WANT_NUMBER, .out = &most, .optional = true}};
        lml_bind_craft_take_arguments(L, -1, WHO, due, sizeof due / sizeof *due);
        memset(&q->blend[i], 0, sizeof q->blend[i]);
        read_weights(L, "part", q->blend[i].part);
        read_weights(L, "whole", q->blend[i].whole);
        add_rules(L, q, rule, least, most);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* like = { alloy, besides } */
static void read_like(lua_State *L, question *q)
{
    push_member(L, "like");
    if (!lua_isnil(L, -1)) {
        const lml_argument due[] = {{.name = "alloy"}, {.name = "besides"}};
        lml_bind_craft_take_arguments(L, -1, WHO, due, sizeof due / sizeof *due);
        push_member(L, "besides");
        q->problem.besides = lml_what_metal(L, -1);
        lua_pop(L, 1);
        push_member(L, "alloy");
        q->like = lml_bind_check_assay(L, -1).found;
        lua_pop(L, 1);
        q->problem.like = &q->like;
    }
    lua_pop(L, 1);
}

static const char *const AIMS[] = {[LML_LEAST_COST] = "least cost",
                                   [LML_LEAST_NEW] = "least new metal",
                                   [LML_MOST_CLIENT] = "most of the client's metal",
                                   [LML_MOST_LIKE] = "most like the alloy"};

static void read_aim(lua_State *L, question *q, const char *aim)
{
    for (size_t i = 0; i < sizeof AIMS / sizeof *AIMS; i++) {
        if (strcmp(aim, AIMS[i]) == 0) {
            q->problem.aim = (lml_charge_aim)i;
            return;
        }
    }
    lml_raise_hint(L, LML_BAD_VALUE,
                   "least cost, least new metal, most of the client's metal, most like the alloy",
                   "%s has no objective \"%s\"", WHO, aim);
}

/* What the house weighs in. */
static lml_unit mass_unit(lua_State *L)
{
    char room[LML_UNIT_TEXT];
    lml_value gram =
                  lml_value_quantity(0.001, (lml_dimension){.mass = 1}, lml_unit_one(LML_U_G, 1)),
              said;
    lml_span unit = lml_house_unit(lml_shelf_house_in(L), LML_WANT_MASS, room);
    return unit.length > 0 && lml_write_as(&gram, unit, &said, NULL) == LML_OK ? said.unit
                                                                               : gram.unit;
}

/* From the table at 1, whose content is left on top of the stack: it holds the texts. */
static void read_question(lua_State *L, question *q)
{
    const char *aim = AIMS[LML_LEAST_COST];
    const lml_argument due[] = {
        {.name = "lots"},
        {.name = "mass", .wanted = LML_WANT_MASS, .out = &q->problem.mass},
        {.name = "at_least", .flag = &q->problem.more_allowed, .optional = true},
        {.name = "bounds", .optional = true},
        {.name = "shares", .optional = true},
        {.name = "blends", .optional = true},
        {.name = "like", .optional = true},
        {.name = "objective", .text = &aim, .optional = true},
        {.name = "client", .text = &q->problem.client, .optional = true},
        {.name = "step", .wanted = LML_WANT_MASS, .out = &q->step}};
    lml_bind_craft_take_arguments(L, 1, WHO, due, sizeof due / sizeof *due);
    lml_view_push_content(L, 1, WHO);
    read_aim(L, q, aim);
    read_lots(L, q);
    read_bounds(L, q);
    read_shares(L, q);
    read_blends(L, q);
    read_like(L, q);
    q->problem.lot = q->lot;
    q->problem.rule = q->rule;
    q->problem.mass_unit = mass_unit(L);
}

/* ---- the answer ------------------------------------------------------------------------------ */

/* Owns memory of the solver's while it runs, so it touches no Lua. */
static lml_status solve(const question *q, const lml_alloc *alloc, outcome *out, lml_error *err)
{
    const lml_charge_problem *p = &q->problem;
    lml_charge_answer answer;
    lml_status status = lml_charge_solve(p, alloc, &answer, err);
    if (status)
        return status;
    lml_error why;
    if (answer.possible) {
        status = lml_charge_round(p, &answer, q->step, alloc, out->mass, &out->mix, &why);
        out->limits = answer.bindings;
        memcpy(out->limit, answer.binding, (size_t)answer.bindings * sizeof *answer.binding);
    } else {
        status = lml_charge_refusal(p, &answer.reason, &why);
        out->limits = answer.reason.clashing;
        for (int i = 0; i < answer.reason.clashing; i++)
            out->limit[i].limit = answer.reason.clash[i];
    }
    lml_charge_free(&answer);
    out->possible = status == LML_OK;
    if (out->possible) {
        out->used = lml_charge_weigh_order(p, out->mass, out->order);
        return LML_OK;
    }
    if (status != LML_STOPPED) {
        if (err)
            *err = why;
        return status;
    }
    snprintf(out->reason, sizeof out->reason, "%s", why.message);
    snprintf(out->hint, sizeof out->hint, "%s", why.hint);
    return LML_OK;
}

/* A mass that is on the scale's step prints with its decimals; a lot that went in whole keeps
 * its own. */
static void push_weight(lua_State *L, double mass, double step)
{
    const lml_dimension dimension = {.mass = 1};
    lml_value v = lml_value_quantity(mass, dimension, lml_unit_usual(dimension));
    lml_value by = lml_value_quantity(step, dimension, lml_unit_usual(dimension)), rounded;
    if (lml_step_round(&v, &by, LML_TO_NEAREST, &rounded, NULL) == LML_OK &&
        fabs(rounded.amount - mass) <= 1e-9 * mass)
        v = rounded;
    lml_figure_push(L, &v);
}

static void set_weigh_list(lua_State *L, const question *q, const outcome *out)
{
    lua_createtable(L, out->used, 0);
    for (int i = 0; i < out->used; i++) {
        const lml_charge_lot *lot = &q->lot[out->order[i]];
        lua_createtable(L, 0, 5);
        lua_pushstring(L, lot->name);
        lua_setfield(L, -2, "name");
        lua_pushstring(L, lot->owner);
        lua_setfield(L, -2, "owner");
        push_weight(L, out->mass[out->order[i]], q->step);
        lua_setfield(L, -2, "mass");
        lml_bind_craft_push_ratio(L, out->mass[out->order[i]] / out->mix.mass);
        lua_setfield(L, -2, "share");
        lua_pushinteger(L, out->order[i] + 1);
        lua_setfield(L, -2, "lot");
        lua_rawseti(L, -2, i + 1);
    }
    lua_setfield(L, -2, "weigh");
}

static void set_composition(lua_State *L, const lml_charge_mix *mix)
{
    lua_newtable(L);
    for (int m = 1; m < LML_METALS; m++) {
        if (!(mix->composition.part[m] > 0))
            continue;
        lml_value v = lml_composition_fineness(&mix->composition, (lml_metal)m);
        if (mix->deviation.part[m] > 0) {
            v.spread = LML_DEVIATION;
            v.low = mix->deviation.part[m];
        }
        lml_figure_push(L, &v);
        lua_setfield(L, -2, lml_metal_symbol((lml_metal)m));
    }
    lua_setfield(L, -2, "composition");
    lml_bind_craft_push_ratio(L, mix->composition.part[0]);
    lua_setfield(L, -2, "unnamed");
}

static void push_money(lua_State *L, double amount, uint16_t currency)
{
    lml_value v;
    lml_error e;
    if (lml_money_of(amount, currency, &v, &e))
        lml_raise(L, &e);
    lml_figure_push(L, &v);
}

/* Set `of`, a step by which the limit might be wider: a gram (or what the house weighs in), a per
 * mille or a per cent; and `worth`, what the aim would gain by it. */
static void set_step_and_worth(lua_State *L, const question *q, const lml_charge_binding *b)
{
    bool rule = b->limit.kind == LML_CHARGE_RULE;
    bool share = rule && q->rule[b->limit.index].metal == LML_NO_METAL;
    double step = share ? 0.01 : 0.001; /* of one, of one, of a kilogram */
    char mass[2 + LML_UNIT_TEXT] = "1 ";
    lml_rational unit;
    if (!rule && lml_unit_factor(q->problem.mass_unit, &unit, NULL) == LML_OK) {
        step = (double)unit.top / (double)unit.bottom;
        lml_unit_write(q->problem.mass_unit, 0, mass + 2);
    }
    lua_pushstring(L, share ? "1 %" : rule ? "1 ‰" : mass);
    lua_setfield(L, -2, "of");
    if (q->problem.aim == LML_MOST_LIKE)
        return;
    if (q->problem.aim != LML_LEAST_COST)
        lml_bind_craft_push_quantity(L, b->worth * step, (lml_dimension){.mass = 1});
    else if (q->currency)
        push_money(L, b->worth * step, q->currency);
    else
        return;
    lua_setfield(L, -2, "worth");
}

static void set_bindings(lua_State *L, const question *q, const outcome *out)
{
    char words[LML_CHARGE_WORDS];
    lua_createtable(L, out->limits, 0);
    for (int i = 0; i < out->limits; i++) {
        lua_createtable(L, 0, 3);
        lua_pushstring(L, lml_charge_limit_words(&q->problem, out->limit[i].limit, words));
        lua_setfield(L, -2, "rule");
        set_step_and_worth(L, q, &out->limit[i]);
        lua_rawseti(L, -2, i + 1);
    }
    lua_setfield(L, -2, "binding");
}

static void push_answer(lua_State *L, const question *q, const outcome *out)
{
    lua_createtable(L, 0, 8);
    set_weigh_list(L, q, out);
    push_weight(L, out->mix.mass, q->step);
    lua_setfield(L, -2, "mass");
    set_composition(L, &out->mix);
    lml_bind_craft_push_ratio(L, out->mix.old_share);
    lua_setfield(L, -2, "old_share");
    lua_pushnumber(L, out->mix.generation);
    lua_setfield(L, -2, "generation");
    if (q->currency) {
        push_money(L, out->mix.cost, q->currency);
        lua_setfield(L, -2, "cost");
    }
    set_bindings(L, q, out);
}

static void push_refusal(lua_State *L, const question *q, const outcome *out)
{
    char words[LML_CHARGE_WORDS];
    lua_createtable(L, 0, 3);
    lua_createtable(L, out->limits, 0);
    for (int i = 0; i < out->limits; i++) {
        lua_pushstring(L, lml_charge_limit_words(&q->problem, out->limit[i].limit, words));
        lua_rawseti(L, -2, i + 1);
    }
    lua_setfield(L, -2, "clash");
    lua_pushstring(L, out->reason);
    lua_setfield(L, -2, "reason");
    lua_pushstring(L, out->hint);
    lua_setfield(L, -2, "hint");
}

/* craft.charge { lots, mass, at_least, bounds, shares, like, objective, client, step }
 *
 * lots: list of { name, composition (alloy, assay or table), available (a mass; none: without end),
 * price (per mass of the lot) or, where nothing is priced, rank (the least is used first), owner,
 * must_use, old, generation }
 *
 * bounds: list of { metal, low, high, guard }, fineness of the charge; shares: list of { lots
 * (names, or "old"), name, least, most }
 *
 * like: { alloy, besides (a metal) }: where the objective leaves a choice, the other metals are as
 * near to the alloy's proportions as the lots allow
 *
 * objective: "least cost", "least new metal", "most of the client's metal" (then `client`) or
 * "most like the alloy" (then `like`; what the limits are worth is not said);
 * step: of the scale
 *
 * gives weigh (list of { name, mass, share, owner, lot } in weighing order), mass, composition,
 * unnamed, old_share, generation, cost, binding (list of { rule, worth, of }); or clash (list of
 * rules), reason and hint. */
static int charge(lua_State *L)
{
    lua_settop(L, 1);
    question *q = lua_newuserdatauv(L, sizeof *q, 0);
    outcome *out = lua_newuserdatauv(L, sizeof *out, 0);
    memset(&q->problem, 0, sizeof q->problem); /* of its long lists, what is used is cleared */
    q->step = 0;
    q->currency = 0;
    read_question(L, q);
    lml_box_charge(L, STEPS_AT_LEAST + (uint64_t)q->problem.lots *
                                           (uint64_t)(1 + q->problem.rules) * STEPS_AN_ENTRY);
    lml_alloc alloc = lml_alloc_metered(&lml_box_of(L)->meter);
    lml_error e;
    if (solve(q, &alloc, out, &e))
        return lml_raise(L, &e);
    if (out->possible)
        push_answer(L, q, out);
    else
        push_refusal(L, q, out);
    return 1;
}

const lml_word lml_bind_charge[] = {
    {"charge", charge, "of: table", "table",
     "What to weigh out from which lots, or the reason why none will do: lots, mass, "
     "at_least, bounds, shares, blends, like, objective, client, step.",
     "craft.charge({ mass = Q \"80 g\", bounds = { { metal = \"Au\", low = \"520 ‰\" } }, "
     "step = Q \"0.01 g\", lots = { { name = \"poor\", composition = { Au = \"200 ‰\" }, "
     "price = Q \"1 USD/g\" }, { name = \"rich\", composition = { Au = \"600 ‰\" }, price = "
     "Q \"3 USD/g\" } } }).weigh[2].mass",
     "16.00 g"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
