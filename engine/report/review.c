#include "report/review.h"

#include "cell/raise.h"
#include "file/shapes.h"
#include "report/declare.h"
#include "run/engine.h"
#include "run/inputs.h"
#include "run/said.h"
#include "run/load.h"
#include "run/parts.h"

#include <string.h>

typedef struct review {
    lml_run *run;
    const char *recipe;
    lml_faults *faults;
    lml_parts parts; /* of a house: the recipes whose settings are looked at; none is all */
} review;

/* ---- asking one thing after the other ---- */

/* Arguments: the function and its argument. Notes what it raises; raises itself if the run is
 * dead. */
static void note_raised(lua_State *L, review *v, const lml_json *node, int arguments)
{
    lml_box *box = &v->run->box;
    lml_error error;
    int failed = lua_pcall(L, arguments, 0, 0);
    if (!failed)
        return;
    if (box->dead)
        lua_error(L);
    lml_box_take_error(box, failed, &error);
    lml_faults_note(v->faults, node, &error);
}

static int take_ask(lua_State *L)
{
    lml_inputs_push_ask(L, lua_touserdata(L, 1), lua_touserdata(L, 2));
    return 0;
}

static int take_allowance(lua_State *L)
{
    lml_inputs_push_allowance(L, lua_touserdata(L, 1), lua_touserdata(L, 2));
    return 0;
}

static int refuse_name(lua_State *L)
{
    lml_inputs_check_given(L, lua_touserdata(L, 1), lua_touserdata(L, 2));
    return 0;
}

static int refuse_setting(lua_State *L)
{
    lml_declare_check_setting(L, lua_touserdata(L, 1), lua_touserdata(L, 2));
    return 0;
}

static void call(lua_State *L, review *v, lua_CFunction f, const void *first, const void *second,
                 const lml_json *node)
{
    lua_pushcfunction(L, f);
    lua_pushlightuserdata(L, (void *)(uintptr_t)first);
    lua_pushlightuserdata(L, (void *)(uintptr_t)second);
    note_raised(L, v, node, 2);
}

static bool is_of_house(const review *v, const lml_json *node)
{
    const lml_json_document *house = v->run->engine->shelf.house;
    return house && lml_json_path_source(node) == lml_json_source(house);
}

/* What is at a node is looked at whole; only what is sound is then taken, which finds what the
 * shape cannot know, such as an alloy of no name. */
static void look(lua_State *L, review *v, const lml_recipe *r, const lml_shape *f,
                 const lml_json *node, lua_CFunction take)
{
    size_t before = v->faults->count;
    bool looked_at = node && !lml_said_is_typed(v->run, f, node);
    if (looked_at && is_of_house(v, node) && lml_shape_check(f, node, NULL))
        return; /* the review of the house told it */
    if (looked_at)
        lml_shape_faults(f, node, v->faults);
    if (v->faults->count == before)
        call(L, v, take, r, f, node ? node : v->run->given);
}

/* ---- a job ---- */

static int review_job(lua_State *L)
{
    review *v = lua_touserdata(L, 1);
    lml_run *run = v->run;
    const lml_recipe *r = lml_load_recipe(L, v->recipe);
    for (const lml_json *m = lml_json_first(run->given); m; m = lml_json_next(m))
        call(L, v, refuse_name, r, m, m);
    for (const lml_json *m = lml_json_first(run->job_house); m; m = lml_json_next(m))
        call(L, v, refuse_setting, v->recipe, m, m);
    for (size_t i = 0; i < r->asks.field_count; i++) {
        const lml_shape *f = &r->asks.fields[i];
        look(L, v, r, f, lml_inputs_given(run, f), take_ask);
    }
    for (size_t i = 0; i < r->allowances.field_count; i++) {
        const lml_shape *f = &r->allowances.fields[i];
        look(L, v, r, f, lml_inputs_set(run, r, f), take_allowance);
    }
    return 0;
}

static lml_status begin(lua_CFunction f, review *v, lml_error *err)
{
    lua_State *L = v->run->box.L;
    lua_pushcfunction(L, f);
    lua_pushlightuserdata(L, v);
    return lml_box_call(&v->run->box, 1, 0, err);
}

lml_status lml_review_job(lml_run *run, const char *recipe, lml_faults *faults, lml_error *err)
{
    review v = {.run = run, .recipe = recipe, .faults = faults};
    return begin(review_job, &v, err);
}

/* ---- a house ---- */

/* Whether the recipe has the allowance that the house names, for all or for it alone. */
static const lml_shape *allowance_named(const lml_recipe *r, lml_span name)
{
    const char *dot = memchr(name.at, '.', name.length);
    if (!dot)
        return lml_shape_field_named(&r->allowances, name);
    lml_span recipe = lml_span_between(name.at, dot);
    return lml_span_is(recipe, r->name)
               ? lml_shape_field_named(&r->allowances,
                                       lml_span_between(dot + 1, name.at + name.length))
               : NULL;
}

static void note_unread(review *v, const lml_json *m, lml_nearest *nearest)
{
    lml_error error;
    lml_json_fail(m, &error, LML_BAD_DATA,
                  "no available recipe has such an allowance: check its spelling, or remove it");
    if (lml_nearest_found(nearest))
        lml_error_hint(&error, "did you mean '%.*s'?", (int)nearest->best.length, nearest->best.at);
    else
        lml_error_hint(&error, "lemel inspect RECIPE lists the names the house can set");
    lml_faults_note(v->faults, m, &error);
}

static bool is_read(const review *v, lml_span name)
{
    for (int i = 0; i < v->parts.count; i++)
        if (allowance_named(v->parts.recipe[i], name))
            return true;
    return v->parts.count == 0;
}

/* The first recipe that cannot read the setting reports it, of those that need it or of those that
 * do not. A recipe that cannot be read itself is reported when it is used. Whether any has it. */
static bool look_in_recipes(lua_State *L, review *v, const lml_json *m, bool needed,
                            lml_nearest *nearest)
{
    const lml_shelf *shelf = &v->run->engine->shelf;
    lml_span name = lml_json_name(m);
    bool known = false;
    size_t before = v->faults->count;
    for (size_t i = 0; i < shelf->count && v->faults->count == before; i++) {
        lml_item *item = shelf->items[i];
        lml_error error;
        if (item->kind != LML_PUT_RECIPE)
            continue;
        lml_status status = lml_load_describe_item(v->run, item, &error);
        if (status == LML_NO_MEMORY)
            lml_raise_as_is(L, &error);
        if (status)
            continue;
        lml_box_charge(L, 20 + item->recipe->allowances.field_count);
        const lml_shape *f = allowance_named(item->recipe, name);
        if (f && lml_shape_optional(f) != needed && is_read(v, name))
            lml_shape_faults(f, m, v->faults);
        known = known || f;
        for (size_t k = 0; k < item->recipe->allowances.field_count && !known; k++)
            lml_nearest_offer(nearest, lml_span_of(item->recipe->allowances.fields[k].name));
    }
    return known;
}

/* Those that need it first: they do not say that it may be left out. */
static void look_at_setting(lua_State *L, review *v, const lml_json *m)
{
    lml_nearest nearest = lml_nearest_to(lml_json_name(m));
    size_t before = v->faults->count;
    if (!look_in_recipes(L, v, m, true, &nearest))
        note_unread(v, m, &nearest);
    else if (v->faults->count == before)
        (void)look_in_recipes(L, v, m, false, &nearest);
}

/* Arguments: the recipe and the parts. */
static int gather_parts(lua_State *L)
{
    lml_parts_gather(L, lua_touserdata(L, 1), lua_touserdata(L, 2));
    return 0;
}

/* A missing or faulty recipe is reported with the job. */
static void find_parts(lua_State *L, review *v)
{
    lua_pushcfunction(L, gather_parts);
    lua_pushlightuserdata(L, (void *)(uintptr_t)v->recipe);
    lua_pushlightuserdata(L, &v->parts);
    if (!lua_pcall(L, 2, 0, 0))
        return;
    if (v->run->box.dead)
        lua_error(L);
    v->parts.count = 0;
    lua_pop(L, 1);
}

static int review_house(lua_State *L)
{
    review *v = lua_touserdata(L, 1);
    if (v->recipe)
        find_parts(L, v);
    const lml_json *house = lml_shelf_house(&v->run->engine->shelf);
    for (const lml_json *m = lml_json_first(house); m; m = lml_json_next(m))
        if (!lml_shape_field_named(&lml_shapes_house, lml_json_name(m)))
            look_at_setting(L, v, m);
    return 0;
}

lml_status lml_review_house(lml_run *run, const char *recipe, lml_faults *faults, lml_error *err)
{
    review v = {.run = run, .recipe = recipe, .faults = faults};
    return begin(review_house, &v, err);
}
