/* What the house, the job in its stead and the defaults set for a recipe. */
#include "run/inputs.h"

#include "run/engine.h"
#include "run/prices.h"
#include "run/refused.h"
#include "run/said.h"
#include "run/take.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "value/wanted.h"

#include <string.h>

/* Registry keys: what a proof says that the house sets; figures of the house and defaults taken in
 * this run. */
static const char PROOF_HOUSE, TAKEN;

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
        lml_said_take(L, run, f, node, path);
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
    if (lml_run_of(L)->bare)
        return;
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
enum { TAKEN_VALUE = 1, TAKEN_COST, TAKEN_PRICE, TAKEN_NAME, TAKEN_SETTING, TAKEN_NODE };

static void push_taken(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                       const allowance_names *names)
{
    lml_box *box = &run->box;
    uint64_t spent = box->spent;
    lua_createtable(L, TAKEN_NODE, 0);
    lua_pushlightuserdata(L, (void *)(uintptr_t)node);
    lua_rawseti(L, -2, TAKEN_NODE);
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

/* The same where it was taken before; else nothing, and false. */
static bool push_again(lua_State *L, lml_run *run, const lml_shape *f)
{
    lml_box *box = &run->box;
    lml_run_push_registry(L, &TAKEN);
    if (lua_rawgetp(L, -1, f) != LUA_TTABLE) {
        lua_pop(L, 2);
        return false;
    }
    lua_rawgeti(L, -1, TAKEN_PRICE);
    lua_rawgeti(L, -2, TAKEN_COST);
    uint64_t price = (uint64_t)lua_tointeger(L, -2);
    if (price > box->price)
        lml_box_set_price(box, price);
    lml_box_charge(L, (uint64_t)lua_tointeger(L, -1));
    lua_pop(L, 2);
    lua_remove(L, -2);
    return true;
}

/* Push what is kept of the figure. It is taken once a run, or before it, however often recipes ask
 * for it: nothing can change it. Each time it costs what it cost to take, and its longest text
 * counts. Nothing, and false, where it cannot be kept. */
static bool take_once(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                      const allowance_names *names)
{
    if (push_again(L, run, f))
        return true;
    if (lml_said_is_typed(run, f, node) || needs_script(f))
        return false;
    lml_run_push_registry(L, &TAKEN);
    push_taken(L, run, f, node, names);
    lua_pushvalue(L, -1);
    lua_rawsetp(L, -3, f);
    lua_remove(L, -2);
    return true;
}

/* What is kept of the figure, on top of the stack, is a setting, and itself takes its place: it is
 * what is said at its node. */
static void note_taken(lua_State *L)
{
    if (lml_run_of(L)->bare) {
        lua_rawgeti(L, -1, TAKEN_VALUE);
        lua_replace(L, -2);
        return;
    }
    lml_run_push_settings(L);
    lua_rawgeti(L, -2, TAKEN_NAME);
    lua_rawgeti(L, -3, TAKEN_SETTING);
    lua_rawset(L, -3);
    lua_rawgeti(L, -2, TAKEN_NODE);
    const lml_json *node = lua_touserdata(L, -1);
    lua_rawgeti(L, -3, TAKEN_VALUE);
    lua_replace(L, -4);
    lua_pop(L, 2);
    if (node)
        lml_said_keep(L, node);
}

/* Push what the house sets at the node, or the default without one, and note it. */
static void push_set(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                     const allowance_names *names)
{
    if (take_once(L, run, f, node, names)) {
        note_taken(L);
        return;
    }
    if (!node || !lml_said_push_kept(L, f, node))
        take_set(L, run, f, node, names->path);
    note_setting(L, names, node ? "house" : "default");
    if (node)
        lml_said_keep(L, node);
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

/* The price list, which replaces an allowance of that name; NULL when this is another, or there is
 * no list. */
static const lml_json *listed_node(lua_State *L, lml_run *run, const lml_shape *f, int arguments)
{
    bool listed = !run->box.proof && strcmp(f->name, "prices") == 0;
    return listed ? lml_prices_of_day(L, run, arguments) : NULL;
}

/* What the command line says of an allowance of a recipe that the job's own uses: in `given`, where
 * that asks nothing of the name. */
static const lml_json *typed_node(const lml_run *run, const lml_shape *f)
{
    bool asked =
        !run->loose || !run->top || lml_shape_field_named(&run->top->asks, lml_span_of(f->name));
    return asked ? NULL : lml_json_member(run->given, f->name);
}

/* What the job sets in its stead; its end what it sets itself, then what the job does. */
static const lml_json *job_house_node(const lml_run *run, const lml_shape *f, const char *dotted)
{
    const lml_json *level[] = {run->job_house,
                               run->closing ? lml_json_member(run->job, "house") : NULL};
    const lml_json *node = typed_node(run, f);
    for (int i = 0; i < 2 && !node; i++)
        if (!(node = lml_json_member(level[i], dotted)))
            node = lml_json_member(level[i], f->name);
    return node;
}

/* What the job sets; on the command line it may be in `given`. */
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

/* Where all that is missing is collected, nothing takes its place. */
static void refuse_missing(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                           int arguments)
{
    lml_error e;
    lml_fail(&e, LML_BAD_DATA, "%s needs '%s' (%s), which the house has not set", r->name, f->name,
             f->title);
    char example[LML_EXAMPLE_TEXT];
    const lml_json *house = lml_shelf_house(&run->engine->shelf);
    lml_span code = lml_json_currency(house);
    lml_shape_example_json(f, house, example, sizeof example);
    if (code.length == 0)
        code = lml_span_of("USD");
    if (strcmp(f->name, "prices") == 0)
        lml_error_hint(&e,
                       "set one: lemel price Au \"98.50 %.*s/g\" --from \"who quoted it\" --at now",
                       LML_SPAN_SHOWN(code));
    else
        lml_error_hint(&e, "write \"%s\": %s in house.json, or under \"house\" in the job", f->name,
                       example);
    if (run->job && !arguments)
        lml_error_context(&e, e.status, "%s has no default because only the studio can know it",
                          f->name);
    if (!lml_refused_note(run, &e))
        lml_raise_as_is(L, &e);
    run->refused = true;
    lml_view_push_absent(L);
}

/* What the recipe passes is on top of the stack: it replaces what is set. */
static void note_passed(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                        int arguments)
{
    if (run->bare)
        return;
    const allowance_names names = names_of(r, f);
    note_setting(L, &names, "passed");
    const lml_json *own = job_house_node(run, f, names.dotted);
    if (!own && run->loose)
        own = lml_json_member(run->given, f->name);
    const lml_json *said = own ? own : house_node(run, f, names.dotted);
    if (!said)
        said = listed_node(L, run, f, arguments);
    lml_said_note_replaced(L, r, f, arguments, said, own ? "job" : "house");
}

/* What the price list says is taken once a run, however many recipes ask for it. */
static void take_listed(lua_State *L, lml_run *run, const lml_shape *f, const lml_json *node,
                        const char *path)
{
    const bool stays = !run->day_prices && !run->box.trace;
    if (stays && lml_said_push_kept(L, f, node))
        return;
    lml_said_take(L, run, f, node, path);
    if (stays)
        lml_said_keep(L, node);
}

static void push_allowance(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                           int arguments, bool more)
{
    if (more && lml_said_push_argument(L, f, arguments, "house.")) {
        note_passed(L, run, r, f, arguments);
        return;
    }
    const allowance_names names = names_of(r, f);
    const char *path = names.path, *dotted = names.dotted;
    if (push_of_proof_house(L, f, dotted, path)) {
        note_setting(L, &names, "house");
        return;
    }
    const lml_json *node = job_node(run, f, dotted, !arguments);
    if (node) {
        lml_said_take(L, run, f, node, path);
        note_setting(L, &names, "job");
        if (!run->bare)
            lml_said_keep(L, node);
    } else if ((node = house_node(run, f, dotted))) {
        push_set(L, run, f, node, &names);
    } else if ((node = listed_node(L, run, f, arguments))) {
        take_listed(L, run, f, node, path);
        note_setting(L, &names, "house");
    } else if (f->default_text) {
        push_set(L, run, f, NULL, &names);
    } else if (f->optional) {
        lml_view_push_absent(L);
    } else {
        refuse_missing(L, run, r, f, arguments);
    }
}

void lml_inputs_push_allowance(lua_State *L, const lml_recipe *r, const lml_shape *f)
{
    push_allowance(L, lml_run_of(L), r, f, 0, false);
}

/* Whether the job may set an allowance of the recipe by another name than its own. */
static bool may_be_set_elsewhere(const lml_run *run, int arguments)
{
    bool may = run->box.proof || run->closing || (run->loose && !arguments);
    for (const lml_json *m = lml_json_first(run->job_house); m && !may; m = lml_json_next(m)) {
        lml_span name = lml_json_name(m);
        may = name.length > 0 && memchr(name.at, '.', name.length);
    }
    return may;
}

/* Push an allowance that only the house or its default sets, where it was taken before; else
 * nothing, and false. For prices there is a list, too. */
static bool push_unchanged(lua_State *L, lml_run *run, const lml_shape *f, int arguments, bool more)
{
    if (lml_json_member(run->job_house, f->name) || typed_node(run, f) ||
        strcmp(f->name, "prices") == 0)
        return false;
    if (more) {
        bool is_passed = lml_view_get_member(L, arguments, f->name);
        lua_pop(L, 1);
        if (is_passed)
            return false;
    }
    if (!push_again(L, run, f))
        return false;
    note_taken(L);
    return true;
}

void lml_inputs_push_house(lua_State *L, const lml_recipe *r, int arguments, bool more)
{
    lml_run *run = lml_run_of(L);
    const bool set_elsewhere = may_be_set_elsewhere(run, arguments);
    lua_createtable(L, 0, (int)r->allowances.field_count);
    for (size_t i = 0; i < r->allowances.field_count; i++) {
        const lml_shape *f = &r->allowances.fields[i];
        if (set_elsewhere || !push_unchanged(L, run, f, arguments, more))
            push_allowance(L, run, r, f, arguments, more);
        lua_setfield(L, -2, f->name);
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
