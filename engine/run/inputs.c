#include "run/inputs.h"

#include "run/engine.h"
#include "run/parts.h"
#include "run/said.h"
#include "run/take.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "file/shapes.h"
#include "value/wanted.h"

#include <string.h>

/* Registry key: what a proof gives. */
static const char PROOF_GIVEN;

static const char OFFERED[] = "offered";
enum { OFFERED_FIELDS = 12 };

static void offer_names(lml_nearest *nearest, const lml_shape *shape)
{
    for (size_t i = 0; i < shape->field_count; i++)
        lml_nearest_offer(nearest, lml_span_of(shape->fields[i].name));
}

static void refuse_unknown(lua_State *L, const lml_recipe *r, const lml_parts *parts,
                           const lml_json *node, lml_span name)
{
    lml_nearest nearest = lml_nearest_to(name);
    offer_names(&nearest, &r->loose);
    for (int p = 0; p < parts->count; p++)
        offer_names(&nearest, &parts->recipe[p]->own);
    for (int p = 0; p < parts->count && lml_run_of(L)->loose; p++)
        offer_names(&nearest, &parts->recipe[p]->allowances);
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

/* What the end of a job reads of what the job gives: whose the metal is was said there. */
static bool is_said_once(const char *name)
{
    static const char *const names[] = {"old_metal", "split"};
    bool found = false;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        found = found || strcmp(name, names[i]) == 0;
    return found;
}

/* An ask called `date`, `record`, `listed` or `offered` is filled from the job's own when `given`
 * has none; the end of a job has a date of its own, and takes `old_metal` and `split` from what the
 * job gives. */
const lml_json *lml_inputs_given(const lml_run *run, const lml_shape *f)
{
    const lml_json *node = lml_json_member(run->given, f->name);
    if (node)
        return node;
    if (strcmp(f->name, "record") == 0 || strcmp(f->name, LML_LISTED) == 0)
        return lml_json_member(run->job, f->name);
    if (strcmp(f->name, "date") == 0)
        return lml_json_member(run->closing ? run->closing : run->job, f->name);
    if (run->closing && is_said_once(f->name))
        return lml_json_member(lml_json_member(run->job, "given"), f->name);
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
    lml_said_check(L, &open, node);
    lml_take_node(L, f, node, path);
}

/* Push what the proof at work gives by that name; false when it gives nothing, or no proof is at
 * work. */
static bool push_of_proof_given(lua_State *L, const lml_shape *f)
{
    bool given = lua_rawgetp(L, LUA_REGISTRYINDEX, &PROOF_GIVEN) == LUA_TTABLE &&
                 lml_said_push_argument(L, f, lua_gettop(L), "job.");
    lua_remove(L, given ? -2 : -1);
    return given;
}

/* Whether a rule asks it by itself: its point does not tell it. */
static bool is_own(const lml_recipe *r, const lml_shape *f)
{
    return lml_shape_field_named(&r->own, lml_span_of(f->name)) != NULL;
}

/* `passed` is where that is which the arguments have of it, or 0. */
static void push_ask(lua_State *L, lml_run *run, const lml_recipe *r, const lml_shape *f,
                     int arguments, int passed)
{
    char path[LML_TAKE_PATH];
    if (passed && lml_said_push_passed(L, f, passed, "job.")) {
        if (!r->rule && !run->bare) /* what a rule is given concerns the asking recipe */
            lml_said_note_replaced(L, r, f, arguments, lml_inputs_given(run, f), "job");
        return;
    }
    /* Only the job answers what a rule asks itself. */
    bool of_job = arguments && run->depth > 1 && is_own(r, f);
    if (of_job && push_of_proof_given(L, f))
        return;
    const lml_json *node = arguments && !of_job ? NULL : lml_inputs_given(run, f);
    if (node || f->default_text)
        lml_text_join(path, sizeof path, "job.", f->name, "");
    if (node && node == run->offered) {
        take_offered(L, f, node, path);
    } else if (node) {
        lml_said_take(L, run, f, node, path);
        if (!run->bare)
            lml_said_keep(L, node);
    } else if (f->default_text) {
        lml_take_text(L, f, lml_span_of(f->default_text), path);
        lml_take_origin(L, LML_ASSUMED);
    } else if (f->optional) {
        lml_view_push_absent(L);
    } else if (r->rule && run->box.proof && run->depth == 1 && !is_own(r, f)) {
        lml_view_push_untold(L); /* its point may have grown since the proof was written */
    } else {
        lml_error e;
        lml_fail(&e, LML_BAD_DATA, "%s needs '%s' (%s), which is not given", r->name, f->name,
                 f->title);
        char example[LML_EXAMPLE_TEXT];
        lml_shape_example_typed(f, lml_shelf_house(&run->engine->shelf), example, sizeof example);
        lml_error_hint(&e, "%s, such as %s", lml_wanted_words(f->wanted), example);
        if (run->given && (!arguments || of_job))
            lml_json_place(run->given, e.status, &e);
        lml_raise_as_is(L, &e);
    }
}

/* What a recipe may be given: what it asks, and at the top of a job also what the rules ask that
 * take part; on the command line the allowances of all, too. */
typedef struct known_names {
    const lml_shape *asked;
    bool allowances;
    lml_parts parts; /* none until a name is not among `asked` */
} known_names;

static bool is_known(const known_names *known, lml_span name)
{
    bool found = lml_shape_field_named(known->asked, name) != NULL;
    for (int i = 0; i < known->parts.count && !found; i++) {
        const lml_recipe *part = known->parts.recipe[i];
        found = lml_shape_field_named(&part->own, name) ||
                (known->allowances && lml_shape_field_named(&part->allowances, name));
    }
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
    const lml_run *run = lml_run_of(L);
    known_names known = {
        .asked = asked_of(run, r, 0), .allowances = run->loose, .parts = {.count = 0}};
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
    push_ask(L, lml_run_of(L), r, f, 0, 0);
}

/* Push what the arguments have of each ask, or nil. Returns whether they have more than that. */
static bool push_passed(lua_State *L, const lml_recipe *r, int arguments)
{
    size_t known = 0;
    lml_box_need_stack(L, (int)r->asks.field_count + 20);
    for (size_t i = 0; i < r->asks.field_count; i++)
        known += lua_getfield(L, arguments, r->asks.fields[i].name) != LUA_TNIL;
    return lml_key_has_more(L, arguments, known);
}

bool lml_inputs_push_job(lua_State *L, const lml_recipe *r, int arguments)
{
    const int first = lua_gettop(L) + 1;
    lml_run *run = lml_run_of(L);
    known_names known = {.asked = asked_of(run, r, arguments),
                         .allowances = run->loose && !arguments,
                         .parts = {.count = 0}};
    if (run->depth == 1)
        run->top = r;
    const bool more = !arguments || push_passed(L, r, arguments);
    if (more)
        check_names(L, run, r, &known, arguments);
    lua_createtable(L, 0, (int)r->asks.field_count);
    for (size_t i = 0; i < r->asks.field_count; i++) {
        push_ask(L, run, r, &r->asks.fields[i], arguments, arguments ? first + (int)i : 0);
        lua_setfield(L, -2, r->asks.fields[i].name);
    }
    lua_insert(L, first);
    lua_settop(L, first);
    return arguments && more;
}

void lml_inputs_proof_given(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &PROOF_GIVEN);
}
