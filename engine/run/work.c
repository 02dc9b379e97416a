#include "run/work.h"

#include "cell/class.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "unit/currency.h"
#include "run/agree.h"
#include "run/engine.h"
#include "run/gate.h"
#include "run/gives.h"
#include "run/inputs.h"
#include "run/load.h"
#include "run/part.h"
#include "run/refused.h"
#include "run/reuse.h"
#include "cell/trace.h"
#include "cell/trace_own.h"
#include "run/worked.h"
#include "run/bind_sheet.h"
#include "value/compare.h"
#include "value/write.h"

#include <math.h>

#include <stdio.h>
#include <string.h>

static void check_circle(lua_State *L, const lml_run *run, const char *name)
{
    bool circle = false;
    for (int i = 0; i < run->depth; i++)
        circle = circle || strcmp(run->working[i], name) == 0;
    if (!circle && run->depth < LML_USE_DEPTH)
        return;
    lml_error e;
    char chain[300];
    size_t n = 0;
    for (int i = 0; i < run->depth && n < sizeof chain; i++)
        n += (size_t)snprintf(chain + n, sizeof chain - n, "%s uses ", run->working[i]);
    lml_fail(&e, LML_BAD_RECIPE,
             circle ? "the recipes use each other in a circle: %s%s"
                    : "recipes use each other too deeply: %s%s",
             chain, name);
    lml_error_hint(&e, "remove one of these names from a recipe's uses");
    lml_raise(L, &e);
}

/* A rule that is asked repeatedly is listed once. */
static void note_worked(lua_State *L, const lml_run *run, lml_item *item)
{
    if (item->recipe->rule && lml_worked_has(run, item))
        return;
    lml_worked_add(L, item, run->depth > 1 ? run->working[run->depth - 2] : NULL);
    if (item->recipe->rule)
        lml_load_note_script(L, LML_RULE_POINTS);
}

/* The currency of the value at the index, or of the first value in the table or view there, that is
 * not `but`; 0: none. */
static uint16_t currency_in(lua_State *L, int index, uint16_t but)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v)
        return v->dimension.currency != but ? v->dimension.currency : 0;
    if (!lua_istable(L, index) && !lml_class_test(L, index, LML_CLASS_RECORD) &&
        !lml_class_test(L, index, LML_CLASS_LIST))
        return 0;
    lml_box_need_stack(L, 8);
    uint16_t found = 0;
    int top = lua_gettop(L);
    lml_view_push_content(L, index, "what a rule is given and answers");
    for (lua_pushnil(L); !found && lua_next(L, top + 1); lua_pop(L, 1))
        found = currency_in(L, lua_gettop(L), but);
    lua_settop(L, top);
    return found;
}

/* ---- the range of an answer --------------------------------------------------------------------
 */

/* Of a limit, for what rounding of doubles adds: some ten operations add 1e-15 each, and a scale
 * shows 1e-6 at best. */
#define SAME 1e-9

static double size_of(const lml_value *v)
{
    return v->kind == LML_MONEY ? (double)v->exact : v->amount;
}

/* The most that the answer may be: so many times the sum of what the rule was told under those
 * names, { 20, "raw_castings", "usual_mass" } at the index. False where one of them is not there,
 * as in a proof that does not give it. */
static bool most_of(lua_State *L, int most, int told, const lml_value *answer, lml_value *out)
{
    double sum = 0;
    lua_rawgeti(L, most, 1);
    double times = lua_tonumber(L, -1);
    lua_pop(L, 1);
    for (lua_Integer i = 2; i <= (lua_Integer)lua_rawlen(L, most); i++) {
        lua_rawgeti(L, most, i);
        lua_rawget(L, told);
        const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
        lua_pop(L, 1); /* the table keeps it */
        if (!v || !lml_compare_alike(v, answer))
            return false;
        sum += size_of(v);
    }
    *out = *answer;
    out->decimals = LML_SHORTEST;
    if (out->kind == LML_MONEY)
        out->exact = (int64_t)(times * sum);
    else
        out->amount = times * sum;
    return true;
}

/* `limits` of the point: { deposit = { least = 0, most = { 1, "price" } } }. They are for figures
 * that no `from` and `to` can bound, as it would have to be in one currency, or of one metal. */
static void check_limits(lua_State *L, const lml_recipe *r, int told, int results)
{
    lml_load_push_rule_point(L, lml_span_of(r->rule));
    if (lua_getfield(L, -1, "limits") != LUA_TTABLE)
        return;
    int limits = lua_gettop(L);
    lml_view_push_content(L, told, "what a rule is given");
    for (size_t i = 0; i < r->gives.field_count; i++, lua_settop(L, limits + 1)) {
        const char *name = r->gives.fields[i].name;
        char is[LML_VALUE_TEXT], may[LML_VALUE_TEXT];
        lml_value most;
        lml_error e;
        lua_getfield(L, results, name);
        const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
        if (!v || lua_getfield(L, limits, name) != LUA_TTABLE)
            continue;
        int limit = lua_gettop(L);
        lml_write_text(v, is);
        bool below = lua_getfield(L, limit, "least") == LUA_TNUMBER && size_of(v) < 0;
        bool above = lua_getfield(L, limit, "most") == LUA_TTABLE &&
                     most_of(L, lua_gettop(L), limits + 1, v, &most) &&
                     size_of(v) > size_of(&most) + fabs(size_of(&most)) * SAME;
        if (!below && !above)
            continue;
        if (above)
            lml_write_text(&most, may);
        lml_fail(&e, LML_BAD_RECIPE, "%s answers '%s' (%s) with %s, but it cannot be %s %s",
                 r->name, name, r->gives.fields[i].title, is, below ? "below" : "above",
                 below ? "zero" : may);
        lml_error_hint(&e, "check what its work function returns");
        lml_raise_as_is(L, &e);
    }
}

/* Arguments: the recipe, the part, what the rule was told, what `work` gave back, and the line that
 * it begins in. */
static int take_answer(lua_State *L)
{
    const lml_recipe *r = lua_touserdata(L, 1);
    lml_gives_take(L, 2, 4, r, (int)lua_tointeger(L, 5));
    lua_getfield(L, 2, "results");
    int results = lua_gettop(L);
    uint16_t told = currency_in(L, 3, 0), other = told ? currency_in(L, results, told) : 0;
    if (!other) {
        check_limits(L, r, 3, results);
        return 0;
    }
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE,
             "%s answers in %s, but was given figures in %s: no exchange rate is guessed", r->name,
             lml_currency_at(other)->code, lml_currency_at(told)->code);
    lml_error_hint(&e, "write its sums in %s", lml_currency_at(told)->code);
    return lml_raise_as_is(L, &e);
}

/* Arguments as those of take_answer. */
static int take_gives(lua_State *L)
{
    lml_gives_take(L, 2, 4, lua_touserdata(L, 1), (int)lua_tointeger(L, 5));
    return 0;
}

/* Before the place of a fault in it. */
static const char *whose(const lml_recipe *r, const lml_item *item)
{
    if (!r->rule)
        return "in the work of";
    return item->is_own ? "in the house's rule," : "in lemel's own rule,";
}

/* A result of `work` that does not match the declaration is reported with the line where its
 * function begins: the author of a rule may not know the recipe that asks it. */
static void take_answer_of(lua_State *L, int line, const lml_recipe *r)
{
    lua_pushcfunction(L, r->rule ? take_answer : take_gives);
    for (int i = 1; i <= 4; i++)
        lua_pushvalue(L, i);
    lua_pushinteger(L, line);
    if (!lua_pcall(L, 5, 0, 0))
        return;
    lml_error *e = lml_class_test(L, -1, LML_CLASS_ERROR);
    const lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, r->name);
    if (e && !lml_box_of(L)->stopping)
        lml_error_context(e, e->status, "%s %s:%d", whose(r, item), item->shown, line);
    lua_error(L);
}

/* Arguments: the recipe, the part, its `work` and what that takes. */
static int work_and_keep(lua_State *L)
{
    const lml_recipe *r = lua_touserdata(L, 1);
    lua_Debug about;
    lua_pushvalue(L, 3);
    lua_getinfo(L, ">S", &about);
    lua_pushvalue(L, 4); /* its inputs are checked once more */
    lua_insert(L, 3);
    lua_call(L, 3, 1);
    take_answer_of(L, about.linedefined, r);
    lml_agree_check(L, 2);
    return 0;
}

/* In its place, of a recipe that lacks a setting. */
static int give_nothing(lua_State *L)
{
    return lml_raise_stop(L);
}

/* Whether the part has an entry or a remark. */
static bool is_written(lua_State *L, int part)
{
    int top = lua_gettop(L);
    part = lua_absindex(L, part);
    lua_getfield(L, part, "remarks");
    bool written = lua_rawlen(L, -1) > 0;
    lua_getfield(L, part, "pages");
    for (size_t i = 0; i < lml_part_pages() && !written; i++) {
        lua_getfield(L, top + 2, lml_part_page(i));
        written = lua_rawlen(L, -1) > 0;
    }
    lua_settop(L, top);
    return written;
}

/* A limit was hit in its work. */
static void blame(lua_State *L, const lml_recipe *r)
{
    lml_run *run = lml_run_of(L);
    lml_item *item;
    if (!lml_shelf_need(&run->engine->shelf, LML_PUT_RECIPE, lml_span_of(r->name), &item, NULL))
        lml_box_blame(&run->box, whose(r, item), item->shown);
}

/* Arguments: the name, the arguments of a use or nil, the parent part or nil. Gives back results
 * (nil of the job's own recipe), part. */
static int work(lua_State *L)
{
    const char *name = lua_touserdata(L, 1);
    lml_run *run = lml_run_of(L);
    int arguments = lua_isnil(L, 2) ? 0 : 2;
    lml_box_need_stack(L, 40);
    check_circle(L, run, name);
    lml_item *item = lml_load_for_work(L, name);
    const lml_recipe *r = item->recipe;
    run->working[run->depth++] = r->name;
    run->recipe = r;
    run->owner = r->name;
    note_worked(L, run, item);

    lml_part_push(L, r->name, r->heads ? r->heads : r->title);
    if (lml_box_of(L)->trace) {
        lua_newtable(L);
        lua_setfield(L, -2, "numbers");
    }
    const int part = 4, job = 5, house = 6;
    lml_gives_open(L, part, r);
    /* Lemel's own rules mostly write nothing: their parts are kept only when they do, for the
     * sheets to be put together from fewer. */
    const bool is_quiet = r->rule && !lua_isnil(L, 3) && !item->is_own;
    if (!lua_isnil(L, 3) && !is_quiet)
        lml_part_enclose(L, 3, part);
    /* Kept where `use` finds the part of the recipe at work. */
    lua_pushvalue(L, part);
    lua_rawsetp(L, LUA_REGISTRYINDEX, run);
    const bool more = lml_inputs_push_job(L, r, arguments);
    lml_inputs_push_house(L, r, arguments, more);
    const bool refused = run->refused;
    run->refused = false;

    lua_pushcfunction(L, refused ? give_nothing : work_and_keep);
    lua_pushlightuserdata(L, (void *)(uintptr_t)r);
    lua_pushvalue(L, part);
    lml_load_push_worked_table(L, item);
    lua_getfield(L, -1, "work");
    lua_remove(L, -2);
    lua_pushvalue(L, job);
    lml_view_push(L, LML_CLASS_RECORD, "job");
    lua_pushvalue(L, house);
    lml_view_push(L, LML_CLASS_RECORD, "house");
    lml_bind_sheet_push(L, part);
    lml_box_need_stack(L, LML_WORK_STACK);
    int failed = lua_pcall(L, 6, 0, 0);
    if (failed == LUA_ERRMEM)
        lml_box_out_of_memory(&run->box);
    if (run->box.dead)
        blame(L, r);
    if (failed) {
        lml_error *e = lml_class_test(L, -1, LML_CLASS_ERROR);
        if (!run->box.stopping && r->rule && e)
            lml_error_context(e, e->status,
                              "lemel recipes --rules %s shows what this rule is given and answers",
                              r->rule);
        if (!run->box.stopping && !(e && !run->withholds && lml_refused_note(run, e)))
            return lua_error(L);
        /* It read, or gave on, a figure that is withheld: all that it gives is withheld in turn. */
        run->box.stopping = false;
        lml_gives_withhold(L, part, r);
        lua_newtable(L);
        lua_replace(L, -2);
        lml_gives_take(L, part, lua_gettop(L), r, 0);
    }
    /* What a rule answers is in the facts of the recipe that asked. */
    if (!refused && (!r->rule || run->depth == 1))
        lml_gate_pass(L, r, part, job, house);
    if (is_quiet && is_written(L, part))
        lml_part_enclose(L, 3, part);
    if (arguments || run->box.trace)
        lml_gives_push(L, part, r);
    else
        lua_pushnil(L); /* nobody reads those of the job's own recipe but from its part */
    lua_pushvalue(L, part);
    return 2;
}

static const char ENDED, ENDED_BY; /* registry keys: the part of the job's own recipe; the step */

/* Whether Lua itself raised the text: a recipe can only raise errors of ours. What Lua was
 * attempting it tells by kinds and names in the code. */
static bool is_attempt(lua_State *L, int failure)
{
    const char *behind =
        lua_type(L, failure) == LUA_TSTRING ? strstr(lua_tostring(L, failure), ": ") : NULL;
    return behind && strncmp(behind, ": attempt to ", 13) == 0;
}

static void keep_ended(lua_State *L, int part, int failure)
{
    if (lml_trace_of(L, failure) == 0 && is_attempt(L, failure)) {
        lua_pushvalue(L, failure);
        lml_trace_own_note(L);
        lua_pop(L, 1);
    }
    lua_pushinteger(L, (lua_Integer)lml_trace_of(L, failure));
    lua_rawsetp(L, LUA_REGISTRYINDEX, &ENDED_BY);
    lua_pushvalue(L, part);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &ENDED);
}

bool lml_work_push_ended(lua_State *L, uint32_t *step)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &ENDED_BY);
    *step = (uint32_t)lua_tointeger(L, -1);
    lua_pop(L, 1);
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &ENDED) == LUA_TTABLE)
        return true;
    lua_pop(L, 1);
    return false;
}

/* On the stack: the part that used the failed one, the error, the failed part, or again the former
 * if it failed before it had one. Raises the error. */
static void fail(lua_State *L, lml_run *run, int user)
{
    const int failure = user + 1, part = user + 2;
    bool may_be_caught = !run->box.dead && !run->box.stopping && lua_istable(L, user);
    if (may_be_caught && !lua_rawequal(L, user, part)) {
        lml_error e;
        lua_pushvalue(L, failure);
        lml_box_take_error(&run->box, LUA_ERRRUN, &e);
        lml_part_fail(L, part, &e);
        run->part_failed = true;
    }
    if (!run->box.dead && !lua_istable(L, user) && lua_istable(L, part))
        keep_ended(L, part, failure);
    lua_settop(L, failure);
    lua_error(L);
}

static void work_recipe(lua_State *L, const char *name, int arguments, int parent)
{
    lml_run *run = lml_run_of(L);
    int depth = run->depth;
    const lml_recipe *recipe = run->recipe;
    const char *owner = run->owner;
    const lml_trace_entered entered = lml_trace_enter(L, arguments);
    lua_rawgetp(L, LUA_REGISTRYINDEX, run); /* the part at work, to be put back */
    lua_pushcfunction(L, work);
    lua_pushlightuserdata(L, (void *)(uintptr_t)name);
    if (arguments)
        lua_pushvalue(L, arguments);
    else
        lua_pushnil(L);
    if (parent)
        lua_pushvalue(L, parent);
    else
        lua_pushnil(L);
    int failed = lua_pcall(L, 3, 2, 0);
    lml_trace_leave(L, entered, failed ? 0 : lua_gettop(L) - 1);
    run->depth = depth;
    run->recipe = recipe;
    run->owner = owner;
    lua_rawgetp(L, LUA_REGISTRYINDEX, run); /* its own part */
    lua_pushvalue(L, failed ? -3 : -4);
    lua_rawsetp(L, LUA_REGISTRYINDEX, run);
    if (failed == LUA_ERRMEM)
        lml_box_out_of_memory(&run->box);
    if (failed)
        fail(L, run, lua_gettop(L) - 2);
    lua_pop(L, 1);
    lua_remove(L, -3);
}

void lml_work_recipe(lua_State *L, const char *name, int arguments, int parent)
{
    arguments = arguments ? lua_absindex(L, arguments) : 0;
    parent = parent ? lua_absindex(L, parent) : 0;
    if (!lml_run_of(L)->engine->reuse || !arguments || !parent) {
        work_recipe(L, name, arguments, parent);
        return;
    }
    lml_reuse_mark mark;
    if (lml_reuse_take(L, name, arguments, parent, &mark))
        return;
    work_recipe(L, name, arguments, parent);
    lml_reuse_keep(L, name, arguments, parent, &mark);
}

/* ---- a whole run -------------------------------------------------------------------------------
 */

static int run_job(lua_State *L)
{
    lml_reuse *reuse = lml_run_of(L)->engine->reuse;
    lua_pushnil(L); /* of an earlier run in this state */
    lua_rawsetp(L, LUA_REGISTRYINDEX, &ENDED);
    lua_settop(L, LML_WORK_HEIGHT);
    if (reuse)
        lml_reuse_reach(L, reuse, lua_touserdata(L, 1));
    lml_work_recipe(L, lua_touserdata(L, 1), 0, 0);
    return 2;
}

lml_status lml_work_job_run(lml_run *run, const char *recipe, lml_error *err)
{
    lml_status status = lml_run_call(run, run_job, recipe, 2, err);
    if (status != LML_OK)
        lml_refused_place(run, err);
    return status;
}

static int check_job(lua_State *L)
{
    const lml_recipe *r = lml_load_recipe(L, lua_touserdata(L, 1));
    lml_inputs_push_job(L, r, 0);
    lml_inputs_push_house(L, r, 0, false);
    return 0;
}

lml_status lml_work_job_check(lml_run *run, const char *recipe, lml_error *err)
{
    return lml_run_call(run, check_job, recipe, 0, err);
}
