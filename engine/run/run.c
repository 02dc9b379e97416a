#include "run/run.h"

#include "cell/raise.h"
#include "run/engine.h"
#include "run/prices.h"

#include <string.h>

/* Registry table of a run. */
static const char SETTINGS;

lml_run *lml_run_of(lua_State *L)
{
    lml_run *run = lml_box_of(L)->run;
    if (!run)
        lml_raise_text(L, LML_BAD_RECIPE, "this works only inside a recipe");
    return run;
}

void lml_run_push_registry(lua_State *L, const char *key)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, key) == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, key);
    }
}

void lml_run_push_settings(lua_State *L)
{
    enum { MANY = 128 }; /* one that grows to as many is copied seven times */
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &SETTINGS) != LUA_TNIL)
        return;
    lua_pop(L, 1);
    lua_createtable(L, 0, MANY);
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &SETTINGS);
}

lml_status lml_run_open(lml_run *run, struct lml_engine *engine, lml_error *err)
{
    memset(run, 0, sizeof *run);
    run->engine = engine;
    run->owner = LML_ENGINES_OWN;
    lml_box_options options = {.alloc = &engine->alloc,
                               .budget = engine->limits.steps,
                               .memory = engine->limits.memory,
                               .interrupt = engine->interrupt,
                               .interrupt_self = engine->interrupt_self,
                               .source_length = lml_shelf_length,
                               .trace = engine->trace,
                               .memo = engine->memo,
                               .prepare = engine->prepare};
    lml_status status = lml_box_open(&run->box, &options, err);
    run->box.run = run;
    run->box.shelf = &engine->shelf;
    return status;
}

void lml_run_close(lml_run *run)
{
    lml_prices_free(run);
    lml_box_close(&run->box);
}

lml_status lml_run_call(lml_run *run, lua_CFunction f, const char *name, int results,
                        lml_error *err)
{
    lua_pushcfunction(run->box.L, f);
    lua_pushlightuserdata(run->box.L, (void *)(uintptr_t)name);
    return lml_box_call(&run->box, 1, results, err);
}

void lml_run_aim(lml_run *run, const lml_json_document *doc)
{
    const lml_json *job = lml_json_root(doc);
    run->document = doc;
    run->job = job;
    run->given = lml_json_member(job, "given");
    run->job_house = lml_json_member(job, "house");
    run->confirmed = lml_json_member(job, "confirmed");
    run->withholds = run->part_failed = false;
    run->top = NULL;
    run->loose = lml_json_yes(lml_json_member(job, "loose"));
}
