#include "report/proof.h"

#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "read/read.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/take.h"
#include "shelf/token.h"

#include <stdio.h>
#include <string.h>

/* ---- where it is ---------------------------------------------------------------------------
 */

static int depth_of(lml_token t)
{
    if (t.kind != LML_TOKEN_SIGN || t.text.length != 1)
        return 0;
    return strchr("{([", t.text.at[0]) ? 1 : strchr("})]", t.text.at[0]) ? -1 : 0;
}

/* The brace that opens the list: of "proofs = {", of "proofs = some_function {", or of the "return
 * {" that ends the function which makes it. */
typedef struct seeker {
    bool named;    /* "proofs =", and at most a name, stand before this word */
    int blocks;    /* that are open in the function; 0 outside of it */
    bool returned; /* the word before is its own return */
} seeker;

static bool opens_list(seeker *k, lml_token t, lml_token before, lml_token two_before)
{
    bool opens = (k->named || k->returned) && lml_token_is(t, "{");
    if (k->blocks) {
        if (lml_token_is(t, "function") || lml_token_is(t, "if") || lml_token_is(t, "do") ||
            lml_token_is(t, "repeat"))
            k->blocks++;
        else if (lml_token_is(t, "end") || lml_token_is(t, "until"))
            k->blocks--;
        k->returned = k->blocks == 1 && lml_token_is(t, "return");
    } else if (k->named && lml_token_is(t, "function")) {
        k->blocks = 1;
    }
    k->named = (lml_token_is(t, "=") && lml_token_is(before, "proofs") &&
                (lml_token_is(two_before, ",") || lml_token_is(two_before, "{") ||
                 lml_token_is(two_before, ";"))) ||
               (k->named && !k->blocks && t.kind == LML_TOKEN_NAME);
    return opens;
}

/* An entry, { ... } or a name, begins after the brace that opens the list and after each comma of
 * it. */
int lml_proof_line(lml_span source, lua_Integer index)
{
    lml_scanner s = lml_scanner_on(source);
    int depth = 0, list = 0;
    lua_Integer entries = 0;
    lml_token last = {.kind = LML_TOKEN_END}, before_last = last;
    seeker k = {0};
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        bool begins = list && depth == list && (lml_token_is(last, "{") || lml_token_is(last, ","));
        if (begins && !lml_token_is(t, "}") && ++entries == index)
            return t.line;
        depth += depth_of(t);
        if (list && depth < list)
            return 0;
        if (!list && opens_list(&k, t, last, before_last))
            list = depth;
        before_last = last;
        last = t;
    }
    return 0;
}

/* ---- as it is written --------------------------------------------------------------------------
 */

typedef struct place {
    const lml_recipe *recipe;
    lua_Integer index;
    const char *name; /* of the proof; NULL until it is known */
} place;

/* "recipes/need.lua:41: the proof '18 kt from wax' ..." */
static int refuse(lua_State *L, const place *p, const char *hint, const char *format, ...)
    LML_PRINTF(4, 5);
static int refuse(lua_State *L, const place *p, const char *hint, const char *format, ...)
{
    const lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, p->recipe->name);
    int line = lml_proof_line((lml_span){item->text, item->length}, p->index);
    char where[160] = "", what[300];
    if (line)
        snprintf(where, sizeof where, "%s:%d", item->shown, line);
    else
        snprintf(where, sizeof where, "%s", item->shown);
    va_list args;
    va_start(args, format);
    vsnprintf(what, sizeof what, format, args);
    va_end(args);
    lml_error e;
    if (p->name)
        lml_fail(&e, LML_BAD_RECIPE, "%s: the proof '%s' %s", where, p->name, what);
    else
        lml_fail(&e, LML_BAD_RECIPE, "%s: proof %d %s", where, (int)p->index, what);
    if (hint)
        lml_error_hint(&e, "%s", hint);
    return lml_raise_as_is(L, &e);
}

static bool is_odd(lua_State *L, const void *self)
{
    if (lua_type(L, -2) == LUA_TNUMBER)
        return !lua_isinteger(L, -2) || lua_tointeger(L, -2) != 1;
    if (lua_type(L, -2) != LUA_TSTRING)
        return true;
    for (const char *const *known = self; *known; known++)
        if (lml_span_is(lml_what_need_text(L, -2, "a name"), *known))
            return false;
    return true;
}

static void check_members(lua_State *L, const place *p, int proof)
{
    static const char *const known[] = {"given", "house",  "expect", "within",
                                        "stops", "source", NULL};
    if (!lml_key_find_odd(L, proof, is_odd, known))
        return;
    if (lua_type(L, -1) != LUA_TSTRING)
        refuse(L, p, "given, house, expect, within, stops, source",
               "has entries without names besides its own name");
    lml_span name = lml_what_need_text(L, -1, "a name");
    lml_nearest nearest = lml_nearest_to(name);
    for (const char *const *k = known; *k; k++)
        lml_nearest_offer(&nearest, lml_span_of(*k));
    char hint[120] = "given, house, expect, within, stops, source";
    if (lml_nearest_found(&nearest))
        snprintf(hint, sizeof hint, "did you mean '%.*s'?", (int)nearest.best.length,
                 nearest.best.at);
    refuse(L, p, hint, "has a '%.*s', which is not part of a proof", (int)name.length, name.at);
}

static void check_table(lua_State *L, const place *p, int proof, const char *name, const char *hint)
{
    int type = lua_getfield(L, proof, name);
    if (type != LUA_TNIL && !lml_view_test_content(L, -1))
        refuse(L, p, hint, "has '%s', which is not a table", name);
    lua_pop(L, 1);
}

/* How many names the member holds; each must be a field of the record. */
static lua_Integer check_names(lua_State *L, const place *p, int proof, const char *member,
                               const lml_shape *record, const char *otherwise)
{
    int top = lua_gettop(L);
    if (lua_getfield(L, proof, member) == LUA_TNIL) {
        lua_settop(L, top);
        return 0;
    }
    lml_view_push_content(L, -1, member);
    lua_Integer count = lml_key_push_sorted(L, lua_gettop(L));
    int keys = lua_gettop(L);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, keys)) {
        lua_rawgeti(L, keys, i);
        lml_what_push_text(L, -1);
        lml_span name = lml_what_need_text(L, -1, "a name");
        if (lml_shape_field_named(record, name))
            continue;
        lml_nearest nearest = lml_nearest_to(name);
        for (size_t k = 0; k < record->field_count; k++)
            lml_nearest_offer(&nearest, lml_span_of(record->fields[k].name));
        char hint[120];
        snprintf(hint, sizeof hint, "did you mean '%.*s'?", (int)nearest.best.length,
                 nearest.best.at);
        refuse(L, p, lml_nearest_found(&nearest) ? hint : NULL,
               "has '%.*s' in its '%s', which the recipe %s", (int)name.length, name.at, member,
               otherwise);
    }
    lua_settop(L, top);
    return count;
}

static void check_said(lua_State *L, const place *p, int proof)
{
    check_names(L, p, proof, "given", &p->recipe->loose, "neither asks for nor allows");
    bool expects = check_names(L, p, proof, "expect", &p->recipe->gives, "does not give") > 0;
    if (lua_getfield(L, proof, "stops") == LUA_TNIL && !expects)
        refuse(L, p,
               "write expect = { a give = \"a figure\" }, or stops = { \"the code of a stop\" }",
               "expects nothing");
    lua_pop(L, 1);
}

static void check_within(lua_State *L, const place *p, int proof)
{
    lml_value value;
    int type = lua_getfield(L, proof, "within");
    lml_error e;
    if (type == LUA_TSTRING) {
        if (lml_read_value(lml_what_need_text(L, -1, "within"), LML_WANT_ANYTHING, LML_NO_METAL,
                           &value, &e))
            refuse(L, p, "such as within = \"0.1 g\", or \"1 %\"",
                   "has a 'within' that is not a value: %.120s", e.message);
    } else if (type != LUA_TNIL) {
        refuse(L, p, "such as within = \"0.1 g\", or \"1 %\"", "has a 'within' that is not a text");
    }
    lua_pop(L, 1);
}

static void check_stops(lua_State *L, const place *p, int proof)
{
    static const char hint[] =
        "such as stops = { \"crucible\" }; stops = {} means nothing stops it";
    if (lua_getfield(L, proof, "stops") != LUA_TNIL) {
        if (!lua_istable(L, -1))
            refuse(L, p, hint, "has a 'stops' that is not a list of codes");
        lua_Integer length = (lua_Integer)lua_rawlen(L, -1), keys = 0;
        for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
            lml_box_charge(L, 1);
            if (lua_type(L, -1) != LUA_TSTRING || !lua_isinteger(L, -2) || ++keys > length)
                refuse(L, p, hint, "has a 'stops' that is not a list of codes");
        }
    }
    lua_pop(L, 1);
}

lua_Integer lml_proof_push_all(lua_State *L, const char *recipe)
{
    lml_box_need_stack(L, 6);
    lml_load_push_recipe_table(L, recipe);
    int type = lua_getfield(L, -1, "proofs");
    lua_replace(L, -2);
    if (type == LUA_TNIL) {
        lua_newtable(L);
    } else if (type == LUA_TFUNCTION) {
        lua_pushvalue(L, -1);
        lua_call(L, 0, 1);
        if (!lml_view_test_content(L, -1))
            lml_raise_hint(L, LML_BAD_RECIPE, "end it with: return { { \"its name\", ... } } end",
                           "%s: the function 'proofs' does not return a list", recipe);
        lml_view_push_content(L, -1, "proofs");
        lua_replace(L, -2);
    } else {
        lml_view_push_content(L, -1, "proofs");
    }
    lua_replace(L, -2);
    lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
    if (count > LML_PROOFS_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "%s has more than %d proofs", recipe, LML_PROOFS_MOST);
    return count;
}

void lml_proof_push(lua_State *L, const lml_recipe *recipe, lua_Integer index)
{
    lml_proof_push_all(L, recipe->name);
    lua_rawgeti(L, -1, index);
    lua_replace(L, -2);
}

void lml_proof_check(lua_State *L, int proof, const lml_recipe *recipe, lua_Integer index)
{
    place p = {.recipe = recipe, .index = index};
    lml_box_need_stack(L, 16);
    if (!lua_istable(L, proof))
        refuse(L, &p, "write { \"its name\", given = { ... }, expect = { ... }, source = \"...\" }",
               "is not a table");
    if (lua_rawgeti(L, proof, 1) != LUA_TSTRING)
        refuse(L, &p, "its first entry is its name: { \"18 kt from wax\", given = ...",
               "has no name");
    lml_wording_push(L, -1, "the name of a proof", LML_TEXT_MOST);
    p.name = lua_tostring(L, -1);
    check_members(L, &p, proof);
    check_table(L, &p, proof, "given", "write given = { wax = \"2.85 g\" }");
    check_table(L, &p, proof, "house", "write house = { button = \"9 g\" }");
    check_table(L, &p, proof, "expect", "write expect = { piece = \"45.9 g\" }");
    check_within(L, &p, proof);
    check_stops(L, &p, proof);
    check_said(L, &p, proof);
    if (lua_getfield(L, proof, "source") != LUA_TSTRING ||
        lml_span_trim(lml_what_need_text(L, -1, "source")).length == 0)
        refuse(L, &p,
               "source = \"the book, table or page\"; of your own: source = \"our own bench, "
               "2026-11-03\"",
               "does not give the source of its figures");
    lua_settop(L, proof);
}
