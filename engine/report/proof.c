#include "report/proof.h"

#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "read/read.h"
#include "report/verdict.h"
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
    int line;
    lua_Integer index;
    const char *name; /* of the proof; NULL until it is known */
    lml_proof_tell *tell;
    void *self;
    int told;
} place;

static void refuse(place *p, const char *hint, const char *format, ...) LML_PRINTF(3, 4);
static void refuse(place *p, const char *hint, const char *format, ...)
{
    char what[300];
    va_list args;
    va_start(args, format);
    vsnprintf(what, sizeof what, format, args);
    va_end(args);
    lml_error e;
    if (p->name)
        lml_fail(&e, LML_BAD_RECIPE, "the proof '%s' %s", p->name, what);
    else
        lml_fail(&e, LML_BAD_RECIPE, "proof %d %s", (int)p->index, what);
    p->told++;
    p->tell(p->self, p->line, e.message, hint);
}

/* Push the text of the key at the index; anything else is written as a text. */
static lml_span push_key(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    lml_what_push_text(L, -1);
    lua_remove(L, -2);
    return lml_what_need_text(L, -1, "a name");
}

static void check_members(lua_State *L, place *p, int proof)
{
    static const char all[] = "given, house, expect, within, stops, source";
    static const char *const known[] = {"given", "house", "expect", "within", "stops", "source"};
    enum { KNOWN = sizeof known / sizeof *known };
    lua_Integer count = lml_key_push_sorted(L, proof);
    int keys = lua_gettop(L);
    bool nameless = false;
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, keys)) {
        lua_rawgeti(L, keys, i);
        if (lua_type(L, -1) != LUA_TSTRING) {
            if (!nameless && !(lua_isinteger(L, -1) && lua_tointeger(L, -1) == 1))
                refuse(p, all, "has entries without names besides its own name");
            nameless = nameless || !(lua_isinteger(L, -1) && lua_tointeger(L, -1) == 1);
            continue;
        }
        lml_span name = push_key(L, -1);
        lml_nearest nearest = lml_nearest_to(name);
        bool found = false;
        for (size_t k = 0; k < KNOWN; k++) {
            found = found || lml_span_is(name, known[k]);
            lml_nearest_offer(&nearest, lml_span_of(known[k]));
        }
        char hint[120];
        snprintf(hint, sizeof hint, "did you mean '%.*s'?", (int)nearest.best.length,
                 nearest.best.at);
        if (!found)
            refuse(p, lml_nearest_found(&nearest) ? hint : all,
                   "has a '%.*s', which is not part of a proof", (int)name.length, name.at);
    }
    lua_settop(L, keys - 1);
}

/* ---- its figures ---- */

/* Arguments: a shape, its path and the figure, which is read as it is when the proof is run. */
static int take(lua_State *L)
{
    lml_take_value(L, lua_touserdata(L, 1), 3, lua_touserdata(L, 2));
    return 1;
}

/* Push the figure at the index as the shape takes it; false, with the fault reported, if it does
 * not. */
static bool push_taken(lua_State *L, place *p, const char *member, const lml_shape *shape,
                       const char *path, int index)
{
    lml_box *box = lml_box_of(L);
    index = lua_absindex(L, index);
    lua_pushcfunction(L, take);
    lua_pushlightuserdata(L, (void *)(uintptr_t)shape);
    lua_pushlightuserdata(L, (void *)(uintptr_t)path);
    lua_pushvalue(L, index);
    int failed = lua_pcall(L, 3, 1, 0);
    if (!failed)
        return true;
    if (box->dead)
        lua_error(L);
    lml_error e;
    lml_box_take_error(box, failed, &e);
    refuse(p, e.hint, "%s '%s': %.200s", member, path, e.message);
    return false;
}

/* What `within` allows, and whether it says something of any figure. */
typedef struct within {
    lml_span text; /* empty: none, or one that is reported already */
    int figures, fits;
    lml_error why; /* it does not fit the last that it does not fit */
} within;

static void check_within(lua_State *L, place *p, int proof, within *out)
{
    static const char hint[] = "such as within = \"0.1 g\", or \"1 %\"";
    lml_value value;
    lml_error e;
    int type = lua_getfield(L, proof, "within");
    lml_span text = type == LUA_TSTRING ? lml_what_need_text(L, -1, "within") : (lml_span){"", 0};
    if (type != LUA_TSTRING && type != LUA_TNIL)
        refuse(p, hint, "has a 'within' that is not a text");
    else if (type == LUA_TSTRING &&
             lml_read_value(text, LML_WANT_ANYTHING, LML_NO_METAL, &value, &e))
        refuse(p, hint, "has a 'within' that is not a value: %.120s", e.message);
    else
        out->text = text;
    lua_pop(L, 1);
}

static void hold_against_within(lua_State *L, within *w)
{
    lml_value room;
    if (!lml_class_test(L, -1, LML_CLASS_VALUE) && lua_type(L, -1) != LUA_TNUMBER)
        return;
    if (w->text.length == 0)
        return;
    w->figures++;
    w->fits += !lml_verdict_check_within(lml_figure_check(L, -1, &room), w->text, &w->why);
}

static void check_expected(lua_State *L, place *p, const lml_shape *shape, const char *path,
                           within *w)
{
    lml_box_need_stack(L, 20);
    int top = lua_gettop(L);
    bool named = shape->wanted == LML_WANT_RECORD || shape->wanted == LML_WANT_BY_NAME;
    if ((!named && shape->wanted != LML_WANT_LIST) || !lml_view_test_content(L, top)) {
        lml_shape free_shape = *shape; /* an expected figure need not keep the bounds */
        free_shape.from = free_shape.to = NULL;
        lua_settop(L, top);
        if (push_taken(L, p, "expects", &free_shape, path, top))
            hold_against_within(L, w);
        lua_settop(L, top);
        return;
    }
    lua_Integer count = lml_key_push_sorted(L, top + 1);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, top + 2)) {
        char deeper[160];
        lua_rawgeti(L, top + 2, i);
        lml_span key = push_key(L, -1);
        snprintf(deeper, sizeof deeper, named ? "%s.%.*s" : "%s[%.*s]", path, (int)key.length,
                 key.at);
        const lml_shape *inner =
            shape->wanted == LML_WANT_RECORD ? lml_shape_field_named(shape, key) : shape->of;
        lua_pushvalue(L, -2);
        lua_rawget(L, top + 1);
        if (inner)
            check_expected(L, p, inner, deeper, w);
        else
            refuse(p, "", "expects '%s', which is not given", deeper);
    }
    lua_settop(L, top);
}

/* Each name that the member holds must be a field of the record, and its figure of that kind. How
 * many there are. */
static lua_Integer check_names(lua_State *L, place *p, int proof, const char *member,
                               const lml_shape *record, within *w)
{
    int top = lua_gettop(L);
    if (lua_getfield(L, proof, member) == LUA_TNIL || !lml_view_test_content(L, -1)) {
        lua_settop(L, top);
        return 0;
    }
    lua_Integer count = lml_key_push_sorted(L, lua_gettop(L));
    int keys = lua_gettop(L);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, keys)) {
        lua_rawgeti(L, keys, i);
        lml_span name = push_key(L, -1);
        const lml_shape *field = lml_shape_field_named(record, name);
        lua_pushvalue(L, -2);
        lua_rawget(L, keys - 1);
        if (field && w) {
            check_expected(L, p, field, field->name, w);
            continue;
        }
        if (field) {
            push_taken(L, p, "gives", field, field->name, -1);
            continue;
        }
        lml_nearest nearest = lml_nearest_to(name);
        for (size_t k = 0; k < record->field_count; k++)
            lml_nearest_offer(&nearest, lml_span_of(record->fields[k].name));
        char hint[120] = "";
        if (lml_nearest_found(&nearest))
            snprintf(hint, sizeof hint, "did you mean '%.*s'?", (int)nearest.best.length,
                     nearest.best.at);
        refuse(p, hint, "has '%.*s' in its '%s', which the recipe %s", (int)name.length, name.at,
               member, w ? "does not give" : "neither asks for nor allows");
    }
    lua_settop(L, top);
    return count;
}

static void check_table(lua_State *L, place *p, int proof, const char *name, const char *hint)
{
    int top = lua_gettop(L);
    if (lua_getfield(L, proof, name) != LUA_TNIL && !lml_view_test_content(L, -1))
        refuse(p, hint, "has '%s', which is not a table", name);
    lua_settop(L, top);
}

static void check_said(lua_State *L, place *p, int proof)
{
    within w = {.text = {"", 0}};
    check_within(L, p, proof, &w);
    check_names(L, p, proof, "given", &p->recipe->loose, NULL);
    bool expects = check_names(L, p, proof, "expect", &p->recipe->gives, &w) > 0;
    if (w.figures > 0 && w.fits == 0)
        refuse(p, w.why.hint, "has within = \"%.*s\", which fits none of its figures: %.150s",
               (int)w.text.length, w.text.at, w.why.message);
    if (lua_getfield(L, proof, "stops") == LUA_TNIL && !expects)
        refuse(p, "write expect = { a give = \"a figure\" }, or stops = { \"the code of a stop\" }",
               "expects nothing");
    lua_pop(L, 1);
}

static void check_stops(lua_State *L, place *p, int proof)
{
    bool list = lua_getfield(L, proof, "stops") == LUA_TNIL || lua_istable(L, -1);
    lua_Integer keys = 0;
    if (lua_istable(L, -1))
        for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
            lml_box_charge(L, 1);
            list = list && lua_type(L, -1) == LUA_TSTRING && lua_isinteger(L, -2) &&
                   ++keys <= (lua_Integer)lua_rawlen(L, -3);
        }
    if (!list)
        refuse(p, "such as stops = { \"crucible\" }; stops = {} means nothing stops it",
               "has a 'stops' that is not a list of codes");
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

static void push_copy(lua_State *L, int table, int depth)
{
    enum { DEPTH_MOST = 32 };
    lml_box_need_stack(L, 6);
    if (depth > DEPTH_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "a proof is nested too deep");
    lua_newtable(L);
    int copy = lua_gettop(L);
    lua_pushnil(L);
    while (lua_next(L, table)) {
        lml_box_charge(L, 1);
        if (lua_istable(L, -1)) {
            push_copy(L, lua_gettop(L), depth + 1);
            lua_remove(L, -2);
        }
        lua_pushvalue(L, -2);
        lua_insert(L, -2);
        lua_rawset(L, copy);
    }
}

void lml_proof_push_copy(lua_State *L, int table)
{
    push_copy(L, lua_absindex(L, table), 1);
}

int lml_proof_review(lua_State *L, int proof, const lml_recipe *recipe, lua_Integer index,
                     lml_proof_tell *tell, void *self)
{
    const lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, recipe->name);
    place p = {.recipe = recipe, .index = index, .tell = tell, .self = self};
    int top = lua_gettop(L);
    lml_box_need_stack(L, 16);
    p.line = lml_proof_line((lml_span){item->text, item->length}, index);
    if (!lua_istable(L, proof)) {
        refuse(&p, "write { \"its name\", given = { ... }, expect = { ... }, source = \"...\" }",
               "is not a table");
        return p.told;
    }
    lml_proof_push_copy(L, proof);
    proof = top + 1;
    if (lua_rawgeti(L, proof, 1) == LUA_TSTRING) {
        lml_wording_push(L, -1, "the name of a proof", LML_TEXT_MOST);
        p.name = lua_tostring(L, -1);
    } else {
        refuse(&p, "its first entry is its name: { \"18 kt from wax\", given = ...", "has no name");
    }
    check_members(L, &p, proof);
    check_table(L, &p, proof, "given", "write given = { wax = \"2.85 g\" }");
    check_table(L, &p, proof, "house", "write house = { button = \"9 g\" }");
    check_table(L, &p, proof, "expect", "write expect = { piece = \"45.9 g\" }");
    check_stops(L, &p, proof);
    check_said(L, &p, proof);
    if (lua_getfield(L, proof, "source") != LUA_TSTRING ||
        lml_span_trim(lml_what_need_text(L, -1, "source")).length == 0)
        refuse(&p,
               "source = \"the book, table or page\"; of your own: source = \"our own bench, "
               "2026-11-03\"",
               "does not give the source of its figures");
    lua_settop(L, top);
    return p.told;
}
