#include "box/prove.h"

#include "box/bind.h"
#include "box/engine.h"
#include "box/take.h"
#include "box/view.h"
#include "file/json_write.h"
#include "value/arithmetic.h"
#include "value/read.h"
#include "value/write.h"

#include <stdio.h>
#include <string.h>

/* What one proof came to: the first difference is told. */
typedef struct verdict {
    char failure[600];
} verdict;

static void fail(verdict *v, const char *format, ...) LML_PRINTF(2, 3);
static void fail(verdict *v, const char *format, ...)
{
    if (v->failure[0])
        return;
    va_list args;
    va_start(args, format);
    vsnprintf(v->failure, sizeof v->failure, format, args);
    va_end(args);
}

/* ---- comparing --------------------------------------------------------------------------------- */

/* How far two values may be apart, as a value of the kind of their difference. */
static lml_status tolerance(const lml_value *expected, const lml_value *difference, lml_span text,
                            lml_value *out, lml_error *err)
{
    lml_value within;
    lml_status status = lml_value_read(text, LML_WANT_ANYTHING, LML_NO_METAL, &within, err);
    if (status)
        return status;
    bool ratio = within.kind == LML_QUANTITY && lml_dimension_none(within.dimension);
    bool permille = text.length > 3 && memcmp(text.at + text.length - 3, "‰", 3) == 0;
    if (ratio && difference->kind == LML_FINENESS_DIFFERENCE && permille) {
        *out = within; /* "0.1 ‰" of a fineness is meant as it stands */
        out->kind = LML_FINENESS_DIFFERENCE;
        out->metal = difference->metal;
        return LML_OK;
    }
    bool plain = expected->kind == LML_NUMBER ||
                 (expected->kind == LML_QUANTITY && lml_dimension_none(expected->dimension));
    if (ratio && plain && difference->kind == LML_NUMBER) {
        *out = lml_number(within.amount);
        return LML_OK;
    }
    if (ratio && !plain) { /* a part of what is expected */
        lml_value size = *expected, zero = *difference;
        if (expected->kind != LML_FINENESS) /* which is never below zero */
            status = lml_absolute(expected, &size, err);
        if (status)
            return status;
        zero.amount = size.amount * within.amount;
        if (difference->kind == LML_MONEY)
            zero.exact = (int64_t)((double)size.exact * within.amount);
        zero.unit = difference->unit;
        *out = zero;
        return LML_OK;
    }
    *out = within;
    return LML_OK;
}

static void compare_values(lua_State *L, const lml_value *got, const lml_value *expected,
                           const char *within, const char *path, verdict *v)
{
    lml_value difference, size, limit;
    lml_error e;
    char a[LML_VALUE_TEXT], b[LML_VALUE_TEXT];
    int order = 0;
    bool equal = false;
    (void)L;
    lml_value_text(got, a);
    lml_value_text(expected, b);
    lml_status status = within ? lml_sub(got, expected, &difference, &e)
                               : lml_equal(got, expected, &equal, &e);
    if (!status && within) {
        if ((status = lml_absolute(&difference, &size, &e)) == LML_OK &&
            (status = tolerance(expected, &difference, lml_span_of(within), &limit, &e)) == LML_OK)
            status = lml_compare(&size, &limit, &order, &e);
        equal = order <= 0;
    }
    if (status)
        fail(v, "%s: %s", path, e.message);
    else if (!equal)
        fail(v, "%s is %s, and %s is expected%s%s", path, a, b, within ? " within " : "",
             within ? within : "");
}

/* Both stand on the stack; the expected one was taken in by the give's own shape. */
static void compare(lua_State *L, int got, int expected, const char *within, const char *path,
                    verdict *v)
{
    luaL_checkstack(L, 12, "a proof is nested too deep");
    got = lua_absindex(L, got);
    expected = lua_absindex(L, expected);
    lml_value room_a, room_b;
    bool figure_a = lml_test(L, got, LML_CLASS_VALUE) || lua_type(L, got) == LUA_TNUMBER;
    bool figure_b = lml_test(L, expected, LML_CLASS_VALUE) || lua_type(L, expected) == LUA_TNUMBER;
    if (figure_a && figure_b) {
        const lml_value *a = lml_check_value(L, got, &room_a);
        const lml_value *b = lml_check_value(L, expected, &room_b);
        compare_values(L, a, b, within, path, v);
        return;
    }
    if (lml_test_content(L, expected)) {
        int inner = lua_gettop(L);
        if (!lml_test_content(L, got)) {
            fail(v, "%s is %s, and %s is expected", path, lml_what_is(L, got),
                 lml_what_is(L, expected));
            lua_settop(L, inner - 1);
            return;
        }
        bool list = lua_rawlen(L, inner) > 0;
        if (list && lua_rawlen(L, inner) != lua_rawlen(L, inner + 1))
            fail(v, "%s has %d entries, and %d are expected", path, (int)lua_rawlen(L, inner + 1),
                 (int)lua_rawlen(L, inner));
        lua_Integer count = lml_sorted_keys(L, inner);
        for (lua_Integer i = 1; i <= count; i++) {
            char deeper[160];
            lua_rawgeti(L, inner + 2, i);
            lml_push_text_of(L, -1);
            snprintf(deeper, sizeof deeper, list ? "%s[%s]" : "%s.%s", path, lua_tostring(L, -1));
            lua_pop(L, 1);
            lua_pushvalue(L, -1);
            lua_rawget(L, inner);
            lua_pushvalue(L, -2);
            lua_rawget(L, inner + 1);
            compare(L, -1, -2, within, deeper, v);
            lua_settop(L, inner + 2);
        }
        lua_settop(L, inner - 1);
        return;
    }
    lml_push_text_of(L, got);
    lml_push_text_of(L, expected);
    if (lua_type(L, got) != lua_type(L, expected) || !lua_rawequal(L, -1, -2))
        fail(v, "%s is %s, and %s is expected", path, lml_what_is(L, got),
             lml_what_is(L, expected));
    lua_pop(L, 2);
}

/* ---- one proof --------------------------------------------------------------------------------- */

static bool part_stops_with(lua_State *L, int part, lml_span code)
{
    bool found = false;
    lua_getfield(L, part, "remarks");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1) && !found; i++) {
        lua_rawgeti(L, -1, i);
        lua_getfield(L, -1, "level");
        lua_getfield(L, -2, "code");
        lml_span own = lml_need_text(L, -1, "a code");
        const char *slash = memchr(own.at, '/', own.length);
        lml_span shortened = slash ? lml_span_between(slash + 1, own.at + own.length) : own;
        const char *level = lua_tostring(L, -2);
        found = (strcmp(level, "stop") == 0 || strcmp(level, "confirm") == 0) &&
                (lml_span_equal(own, code) || lml_span_equal(shortened, code));
        lua_pop(L, 3);
    }
    lua_pop(L, 1);
    lua_getfield(L, part, "pages");
    lua_getfield(L, -1, "bench");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1) && !found; i++) {
        lua_rawgeti(L, -1, i);
        if (lua_getfield(L, -1, "part") == LUA_TTABLE)
            found = part_stops_with(L, lua_gettop(L), code);
        lua_pop(L, 2);
    }
    lua_pop(L, 2);
    return found;
}

static void check_stops(lua_State *L, int proof, int part, verdict *v)
{
    lua_getfield(L, proof, "stops");
    if (lua_istable(L, -1)) {
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
            lua_rawgeti(L, -1, i);
            lml_span code = lml_need_text(L, -1, "the code of a stop");
            if (!part_stops_with(L, part, code))
                fail(v, "the stop '%.*s' is expected, and does not come", (int)code.length, code.at);
            lua_pop(L, 1);
        }
    } else if (!lua_isnil(L, -1)) {
        lml_raise_text(L, LML_BAD_RECIPE, "stops is a list of codes");
    }
    lua_pop(L, 1);
}

/* Works the proof at index 2 of recipe r; the verdict is light userdata 1. */
static int one_proof(lua_State *L)
{
    verdict *v = lua_touserdata(L, 1);
    const lml_recipe *r = lua_touserdata(L, 3);
    const int proof = 2;
    lua_getfield(L, proof, "within");
    const char *within = lua_isnil(L, -1) ? NULL : lml_need_text(L, -1, "within").at;
    lua_getfield(L, proof, "given");
    if (lua_isnil(L, -1)) {
        lua_pop(L, 1);
        lua_newtable(L);
    }
    int given = lua_gettop(L);
    if (lua_getfield(L, proof, "house") == LUA_TTABLE)
        lml_run_proof_house(L, -1);
    lua_pop(L, 1);
    lml_work_recipe(L, r->name, given, 0);
    int part = lua_gettop(L);
    check_stops(L, proof, part, v);
    lua_getfield(L, part, "results");
    lua_getfield(L, part, "withheld");
    int results = part + 1, withheld = part + 2;
    if (lua_getfield(L, proof, "expect") == LUA_TNIL) {
        lua_getfield(L, proof, "stops");
        if (lua_isnil(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "a proof expects something, or says what stops");
        return 0;
    }
    int expect = lua_gettop(L);
    lua_Integer count = lml_sorted_keys(L, expect);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, expect + 1, i);
        const char *name = lml_need_text(L, -1, "the name of a give").at;
        const lml_shape *f = lml_shape_field(&r->gives, name);
        if (!f)
            lml_raise_text(L, LML_BAD_RECIPE, "the proof expects '%s', which the recipe does not give",
                           name);
        lua_getfield(L, withheld, name);
        bool hidden = !lua_isnil(L, -1);
        lua_getfield(L, results, name);
        lua_getfield(L, expect, name);
        if (hidden) {
            fail(v, "%s is withheld by a stop", name);
        } else if (lua_isnil(L, -2)) {
            fail(v, "%s is not given", name);
        } else {
            lml_shape free_shape = *f; /* an expected figure need not keep the bounds */
            free_shape.from = free_shape.to = NULL;
            if (lua_istable(L, -1))
                compare(L, -2, -1, within, name, v); /* only the members that are named */
            else {
                lml_take_value(L, &free_shape, -1, name);
                compare(L, -3, -1, within, name, v);
            }
        }
        lua_settop(L, expect + 1);
    }
    return 0;
}

/* ---- the report -------------------------------------------------------------------------------- */

static void put(lml_json_writer *w, const char *name, const char *text)
{
    lml_json_put_member(w, name, text);
}

/* Each proof runs in a state of its own, as a job would. */
static lml_status prove_one(struct lml_engine *engine, const char *recipe, lua_Integer index,
                            lml_json_writer *w, bool *passed, lml_error *err)
{
    lml_run run;
    lml_status status = lml_run_open(&run, engine, err);
    if (status)
        return status;
    run.proof = true;
    lua_State *L = run.box.L;
    verdict v = {""};
    lml_item *item = lml_shelf_find(&engine->shelf, LML_PUT_RECIPE, lml_span_of(recipe));
    lml_error e;
    memset(&e, 0, sizeof e);
    char name[200] = "", source[400] = "";
    lua_checkstack(L, 20);
    status = lml_run_recipe_table(&run, recipe, &e);
    if (!status) {
        lua_getfield(L, -1, "proofs");
        lua_rawgeti(L, -1, index);
        if (lua_istable(L, -1)) {
            lua_rawgeti(L, -1, 1);
            if (lua_type(L, -1) == LUA_TSTRING)
                snprintf(name, sizeof name, "%s", lua_tostring(L, -1));
            lua_getfield(L, -2, "source");
            if (lua_type(L, -1) == LUA_TSTRING)
                snprintf(source, sizeof source, "%s", lua_tostring(L, -1));
            lua_pop(L, 2);
            lua_pushcfunction(L, one_proof);
            lua_pushlightuserdata(L, &v);
            lua_pushvalue(L, -3);
            lua_pushlightuserdata(L, item->recipe);
            status = lml_box_call(&run.box, 3, 0, &e);
        } else {
            status = lml_fail(&e, LML_BAD_RECIPE, "proof %d is not a table", (int)index);
        }
    }
    *passed = !status && !v.failure[0];
    lml_json_open_record(w);
    if (name[0])
        put(w, "name", name);
    if (source[0])
        put(w, "source", source);
    lml_json_put_name(w, lml_span_of("passed"));
    lml_json_put_yes_no(w, *passed);
    if (!*passed)
        put(w, "failure", status ? e.message : v.failure);
    if (status && e.hint[0])
        put(w, "hint", e.hint);
    lml_json_close(w);
    lml_run_close(&run);
    return LML_OK;
}

lml_status lml_prove_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err)
{
    struct lml_engine *engine = run->engine;
    lml_item *item;
    lml_status status = lml_shelf_need(&engine->shelf, LML_PUT_RECIPE, lml_span_of(recipe), &item,
                                       err);
    if (!status)
        status = lml_run_describe(run, recipe, err);
    if (status)
        return status;
    lml_json_writer w = lml_json_writer_on(b, false);
    lml_json_open_record(&w);
    put(&w, "recipe", recipe);
    put(&w, "version", item->recipe->version);
    put(&w, "digest", item->digest);
    lml_json_put_name(&w, lml_span_of("proofs"));
    lml_json_open_list(&w);
    int64_t good = 0;
    for (size_t i = 1; i <= item->recipe->proofs && !status; i++) {
        bool passed = false;
        status = prove_one(engine, recipe, (lua_Integer)i, &w, &passed, err);
        good += passed;
    }
    lml_json_close(&w);
    lml_json_put_name(&w, lml_span_of("passed"));
    lml_json_put_whole(&w, good);
    lml_json_put_name(&w, lml_span_of("failed"));
    lml_json_put_whole(&w, (int64_t)item->recipe->proofs - good);
    lml_json_close(&w);
    return status ? status : lml_json_writer_end(&w, err);
}
