#include "report/declare.h"

#include "report/proof.h"
#include "report/stops.h"

#include "run/engine.h"
#include "run/load.h"
#include "run/parts.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/view.h"
#include "cell/what.h"
#include "file/json_write.h"

#include <string.h>

/* Whether a name is that of an allowance, alone or as RECIPE.NAME. */
static bool is_of(lml_span name, const char *recipe, const char *allowance)
{
    if (lml_span_is(name, allowance))
        return true;
    size_t length = strlen(recipe);
    return name.length > length && memcmp(name.at, recipe, length) == 0 && name.at[length] == '.' &&
           lml_span_is((lml_span){name.at + length + 1, name.length - length - 1}, allowance);
}

static bool is_setting(const lml_parts *all, lml_span name)
{
    for (int i = 0; i < all->count; i++) {
        const lml_recipe *r = all->recipe[i];
        for (size_t k = 0; k < r->allowances.field_count; k++)
            if (is_of(name, r->name, r->allowances.fields[k].name))
                return true;
    }
    return false;
}

static void check_setting(lua_State *L, const lml_parts *all, const lml_json *m)
{
    lml_span name = lml_json_name(m);
    lml_box_charge(L, 20);
    if (is_setting(all, name))
        return;
    lml_nearest nearest = lml_nearest_to(name);
    for (int i = 0; i < all->count; i++)
        for (size_t k = 0; k < all->recipe[i]->allowances.field_count; k++)
            lml_nearest_offer(&nearest, lml_span_of(all->recipe[i]->allowances.fields[k].name));
    lml_error e;
    lml_json_fail(m, &e, LML_BAD_DATA,
                  "no recipe of this job has such an allowance: check its spelling, or remove it");
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    lml_raise_as_is(L, &e);
}

void lml_declare_check_setting(lua_State *L, const char *recipe, const lml_json *member)
{
    lml_parts all;
    lml_parts_gather(L, recipe, &all);
    check_setting(L, &all, member);
}

static int check(lua_State *L)
{
    lml_run *run = lua_touserdata(L, 1);
    lml_parts all;
    lml_parts_gather(L, lua_touserdata(L, 2), &all);
    for (const lml_json *m = lml_json_first(run->job_house); m; m = lml_json_next(m))
        check_setting(L, &all, m);
    return 0;
}

lml_status lml_declare_check(lml_run *run, const char *recipe, lml_error *err)
{
    lua_State *L = run->box.L;
    lua_pushcfunction(L, check);
    lua_pushlightuserdata(L, run);
    lua_pushlightuserdata(L, (void *)(uintptr_t)recipe);
    lml_status status = lml_box_call(&run->box, 2, 0, err);
    bool known = lml_shelf_find(&run->engine->shelf, LML_PUT_RECIPE, lml_span_of(recipe)) != NULL;
    if (status == LML_NOT_FOUND && !known && run->job)
        lml_json_place(lml_json_member(run->job, "recipe"), status, err);
    return status;
}

/* ---- inspect -----------------------------------------------------------------------------------
 */

typedef struct task {
    lml_run *run;
    lml_json_writer w;
    const char *recipe;
    lml_status status; /* of what raises nothing */
    lml_error error;
} task;

static void member(lml_json_writer *w, const char *name, const char *text)
{
    if (text && text[0])
        lml_json_write_member(w, name, text);
}

static void put_shape(task *t, const lml_shape *s)
{
    lml_json_writer *w = &t->w;
    lml_json_write_open_record(w);
    member(w, "name", s->name);
    member(w, "heading", s->heading);
    lml_json_write_member(w, "kind", lml_wanted_name(s->wanted));
    member(w, "title", s->title);
    const char *nothing = lml_wanted_nothing(s->wanted);
    if (s->from && (!nothing || strcmp(s->from, nothing) != 0)) /* that is left out */
        member(w, "from", s->from);
    member(w, "to", s->to);
    member(w, "default", s->default_text);
    member(w, "source", s->source);
    member(w, "note", s->note);
    char example[LML_EXAMPLE_TEXT];
    lml_shape_example_typed(s, lml_shelf_house(&t->run->engine->shelf), example, sizeof example);
    member(w, "example", example);
    if (s->optional) {
        lml_json_write_name(w, lml_span_of("optional"));
        lml_json_write_yes_no(w, true);
    }
    if (s->seldom) {
        lml_json_write_name(w, lml_span_of("seldom"));
        lml_json_write_yes_no(w, true);
    }
    if (s->usual) {
        lml_json_write_name(w, lml_span_of("usual"));
        lml_json_write_yes_no(w, true);
    }
    if (s->promised) {
        lml_json_write_name(w, lml_span_of("promised"));
        lml_json_write_yes_no(w, true);
    }
    if (s->choices) {
        lml_json_write_name(w, lml_span_of("options"));
        lml_json_write_open_list(w);
        for (const char *const *c = s->choices; *c; c++)
            lml_json_write_text(w, lml_span_of(*c));
        lml_json_write_close(w);
    }
    const lml_shape *inner = s->of ? s->of : s;
    member(w, "unless", s->unless);
    member(w, "when", s->when);
    member(w, "apart", inner->apart);
    if (s->of) {
        lml_json_write_name(w, lml_span_of("of"));
        lml_json_write_text(w, lml_span_of(lml_wanted_name(s->of->wanted)));
    }
    if (s->of && !s->of->field_count) {
        lml_json_write_name(w, lml_span_of("one"));
        put_shape(t, s->of);
    }
    if (inner->field_count) {
        lml_json_write_name(w, lml_span_of("fields"));
        lml_json_write_open_list(w);
        for (size_t i = 0; i < inner->field_count; i++)
            put_shape(t, &inner->fields[i]);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void put_shapes(task *t, const char *name, const lml_shape *record)
{
    lml_json_write_name(&t->w, lml_span_of(name));
    lml_json_write_open_list(&t->w);
    for (size_t i = 0; i < record->field_count; i++)
        put_shape(t, &record->fields[i]);
    lml_json_write_close(&t->w);
}

/* The contents of a proof, as written. */
static void put_plain(lua_State *L, lml_json_writer *w, int depth)
{
    enum { DEEPEST = 12 };
    lml_box_need_stack(L, 8);
    int at = lua_gettop(L);
    if (lua_type(L, at) == LUA_TBOOLEAN) {
        lml_json_write_yes_no(w, lua_toboolean(L, at));
    } else if (!lua_istable(L, at) || depth > DEEPEST) {
        lml_what_push_text(L, at);
        lml_json_write_text(w, lml_span_of(lua_tostring(L, -1)));
    } else {
        lua_Integer count = lml_key_push_sorted(L, at);
        bool list = lua_rawlen(L, at) > 0;
        if (list)
            lml_json_write_open_list(w);
        else
            lml_json_write_open_record(w);
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, at + 1, i);
            lml_what_push_text(L, -1);
            if (!list)
                lml_json_write_name(w, lml_span_of(lua_tostring(L, -1)));
            lua_pushvalue(L, -2);
            lua_rawget(L, at);
            put_plain(L, w, depth + 1);
            lua_settop(L, at + 1);
        }
        lml_json_write_close(w);
    }
    lua_settop(L, at);
}

/* Whether the table on top holds anything. */
static bool expects(lua_State *L)
{
    lua_pushnil(L);
    bool any = lua_next(L, -2);
    if (any)
        lua_pop(L, 2);
    return any;
}

static void put_proofs(lua_State *L, task *t)
{
    lml_json_writer *w = &t->w;
    lua_Integer count = lml_proof_push_all(L, t->recipe);
    lml_json_write_name(w, lml_span_of("proofs"));
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, -1, i);
        lml_json_write_open_record(w);
        if (lua_istable(L, -1)) {
            lua_rawgeti(L, -1, 1);
            member(w, "name", lua_tostring(L, -1));
            lua_getfield(L, -2, "source");
            member(w, "source", lua_tostring(L, -1));
            lua_getfield(L, -3, "within");
            member(w, "within", lua_tostring(L, -1));
            if (lua_getfield(L, -4, "expect") == LUA_TTABLE && expects(L)) {
                lml_json_write_name(w, lml_span_of("expect"));
                put_plain(L, w, 1);
            }
            lua_pop(L, 4);
        }
        lml_json_write_close(w);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
}

static int write(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    lml_json_writer *w = &t->w;
    const lml_recipe *r = lml_load_recipe(L, t->recipe);
    lml_item *item = lml_shelf_find(&t->run->engine->shelf, LML_PUT_RECIPE, lml_span_of(t->recipe));
    lml_json_write_open_record(w);
    lml_json_write_member(w, "recipe", r->name);
    lml_json_write_member(w, "title", r->title);
    lml_json_write_member(w, "version", r->version);
    member(w, "licence", r->licence);
    member(w, "about", r->about);
    member(w, "heads", r->heads);
    member(w, "rule", r->rule);
    lml_json_write_name(w, lml_span_of("level"));
    lml_json_write_whole(w, r->level);
    lml_json_write_member(w, "digest", lml_item_digest(item));
    lml_json_write_member(w, "file", item->shown);
    lml_json_write_name(w, lml_span_of("uses"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < r->use_count; i++)
        lml_json_write_text(w, lml_span_of(r->uses[i]));
    lml_json_write_close(w);
    put_shapes(t, "asks", &r->asks);
    put_shapes(t, "allowances", &r->allowances);
    put_shapes(t, "gives", &r->gives);
    t->status = lml_stops_write(&t->run->engine->shelf, item, w, &t->error);
    put_proofs(L, t);
    lml_json_write_close(w);
    return 0;
}

lml_status lml_declare_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err)
{
    lua_State *L = run->box.L;
    task t = {.run = run, .w = lml_json_writer_on(b, false), .recipe = recipe};
    lua_pushcfunction(L, write);
    lua_pushlightuserdata(L, &t);
    lml_status status = lml_box_call(&run->box, 1, 0, err);
    if (!status && t.status) {
        if (err)
            *err = t.error;
        return t.status;
    }
    return status ? status : lml_json_writer_end(&t.w, err);
}
