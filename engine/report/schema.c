#include "report/schema.h"

#include "cell/raise.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/parts.h"
#include "file/shapes.h"
#include "value/wanted.h"

#include <string.h>

/* A job of one recipe is a job whose `given` is what the recipe asks, and whose `house` sets what
 * it and the recipes that it uses allow. The shapes that are put together here are userdata of the
 * run, so that nothing is left behind when memory runs out. */

typedef struct task {
    lml_run *run;
    const char *recipe;
    lml_json_writer w;
} task;

/* Names of one kind are described once; where recipes mean different things by one, it is left
 * open. */
static void add_setting(lml_shape *house, const lml_shape *allowance, const char *name)
{
    lml_shape *fields = (lml_shape *)house->fields;
    for (size_t i = 0; i < house->field_count; i++) {
        if (strcmp(fields[i].name, name) != 0)
            continue;
        if (fields[i].wanted != allowance->wanted)
            fields[i] = (lml_shape){.wanted = LML_WANT_ANYTHING,
                                    .name = name,
                                    .title = "Recipes use it in different senses",
                                    .optional = true};
        return;
    }
    fields[house->field_count] = *allowance;
    fields[house->field_count].name = name;
    fields[house->field_count++].optional = true;
}

/* What a recipe allows, under its bare name and under the recipe's. `names` is the index of a table
 * that keeps the dotted ones. */
static void add_settings(lua_State *L, lml_shape *house, const lml_recipe *r, int names)
{
    for (size_t k = 0; k < r->allowances.field_count; k++) {
        const lml_shape *allowance = &r->allowances.fields[k];
        lml_box_charge(L, 20 + house->field_count);
        add_setting(house, allowance, allowance->name);
        const char *dotted = lua_pushfstring(L, "%s.%s", r->name, allowance->name);
        lua_rawseti(L, names, (lua_Integer)lua_rawlen(L, names) + 1);
        add_setting(house, allowance, dotted);
    }
}

static lml_shape house_of(lua_State *L, const lml_parts *parts)
{
    size_t count = 0;
    for (int i = 0; i < parts->count; i++)
        count += 2 * parts->recipe[i]->allowances.field_count;
    lml_shape house = {.wanted = LML_WANT_RECORD,
                       .title = "Allowances of this job instead of the house's",
                       .fields = lua_newuserdatauv(L, (count + 1) * sizeof *house.fields, 0)};
    lua_newtable(L);
    int names = lua_gettop(L);
    for (int i = 0; i < parts->count; i++)
        add_settings(L, &house, parts->recipe[i], names);
    return house;
}

/* What rules ask of the job themselves is listed with what its recipe asks, and is optional:
 * whether it has to be there depends on how far a job goes. */
static void add_questions(lml_shape *given, lml_shape *fields, const lml_parts *parts)
{
    for (int i = 0; i < parts->count; i++) {
        const lml_shape *own = &parts->recipe[i]->own;
        for (size_t k = 0; k < own->field_count; k++) {
            if (lml_shape_field(given, own->fields[k].name))
                continue;
            fields[given->field_count] = own->fields[k];
            fields[given->field_count++].optional = true;
        }
    }
}

/* An ask called `date` or `record` may stand in the job itself. */
static lml_shape given_of(lua_State *L, const lml_recipe *r, const lml_parts *parts)
{
    lml_shape given = r->asks;
    size_t room = given.field_count + 1;
    for (int i = 0; i < parts->count; i++)
        room += parts->recipe[i]->own.field_count;
    lml_shape *fields = lua_newuserdatauv(L, room * sizeof *fields, 0);
    given.optional = true;
    given.fields = fields;
    for (size_t i = 0; i < given.field_count; i++) {
        fields[i] = r->asks.fields[i];
        if (strcmp(fields[i].name, "date") == 0 || strcmp(fields[i].name, "record") == 0)
            fields[i].optional = true;
        given.optional = given.optional && lml_shape_optional(&fields[i]);
    }
    add_questions(&given, fields, parts);
    return given;
}

static int write(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    lml_parts parts;
    lml_parts_gather(L, t->recipe, &parts);
    const lml_recipe *r = parts.recipe[0];
    lml_shape job = lml_shapes_job, house = house_of(L, &parts), given = given_of(L, r, &parts);
    lml_shape *fields = lua_newuserdatauv(L, job.field_count * sizeof *fields, 0);
    memcpy(fields, job.fields, job.field_count * sizeof *fields);
    const char *choices[] = {r->name, NULL};
    for (size_t i = 0; i < job.field_count; i++) {
        lml_shape *f = &fields[i];
        if (strcmp(f->name, "recipe") == 0) {
            f->wanted = LML_WANT_CHOICE;
            f->choices = choices;
        } else if (strcmp(f->name, "given") == 0) {
            const char *title = f->title;
            *f = given;
            f->name = "given";
            f->title = title;
        } else if (strcmp(f->name, "house") == 0) {
            *f = house;
            f->name = "house";
            f->optional = true;
        }
    }
    job.fields = fields;
    job.title = r->title;
    lml_shape_schema(&job, true, &t->w);
    return 0;
}

/* The recipe at a place of the shelf; NULL where something else is, or a recipe that cannot be
 * read: its users get the error. */
static const lml_recipe *read_recipe(lua_State *L, const task *t, size_t at)
{
    lml_item *item = t->run->engine->shelf.items[at];
    lml_error error;
    if (item->kind != LML_PUT_RECIPE)
        return NULL;
    lml_status status = lml_load_describe_item(t->run, item, &error);
    if (status == LML_NO_MEMORY)
        lml_raise_as_is(L, &error);
    return status ? NULL : item->recipe;
}

static int write_house(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    const size_t items = t->run->engine->shelf.count;
    size_t room = lml_shapes_house.field_count;
    for (size_t i = 0; i < items; i++) {
        const lml_recipe *r = read_recipe(L, t, i);
        room += r ? 2 * r->allowances.field_count : 0;
    }
    lml_shape house = lml_shapes_house;
    house.of = NULL; /* what no recipe allows is refused */
    lml_shape *fields = lua_newuserdatauv(L, room * sizeof *fields, 0);
    memcpy(fields, lml_shapes_house.fields, house.field_count * sizeof *fields);
    house.fields = fields;
    lua_newtable(L);
    int names = lua_gettop(L);
    for (size_t i = 0; i < items; i++) {
        const lml_recipe *r = read_recipe(L, t, i);
        if (r)
            add_settings(L, &house, r, names);
    }
    lml_shape_schema(&house, true, &t->w);
    return 0;
}

lml_status lml_schema_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err)
{
    lua_State *L = run->box.L;
    task t = {run, recipe, lml_json_writer_on(b, true)};
    lua_pushcfunction(L, recipe ? write : write_house);
    lua_pushlightuserdata(L, &t);
    lml_status status = lml_box_call(&run->box, 1, 0, err);
    return status ? status : lml_json_writer_end(&t.w, err);
}
