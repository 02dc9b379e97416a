#include "run/inputs.h"

#include "run/engine.h"
#include "run/parts.h"
#include "run/prices.h"
#include "run/replaced.h"
#include "run/take.h"
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "file/shapes.h"
#include "value/wanted.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Registry keys: what a proof says that the house sets, and what it gives; figures of the house and
 * defaults taken in this run; what was read at a place of the job or the house. */
static const char PROOF_HOUSE, PROOF_GIVEN, TAKEN, SAID;

static const char OFFERED[] = "offered";
enum { OFFERED_FIELDS = 12 };

static void refuse_unknown(lua_State *L, const lml_recipe *r, const lml_parts *parts,
                           const lml_json *node, lml_span name)
{
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < r->loose.field_count; i++)
        lml_nearest_offer(&nearest, lml_span_of(r->loose.fields[i].name));
    for (int p = 0; p < parts->count; p++)
        for (size_t i = 0; i < parts->recipe[p]->own.field_count; i++)
            lml_nearest_offer(&nearest, lml_span_of(parts->recipe[p]->own.fields[i].name));
    lml_error e;
    bool allowed = false;
    for (size_t i = 0; i < r->allowances.field_count; i++)
        allowed = allowed || lml_span_is(name, r->allowances.fields[i].name);
    lml_fail(&e, LML_BAD_DATA, "%s does not ask for '%.*s'", r->name, (int)name.length, name.at);
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

/* What the command line gave is text throughout: there a bare number may be one. */
bool lml_inputs_is_typed(const lml_run *run, const lml_shape *f, const lml_json *node)
{
    bool bare = f->wanted == LML_WANT_NUMBER || f->wanted == LML_WANT_WHOLE;
    return run->loose && bare && lml_json_kind_of(node) == LML_JSON_TEXT;
}

static void take_given(lua_State *L, const lml_run *run, const lml_shape *f, const lml_json *node,
                       const char *path)
{
    if (lml_inputs_is_typed(run, f, node))
        lml_take_text(L, f, lml_json_text(node), path);
    else
        take_checked(L, f, node, path);
}

/* Alloys and assays are looked up in a script, which may run. */
static bool needs_script(const lml_shape *s)
{
    bool needs = s->wanted == LML_WANT_ALLOY || s->wanted == LML_WANT_ASSAY ||
                 (s->of && needs_script(s->of));
    for (size_t i = 0; i < s->field_count && !needs; i++)
        needs = needs_script(&s->fields[i]);
    return needs;
}

/* What the house sets, or the default where it sets nothing (NULL). */
static void take_set(lua_State *L, const lml_run *run, const lml_shape *f, const lml_json *node,
                     const char *path)
{
    if (node) {
        take_given(L, run, f, node, path);
    } else {
        lml_take_text(L, f, lml_span_of(f->default_text), path);
        lml_take_origin(L, LML_ASSUMED);
    }
}

/* How an allowance is called in messages, and in the house for its recipe alone. */
typedef struct allowance_names {
    char path[160], dotted[160];
} allowance_names;

static allowance_names names_of(const lml_recipe *r, const lml_shape *f)
{
    allowance_names n;
    lml_text_join(n.path, sizeof n.path, "house.", f->name, "");
    lml_text_join(n.dotted, sizeof n.dotted, r->name, ".", f->name);
    return n;
}

/* Push the table that says of the value on top of the stack who set it. */
static void push_setting(lua_State *L, const char *from)
{
    lua_createtable(L, 0, 4);
    lua_pushvalue(L, -2);
    lua_setfield(L, -2, "value");
    lua_pushstring(L, from);
    lua_setfield(L, -2, "from");
}

/* Note the value on top of the stack as a setting that is read. */
static void note_setting(lua_State *L, const allowance_names *names, const char *from)
{
    push_setting(L, from);
    lml_run_push_settings(L);
    lua_pushstring(L, names->dotted);
    lua_pushvalue(L, -3);
    lua_rawset(L, -3);
    lua_pop(L, 2);
}

/* What is kept of a figure that the house sets or a default gives: itself, what it cost in steps,
 * at which price; and how it is noted as a setting, with the text that was written of it
 * beforehand. */
enum { TAKEN_VALUE = 1, TAKEN_COST, TAKEN_PRICE, TAKEN_NAME, TAKEN_SETTING };

static void push_taken(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                       const allowance_names *names)
{
    lml_box *box = &run->box;
    uint64_t spent = box->spent;
    lua_createtable(L, TAKEN_SETTING, 0);
    take_set(L, run, f, node, names->path);
    push_setting(L, node ? "house" : "default");
    lua_rawseti(L, -3, TAKEN_SETTING);
    lua_rawseti(L, -2, TAKEN_VALUE);
    lua_pushinteger(L, (lua_Integer)(box->spent - spent));
    lua_rawseti(L, -2, TAKEN_COST);
    lua_pushinteger(L, (lua_Integer)box->price);
    lua_rawseti(L, -2, TAKEN_PRICE);
    lua_pushstring(L, names->dotted);
    lua_rawseti(L, -2, TAKEN_NAME);
}

/* Push what is kept of the figure. It is taken once a run, or before it, however often recipes ask
 * for it: nothing can change it. Each time it costs what it cost to take, and its longest text
 * counts. Nothing, and false, where it cannot be kept. */
static bool take_once(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                      const allowance_names *names)
{
    lml_box *box = &run->box;
    lml_run_push_registry(L, &TAKEN);
    if (lua_rawgetp(L, -1, f) == LUA_TTABLE) {
        lua_rawgeti(L, -1, TAKEN_PRICE);
        uint64_t price = (uint64_t)lua_tointeger(L, -1);
        if (price > box->price)
            lml_box_set_price(box, price);
        lua_rawgeti(L, -2, TAKEN_COST);
        lml_box_charge(L, (uint64_t)lua_tointeger(L, -1));
        lua_pop(L, 2);
    } else if (lml_inputs_is_typed(run, f, node) || needs_script(f)) {
        lua_pop(L, 2);
        return false;
    } else {
        lua_pop(L, 1);
        push_taken(L, run, f, node, names);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, -3, f);
    }
    lua_remove(L, -2);
    return true;
}

/* Push what the house sets at the node, or the default without one, and note it. */
static void push_set(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                     const allowance_names *names)
{
    if (!take_once(L, run, f, node, names)) {
        take_set(L, run, f, node, names->path);
        note_setting(L, names, node ? "house" : "default");
        return;
    }
    lml_run_push_settings(L);
    lua_rawgeti(L, -2, TAKEN_NAME);
    lua_rawgeti(L, -3, TAKEN_SETTING);
    lua_rawset(L, -3);
    lua_pop(L, 1);
    lua_rawgeti(L, -1, TAKEN_VALUE);
    lua_remove(L, -2);
}

/* An ask called `date`, `record`, `listed` or `offered` is filled from the job's own when `given`
 * has none; the end of a job has a date of its own. */
const lml_json *lml_inputs_given(const lml_run *run, const lml_shape *f)
{
    const lml_json *node = lml_json_member(run->given, f->name);
    if (node)
        return node;
    if (strcmp(f->name, "record") == 0 || strcmp(f->name, LML_LISTED) == 0)
        return lml_json_member(run->job, f->name);
    if (strcmp(f->name, "date") == 0)
        return lml_json_member(run->closing ? run->closing : run->job, f->name);
    return strcmp(f->name, OFFERED) == 0 ? run->offered : NULL;
}

/* What was promised may be more than a recipe reads of it: the rest is passed over. */
static void take_offered(lua_State *L, const lml_shape *f, const lml_json *node, const char *path)
{
    static const lml_shape anything = {.wanted = LML_WANT_ANYTHING};
    lml_shape field[OFFERED_FIELDS], open = *f;
    if (f->wanted == LML_WANT_RECORD && f->field_count <= OFFERED_FIELDS) {
        open.of = &anything;
        open.fields = field;
        for (size_t i = 0; i < f->field_count; i++) {
            field[i] = f->fields[i];
            if (field[i].wanted == LML_WANT_RECORD)
                field[i].of = &anything;
        }
    }
    take_checked(L, &open, node, path);
}

/* Push a figure from the arguments of a use, when it is there. */
static bool push_argument(lua_State *L, const lml_shape *f, int arguments, const char *path)
{
    if (!arguments)
        return false;
    if (!lml_view_get_member(L, arguments, f->name)) {
        lua_pop(L, 1);
        return false;
    }
    lml_take_value(L, f, -1, path);
    lua_remove(L, -2);
    return true;
}

/* Arguments: the shape, the node, the path. */
static int take_apart(lua_State *L)
{
    take_given(L, lml_run_of(L), lua_touserdata(L, 1), lua_touserdata(L, 2), lua_touserdata(L, 3));
    return 1;
}

/* The value on top of the stack is what is said at the node. */
static void keep_said(lua_State *L, const lml_json *node)
{
    lml_run_push_registry(L, &SAID);
    lua_pushvalue(L, -2);
    lua_rawsetp(L, -2, node);
    lua_pop(L, 1);
}

/* Whether a recipe passes on, untouched, what was read at the node. */
static bool is_as_said(lua_State *L, const lml_shape *f, const lml_json *node, int arguments)
{
    int top = lua_gettop(L);
    lml_run_push_registry(L, &SAID);
    bool same = lua_rawgetp(L, -1, node) != LUA_TNIL &&
                lml_view_get_member(L, arguments, f->name) && lua_rawequal(L, -1, -2);
    lua_settop(L, top);
    return same;
}

/* Note where a recipe passes another figure than what the job or the house (`whose`) says at the
 * node: on top of the stack is what it passes. What cannot be read as that kind is another thing of
 * that name, and is passed over. */
static void note_replaced(lua_State *L, const lml_recipe *r, const lml_shape *f, int arguments,
                          const lml_json *node, const char *whose, const char *path)
{
    if (!node || lml_run_of(L)->engine->trial || is_as_said(L, f, node, arguments))
        return; /* a try says nothing but its figures */
    lua_pushcfunction(L, take_apart);
    lua_pushlightuserdata(L, (void *)(uintptr_t)f);
    lua_pushlightuserdata(L, (void *)(uintptr_t)node);
    lua_pushlightuserdata(L, (void *)(uintptr_t)path);
    if (!lua_pcall(L, 3, 1, 0)) {
        lua_insert(L, -2);
        lml_replaced_note(L, r, f->name, -2, whose);
        lua_remove(L, -2);
        return;
    }
    if (lml_box_of(L)->dead)
        lua_error(L);
    lua_pop(L, 1);
}

/* Push what the proof at work gives by that name; false when it gives nothing, or no proof is at
 * work. */
static bool push_of_proof_given(lua_State *L, const lml_shape *f, const char *path)
{
    bool given = lua_rawgetp(L, LUA_REGISTRYINDEX, &PROOF_GIVEN) == LUA_TTABLE &&
                 push_argument(L, f, lua_gettop(L), path);
    lua_remove(L, given ? -2 : -1);
    return given;
}

static void push_ask(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                     int arguments)
{
    char path[120];
    lml_text_join(path, sizeof path, "job.", f->name, "");
    if (push_argument(L, f, arguments, path)) {
        if (!r->rule) /* what a rule is told is the asking recipe's affair */
            note_replaced(L, r, f, arguments, lml_inputs_given(run, f), "job", path);
        return;
    }
    /* Nobody but the job answers what a rule asks by itself. */
    bool of_job =
        arguments && run->depth > 1 && lml_shape_field_named(&r->own, lml_span_of(f->name));
    if (of_job && push_of_proof_given(L, f, path))
        return;
    const lml_json *node = arguments && !of_job ? NULL : lml_inputs_given(run, f);
    if (node && node == run->offered) {
        take_offered(L, f, node, path);
    } else if (node) {
        take_given(L, run, f, node, path);
        keep_said(L, node);
    } else if (f->default_text) {
        lml_take_text(L, f, lml_span_of(f->default_text), path);
        lml_take_origin(L, LML_ASSUMED);
    } else if (f->optional) {
        lml_view_push_absent(L);
    } else {
        lml_error e;
        lml_fail(&e, LML_BAD_DATA, "%s needs '%s' (%s), which is not given", r->name, f->name,
                 f->title);
        char example[LML_EXAMPLE_TEXT];
        lml_shape_example_typed(f, example, sizeof example);
        lml_error_hint(&e, "%s, such as %s", lml_wanted_words(f->wanted), example);
        if (run->given && (!arguments || of_job))
            lml_json_place(run->given, e.status, &e);
        lml_raise_as_is(L, &e);
    }
}

/* What a recipe may be given: what it asks, and at the top of a job also what the rules ask that
 * take part. */
typedef struct known_names {
    const lml_shape *asked;
    lml_parts parts; /* none until a name is not among `asked` */
} known_names;

static bool is_known(const known_names *known, lml_span name)
{
    bool found = lml_shape_field_named(known->asked, name) != NULL;
    for (int i = 0; i < known->parts.count && !found; i++)
        found = lml_shape_field_named(&known->parts.recipe[i]->own, name) != NULL;
    return found;
}

static bool is_unknown(lua_State *L, const void *self)
{
    return lua_type(L, -2) != LUA_TSTRING ||
           !is_known(self, lml_what_need_text(L, -2, "the name of an ask"));
}

static void check_name(lua_State *L, const lml_recipe *r, known_names *known,
                       const lml_json *member)
{
    if (is_known(known, lml_json_name(member)))
        return;
    if (known->parts.count == 0)
        lml_parts_gather(L, r->name, &known->parts);
    if (!is_known(known, lml_json_name(member)))
        refuse_unknown(L, r, &known->parts, member, lml_json_name(member));
}

static const lml_shape *asked_of(const lml_run *run, const lml_recipe *r, int arguments)
{
    return run->loose || arguments ? &r->loose : &r->asks;
}

void lml_inputs_check_given(lua_State *L, const lml_recipe *r, const lml_json *member)
{
    known_names known = {.asked = asked_of(lml_run_of(L), r, 0), .parts = {.count = 0}};
    check_name(L, r, &known, member);
}

static void check_names(lua_State *L, const lml_run *run, const lml_recipe *r, known_names *known,
                        int arguments)
{
    if (arguments) {
        int top = lua_gettop(L);
        bool odd = lml_key_find_odd(L, arguments, is_unknown, known);
        if (odd && run->depth == 1) {
            lml_parts_gather(L, r->name, &known->parts);
            odd = lml_key_find_odd(L, arguments, is_unknown, known);
        }
        if (odd)
            refuse_unknown(L, r, &known->parts, NULL,
                           lml_what_need_text(L, -1, "the name of an ask"));
        lua_settop(L, top);
        return;
    }
    for (const lml_json *m = lml_json_first(run->given); m; m = lml_json_next(m))
        check_name(L, r, known, m);
}

void lml_inputs_push_ask(lua_State *L, const lml_recipe *r, const lml_shape *f)
{
    push_ask(L, lml_run_of(L), r, f, 0);
}

void lml_inputs_push_job(lua_State *L, const lml_recipe *r, int arguments)
{
    lml_run *run = lml_run_of(L);
    known_names known = {.asked = asked_of(run, r, arguments), .parts = {.count = 0}};
    check_names(L, run, r, &known, arguments);
    lua_createtable(L, 0, (int)r->asks.field_count);
    for (size_t i = 0; i < r->asks.field_count; i++) {
        push_ask(L, run, r, &r->asks.fields[i], arguments);
        lua_setfield(L, -2, r->asks.fields[i].name);
    }
}

void lml_inputs_proof_given(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &PROOF_GIVEN);
}

void lml_inputs_proof_house(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &PROOF_HOUSE);
}

/* Push what the proof says that the house sets, for this recipe or in general; false when it says
 * nothing. */
static bool push_of_proof_house(lua_State *L, const lml_shape *f, const char *dotted,
                                const char *path)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &PROOF_HOUSE) != LUA_TTABLE) {
        lua_pop(L, 1);
        return false;
    }
    if (lua_getfield(L, -1, dotted) == LUA_TNIL) {
        lua_pop(L, 1);
        lua_getfield(L, -1, f->name);
    }
    if (lua_isnil(L, -1)) {
        lua_pop(L, 2);
        return false;
    }
    lml_take_value(L, f, -1, path);
    lua_replace(L, -3);
    lua_pop(L, 1);
    return true;
}

/* What the house sets for this recipe, or in general; NULL when it does not. */
static const lml_json *house_node(const lml_run *run, const lml_shape *f, const char *dotted)
{
    const lml_json *house = lml_shelf_house(&run->engine->shelf), *node;
    if (run->box.proof)
        return NULL;
    if (!(node = lml_json_member(house, dotted)))
        node = lml_json_member(house, f->name);
    return node;
}

/* The price list, which stands in for an allowance of that name; NULL when this is another, or
 * there is no list. */
static const lml_json *listed_node(lua_State *L, lml_run *run, const lml_shape *f, int arguments)
{
    bool listed = !run->box.proof && strcmp(f->name, "prices") == 0;
    return listed ? lml_prices_of_day(L, run, arguments) : NULL;
}

/* What the job sets in its stead; its end what it sets itself, then what the job does. */
static const lml_json *job_house_node(const lml_run *run, const lml_shape *f, const char *dotted)
{
    const lml_json *level[] = {run->job_house,
                               run->closing ? lml_json_member(run->job, "house") : NULL};
    const lml_json *node = NULL;
    for (int i = 0; i < 2 && !node; i++)
        if (!(node = lml_json_member(level[i], dotted)))
            node = lml_json_member(level[i], f->name);
    return node;
}

/* What the job sets; on the command line it may stand among what is given. */
static const lml_json *job_node(const lml_run *run, const lml_shape *f, const char *dotted,
                                bool at_the_top)
{
    const lml_json *node = NULL;
    if (run->loose && at_the_top)
        node = lml_json_member(run->given, f->name);
    return node ? node : job_house_node(run, f, dotted);
}

const lml_json *lml_inputs_set(const lml_run *run, const lml_recipe *r, const lml_shape *f)
{
    const allowance_names names = names_of(r, f);
    const lml_json *node = job_node(run, f, names.dotted, true);
    return node ? node : house_node(run, f, names.dotted);
}

static void push_allowance(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                           int arguments)
{
    const allowance_names names = names_of(r, f);
    const char *path = names.path, *dotted = names.dotted;
    if (push_argument(L, f, arguments, path)) {
        note_setting(L, &names, "passed");
        const lml_json *own = job_house_node(run, f, dotted);
        if (!own && run->loose)
            own = lml_json_member(run->given, f->name);
        const lml_json *said = own ? own : house_node(run, f, dotted);
        if (!said)
            said = listed_node(L, run, f, arguments);
        note_replaced(L, r, f, arguments, said, own ? "job" : "house", path);
        return;
    }
    if (push_of_proof_house(L, f, dotted, path)) {
        note_setting(L, &names, "house");
        return;
    }
    const lml_json *node = job_node(run, f, dotted, !arguments);
    if (node) {
        take_given(L, run, f, node, path);
        note_setting(L, &names, "job");
        keep_said(L, node);
    } else if ((node = house_node(run, f, dotted))) {
        push_set(L, run, f, node, &names);
        keep_said(L, node);
    } else if ((node = listed_node(L, run, f, arguments))) {
        take_given(L, run, f, node, path);
        note_setting(L, &names, "house");
    } else if (f->default_text) {
        push_set(L, run, f, NULL, &names);
    } else if (f->optional) {
        lml_view_push_absent(L);
    } else {
        lml_error e;
        lml_fail(&e, LML_BAD_DATA, "%s needs '%s' (%s), which the house has not set", r->name,
                 f->name, f->title);
        char example[LML_EXAMPLE_TEXT];
        lml_shape_example_json(f, example, sizeof example);
        lml_error_hint(&e, "write \"%s\": %s in house.json, or under \"house\" in the job", f->name,
                       example);
        if (run->job && !arguments)
            lml_error_context(&e, e.status, "%s has no default because only the studio can know it",
                              f->name);
        lml_raise_as_is(L, &e);
    }
}

void lml_inputs_push_allowance(lua_State *L, const lml_recipe *r, const lml_shape *f)
{
    push_allowance(L, lml_run_of(L), r, f, 0);
}

void lml_inputs_push_house(lua_State *L, const lml_recipe *r, int arguments)
{
    lml_run *run = lml_run_of(L);
    lua_createtable(L, 0, (int)r->allowances.field_count);
    for (size_t i = 0; i < r->allowances.field_count; i++) {
        push_allowance(L, run, r, &r->allowances.fields[i], arguments);
        lua_setfield(L, -2, r->allowances.fields[i].name);
    }
}

/* Arguments: the recipe and the allowance. Its text, too, is written once. */
static int take_one(lua_State *L)
{
    const lml_shape *f = lua_touserdata(L, 2);
    const allowance_names names = names_of(lua_touserdata(L, 1), f);
    lml_run *run = lml_run_of(L);
    const lml_json *node = house_node(run, f, names.dotted);
    if ((!node && !f->default_text) || !take_once(L, run, f, node, &names))
        return 0;
    const int taken = lua_gettop(L);
    uint64_t spent = run->box.spent;
    lua_rawgeti(L, taken, TAKEN_SETTING);
    lua_rawgeti(L, taken, TAKEN_VALUE);
    run->engine->push_setting(L, lua_gettop(L), node ? "house" : "default");
    lua_setfield(L, taken + 1, "text");
    lua_pushinteger(L, (lua_Integer)(run->box.spent - spent));
    lua_setfield(L, taken + 1, "text_cost");
    return 0;
}

void lml_inputs_take_house_beforehand(lua_State *L, const lml_recipe *r)
{
    lml_box *box = lml_box_of(L);
    uint64_t spent = box->spent, price = box->price;
    for (size_t i = 0; i < r->allowances.field_count; i++) {
        lua_pushcfunction(L, take_one);
        lua_pushlightuserdata(L, (void *)(uintptr_t)r);
        lua_pushlightuserdata(L, (void *)(uintptr_t)&r->allowances.fields[i]);
        if (lua_pcall(L, 2, 0, 0)) {
            if (box->dead)
                lua_error(L);
            lua_pop(L, 1); /* for the run to find, if it comes to it */
        }
        box->spent = spent;
        lml_box_set_price(box, price);
    }
    lml_box_start_count(box);
}
