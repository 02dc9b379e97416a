#include "run/load.h"

#include "cell/what.h"
#include "run/engine.h"
#include "run/parts.h"
#include "run/worked.h"
#include "shelf/slips.h"
#include "cell/names.h"
#include "cell/raise.h"
#include "cell/state.h"

#include <stdio.h>
#include <string.h>

/* Registry tables of a run. */
static const char RECIPES, SCRIPTS, REQUIRED;

lml_item *lml_load_need_item(lua_State *L, lml_put kind, const char *name)
{
    lml_item *item;
    lml_error e;
    if (lml_shelf_need(&lml_run_of(L)->engine->shelf, kind, lml_span_of(name), &item, &e))
        lml_raise(L, &e);
    return item;
}

/* What of a whole count of instructions has gone uncounted when the count starts again. */
static uint64_t uncounted(lua_State *L)
{
    return (uint64_t)lua_gethookcount(L) * lml_box_of(L)->price;
}

/* Push what the chunk of `item` gives back. `owner` is whose scripts it reaches; nothing is at work
 * meanwhile, so that a recipe cannot use another before its own work begins. Whatever happens, the
 * run is left as it was. False, with the error on the stack, when the chunk failed.
 *
 * Loading has a budget and a price of its own and, unless it fails, is not charged to the run: a
 * run costs the same whether or not what it needs was preloaded, and by whom. */
static bool load_item(lua_State *L, const char *owner, lml_item *item)
{
    enum { FAILED_A_BYTE = 8 }; /* it may be tried again and again */
    lml_run *run = lml_run_of(L);
    lml_box *box = &run->box;
    const char *former_owner = run->owner;
    const lml_recipe *recipe = run->recipe;
    const lml_item *loading = run->loading;
    uint64_t spent = box->spent, price = box->price;
    const bool unordered = box->unordered;
    if (item->kind == LML_PUT_RECIPE)
        box->unordered = lml_shelf_is_as_built(&run->engine->shelf, item);
    lua_pushcfunction(L, lml_load_work_chunk);
    lua_pushlightuserdata(L, item);
    run->owner = owner;
    run->recipe = NULL;
    run->loading = item;
    box->spent = 0;
    lml_box_set_price(box, 1);
    lml_box_start_count(box);
    int failed = lua_pcall(L, 1, 1, 0);
    run->owner = former_owner;
    run->recipe = recipe;
    run->loading = loading;
    box->unordered = unordered;
    if (failed) {
        spent += uncounted(L) + FAILED_A_BYTE * item->length;
        box->spent = box->spent > UINT64_MAX - spent ? UINT64_MAX : box->spent + spent;
    } else {
        box->spent = spent;
        item->price = box->price;
    }
    if (price > box->price || !failed)
        lml_box_set_price(box, price);
    if (failed == LUA_ERRMEM)
        lml_box_out_of_memory(box);
    if (failed)
        lml_box_blame(box, "while reading", item->shown);
    return !failed;
}

/* What was loaded, now or beforehand, is used by the run: its longest text counts from now on. */
static void count_in(lua_State *L, const lml_item *item)
{
    lml_box *box = lml_box_of(L);
    if (item->price > box->price)
        lml_box_set_price(box, item->price);
    lml_box_charge(L, uncounted(L));
    lml_box_start_count(box);
}

/* Push what `item` required while it was loaded beforehand, a list of items, or nil. */
static int push_required(lua_State *L, const lml_item *item)
{
    lml_run_push_registry(L, &REQUIRED);
    int type = lua_rawgetp(L, -1, item);
    lua_remove(L, -2);
    return type;
}

/* While things are loaded beforehand it is not known yet whether the run will use them: what each
 * required is kept. */
static void keep_required(lua_State *L, const lml_item *by, lml_item *script)
{
    if (push_required(L, by) == LUA_TNIL) {
        lua_pop(L, 1);
        lml_run_push_registry(L, &REQUIRED);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, -3, by);
        lua_remove(L, -2);
    }
    lua_pushlightuserdata(L, script);
    lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
    lua_pop(L, 1);
}

static void note_script(lua_State *L, lml_item *item);

/* Whether this run asks about the recipe for the first time. */
static bool is_first_use(lua_State *L, const lml_item *item)
{
    static const char USED;
    lml_run_push_registry(L, &USED);
    bool first = lua_rawgetp(L, -1, item) == LUA_TNIL;
    if (first) {
        lua_pushboolean(L, 1);
        lua_rawsetp(L, -3, item);
    }
    lua_pop(L, 2);
    return first;
}

/* It is used, and so is what it required. A bare result names no scripts. */
static void note_required(lua_State *L, const lml_item *item)
{
    if (lml_run_of(L)->bare)
        return;
    lml_box_need_stack(L, 10);
    if (item->kind == LML_PUT_RECIPE && !is_first_use(L, item)) /* a script is noted once */
        return;
    if (push_required(L, item) == LUA_TTABLE) {
        for (lua_Integer i = 1; lua_rawgeti(L, -1, i) != LUA_TNIL; i++) {
            note_script(L, lua_touserdata(L, -1));
            lua_pop(L, 1);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* However many instances there are of a script, the result lists it once, in order of use. */
static void note_script(lua_State *L, lml_item *item)
{
    const lml_run *run = lml_run_of(L);
    if (run->bare || lml_worked_has(run, item))
        return;
    lml_worked_add(L, item, NULL);
    note_required(L, item);
}

void lml_load_note_script(lua_State *L, const char *name)
{
    note_script(L, lml_load_need_item(L, LML_PUT_SCRIPT, name));
}

void lml_load_push_recipe_table(lua_State *L, const char *name)
{
    lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, name);
    lml_run_push_registry(L, &RECIPES);
    if (lua_getfield(L, -1, name) == LUA_TNIL) {
        lua_pop(L, 1);
        if (!load_item(L, item->name, item))
            lua_error(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, -3, name);
    }
    lua_remove(L, -2);
    count_in(L, item);
    if (!lml_run_of(L)->beforehand)
        note_required(L, item);
}

static void push_script_of(lua_State *L, const char *owner, const char *name)
{
    static const char LOADING;
    lml_item *item = lml_load_need_item(L, LML_PUT_SCRIPT, name);
    const lml_run *run = lml_run_of(L);
    if (!run->beforehand)
        note_script(L, item);
    else if (run->loading)
        keep_required(L, run->loading, item);
    lml_run_push_registry(L, &SCRIPTS);
    lua_pushfstring(L, "%s/%s", owner, name);
    lua_pushvalue(L, -1);
    int found = lua_rawget(L, -3);
    if (found == LUA_TLIGHTUSERDATA)
        lml_raise_text(L, LML_BAD_RECIPE, "the script '%s' requires itself", name);
    if (found == LUA_TNIL) {
        lua_pop(L, 1);
        lua_pushvalue(L, -1);
        lua_pushlightuserdata(L, (void *)(uintptr_t)&LOADING);
        lua_rawset(L, -4);
        bool loaded = load_item(L, owner, item);
        if (loaded && !run->loading && strcmp(owner, LML_ENGINES_OWN) == 0)
            item->comes_late = lml_run_of(L)->more_is_used = true;
        if (loaded && lua_istable(L, -1))
            lml_names_read_only(L, name);
        lua_pushvalue(L, -2);
        if (loaded)
            lua_pushvalue(L, -2);
        else
            lua_pushnil(L);
        lua_rawset(L, -5);
        if (!loaded)
            lua_error(L);
    }
    lua_replace(L, -3);
    lua_pop(L, 1);
    count_in(L, item);
}

/* Lemel's own recipes share their instances of scripts while these are all as shipped: none of them
 * changes what it is given, which a test of the demo's jobs checks. Not where values are traced:
 * the steps of each recipe are its own. */
static const char *shared_owner(const lml_run *run)
{
    static const char shared[] = "*"; /* no recipe has this name */
    const char *owner = run->owner;
    const lml_shelf *shelf = &run->engine->shelf;
    if (run->box.trace || strcmp(owner, LML_ENGINES_OWN) == 0 || strcmp(owner, shared) == 0)
        return owner;
    const lml_item *recipe = lml_shelf_find(shelf, LML_PUT_RECIPE, lml_span_of(owner));
    bool shares = recipe && !recipe->is_own && lml_shelf_is_as_built(shelf, recipe);
    return shares ? shared : owner;
}

void lml_load_push_script(lua_State *L, const char *name)
{
    push_script_of(L, shared_owner(lml_run_of(L)), name);
}

void lml_load_push_module(lua_State *L, const char *name)
{
    push_script_of(L, LML_ENGINES_OWN, name);
}

/* ---- declarations ------------------------------------------------------------------------------
 */

/* Argument: what a recipe's file gave back. Gives its rule point, or nothing when it is no rule. */
static int point_of(lua_State *L)
{
    lua_settop(L, 1);
    lua_pushnil(L);
    if (!lua_istable(L, 1) || lua_getfield(L, 1, "rule") != LUA_TSTRING)
        lua_settop(L, 2);
    else
        lml_load_push_rule_point(L, lml_what_need_text(L, -1, "the name of a rule point"));
    return 1;
}

void lml_load_push_rule_point(lua_State *L, lml_span name)
{
    lml_load_push_module(L, LML_RULE_POINTS);
    if (!lua_istable(L, -1) || lua_getfield(L, -1, "points") != LUA_TTABLE)
        lml_raise_text(L, LML_BAD_RECIPE,
                       "the script '" LML_RULE_POINTS "' does not return any points");
    lua_pushlstring(L, name.at, name.length);
    if (lua_rawget(L, -2) != LUA_TTABLE) {
        lml_nearest nearest = lml_nearest_to(name);
        for (lua_pushnil(L); lua_next(L, -3); lua_pop(L, 1))
            if (lua_type(L, -2) == LUA_TSTRING)
                lml_nearest_offer(&nearest, lml_what_need_text(L, -2, "the name of a rule point"));
        lml_error e;
        lml_fail(&e, LML_BAD_RECIPE, "there is no rule point '%.*s'", (int)name.length, name.at);
        if (lml_nearest_found(&nearest))
            lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
        else
            lml_error_hint(&e, "lemel recipes --rules lists the points");
        lml_raise_as_is(L, &e);
    }
    lua_replace(L, -3);
    lua_pop(L, 1);
}

/* Where the error names a member: where that is declared. */
static lml_status told_with_line(const lml_item *item, lml_status status, lml_error *err)
{
    int line = err ? lml_slips_line((lml_span){item->text, item->length}, err) : 0;
    return line ? lml_error_context(err, status, "in %s:%d", item->shown, line)
                : lml_error_context(err, status, "in %s", item->shown);
}

/* The recipe's table is on top of the stack. */
static lml_status read_declaration(lml_run *run, lml_item *item, lml_error *err)
{
    lml_recipe *recipe;
    lml_span source = {item->text, item->length};
    lua_State *L = run->box.L;
    lua_pushcfunction(L, point_of);
    lua_pushvalue(L, -2);
    lml_status status = lml_box_call(&run->box, 1, 1, err);
    if (!status) {
        status = lml_recipe_read(&run->box, -2, -1, item->name, &run->engine->alloc, &recipe, err);
        lua_pop(L, 1);
    }
    if (status)
        return told_with_line(item, status, err);
    if (item != run->engine->advised)
        status = lml_slips_check(source, item->shown, recipe, err);
    if (status)
        lml_recipe_free(recipe);
    else
        item->recipe = recipe;
    return status;
}

static int recipe_table(lua_State *L)
{
    lml_load_push_recipe_table(L, lua_touserdata(L, 1));
    return 1;
}

lml_status lml_load_recipe_table(lml_run *run, const char *recipe, lml_error *err)
{
    return lml_run_call(run, recipe_table, recipe, 1, err);
}

lml_status lml_load_describe_item(lml_run *run, lml_item *item, lml_error *err)
{
    lml_run aside;
    if (lml_shelf_declared(&run->engine->shelf, item))
        return LML_OK;
    lml_status status = lml_run_open(&aside, run->engine, err);
    if (status)
        return status;
    status = lml_load_recipe_table(&aside, item->name, err);
    if (!status)
        status = read_declaration(&aside, item, err);
    lml_run_close(&aside);
    return status;
}

lml_status lml_load_gather(lml_run *run, lml_item *item, lml_recipe_note *note, void *self,
                           lml_recipe **out, bool *whole, lml_error *err)
{
    lml_run aside;
    lml_status status = lml_run_open(&aside, run->engine, err);
    if (status)
        return status;
    lua_State *L = aside.box.L;
    status = lml_load_recipe_table(&aside, item->name, err);
    if (!status) {
        lua_pushcfunction(L, point_of);
        lua_pushvalue(L, -2);
        status = lml_box_call(&aside.box, 1, 1, err);
    }
    if (!status)
        status = lml_recipe_gather(&aside.box, -2, -1, item->name, &run->engine->alloc, note, self,
                                   out, whole, err);
    lml_run_close(&aside);
    return status;
}

static const lml_recipe *declared(lua_State *L, lml_item *item)
{
    lml_error e;
    if (lml_load_describe_item(lml_run_of(L), item, &e))
        lml_raise_as_is(L, &e);
    return item->recipe;
}

const lml_recipe *lml_load_recipe(lua_State *L, const char *name)
{
    return declared(L, lml_load_need_item(L, LML_PUT_RECIPE, name));
}

static int describe(lua_State *L)
{
    lml_load_recipe(L, lua_touserdata(L, 1));
    return 0;
}

lml_status lml_load_describe(lml_run *run, const char *recipe, lml_error *err)
{
    return lml_run_call(run, describe, recipe, 0, err);
}

/* ---- beforehand --------------------------------------------------------------------------------
 */

bool lml_load_is_loaded(lua_State *L, const lml_item *item)
{
    if (item->kind != LML_PUT_RECIPE)
        return false;
    lml_run_push_registry(L, &RECIPES);
    bool loaded = lua_getfield(L, -1, item->name) != LUA_TNIL;
    lua_pop(L, 2);
    return loaded;
}

/* Load the recipe, and read its declaration. */
static void load_one(lua_State *L, lml_item *item)
{
    lml_load_push_recipe_table(L, item->name);
    lml_error e;
    if (!lml_shelf_declared(&lml_run_of(L)->engine->shelf, item) &&
        read_declaration(lml_run_of(L), item, &e))
        lml_raise_as_is(L, &e);
    lua_pop(L, 1);
}

/* Of the recipe's table a job needs only the function: the declaration was read before, and the
 * proofs would be copied for each run, with the rest of the state. */
static void keep_work_alone(lua_State *L, const lml_item *item)
{
    lml_run_push_registry(L, &RECIPES);
    lua_getfield(L, -1, item->name);
    lua_createtable(L, 0, 1);
    lua_getfield(L, -2, "work");
    lua_setfield(L, -2, "work");
    lua_setfield(L, -3, item->name);
    lua_pop(L, 2);
}

/* Those that a walk came by. */
typedef struct walk {
    const lml_item *item[LML_PARTS_MOST];
    int count;
    bool tidy;
} walk;

static bool is_passed(const walk *w, const lml_item *item)
{
    bool passed = w->count == LML_PARTS_MOST;
    for (int i = 0; i < w->count && !passed; i++)
        passed = w->item[i] == item;
    return passed;
}

/* What lies deeper than recipes may use each other, or is too many, is left: it will be refused
 * when the recipes that take part are gathered. */
static void load_beforehand(lua_State *L, const char *name, walk *w, int depth)
{
    lml_box_need_stack(L, 20);
    lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, name);
    if (depth == LML_USE_DEPTH || is_passed(w, item))
        return;
    w->item[w->count++] = item;
    const lml_shelf *shelf = &lml_run_of(L)->engine->shelf;
    if (depth == 0 || item->is_worked || !lml_shelf_declared(shelf, item)) {
        load_one(L, item);
        if (w->tidy) {
            keep_work_alone(L, item);
            lua_gc(L, LUA_GCCOLLECT);
        }
    }
    for (size_t i = 0; i < item->recipe->use_count; i++)
        load_beforehand(L, item->recipe->uses[i], w, depth + 1);
}

void lml_load_beforehand(lua_State *L, const char *recipe, bool tidy)
{
    static const char *const modules[] = {"alloys", "gates"};
    lml_run *run = lml_run_of(L);
    const lml_shelf *shelf = &run->engine->shelf;
    uint64_t spent = run->box.spent, price = run->box.price;
    run->beforehand = true;
    load_beforehand(L, recipe, &(walk){.tidy = tidy}, 0);
    for (size_t i = 0; i < sizeof modules / sizeof modules[0]; i++) {
        if (lml_shelf_has_script(&run->engine->shelf, modules[i])) {
            lml_load_push_module(L, modules[i]);
            lua_pop(L, 1);
        }
    }
    for (size_t i = 0; i < shelf->count; i++) {
        if (shelf->items[i]->comes_late) {
            lml_load_push_module(L, shelf->items[i]->name);
            lua_pop(L, 1);
        }
    }
    run->beforehand = false;
    run->box.spent = spent;
    lml_box_set_price(&run->box, price);
    lml_box_start_count(&run->box);
}

/* ---- for work ----------------------------------------------------------------------------------
 */

/* Argument: the item. */
static int load_late(lua_State *L)
{
    load_one(L, lua_touserdata(L, 1));
    return 0;
}

/* As if it had been loaded beforehand: a run costs the same. A failure is reported by the next load
 * of it next, as in a run that loads by itself. */
static void try_late(lua_State *L, lml_run *run, lml_item *item)
{
    lml_box *box = &run->box;
    uint64_t spent = box->spent, price = box->price;
    bool beforehand = run->beforehand;
    lua_pushcfunction(L, load_late);
    lua_pushlightuserdata(L, item);
    run->beforehand = true;
    int failed = lua_pcall(L, 1, 0, 0);
    run->beforehand = beforehand;
    if (box->dead)
        lua_error(L);
    if (failed) {
        lua_pop(L, 1);
        return;
    }
    box->spent = spent;
    lml_box_set_price(box, price);
}

lml_item *lml_load_for_work(lua_State *L, const char *name)
{
    lml_run *run = lml_run_of(L);
    lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, name);
    if (!lml_load_is_loaded(L, item)) {
        try_late(L, run, item);
        run->more_is_used = true;
    }
    item->is_worked = true;
    count_in(L, item);
    declared(L, item);
    return item;
}

void lml_load_push_worked_table(lua_State *L, const lml_item *item)
{
    lml_run_push_registry(L, &RECIPES);
    if (lua_getfield(L, -1, item->name) == LUA_TNIL) {
        lua_pop(L, 2);
        lml_load_push_recipe_table(L, item->name);
        return;
    }
    lua_remove(L, -2);
    note_required(L, item);
}
