#include "report/schema.h"

#include "run/load.h"
#include "run/parts.h"
#include "file/shapes.h"
#include "value/wanted.h"

#include <string.h>

/* A job of one recipe is a job whose `given` is what the recipe asks, and whose `house` sets what
 * it and the recipes that it uses allow. The shapes that are put together here are userdata of the
 * run, so that nothing is left behind when memory runs out. */

typedef struct task {
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
                                    .title = "Recipes of this job use it in different senses",
                                    .optional = true};
        return;
    }
    fields[house->field_count] = *allowance;
    fields[house->field_count].name = name;
    fields[house->field_count++].optional = true;
}

static lml_shape house_of(lua_State *L, const lml_parts *parts)
{
    size_t count = 0;
    for (int i = 0; i < parts->count; i++)
        count += 2 * parts->recipe[i]->allowances.field_count;
    lml_shape house = {.wanted = LML_WANT_RECORD,
                       .title = "Allowances of this job instead of the house's",
                       .fields = lua_newuserdatauv(L, (count + 1) * sizeof *house.fields, 0)};
    lua_newtable(L); /* keeps the dotted names */
    int names = lua_gettop(L);
    for (int i = 0; i < parts->count; i++) {
        const lml_recipe *r = parts->recipe[i];
        for (size_t k = 0; k < r->allowances.field_count; k++) {
            const lml_shape *allowance = &r->allowances.fields[k];
            add_setting(&house, allowance, allowance->name);
            const char *dotted = lua_pushfstring(L, "%s.%s", r->name, allowance->name);
            lua_rawseti(L, names, (lua_Integer)lua_rawlen(L, names) + 1);
            add_setting(&house, allowance, dotted);
        }
    }
    return house;
}

/* What rules ask of the job by themselves stands among what its recipe asks, and may be left out:
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

lml_status lml_schema_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err)
{
    lua_State *L = run->box.L;
    task t = {recipe, lml_json_writer_on(b, true)};
    lua_pushcfunction(L, write);
    lua_pushlightuserdata(L, &t);
    lml_status status = lml_box_call(&run->box, 1, 0, err);
    return status ? status : lml_json_writer_end(&t.w, err);
}
