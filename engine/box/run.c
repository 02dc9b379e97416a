#include "box/run.h"

#include "box/allow.h"
#include "box/bind.h"
#include "box/engine.h"
#include "box/sheet.h"
#include "box/take.h"
#include "box/view.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

/* Registry tables of a run. */
static const char RECIPES, MODULES, WORKED, SETTINGS;

static lml_run *run_of(lua_State *L)
{
    lml_run *run = lml_box_of(L)->run;
    if (!run)
        lml_raise_text(L, LML_BAD_RECIPE, "this works only inside a recipe");
    return run;
}

static void push_registry(lua_State *L, const char *key)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, key) == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, key);
    }
}

void lml_push_worked(lua_State *L)
{
    push_registry(L, &WORKED);
}

void lml_push_settings(lua_State *L)
{
    push_registry(L, &SETTINGS);
}

/* ---- loading ----------------------------------------------------------------------------------- */

static int keep_code(lua_State *L, const void *piece, size_t size, void *self)
{
    (void)L;
    lml_builder *b = self;
    lml_append(b, piece, size);
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

/* Push the item's chunk with a fresh environment. The first time it is compiled from its text and our own
 * dump of it is kept; later runs load that. Raises. */
static void push_chunk(lua_State *L, lml_item *item)
{
    lml_box *box = lml_box_of(L);
    if (item->code) {
        span_reader r = {{item->code, item->code_length}};
        char chunk[200];
        snprintf(chunk, sizeof chunk, "@%s", item->shown);
        if (lua_load(L, next_piece, &r, chunk, "b"))
            lua_error(L);
        lml_allow_environment(L);
        if (!lua_setupvalue(L, -2, 1))
            lua_pop(L, 1);
        return;
    }
    lml_error e;
    if (lml_box_load(box, (lml_span){item->text, item->length}, item->shown, &e))
        lml_raise_as_is(L, &e);
    struct lml_engine *engine = box->run->engine;
    lml_builder b = lml_builder_on(&engine->alloc, 0);
    if (lua_dump(L, keep_code, &b, 0) == 0) {
        item->code = lml_resize(&engine->alloc, b.at, b.capacity, b.length);
        item->code_length = item->code ? b.length : 0;
        if (!item->code)
            lml_builder_free(&b);
    } else {
        lml_builder_free(&b);
    }
}

static lml_item *need_item(lua_State *L, lml_put kind, const char *name)
{
    lml_item *item;
    lml_error e;
    if (lml_shelf_need(&run_of(L)->engine->shelf, kind, lml_span_of(name), &item, &e))
        lml_raise(L, &e);
    return item;
}

void lml_push_recipe_table(lua_State *L, const char *name)
{
    push_registry(L, &RECIPES);
    if (lua_getfield(L, -1, name) == LUA_TNIL) {
        lua_pop(L, 1);
        push_chunk(L, need_item(L, LML_PUT_RECIPE, name));
        lua_call(L, 0, 1);
        lua_pushvalue(L, -1);
        lua_setfield(L, -3, name);
    }
    lua_remove(L, -2);
}

void lml_push_module(lua_State *L, const char *name)
{
    /* One instance a recipe: what one recipe does to its copy no other sees. */
    lml_run *run = run_of(L);
    static const char LOADING;
    push_registry(L, &MODULES);
    lua_pushfstring(L, "%s/%s", run->recipe ? run->recipe->name : "", name);
    lua_pushvalue(L, -1);
    int found = lua_rawget(L, -3);
    if (found == LUA_TLIGHTUSERDATA)
        lml_raise_text(L, LML_BAD_RECIPE, "the script '%s' requires itself", name);
    if (found == LUA_TNIL) {
        lua_pop(L, 1);
        lua_pushvalue(L, -1);
        lua_pushlightuserdata(L, (void *)(uintptr_t)&LOADING);
        lua_rawset(L, -4);
        push_chunk(L, need_item(L, LML_PUT_SCRIPT, name));
        lua_call(L, 0, 1);
        if (lua_istable(L, -1))
            lml_read_only(L, name);
        lua_pushvalue(L, -2);
        lua_pushvalue(L, -2);
        lua_rawset(L, -5);
    }
    lua_replace(L, -3);
    lua_pop(L, 1);
}

static int require(lua_State *L)
{
    lml_need_text(L, 1, "the name of a script");
    lml_push_module(L, lua_tostring(L, 1));
    return 1;
}

const lml_recipe *lml_describe(lua_State *L, const char *name)
{
    lml_run *run = run_of(L);
    lml_item *item = need_item(L, LML_PUT_RECIPE, name);
    if (!item->recipe) {
        lml_error e;
        lml_push_recipe_table(L, name);
        if (lml_recipe_read(&run->box, -1, item->name, &run->engine->alloc, &item->recipe, &e)) {
            lml_error_context(&e, e.status, "in %s", item->shown);
            lml_raise_as_is(L, &e);
        }
        lua_pop(L, 1);
    }
    return item->recipe;
}

lml_span lml_run_source_line(lua_State *L, const char *source, int line)
{
    lml_run *run = lml_box_of(L)->run;
    if (!run || source[0] != '@')
        return (lml_span){"", 0};
    return lml_shelf_line(&run->engine->shelf, source + 1, line);
}

/* ---- stops ------------------------------------------------------------------------------------- */

int lml_raise_stop(lua_State *L)
{
    lml_box_of(L)->stopping = true;
    lua_pushlightuserdata(L, lml_box_of(L));
    return lua_error(L);
}

static bool has_digit(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (isdigit((unsigned char)text.at[i]))
            return true;
    return false;
}

static bool contains(lml_span text, lml_span part)
{
    for (size_t i = 0; i + part.length <= text.length; i++)
        if (memcmp(text.at + i, part.at, part.length) == 0)
            return true;
    return false;
}

bool lml_run_confirmed(lua_State *L, int remark)
{
    lml_run *run = run_of(L);
    remark = lua_absindex(L, remark);
    lua_getfield(L, remark, "code");
    const lml_json *entry = lml_json_member(run->confirmed, lua_tostring(L, -1));
    lua_getfield(L, remark, "text");
    lml_span text = lml_need_text(L, -1, "the text of a remark");
    lml_span figure = lml_json_text(lml_json_member(entry, "figure"));
    lua_pop(L, 2);
    if (!entry)
        return false;
    if (has_digit(text) && (figure.length == 0 || !contains(text, figure))) {
        lua_pushboolean(L, 1);
        lua_setfield(L, remark, "lapsed");
        return false;
    }
    static const char *const copied[] = {"reason", "by"};
    for (int i = 0; i < 2; i++) {
        lml_span words = lml_json_text(lml_json_member(entry, copied[i]));
        lua_pushlstring(L, words.at, words.length);
        lua_setfield(L, remark, copied[i]);
    }
    lua_pushliteral(L, "confirmed");
    lua_setfield(L, remark, "level");
    return true;
}

/* ---- what a recipe sees ------------------------------------------------------------------------ */

static void refuse_unknown(lua_State *L, const lml_recipe *r, const lml_json *node, lml_span name)
{
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < r->loose.field_count; i++)
        lml_nearest_offer(&nearest, lml_span_of(r->loose.fields[i].name));
    lml_error e;
    bool allowed = false;
    for (size_t i = 0; i < r->allowances.field_count; i++)
        allowed = allowed || lml_span_is(name, r->allowances.fields[i].name);
    lml_fail(&e, LML_BAD_DATA, "%s does not ask '%.*s'", r->name, (int)name.length, name.at);
    if (allowed)
        lml_error_hint(&e, "it is an allowance: set it under \"house\"");
    else if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&e, "lemel inspect %s lists what it asks", r->name);
    if (node)
        lml_json_place(node, e.status, &e);
    lml_raise_as_is(L, &e);
}

static void take_checked(lua_State *L, const lml_shape *f, const lml_json *node, const char *path)
{
    lml_error e;
    if (lml_shape_check(f, node, &e))
        lml_raise_as_is(L, &e);
    lml_take_node(L, f, node, path);
}

/* An ask called `date` or `record` is filled from the job's own when `given` has none. */
static const lml_json *given_node(const lml_run *run, const lml_shape *f)
{
    const lml_json *node = lml_json_member(run->given, f->name);
    if (!node && (strcmp(f->name, "date") == 0 || strcmp(f->name, "record") == 0))
        node = lml_json_member(run->job, f->name);
    return node;
}

/* Push a figure from the arguments of a use, when it is there. */
static bool push_argument(lua_State *L, const lml_shape *f, int arguments, const char *path)
{
    if (!arguments)
        return false;
    lua_getfield(L, arguments, f->name);
    if (lml_is_withheld(L, -1))
        lml_raise_stop(L);
    if (lua_isnil(L, -1) || lua_type(L, -1) == LUA_TLIGHTUSERDATA) {
        lua_pop(L, 1);
        return false;
    }
    lml_take_value(L, f, -1, path);
    lua_remove(L, -2);
    return true;
}

static void push_ask(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                     int arguments)
{
    char path[120];
    snprintf(path, sizeof path, "job.%s", f->name);
    if (push_argument(L, f, arguments, path))
        return;
    const lml_json *node = arguments ? NULL : given_node(run, f);
    if (node) {
        take_checked(L, f, node, path);
    } else if (f->default_text) {
        lml_take_text(L, f, lml_span_of(f->default_text), path);
        lml_take_origin(L, LML_ASSUMED);
    } else if (f->optional) {
        lml_push_absent(L);
    } else {
        lml_error e;
        lml_fail(&e, LML_BAD_DATA, "%s asks '%s' (%s), and it is not given", r->name, f->name,
                 f->title);
        lml_error_hint(&e, "%s, such as %s", lml_wanted_words(f->wanted),
                       f->example ? f->example : lml_wanted_example(f->wanted));
        if (run->given && !arguments)
            lml_json_place(run->given, e.status, &e);
        lml_raise_as_is(L, &e);
    }
}

static void push_job(lua_State *L, lml_run *run, const lml_recipe *r, int arguments)
{
    const lml_shape *known = run->loose || arguments ? &r->loose : &r->asks;
    if (arguments) {
        lua_pushnil(L);
        while (lua_next(L, arguments)) {
            lua_pop(L, 1);
            lml_span name = lml_need_text(L, -1, "the name of an ask");
            if (!lml_shape_field(known, name.at))
                refuse_unknown(L, r, NULL, name);
        }
    } else {
        for (const lml_json *m = lml_json_first(run->given); m; m = lml_json_next(m))
            if (!lml_shape_field(known, lml_json_name(m).at))
                refuse_unknown(L, r, m, lml_json_name(m));
    }
    lua_createtable(L, 0, (int)r->asks.field_count);
    for (size_t i = 0; i < r->asks.field_count; i++) {
        push_ask(L, run, r, &r->asks.fields[i], arguments);
        lua_setfield(L, -2, r->asks.fields[i].name);
    }
}

/* Note the setting on top of the stack as read: { name, value, from }. */
static void note_setting(lua_State *L, const lml_recipe *r, const lml_shape *f, const char *from)
{
    lml_push_settings(L);
    lua_pushfstring(L, "%s.%s", r->name, f->name);
    lua_createtable(L, 0, 3);
    lua_pushvalue(L, -4);
    lua_setfield(L, -2, "value");
    lua_pushstring(L, from);
    lua_setfield(L, -2, "from");
    lua_rawset(L, -3);
    lua_pop(L, 1);
}

/* Precedence: passed by the recipe that uses this one; the job for this recipe, then in general; the
 * house likewise; the default. */
static void push_allowance(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                           int arguments)
{
    char path[120], dotted[120];
    snprintf(path, sizeof path, "house.%s", f->name);
    snprintf(dotted, sizeof dotted, "%s.%s", r->name, f->name);
    if (push_argument(L, f, arguments, path)) {
        note_setting(L, r, f, "passed");
        return;
    }
    const lml_json *house = run->proof ? NULL : lml_engine_house(run->engine);
    const lml_json *node = NULL;
    const char *from = "job";
    if (run->loose && !arguments)
        node = lml_json_member(run->given, f->name);
    if (!node && !(node = lml_json_member(run->job_house, dotted)))
        node = lml_json_member(run->job_house, f->name);
    if (!node) {
        from = "house";
        if (!(node = lml_json_member(house, dotted)))
            node = lml_json_member(house, f->name);
        if (!node && strcmp(f->name, "prices") == 0 && !run->proof)
            node = lml_engine_prices(run->engine);
    }
    if (node) {
        take_checked(L, f, node, path);
        note_setting(L, r, f, from);
    } else if (f->default_text) {
        lml_take_text(L, f, lml_span_of(f->default_text), path);
        lml_take_origin(L, LML_ASSUMED);
        note_setting(L, r, f, "default");
    } else if (f->optional) {
        lml_push_absent(L);
    } else {
        lml_error e;
        lml_fail(&e, LML_BAD_DATA, "%s needs '%s' (%s), which the house has not set", r->name,
                 f->name, f->title);
        lml_error_hint(&e, "write \"%s\": \"%s\" in house.json, or under \"house\" in the job",
                       f->name, f->example ? f->example : lml_wanted_example(f->wanted));
        if (run->job && !arguments)
            lml_error_context(&e, e.status, "%s has no default because only the studio can know it",
                              f->name);
        lml_raise_as_is(L, &e);
    }
}

static void push_house(lua_State *L, lml_run *run, const lml_recipe *r, int arguments)
{
    lua_createtable(L, 0, (int)r->allowances.field_count);
    for (size_t i = 0; i < r->allowances.field_count; i++) {
        push_allowance(L, run, r, &r->allowances.fields[i], arguments);
        lua_setfield(L, -2, r->allowances.fields[i].name);
    }
}

/* ---- what a recipe gives ----------------------------------------------------------------------- */

static void set_gives(lua_State *L, int part, const lml_recipe *r)
{
    lua_createtable(L, 0, (int)r->gives.field_count);
    for (size_t i = 0; i < r->gives.field_count; i++) {
        lua_pushboolean(L, 1);
        lua_setfield(L, -2, r->gives.fields[i].name);
    }
    lua_setfield(L, part, "gives");
}

static void withhold_all(lua_State *L, int part, const lml_recipe *r)
{
    lua_getfield(L, part, "withheld");
    for (size_t i = 0; i < r->gives.field_count; i++) {
        if (lua_getfield(L, -1, r->gives.fields[i].name) == LUA_TNIL) {
            lua_pushfstring(L, "%s/stopped", r->name);
            lua_setfield(L, -3, r->gives.fields[i].name);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* Check the table at index `returned` against the gives and set part.results. A withheld figure may be
 * left out; if it is there it is kept, for the sheets to know where it was printed. */
static void take_results(lua_State *L, int part, int returned, const lml_recipe *r)
{
    lml_error e;
    if (!lua_istable(L, returned)) {
        lml_fail(&e, LML_BAD_RECIPE, "%s: work gives back %s, and a table of its gives is due",
                 r->name, lml_what_is(L, returned));
        lml_error_hint(&e, "end it with: return { %s = ... }",
                       r->gives.field_count ? r->gives.fields[0].name : "name");
        lml_raise_as_is(L, &e);
    }
    lua_pushnil(L);
    while (lua_next(L, returned)) {
        lua_pop(L, 1);
        if (lua_type(L, -1) != LUA_TSTRING || !lml_shape_field(&r->gives, lua_tostring(L, -1))) {
            lml_push_text_of(L, -1);
            lml_fail(&e, LML_BAD_RECIPE, "%s: work gives back '%s', which gives does not declare",
                     r->name, lua_tostring(L, -1));
            lml_error_hint(&e, "write %s = give.mass \"...\" (or its kind) under gives",
                           lua_tostring(L, -1));
            lml_raise_as_is(L, &e);
        }
    }
    lua_createtable(L, 0, (int)r->gives.field_count);
    lua_getfield(L, part, "withheld");
    int results = lua_gettop(L) - 1, withheld = results + 1;
    for (size_t i = 0; i < r->gives.field_count; i++) {
        const lml_shape *f = &r->gives.fields[i];
        char path[120];
        snprintf(path, sizeof path, "%s gives '%s'", r->name, f->name);
        lua_getfield(L, returned, f->name);
        if (!lua_isnil(L, -1)) {
            lml_take_value(L, f, -1, path);
            lua_setfield(L, results, f->name);
        } else if (lua_getfield(L, withheld, f->name) == LUA_TNIL && !f->optional) {
            lml_fail(&e, LML_BAD_RECIPE, "%s gives '%s' (%s), and work gave nothing back for it",
                     r->name, f->name, f->title);
            lml_error_hint(&e, "put %s = ... into the table that work returns", f->name);
            lml_raise_as_is(L, &e);
        }
        lua_settop(L, withheld);
    }
    lua_pop(L, 1);
    lua_setfield(L, part, "results");
}

/* Push what other recipes read: the results, with withheld and absent ones marked. */
static void push_results(lua_State *L, int part, const lml_recipe *r)
{
    lua_createtable(L, 0, (int)r->gives.field_count);
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    for (size_t i = 0; i < r->gives.field_count; i++) {
        const char *name = r->gives.fields[i].name;
        if (lua_getfield(L, -2, name) != LUA_TNIL) {
            lml_push_withheld(L);
        } else if (lua_getfield(L, -2, name) == LUA_TNIL) {
            lua_pop(L, 1);
            lml_push_absent(L);
        }
        lua_setfield(L, -5, name);
        lua_pop(L, 1);
    }
    lua_pop(L, 2);
    lml_push_view(L, LML_CLASS_RECORD, r->name);
}

/* ---- gates ------------------------------------------------------------------------------------- */

static void add_facts(lua_State *L, int facts, int from, int withheld)
{
    lua_pushnil(L);
    while (lua_next(L, from)) {
        lua_pushvalue(L, -2);
        bool hidden = lua_rawget(L, withheld) != LUA_TNIL;
        lua_pop(L, 1);
        if (hidden || lua_type(L, -1) == LUA_TLIGHTUSERDATA) {
            lua_pop(L, 1);
            continue;
        }
        lua_pushvalue(L, -2);
        lua_insert(L, -2);
        lua_rawset(L, facts);
    }
}

/* Stops that come from law, physics or health stand in scripts/gates.lua and look at what every recipe was
 * told and gave, by name: a recipe that leaves such a stop out is stopped all the same. */
static void pass_gates(lua_State *L, lml_run *run, int part, int job, int house)
{
    if (!lml_engine_has_script(run->engine, "gates"))
        return;
    int top = lua_gettop(L);
    lua_newtable(L);
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    int facts = top + 1;
    add_facts(L, facts, job, top + 2);
    add_facts(L, facts, house, top + 2);
    add_facts(L, facts, top + 3, top + 2);
    const lml_recipe *recipe = run->recipe;
    run->recipe = NULL; /* the gates' own instance, which no recipe can reach */
    lml_push_module(L, "gates");
    run->recipe = recipe;
    lua_getfield(L, -1, "gates");
    lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
    int gates = lua_gettop(L);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, gates, i);
        lua_getfield(L, -1, "needs");
        lua_Integer needs = (lua_Integer)lua_rawlen(L, -1);
        bool all = true;
        for (lua_Integer n = 1; n <= needs && all; n++) {
            lua_rawgeti(L, -1, n);
            all = lua_rawget(L, facts) != LUA_TNIL;
            lua_pop(L, 1);
        }
        if (all) {
            lua_getfield(L, gates + 1, "check");
            lua_pushvalue(L, facts);
            lml_push_sheet(L, part);
            lua_call(L, 2, 0);
        }
        lua_settop(L, gates);
    }
    lua_settop(L, top);
}

/* ---- working ----------------------------------------------------------------------------------- */

typedef struct frame {
    const char *name;
} frame;

static void check_circle(lua_State *L, lml_run *run, const char *name)
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
    lml_fail(&e, LML_BAD_RECIPE, circle ? "the recipes go in a circle: %s%s" :
             "recipes use each other too deep: %s%s", chain, name);
    lml_error_hint(&e, "take one of these names out of a recipe's uses");
    lml_raise(L, &e);
}

static void note_worked(lua_State *L, lml_run *run, const lml_recipe *r)
{
    lml_item *item = need_item(L, LML_PUT_RECIPE, r->name);
    lml_push_worked(L);
    lua_createtable(L, 0, 4);
    lua_pushstring(L, r->name);
    lua_setfield(L, -2, "recipe");
    lua_pushstring(L, r->version);
    lua_setfield(L, -2, "version");
    lua_pushstring(L, item->digest);
    lua_setfield(L, -2, "digest");
    if (run->depth > 1) {
        lua_pushstring(L, run->working[run->depth - 2]);
        lua_setfield(L, -2, "under");
    }
    lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
    lua_pop(L, 1);
}

/* Arguments: the frame, the arguments of a use or nil, the parent part or nil. Gives back results, part. */
static int work(lua_State *L)
{
    const frame *f = lua_touserdata(L, 1);
    lml_run *run = run_of(L);
    int arguments = lua_isnil(L, 2) ? 0 : 2;
    luaL_checkstack(L, 40, "recipes use each other too deep");
    check_circle(L, run, f->name);
    const lml_recipe *r = lml_describe(L, f->name);
    run->working[run->depth++] = r->name;
    run->recipe = r;
    note_worked(L, run, r);

    lml_push_part(L, r->name, r->title);
    const int part = 4;
    set_gives(L, part, r);
    if (!lua_isnil(L, 3))
        lml_part_enclose(L, 3, part);
    push_job(L, run, r, arguments);     /* 5 */
    push_house(L, run, r, arguments);   /* 6 */

    lml_push_recipe_table(L, r->name);  /* 7 */
    lua_getfield(L, 7, "work");         /* 8 */
    lua_pushvalue(L, 5);
    lml_push_view(L, LML_CLASS_RECORD, "job");
    lua_pushvalue(L, 6);
    lml_push_view(L, LML_CLASS_RECORD, "house");
    lml_push_sheet(L, part);
    /* Kept where `use` finds the part of the recipe at work. */
    lua_pushvalue(L, part);
    lua_rawsetp(L, LUA_REGISTRYINDEX, run);
    int failed = lua_pcall(L, 3, 1, 0);
    run->recipe = r; /* a use inside left its own */
    if (failed) {
        if (!run->box.stopping)
            return lua_error(L);
        run->box.stopping = false;
        withhold_all(L, part, r);
        lua_pop(L, 1);
        lua_newtable(L);
    }
    take_results(L, part, 8, r);
    pass_gates(L, run, part, 5, 6);
    push_results(L, part, r);
    lua_pushvalue(L, part);
    return 2;
}

void lml_work_recipe(lua_State *L, const char *name, int arguments, int parent)
{
    lml_run *run = run_of(L);
    int depth = run->depth;
    const lml_recipe *recipe = run->recipe;
    frame f = {name};
    arguments = arguments ? lua_absindex(L, arguments) : 0;
    parent = parent ? lua_absindex(L, parent) : 0;
    lua_rawgetp(L, LUA_REGISTRYINDEX, run); /* the part at work, to be put back */
    lua_pushcfunction(L, work);
    lua_pushlightuserdata(L, &f);
    if (arguments)
        lua_pushvalue(L, arguments);
    else
        lua_pushnil(L);
    if (parent)
        lua_pushvalue(L, parent);
    else
        lua_pushnil(L);
    int failed = lua_pcall(L, 3, 2, 0);
    run->depth = depth;
    run->recipe = recipe;
    lua_pushvalue(L, failed ? -2 : -3);
    lua_rawsetp(L, LUA_REGISTRYINDEX, run);
    if (failed)
        lua_error(L);
    lua_remove(L, -3);
}

/* ---- use --------------------------------------------------------------------------------------- */

/* The function that use.NAME gives: upvalue 1 is the name. */
static int use_call(lua_State *L)
{
    lml_run *run = run_of(L);
    lua_settop(L, 1);
    if (lua_isnil(L, 1)) {
        lua_pop(L, 1);
        lua_newtable(L);
    }
    lml_push_content(L, 1, "a recipe in use");
    lua_replace(L, 1);
    lua_rawgetp(L, LUA_REGISTRYINDEX, run);
    lml_charge(L, 100);
    lml_work_recipe(L, lua_tostring(L, lua_upvalueindex(1)), 1, 2);
    lua_pop(L, 1);
    return 1;
}

static int uses_index(lua_State *L)
{
    lml_run *run = run_of(L);
    lml_span name = lml_need_text(L, 2, "the name of a recipe");
    if (!run->recipe || !lml_recipe_uses(run->recipe, name))
        return lml_raise_hint(L, LML_BAD_RECIPE, "name it under uses = { ... }",
                              "this recipe does not say that it uses '%.*s'", (int)name.length,
                              name.at);
    lua_pushvalue(L, 2);
    lua_pushcclosure(L, use_call, 1);
    return 1;
}

/* withheld(results, "charge"): whether a stop withholds it, without reading it. */
static int withheld(lua_State *L)
{
    lml_push_content(L, 1, "withheld");
    lml_need_text(L, 2, "the name of a give");
    lua_pushvalue(L, 2);
    lua_rawget(L, -2);
    lua_pushboolean(L, lml_is_withheld(L, -1));
    return 1;
}

/* recipe { ... } gives its table back: the words before it are only there to read well. */
static int recipe(lua_State *L)
{
    if (!lua_istable(L, 1))
        return lml_raise_text(L, LML_BAD_RECIPE, "recipe takes a table: recipe { title = ... }");
    lua_settop(L, 1);
    return 1;
}

const luaL_Reg lml_lib_recipe[] = {
    {"recipe", recipe}, {"require", require}, {"withheld", withheld}, {NULL, NULL}};

/* ask.mass { "Finished wax", from = "0.02 g" } or give.mass "Raw casting": marks the table with its kind. */
static int declare(lua_State *L)
{
    if (lua_type(L, 1) == LUA_TSTRING) {
        lua_newtable(L);
        lua_pushvalue(L, 1);
        lua_rawseti(L, -2, 1);
    } else if (lua_istable(L, 1)) {
        lua_settop(L, 1);
    } else {
        return lml_raise_hint(L, LML_BAD_RECIPE, "write ask.mass { \"Finished wax\" }",
                              "an ask takes a table or a text, and was given %s",
                              lml_what_is(L, 1));
    }
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_setfield(L, -2, "kind");
    return 1;
}

static int declare_unknown(lua_State *L)
{
    lml_span name = lml_need_text(L, 2, "a kind");
    lml_nearest nearest = lml_nearest_to(name);
    for (int w = 0; w < LML_WANTED_COUNT; w++)
        lml_nearest_offer(&nearest, lml_span_of(lml_wanted_name((lml_wanted)w)));
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "there is no kind '%.*s' to ask or give", (int)name.length,
             name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    return lml_raise(L, &e);
}

void lml_open_recipe(lua_State *L)
{
    lml_allow_names(L);
    lua_createtable(L, 0, LML_WANTED_COUNT);
    for (int w = 0; w < LML_WANTED_COUNT; w++) {
        lua_pushstring(L, lml_wanted_name((lml_wanted)w));
        lua_pushcclosure(L, declare, 1);
        lua_setfield(L, -2, lml_wanted_name((lml_wanted)w));
    }
    lua_createtable(L, 0, 1);
    lua_pushcfunction(L, declare_unknown);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
    lua_pushvalue(L, -1);
    lml_read_only(L, "ask");
    lua_setfield(L, -3, "ask");
    lml_read_only(L, "give");
    lua_setfield(L, -2, "give");
    lml_new(L, LML_CLASS_USES, 0, 0);
    lua_setfield(L, -2, "use");
    lua_pop(L, 1);
    lml_push_metatable(L, LML_CLASS_USES);
    lua_pushcfunction(L, uses_index);
    lua_setfield(L, -2, "__index");
    lua_pop(L, 1);
}

/* ---- a whole run ------------------------------------------------------------------------------- */

lml_status lml_run_open(lml_run *run, struct lml_engine *engine, lml_error *err)
{
    memset(run, 0, sizeof *run);
    run->engine = engine;
    lml_box_options options = {&engine->alloc, engine->limits.steps, engine->limits.memory};
    lml_status status = lml_box_open(&run->box, &options, err);
    run->box.run = run;
    return status;
}

void lml_run_close(lml_run *run)
{
    lml_box_close(&run->box);
}

static int run_job(lua_State *L)
{
    lml_work_recipe(L, lua_tostring(L, 1), 0, 0);
    return 2;
}

lml_status lml_run_job(lml_run *run, const char *recipe_name, lml_error *err)
{
    lua_State *L = run->box.L;
    lua_pushcfunction(L, run_job);
    lua_pushstring(L, recipe_name);
    return lml_box_call(&run->box, 1, 2, err);
}

static int check_job(lua_State *L)
{
    lml_run *run = run_of(L);
    const lml_recipe *r = lml_describe(L, lua_tostring(L, 1));
    run->working[run->depth++] = r->name;
    run->recipe = r;
    push_job(L, run, r, 0);
    push_house(L, run, r, 0);
    return 0;
}

lml_status lml_run_check(lml_run *run, const char *recipe_name, lml_error *err)
{
    lua_pushcfunction(run->box.L, check_job);
    lua_pushstring(run->box.L, recipe_name);
    return lml_box_call(&run->box, 1, 0, err);
}

static int recipe_table(lua_State *L)
{
    lml_push_recipe_table(L, lua_tostring(L, 1));
    return 1;
}

lml_status lml_run_recipe_table(lml_run *run, const char *recipe_name, lml_error *err)
{
    lua_pushcfunction(run->box.L, recipe_table);
    lua_pushstring(run->box.L, recipe_name);
    return lml_box_call(&run->box, 1, 1, err);
}

static int describe(lua_State *L)
{
    lml_describe(L, lua_tostring(L, 1));
    return 0;
}

lml_status lml_run_describe(lml_run *run, const char *recipe_name, lml_error *err)
{
    lua_pushcfunction(run->box.L, describe);
    lua_pushstring(run->box.L, recipe_name);
    return lml_box_call(&run->box, 1, 0, err);
}
