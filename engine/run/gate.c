#include "run/load.h"
#include "run/gate.h"

#include "run/engine.h"
#include "run/part.h"
#include "cell/raise.h"
#include "cell/what.h"
#include "run/bind_sheet.h"

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

static bool may_have_needs(lua_State *L, int needs, const lml_recipe *r)
{
    bool all = true;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, needs) && all; i++) {
        lua_rawgeti(L, needs, i);
        all = knows(r, lml_what_need_text(L, -1, "the name of what a gate needs"));
        lua_pop(L, 1);
    }
    return all;
}

/* Registry table: by recipe, the gates that may have what they need after it, a list. Only a state
 * that is kept has them. */
static const char SORTED_OUT;

static void push_all(lua_State *L)
{
    lml_load_push_module(L, LML_GATES);
    if (!lua_istable(L, -1) || lua_getfield(L, -1, "gates") != LUA_TTABLE)
        lml_raise_text(L, LML_BAD_RECIPE, "the script 'gates' does not return a list of gates");
    lua_remove(L, -2);
}

/* Argument: the recipe. */
static int sort_out(lua_State *L)
{
    const lml_recipe *r = lua_touserdata(L, 1);
    const int gates = 2, list = 3;
    push_all(L);
    lua_newtable(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, gates); i++, lua_settop(L, list)) {
        lua_rawgeti(L, gates, i);
        push_member(L, list + 1, "needs", LUA_TTABLE, (int)i);
        push_member(L, list + 1, "check", LUA_TFUNCTION, (int)i);
        if (may_have_needs(L, list + 2, r)) {
            lua_pushvalue(L, list + 1);
            lua_rawseti(L, list, (lua_Integer)lua_rawlen(L, list) + 1);
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
    bool found = lua_rawgetp(L, LUA_REGISTRYINDEX, &SORTED_OUT) == LUA_TTABLE &&
                 lua_rawgetp(L, -1, r) == LUA_TTABLE;
    if (found)
        lua_replace(L, gates);
    lua_settop(L, gates);
    return found;
}

static bool has_needs(lua_State *L, int needs, int facts)
{
    bool all = true;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, needs) && all; i++) {
        lua_rawgeti(L, needs, i);
        lml_what_need_text(L, -1, "the name of what a gate needs");
        all = lua_rawget(L, facts) != LUA_TNIL;
        lua_pop(L, 1);
    }
    return all;
}

static void pass_one(lua_State *L, int gate, int number, int facts, int part)
{
    if (!lua_istable(L, gate))
        lml_raise_text(L, LML_BAD_RECIPE, "gates: gate %d is not a table", number);
    push_member(L, gate, "needs", LUA_TTABLE, number);
    push_member(L, gate, "check", LUA_TFUNCTION, number);
    if (has_needs(L, gate + 1, facts)) {
        lua_pushvalue(L, facts);
        lml_bind_sheet_push(L, part);
        lua_call(L, 2, 0);
    }
    lua_settop(L, gate - 1);
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
    int top = lua_gettop(L), gates = top + 1, facts = top + 2;
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
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, gates, i);
        pass_one(L, facts + 1, (int)i, facts, part);
    }
    run->recipe = recipe;
    run->owner = owner;
    lua_settop(L, top);
}
