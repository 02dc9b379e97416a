#include "run/allow.h"
#include "words/bind_schedule.h"

#include "cell/names.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "cell/what.h"
#include "run/run.h"
#include "words/craft_source.h"
#include "words/lib.h"
#include "words/bind.h"
#include "run/lib_recipe.h"
#include "run/bind_sheet.h"

static int refuse_unknown(lua_State *L)
{
    if (lua_type(L, 2) != LUA_TSTRING)
        return lml_raise_text(L, LML_BAD_RECIPE, "a name is needed");
    lml_span wanted = lml_what_need_text(L, 2, "a name");
    lml_nearest nearest = lml_nearest_to(wanted);
    lml_names_push(L);
    lua_pushnil(L);
    while (lua_next(L, -2)) {
        size_t length;
        const char *name = lua_tolstring(L, -2, &length);
        lml_view_offer(L, &nearest, (lml_span){name, length});
        lua_pop(L, 1);
    }
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "'%.*s' is not known here: neither a local nor a word of recipes",
             (int)wanted.length, wanted.at);
    const struct lml_run *run = lml_box_of(L)->run;
    const lml_recipe *recipe = run ? run->recipe : NULL;
    if (recipe && lml_shape_field(&recipe->asks, wanted.at))
        lml_error_hint(&e, "write job.%s", wanted.at);
    else if (recipe && lml_shape_field(&recipe->allowances, wanted.at))
        lml_error_hint(&e, "write house.%s", wanted.at);
    else if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&e, "asks are read as job.NAME and allowances as house.NAME");
    return lml_raise(L, &e);
}

/* Of a function in the table on top of the stack, where it has one, what it does is kept. */
static void trace_one(lua_State *L, const char *name)
{
    if (!lml_box_of(L)->trace)
        return;
    if (lua_getfield(L, -1, name) == LUA_TNIL) {
        lua_pop(L, 1);
        return;
    }
    lml_trace_wrap_one(L, name);
    lua_setfield(L, -2, name);
}

/* What makes a text or a number of a text. */
static void trace_texts(lua_State *L)
{
    static const char *const names[] = {"fill", "find", "letters", "lower", "rep",   "split",
                                        "sub",  "trim", "upper",   "words", "concat"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        trace_one(L, names[i]);
}

static void add_library(lua_State *L, const char *name, const lml_word *words)
{
    lua_newtable(L);
    lml_word_set_all(L, words);
    trace_texts(L);
    lml_names_read_only(L, name);
    lua_setfield(L, -2, name);
}

/* One library for recipes, bound in several files. */
static void add_craft(lua_State *L)
{
    lua_newtable(L);
    lml_word_set_all(L, lml_bind_craft);
    lml_word_set_all(L, lml_bind_physics);
    lml_word_set_all(L, lml_bind_charge);
    lml_word_set_all(L, lml_bind_schedule);
    lml_trace_wrap(L, lml_bind_craft, "craft.", lml_craft_source);
    lml_trace_wrap(L, lml_bind_physics, "craft.", lml_craft_source);
    lml_trace_wrap(L, lml_bind_charge, "craft.", lml_craft_source);
    lml_trace_wrap(L, lml_bind_schedule, "craft.", lml_craft_source);
    lml_names_read_only(L, "craft");
    lua_setfield(L, -2, "craft");
}

void lml_allow_prepare(lua_State *L)
{
    lua_createtable(L, 0, 64); /* the shared names */
    lml_word_set_all(L, lml_lib_base);
    lml_word_set_all(L, lml_lib_value);
    lml_word_set_all(L, lml_lib_more);
    lml_word_set_all(L, lml_bind_alloy);
    lml_word_set_all(L, lml_lib_recipe);
    lml_trace_wrap(L, lml_lib_value, "", NULL);
    lml_trace_wrap(L, lml_bind_alloy, "", NULL);
    trace_one(L, "tostring");
    trace_one(L, "tonumber");
    add_library(L, "text", lml_lib_text);
    add_library(L, "table", lml_lib_table);
    add_craft(L);
    lua_pushnumber(L, 3.14159265358979323846);
    lua_setfield(L, -2, "pi");
    lua_newtable(L); /* a miss in the shared names is an unknown name */
    lua_pushcfunction(L, refuse_unknown);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
    lml_names_keep(L);

    lua_pushliteral(L, ""); /* methods of a text are our own, and out of reach */
    lua_newtable(L);
    lua_newtable(L);
    lml_word_set_all(L, lml_lib_text);
    trace_texts(L);
    lua_setfield(L, -2, "__index");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
    lua_pop(L, 1);

    lml_bind_value_open(L);
    lml_bind_alloy_open(L);
    lml_view_open(L);
    lml_bind_sheet_open(L);
    lml_lib_recipe_open(L);
}
