#include "run/load.h"
#include "run/gate.h"

#include "run/engine.h"
#include "run/part.h"
#include "cell/raise.h"
#include "cell/what.h"
#include "run/bind_sheet.h"

#include <string.h>

static bool is_empty(lua_State *L, int table)
{
    lua_pushnil(L);
    bool empty = !lua_next(L, table);
    lua_pop(L, empty ? 0 : 2);
    return empty;
}

static void add_facts(lua_State *L, int facts, int from, int withheld)
{
    bool none_withheld = is_empty(L, withheld);
    lua_pushnil(L);
    while (lua_next(L, from)) {
        bool hidden = lua_type(L, -1) == LUA_TLIGHTUSERDATA;
        if (!hidden && !none_withheld) {
            lua_pushvalue(L, -2);
            hidden = lua_rawget(L, withheld) != LUA_TNIL;
            lua_pop(L, 1);
        }
        if (!hidden) {
            lua_pushvalue(L, -2);
            lua_pushvalue(L, -2);
            lua_rawset(L, facts);
        }
        lua_pop(L, 1);
    }
}

/* Push the member of the gate at index. A gate that cannot be read must not be passed over. */
static void push_member(lua_State *L, int gate, const char *name, int type, int number)
{
    if (lua_getfield(L, gate, name) != type)
        lml_raise_hint(
            L, LML_BAD_RECIPE,
            "write { code = \"...\", needs = { ... }, check = function (facts, sheet) ... end }",
            "gates: the '%s' of gate %d is missing", name, number);
}

/* Whether the recipe asks, allows or gives something of that name. */
static bool knows(const lml_recipe *r, lml_span name)
{
    return lml_shape_field_named(&r->asks, name) || lml_shape_field_named(&r->allowances, name) ||
           lml_shape_field_named(&r->gives, name);
}

/* How many of the names in the list are known to the recipe, or, without one, there in the facts.
 */
static lua_Integer count_known(lua_State *L, int list, const lml_recipe *r, int facts)
{
    lua_Integer known = 0;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, list); i++) {
        lua_rawgeti(L, list, i);
        lml_span name = lml_what_need_text(L, -1, "the name of what a gate needs");
        known += r ? knows(r, name) : lua_rawget(L, facts) != LUA_TNIL;
        lua_settop(L, lua_gettop(L) - 1);
    }
    return known;
}

/* Whether all that a gate needs is known, as above, and one of what it needs `either`. */
static bool has_needs(lua_State *L, int gate, int needs, const lml_recipe *r, int facts)
{
    int top = lua_gettop(L);
    bool has = count_known(L, needs, r, facts) == (lua_Integer)lua_rawlen(L, needs);
    if (has && lua_getfield(L, gate, "either") == LUA_TTABLE)
        has = count_known(L, top + 1, r, facts) > 0;
    lua_settop(L, top);
    return has;
}

/* ---- what a gate reads -------------------------------------------------------------------------
 *
 * A gate is held to the kinds of what it reads. The engine takes in nothing that is not of the kind
 * that a recipe declares, so most need no look: whatever is declared as another kind, or as
 * anything, does. */

static bool is_surely(lua_State *L, int kind, const lml_shape *s);

/* Index of the kind of a record; what is due in it has to be there. */
static bool is_surely_record(lua_State *L, int kind, const lml_shape *s)
{
    int top = lua_gettop(L), fields = top + 1;
    if (s->wanted != LML_WANT_RECORD || lua_getfield(L, kind, "record") != LUA_TTABLE)
        return false;
    bool sure = true;
    lua_pushnil(L);
    while (sure && lua_next(L, fields)) {
        const lml_shape *f =
            lml_shape_field_named(s, lml_what_need_text(L, -2, "the name of a fact"));
        sure = !f || is_surely(L, fields + 2, f);
        lua_settop(L, fields + 1);
    }
    lua_settop(L, top);
    bool any_due = lua_getfield(L, kind, "due") == LUA_TTABLE;
    for (lua_Integer i = 1; sure && any_due && i <= (lua_Integer)lua_rawlen(L, top + 1); i++) {
        lua_rawgeti(L, top + 1, i);
        const lml_shape *f =
            lml_shape_field_named(s, lml_what_need_text(L, -1, "the name of a fact"));
        sure = f && !f->optional;
        lua_settop(L, top + 1);
    }
    return sure;
}

/* Whether all that such a shape takes in is of the kind at the index, which is written as in
 * scripts/facts.lua. */
static bool is_surely(lua_State *L, int kind, const lml_shape *s)
{
    int top = lua_gettop(L);
    bool sure;
    lml_box_need_stack(L, 8);
    if (lua_type(L, kind) == LUA_TSTRING) {
        const char *word = lua_tostring(L, kind);
        bool is_text = s->wanted == LML_WANT_OWNER || s->wanted == LML_WANT_CHOICE;
        bool is_metal = s->wanted == LML_WANT_ALLOY || s->wanted == LML_WANT_ASSAY;
        sure = strcmp(word, "anything") == 0 || (is_text && strcmp(word, "text") == 0) ||
               (is_metal && strcmp(word, "melt") == 0) ||
               strcmp(word, lml_wanted_name(s->wanted)) == 0;
    } else if (lua_getfield(L, kind, "list") != LUA_TNIL) {
        sure = s->wanted == LML_WANT_LIST && is_surely(L, top + 1, s->of);
    } else {
        sure = is_surely_record(L, kind, s);
    }
    lua_settop(L, top);
    return sure;
}

/* The same of all that the recipe asks, allows and gives by the name at the top. */
static bool is_declared_so(lua_State *L, int kinds, const lml_recipe *r)
{
    int top = lua_gettop(L);
    lml_span name = lml_what_need_text(L, top, "the name of what a gate reads");
    const lml_shape *records[] = {&r->asks, &r->allowances, &r->gives};
    bool sure = true;
    lua_pushvalue(L, top);
    bool is_fact = lua_rawget(L, kinds) != LUA_TNIL;
    for (int i = 0; i < 3 && sure; i++) {
        const lml_shape *f = lml_shape_field_named(records[i], name);
        sure = !f || (is_fact && is_surely(L, top + 1, f));
    }
    lua_settop(L, top);
    return sure;
}

/* Push a list of those names of the gate whose kind the recipe's declaration leaves open. */
static void push_odd(lua_State *L, int gate, int kinds, const lml_recipe *r)
{
    int odd = lua_gettop(L) + 1, names = odd + 1;
    lua_newtable(L);
    if (lua_getfield(L, gate, "names") == LUA_TTABLE && lua_istable(L, kinds)) {
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, names); i++) {
            lua_rawgeti(L, names, i);
            if (!is_declared_so(L, kinds, r))
                lua_rawseti(L, odd, (lua_Integer)lua_rawlen(L, odd) + 1);
            lua_settop(L, names);
        }
    }
    lua_settop(L, odd);
}

/* ---- sorted out --------------------------------------------------------------------------------
 */

/* Registry table: by recipe, a list of the gates that may have what they need after it, each before
 * the list of its odd names. Only a state that is kept has them. */
static const char SORTED_OUT;

/* Push the list of all gates and the table of kinds. */
static void push_all(lua_State *L)
{
    lml_load_push_module(L, LML_GATES);
    if (!lua_istable(L, -1) || lua_getfield(L, -1, "gates") != LUA_TTABLE)
        lml_raise_text(L, LML_BAD_RECIPE, "the script 'gates' does not return a list of gates");
    lua_getfield(L, -2, "kinds");
    lua_remove(L, -3);
}

/* Argument: the recipe. */
static int sort_out(lua_State *L)
{
    const lml_recipe *r = lua_touserdata(L, 1);
    const int gates = 2, kinds = 3, list = 4, gate = 5, needs = 6;
    push_all(L);
    lua_newtable(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, gates); i++, lua_settop(L, list)) {
        lua_rawgeti(L, gates, i);
        push_member(L, gate, "needs", LUA_TTABLE, (int)i);
        push_member(L, gate, "check", LUA_TFUNCTION, (int)i);
        if (has_needs(L, gate, needs, r, 0)) {
            lua_Integer count = (lua_Integer)lua_rawlen(L, list);
            lua_pushvalue(L, gate);
            lua_rawseti(L, list, count + 1);
            push_odd(L, gate, kinds, r);
            lua_rawseti(L, list, count + 2);
        }
    }
    lml_run_push_registry(L, &SORTED_OUT);
    lua_pushvalue(L, list);
    lua_rawsetp(L, -2, r);
    return 0;
}

void lml_gate_sort_out(lua_State *L, const lml_recipe *r)
{
    lml_run *run = lml_run_of(L);
    lml_box *box = &run->box;
    uint64_t spent = box->spent, price = box->price;
    if (!lml_shelf_has_script(&run->engine->shelf, LML_GATES))
        return;
    const bool beforehand = run->beforehand;
    run->beforehand = true;
    lua_pushcfunction(L, sort_out);
    lua_pushlightuserdata(L, (void *)(uintptr_t)r);
    int failed = lua_pcall(L, 1, 0, 0);
    run->beforehand = beforehand;
    if (failed && box->dead)
        lua_error(L);
    if (failed)
        lua_pop(L, 1); /* for the run to find */
    box->spent = spent;
    lml_box_set_price(box, price);
    lml_box_start_count(box);
}

/* Take the list of all gates, at the index, down to those that may have what they need; false where
 * these were not sorted out. */
static bool take_sorted(lua_State *L, int gates, const lml_recipe *r)
{
    int top = lua_gettop(L);
    bool found = lua_rawgetp(L, LUA_REGISTRYINDEX, &SORTED_OUT) == LUA_TTABLE &&
                 lua_rawgetp(L, -1, r) == LUA_TTABLE;
    if (found)
        lua_replace(L, gates);
    lua_settop(L, top);
    return found;
}

/* A recipe that passes the gates: where its part, the facts and the kinds are. */
typedef struct passing {
    const lml_recipe *recipe;
    int part, facts, kinds;
} passing;

/* The list of its odd names is above the gate where it is known. */
static void pass_one(lua_State *L, const passing *p, int gate, bool is_known, int number)
{
    int top = lua_gettop(L);
    if (!lua_istable(L, gate))
        lml_raise_text(L, LML_BAD_RECIPE, "gates: gate %d is not a table", number);
    push_member(L, gate, "needs", LUA_TTABLE, number);
    push_member(L, gate, "check", LUA_TFUNCTION, number);
    if (has_needs(L, gate, top + 1, NULL, p->facts)) {
        lua_pushvalue(L, p->facts);
        lml_bind_sheet_push(L, p->part);
        if (is_known)
            lua_pushvalue(L, gate + 1);
        else
            push_odd(L, gate, p->kinds, p->recipe);
        lua_call(L, 3, 0);
    }
    lua_settop(L, top);
}

/* Push all that the gates are told. */
static void push_facts(lua_State *L, const lml_recipe *r, int part, int job, int house)
{
    lua_createtable(L, 0,
                    (int)(r->asks.field_count + r->allowances.field_count + r->gives.field_count));
    int facts = lua_gettop(L), withheld = facts + 1, results = facts + 2;
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    add_facts(L, facts, job, withheld);
    add_facts(L, facts, house, withheld);
    add_facts(L, facts, results, withheld);
    lua_settop(L, facts);
}

void lml_gate_pass(lua_State *L, const lml_recipe *r, int part, int job, int house)
{
    lml_run *run = lml_run_of(L);
    if (!lml_shelf_has_script(&run->engine->shelf, LML_GATES))
        return;
    int top = lua_gettop(L), gates = top + 1, gate = top + 4;
    passing p = {.recipe = r, .part = part, .kinds = top + 2, .facts = top + 3};
    /* What a check requires is the engine's own too. On an error the run's frame is put back
     * further out. */
    const lml_recipe *recipe = run->recipe;
    const char *owner = run->owner;
    run->recipe = NULL;
    run->owner = LML_ENGINES_OWN;
    push_all(L);
    const bool sorted = take_sorted(L, gates, r);
    lua_Integer count = (lua_Integer)lua_rawlen(L, gates);
    if (!sorted || count > 0)
        push_facts(L, r, part, job, house);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, p.facts)) {
        lua_rawgeti(L, gates, i);
        if (sorted)
            lua_rawgeti(L, gates, ++i);
        pass_one(L, &p, gate, sorted, (int)i);
    }
    run->recipe = recipe;
    run->owner = owner;
    lua_settop(L, top);
}
