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

void lml_gate_pass(lua_State *L, const lml_recipe *r, int part, int job, int house)
{
    lml_run *run = lml_run_of(L);
    if (!lml_shelf_has_script(&run->engine->shelf, LML_GATES))
        return;
    int top = lua_gettop(L);
    int facts = top + 1, withheld = top + 2, results = top + 3;
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    lua_createtable(L, 0,
                    (int)(r->asks.field_count + r->allowances.field_count + r->gives.field_count));
    lua_insert(L, facts);
    add_facts(L, facts, job, withheld);
    add_facts(L, facts, house, withheld);
    add_facts(L, facts, results, withheld);
    /* What a check requires is the engine's own too. On an error the run's frame is put back
     * further out. */
    const lml_recipe *recipe = run->recipe;
    const char *owner = run->owner;
    run->recipe = NULL;
    run->owner = LML_ENGINES_OWN;
    lml_load_push_module(L, LML_GATES);
    if (!lua_istable(L, -1) || lua_getfield(L, -1, "gates") != LUA_TTABLE)
        lml_raise_text(L, LML_BAD_RECIPE, "the script 'gates' does not return a list of gates");
    int gates = lua_gettop(L);
    lua_Integer count = (lua_Integer)lua_rawlen(L, gates);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, gates, i);
        pass_one(L, gates + 1, (int)i, facts, part);
    }
    run->recipe = recipe;
    run->owner = owner;
    lua_settop(L, top);
}
