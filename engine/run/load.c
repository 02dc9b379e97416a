#include "run/load.h"

#include "run/allow.h"
#include "cell/what.h"
#include "run/engine.h"
#include "shelf/slips.h"
#include "cell/chunk.h"
#include "cell/names.h"
#include "cell/raise.h"
#include "cell/state.h"

#include <stdio.h>
#include <string.h>

/* Registry tables of a run. */
static const char RECIPES, SCRIPTS, REQUIRED, CHUNKS, MAKER;

/* ---- chunks ------------------------------------------------------------------------------------
 */

static int keep_code(lua_State *L, const void *piece, size_t size, void *self)
{
    (void)L;
    lml_builder *b = self;
    lml_builder_add(b, piece, size);
    return b->status != LML_OK;
}

typedef struct span_reader {
    lml_span left;
} span_reader;

static const char *next_piece(lua_State *L, void *self, size_t *size)
{
    (void)L;
    span_reader *r = self;
    const char *at = r->left.at;
    *size = r->left.length;
    r->left.length = 0;
    return *size ? at : NULL;
}

/* Compile the item's text and keep our own dump of it. Raises. */
static void compile(lua_State *L, lml_item *item)
{
    lml_box *box = lml_box_of(L);
    const lml_alloc *alloc = &lml_run_of(L)->engine->alloc;
    uint64_t price = box->price;
    lml_error e;
    if (lml_chunk_load(box, (lml_span){item->text, item->length}, item->shown, &e))
        lml_raise_as_is(L, &e);
    lml_builder b = lml_builder_on(alloc, 0);
    lua_dump(L, keep_code, &b, 0);
    if (lml_builder_status(&b, &e) == LML_OK &&
        !(item->code = lml_alloc_resize(alloc, b.at, b.capacity, b.length)))
        lml_fail(&e, LML_NO_MEMORY, "no memory for %s", item->shown);
    if (!item->code) {
        lml_builder_free(&b);
        lml_raise_as_is(L, &e);
    }
    item->code_length = b.length;
    lml_box_set_price(box,
                      price); /* texts that only the compiler made are out of everybody's reach */
    lua_pop(L, 1);
}

/* Push what is kept for `key` in the registry table, and take it out; false, and nothing, when
 * nothing is. */
static bool take_out(lua_State *L, const char *table, const void *key)
{
    lml_run_push_registry(L, table);
    bool found = lua_rawgetp(L, -1, key) != LUA_TNIL;
    if (found) {
        lua_pushnil(L);
        lua_rawsetp(L, -3, key);
    } else {
        lua_pop(L, 1);
    }
    lua_remove(L, -1 - found);
    return found;
}

static void keep_for(lua_State *L, const char *table, const void *key)
{
    lml_run_push_registry(L, table);
    lua_insert(L, -2);
    lua_rawsetp(L, -2, key);
    lua_pop(L, 1);
}

static void load_code(lua_State *L, const char *mode, lml_span code, const char *chunk)
{
    span_reader r = {code};
    if (lua_load(L, next_piece, &r, chunk, mode))
        lua_error(L);
}

/* Push the item's chunk: always from the dump, so that the run that compiles is like those after
 * it; from there once a state. */
static void push_chunk(lua_State *L, lml_item *item)
{
    char chunk[200];
    if (take_out(L, &CHUNKS, item))
        return;
    if (!item->code && !lml_item_take_code(item))
        compile(L, item);
    snprintf(chunk, sizeof chunk, "@%s", item->shown);
    load_code(L, "b", (lml_span){item->code, item->code_length}, chunk);
}

/* Give the chunk on top of the stack an environment of its own: what it makes from now on has this
 * one, what it made before keeps the former. For that the environment must be the upvalue of some
 * function of Lua. */
static void give_environment(lua_State *L)
{
    static const char maker[] = "local own = ... return function() return own end";
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &MAKER) == LUA_TNIL) {
        lua_pop(L, 1);
        load_code(L, "t", lml_span_of(maker), "=environment");
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &MAKER);
    }
    lml_names_environment(L);
    lua_call(L, 1, 1);
    lua_upvaluejoin(L, -2, 1, -1, 1);
    lua_pop(L, 1);
}

lml_item *lml_load_need_item(lua_State *L, lml_put kind, const char *name)
{
    lml_item *item;
    lml_error e;
    if (lml_shelf_need(&lml_run_of(L)->engine->shelf, kind, lml_span_of(name), &item, &e))
        lml_raise(L, &e);
    return item;
}

/* What of a whole count of instructions has gone uncounted when the count starts anew. */
static uint64_t uncounted(lua_State *L)
{
    return (uint64_t)lua_gethookcount(L) * lml_box_of(L)->price;
}

/* Argument: the item. One that is at work is not there for another instance of it. */
static int work_chunk(lua_State *L)
{
    lml_item *item = lua_touserdata(L, 1);
    push_chunk(L, item);
    give_environment(L);
    lua_pushvalue(L, -1);
    lua_call(L, 0, 1);
    lua_insert(L, -2);
    keep_for(L, &CHUNKS, item);
    return 1;
}

/* Push what the chunk of `item` gives back. `owner` is whose scripts it reaches; nothing is at work
 * meanwhile, so that a recipe cannot use another before its own work begins. Whatever happens, the
 * run is left as it was. False, with the error on the stack, when the chunk failed.
 *
 * Loading has a budget and a price of its own and, unless it fails, is not on the run's bill: a run
 * costs the same whether or not what it needs was loaded beforehand, and whoever had it loaded. */
static bool load_item(lua_State *L, const char *owner, lml_item *item)
{
    enum { FAILED_A_BYTE = 8 }; /* it may be tried again and again */
    lml_run *run = lml_run_of(L);
    lml_box *box = &run->box;
    const char *former_owner = run->owner;
    const lml_recipe *recipe = run->recipe;
    const lml_item *loading = run->loading;
    uint64_t spent = box->spent, price = box->price;
    lua_pushcfunction(L, work_chunk);
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

/* It is used, and so is what it required. */
static void note_required(lua_State *L, const lml_item *item)
{
    lml_box_need_stack(L, 10);
    if (push_required(L, item) == LUA_TTABLE) {
        for (lua_Integer i = 1; lua_rawgeti(L, -1, i) != LUA_TNIL; i++) {
            note_script(L, lua_touserdata(L, -1));
            lua_pop(L, 1);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* Every recipe has an instance of its own; in the result a script stands once, in the order of
 * their use. */
static void note_script(lua_State *L, lml_item *item)
{
    lml_run_push_worked(L);
    bool is_noted = lua_getfield(L, -1, item->name) != LUA_TNIL;
    lua_pop(L, 1);
    if (!is_noted) {
        lua_pushboolean(L, 1);
        lua_setfield(L, -2, item->name);
        lua_createtable(L, 0, 2);
        lua_pushstring(L, item->name);
        lua_setfield(L, -2, "script");
        lua_pushstring(L, lml_item_digest(item));
        lua_setfield(L, -2, "digest");
        lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
    }
    lua_pop(L, 1);
    if (!is_noted)
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
            item->comes_late = true;
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

void lml_load_push_script(lua_State *L, const char *name)
{
    push_script_of(L, lml_run_of(L)->owner, name);
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
        lml_raise_text(L, LML_BAD_RECIPE, "the script '" LML_RULE_POINTS "' gives back no points");
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
        return lml_error_context(err, status, "in %s", item->shown);
    if (!lml_shelf_is_as_built(&run->engine->shelf, item))
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
    if (item->recipe)
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

const lml_recipe *lml_load_recipe(lua_State *L, const char *name)
{
    lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, name);
    lml_error e;
    if (lml_load_describe_item(lml_run_of(L), item, &e))
        lml_raise_as_is(L, &e);
    return item->recipe;
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

static bool is_loaded(lua_State *L, const char *name)
{
    lml_run_push_registry(L, &RECIPES);
    bool loaded = lua_getfield(L, -1, name) != LUA_TNIL;
    lua_pop(L, 2);
    return loaded;
}

/* What lies deeper than recipes may use each other is left: it will be refused when the recipes
 * that take part are gathered. */
static void load_beforehand(lua_State *L, const char *name, bool tidy, int depth)
{
    lml_box_need_stack(L, 20);
    if (depth == LML_USE_DEPTH || is_loaded(L, name))
        return;
    lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, name);
    lml_load_push_recipe_table(L, item->name);
    lml_error e;
    if (!item->recipe && read_declaration(lml_run_of(L), item, &e))
        lml_raise_as_is(L, &e);
    lua_pop(L, 1);
    if (tidy)
        lua_gc(L, LUA_GCCOLLECT);
    for (size_t i = 0; i < item->recipe->use_count; i++)
        load_beforehand(L, item->recipe->uses[i], tidy, depth + 1);
}

void lml_load_beforehand(lua_State *L, const char *recipe, bool tidy)
{
    static const char *const modules[] = {"alloys", "gates"};
    lml_run *run = lml_run_of(L);
    const lml_shelf *shelf = &run->engine->shelf;
    uint64_t spent = run->box.spent, price = run->box.price;
    run->beforehand = true;
    load_beforehand(L, recipe, tidy, 0);
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
