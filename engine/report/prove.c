#include "report/prove.h"

#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "report/proof.h"
#include "report/reach.h"
#include "report/verdict.h"
#include "report/why.h"
#include "run/engine.h"
#include "run/inputs.h"
#include "run/load.h"
#include "run/work.h"
#include "file/json_write.h"
#include "report/result.h"

#include <stdio.h>
#include <string.h>

/* ---- one proof ---------------------------------------------------------------------------------
 */

/* Whether the list at the index has the code, with or without the name of its recipe. */
static bool lists(lua_State *L, int list, lml_span code)
{
    const char *slash = memchr(code.at, '/', code.length);
    lml_span short_code = slash ? lml_span_between(slash + 1, code.at + code.length) : code;
    bool found = false;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, list) && !found; i++) {
        lua_rawgeti(L, list, i);
        lml_span one = lml_what_need_text(L, -1, "the code of a stop");
        found = lml_span_equal(one, code) || lml_span_equal(one, short_code);
        lua_pop(L, 1);
    }
    return found;
}

/* Add the codes of what stops the part, and the parts under it, to the list: stops, and points that
 * nobody confirmed. What stops and is not in `listed` is a failure; so is an open point where the
 * proof lists what stops it. */
static void gather_stops(lua_State *L, int part, int listed, int codes, lml_verdict *v)
{
    lml_box_need_stack(L, 10);
    lua_getfield(L, part, "remarks");
    int remarks = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, remarks); i++, lua_settop(L, remarks)) {
        lua_rawgeti(L, remarks, i);
        lua_getfield(L, -1, "level");
        lua_getfield(L, -2, "code");
        lua_getfield(L, -3, "text");
        const char *level = lua_tostring(L, -3);
        bool stop = strcmp(level, "stop") == 0;
        if (!stop && strcmp(level, "confirm") != 0)
            continue;
        lml_span code = lml_what_need_text(L, -2, "a code");
        lua_pushvalue(L, -2);
        lua_rawseti(L, codes, (lua_Integer)lua_rawlen(L, codes) + 1);
        if (listed ? !lists(L, listed, code) : stop)
            lml_verdict_fail(v, "it %s with '%s', which the proof does not list: %.200s",
                             stop ? "stops" : "asks", code.at, lua_tostring(L, -1));
    }
    lua_getfield(L, part, "within");
    const int within = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, within); i++, lua_settop(L, within)) {
        lua_rawgeti(L, within, i);
        gather_stops(L, within + 1, listed, codes, v);
    }
    lua_settop(L, remarks - 1);
}

/* What stops it is what the proof lists. Whether it lists any, or says that nothing does. */
static bool check_stops(lua_State *L, int proof, int part, lml_verdict *v)
{
    bool says = lua_getfield(L, proof, "stops") == LUA_TTABLE;
    int listed = lua_gettop(L), codes = listed + 1;
    lua_newtable(L);
    gather_stops(L, part, says ? listed : 0, codes, v);
    for (lua_Integer i = 1; says && i <= (lua_Integer)lua_rawlen(L, listed); i++) {
        lua_rawgeti(L, listed, i);
        lml_span wanted = lml_what_need_text(L, -1, "the code of a stop");
        bool came = false;
        for (lua_Integer k = 1; k <= (lua_Integer)lua_rawlen(L, codes) && !came; k++) {
            lua_createtable(L, 1, 0);
            lua_pushvalue(L, -2);
            lua_rawseti(L, -2, 1);
            lua_rawgeti(L, codes, k);
            came = lists(L, lua_gettop(L) - 1, lml_what_need_text(L, -1, "a code"));
            lua_pop(L, 2);
        }
        if (!came)
            lml_verdict_fail(v, "the stop '%.*s' is expected, but does not occur",
                             (int)wanted.length, wanted.at);
        lua_pop(L, 1);
    }
    lua_settop(L, listed - 1);
    return says;
}

/* How many figures the proof expects. */
static size_t check_expected(lua_State *L, const lml_recipe *r, int part, int expect,
                             const char *within, lml_verdict *v)
{
    lua_getfield(L, part, "results");
    lua_getfield(L, part, "withheld");
    int withheld = lua_gettop(L), results = withheld - 1;
    lua_Integer count = lml_key_push_sorted(L, expect);
    int keys = lua_gettop(L);
    size_t compared = 0;
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, keys, i);
        lml_span name = lml_what_need_text(L, -1, "the name of a give");
        const lml_shape *f = lml_shape_field_named(&r->gives, name);
        lua_getfield(L, withheld, f->name);
        lua_getfield(L, results, f->name);
        lua_getfield(L, expect, f->name);
        if (!lua_isnil(L, -3))
            lml_verdict_fail(v, "%s is withheld by a stop", f->name);
        else if (lua_isnil(L, -2))
            lml_verdict_fail(v, "%s is not given", f->name);
        else
            compared +=
                lml_verdict_compare(L, f, lua_gettop(L) - 1, lua_gettop(L), within, f->name, v);
        lua_settop(L, keys);
    }
    return compared;
}

/* Push the table that is a member of the proof, or nil. */
static bool push_table(lua_State *L, int proof, const char *name)
{
    if (lua_getfield(L, proof, name) == LUA_TNIL)
        return false;
    lml_view_push_content(L, -1, name);
    lua_remove(L, -2);
    return true;
}

typedef struct task {
    const lml_recipe *recipe;
    lua_Integer index;
    lml_json_writer *w;
    lml_verdict *verdict;
    lml_reach *reach; /* NULL: reach is not counted */
} task;

/* Works the proof at index 2 of the task at 3; the verdict is at 1. What took part in one that
 * passes goes into the report. */
static int one_proof(lua_State *L)
{
    lml_verdict *v = lua_touserdata(L, 1);
    const task *t = lua_touserdata(L, 3);
    const lml_recipe *r = t->recipe;
    const int proof = 2;
    lml_proof_push_copy(L, proof);
    lua_replace(L, proof);
    lua_getfield(L, proof, "within");
    const char *within = lua_isnil(L, -1) ? NULL : lml_what_need_text(L, -1, "within").at;
    if (!push_table(L, proof, "given")) {
        lua_pop(L, 1);
        lua_newtable(L);
    }
    int given = lua_gettop(L);
    lml_inputs_proof_given(L, given);
    if (push_table(L, proof, "house"))
        lml_inputs_proof_house(L, -1);
    lua_settop(L, LML_WORK_HEIGHT);
    lml_work_recipe(L, r->name, given, 0);
    int part = lua_gettop(L);
    if (t->reach)
        lml_reach_note(L, part, t->reach);
    if (lml_box_of(L)->trace)
        lml_why_check(L, part);
    bool stops = check_stops(L, proof, part, v);
    bool expects =
        push_table(L, proof, "expect") && check_expected(L, r, part, lua_gettop(L), within, v) > 0;
    if (!stops && !expects && !v->failures)
        lml_raise_text(L, LML_BAD_RECIPE, "a proof needs something to expect or a stop");
    if (!v->failures)
        lml_result_put_worked(L, t->w);
    return 0;
}

/* ---- the report --------------------------------------------------------------------------------
 */

static void put(lml_json_writer *w, const char *name, const char *text)
{
    lml_json_write_member(w, name, text);
}

/* A text of the proof at the index, when it has one. */
static void put_text(lua_State *L, lml_json_writer *w, const char *name)
{
    if (lua_type(L, -1) == LUA_TSTRING) {
        lml_wording_push(L, -1, name, LML_TEXT_MOST);
        put(w, name, lua_tostring(L, -1));
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

static void fail_as_written(void *self, int line, const char *text, const char *mend)
{
    (void)line; /* it is printed beside the name of the proof */
    lml_verdict_fail(self, "%s", text);
    if (mend[0])
        lml_verdict_fail(self, "%s", mend);
}

/* Push the proof; its name and source go into the report. */
static int push_proof(lua_State *L)
{
    const task *t = lua_touserdata(L, 1);
    lml_proof_push(L, t->recipe, t->index);
    if (lua_istable(L, -1)) {
        lua_rawgeti(L, -1, 1);
        put_text(L, t->w, "name");
    }
    lml_proof_review(L, lua_gettop(L), t->recipe, t->index, fail_as_written, t->verdict);
    if (!lua_istable(L, -1))
        return 1;
    lua_getfield(L, -1, "source");
    put_text(L, t->w, "source");
    lua_getfield(L, -1, "within");
    put_text(L, t->w, "within");
    return 1;
}

/* What went wrong: all figures that differ, else the error as a run would tell it. */
static void put_failures(lml_json_writer *w, const lml_verdict *v, const lml_error *e)
{
    char more[60];
    lml_json_write_name(w, lml_span_of("failures"));
    lml_json_write_open_list(w);
    for (int i = 0; i < v->failures && i < LML_VERDICT_MOST; i++)
        lml_json_write_text(w, lml_span_of(v->difference[i]));
    if (v->failures > LML_VERDICT_MOST) {
        snprintf(more, sizeof more, "and %d more", v->failures - LML_VERDICT_MOST);
        lml_json_write_text(w, lml_span_of(more));
    }
    if (e) {
        lml_json_write_text(w, lml_span_of(e->message));
        if (e->hint[0])
            lml_json_write_text(w, lml_span_of(e->hint));
        for (int i = 0; i < e->contexts; i++)
            lml_json_write_text(w, lml_span_of(e->context[i]));
    }
    lml_json_write_close(w);
}

static bool is_of_two_currencies(const lml_error *e)
{
    return strstr(e->message, "no exchange rate") || strstr(e->hint, "no exchange rate");
}

/* What may be in order in the house that a proof of another's is run by: no proof answers the
 * questions that its rules ask by themselves, and each has a currency of its own. */
static bool is_of_the_house(lml_status status, const lml_error *e)
{
    return status == LML_BAD_DATA || is_of_two_currencies(e);
}

/* Each proof runs in a state of its own, as a job would. */
static lml_status prove_one(struct lml_engine *engine, task *t, bool *passed, lml_error *err)
{
    lml_run run;
    const lml_item *item =
        lml_shelf_find(&engine->shelf, LML_PUT_RECIPE, lml_span_of(t->recipe->name));
    int line = lml_proof_line((lml_span){item->text, item->length}, t->index);
    lml_verdict v = {.failures = 0};
    lml_error e;
    lml_status status = lml_run_open(&run, engine, err);
    if (status)
        return status;
    run.box.proof = true;
    if (t->reach)
        lml_reach_watch(t->reach, &run.box);
    lua_State *L = run.box.L;
    lml_json_write_open_record(t->w);
    if (line) {
        lml_json_write_name(t->w, lml_span_of("line"));
        lml_json_write_whole(t->w, line);
    }
    lua_pushcfunction(L, push_proof);
    lua_pushlightuserdata(L, t);
    t->verdict = &v;
    status = lml_box_call(&run.box, 1, 1, &e);
    if (!status && !v.failures) {
        lua_pushcfunction(L, one_proof);
        lua_insert(L, -2);
        lua_pushlightuserdata(L, &v);
        lua_insert(L, -2);
        lua_pushlightuserdata(L, t);
        status = lml_box_call(&run.box, 3, 0, &e);
    }
    *passed = !status && !v.failures;
    lml_json_write_name(t->w, lml_span_of("passed"));
    lml_json_write_yes_no(t->w, *passed);
    if (!*passed)
        put_failures(t->w, &v, status ? &e : NULL);
    if (status && is_of_two_currencies(&e)) {
        lml_json_write_name(t->w, lml_span_of("currencies"));
        lml_json_write_yes_no(t->w, true);
    }
    if (status && !is_of_the_house(status, &e)) {
        lml_json_write_name(t->w, lml_span_of("broken"));
        lml_json_write_yes_no(t->w, true);
    }
    lml_json_write_close(t->w);
    lml_run_close(&run);
    if (status == LML_NO_MEMORY && err)
        *err = e;
    return status == LML_NO_MEMORY ? status : LML_OK;
}

static int count_proofs(lua_State *L)
{
    lua_Integer *count = lua_touserdata(L, 2);
    *count = lml_proof_push_all(L, lua_touserdata(L, 1));
    return 0;
}

lml_status lml_prove_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err)
{
    struct lml_engine *engine = run->engine;
    lml_item *item;
    lml_status status =
        lml_shelf_need(&engine->shelf, LML_PUT_RECIPE, lml_span_of(recipe), &item, err);
    if (!status)
        status = lml_load_describe(run, recipe, err);
    lua_Integer count = 0;
    if (!status) {
        lua_pushcfunction(run->box.L, count_proofs);
        lua_pushlightuserdata(run->box.L, (void *)(uintptr_t)recipe);
        lua_pushlightuserdata(run->box.L, &count);
        status = lml_box_call(&run->box, 2, 0, err);
    }
    if (status)
        return status;
    lml_reach reach = {.alloc = &engine->alloc};
    if (engine->reach)
        status = lml_reach_open(&reach, &engine->alloc, &engine->shelf, item, err);
    lml_json_writer w = lml_json_writer_on(b, false);
    lml_json_write_open_record(&w);
    put(&w, "recipe", recipe);
    put(&w, "version", item->recipe->version);
    put(&w, "digest", lml_item_digest(item));
    put(&w, "file", item->shown);
    lml_json_write_name(&w, lml_span_of("proofs"));
    lml_json_write_open_list(&w);
    int64_t good = 0;
    for (lua_Integer i = 1; i <= count && !status; i++) {
        bool passed = false;
        task t = {.recipe = item->recipe, .index = i, .w = &w};
        t.reach = engine->reach ? &reach : NULL;
        status = prove_one(engine, &t, &passed, err);
        good += passed;
    }
    lml_json_write_close(&w);
    lml_json_write_name(&w, lml_span_of("passed"));
    lml_json_write_whole(&w, good);
    lml_json_write_name(&w, lml_span_of("failed"));
    lml_json_write_whole(&w, (int64_t)count - good);
    if (engine->reach && !status)
        status = lml_reach_write(&reach, &w, err);
    lml_reach_close(&reach);
    lml_json_write_close(&w);
    return status ? status : lml_json_writer_end(&w, err);
}
