#include "run/parts.h"

#include "cell/raise.h"
#include "run/engine.h"
#include "run/load.h"

#include <stdio.h>
#include <string.h>

/* Depth first; `chain` is the way down to here, so that a circle can be named. */
static void gather(lua_State *L, const char *name, const char **chain, int depth, lml_parts *all)
{
    for (int i = 0; i < depth; i++) {
        if (strcmp(chain[i], name) == 0) {
            char words[300];
            size_t n = 0;
            for (int k = i; k < depth && n < sizeof words; k++)
                n += (size_t)snprintf(words + n, sizeof words - n, "%s uses ", chain[k]);
            lml_error e;
            lml_fail(&e, LML_BAD_RECIPE, "the recipes use each other in a circle: %s%s", words,
                     name);
            lml_error_hint(&e, "remove one of these names from a recipe's uses");
            lml_raise_as_is(L, &e);
        }
    }
    lml_item *item;
    lml_error missing;
    if (depth > 0 && lml_shelf_need(&lml_run_of(L)->engine->shelf, LML_PUT_RECIPE,
                                    lml_span_of(name), &item, &missing)) {
        lml_error_context(&missing, missing.status, "in the uses of %s", chain[depth - 1]);
        lml_raise_as_is(L, &missing);
    }
    const lml_recipe *r = depth > 0 ? item->recipe : NULL;
    if (!r)
        r = lml_load_recipe(L, name);
    for (int i = 0; i < all->count; i++)
        if (all->recipe[i] == r)
            return;
    if (depth == LML_USE_DEPTH)
        lml_raise_hint(L, LML_BAD_RECIPE,
                       "let one of the recipes in between use what the others need",
                       "recipes use each other more than %d deep: from '%s' down to '%s'",
                       LML_USE_DEPTH, chain[0], name);
    if (all->count == LML_PARTS_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "more than %d recipes take part", LML_PARTS_MOST);
    all->recipe[all->count++] = r;
    chain[depth] = name;
    for (size_t i = 0; i < r->use_count; i++)
        gather(L, r->uses[i], chain, depth + 1, all);
}

/* Registry table: by recipe, those that were gathered beforehand, a block of them. */
static const char NOTED;

static bool is_noted(lua_State *L, const char *recipe, lml_parts *out)
{
    const lml_item *item =
        lml_shelf_find(&lml_run_of(L)->engine->shelf, LML_PUT_RECIPE, lml_span_of(recipe));
    const int top = lua_gettop(L);
    if (!item || !item->recipe)
        return false;
    const bool noted = lua_rawgetp(L, LUA_REGISTRYINDEX, &NOTED) == LUA_TTABLE &&
                       lua_rawgetp(L, -1, item->recipe) == LUA_TUSERDATA;
    if (noted) {
        const size_t size = (size_t)lua_rawlen(L, -1);
        out->count = (int)(size / sizeof out->recipe[0]);
        memcpy(out->recipe, lua_touserdata(L, -1), size);
    }
    lua_settop(L, top);
    return noted;
}

void lml_parts_gather(lua_State *L, const char *recipe, lml_parts *out)
{
    const char *chain[LML_USE_DEPTH + 1];
    if (is_noted(L, recipe, out))
        return;
    out->count = 0;
    gather(L, recipe, chain, 0, out);
}

/* Argument: the recipe. */
static int note(lua_State *L)
{
    const lml_recipe *r = lua_touserdata(L, 1);
    lml_parts all;
    lml_parts_gather(L, r->name, &all);
    const size_t size = (size_t)all.count * sizeof all.recipe[0];
    lml_run_push_registry(L, &NOTED);
    memcpy(lua_newuserdatauv(L, size, 0), all.recipe, size);
    lua_rawsetp(L, -2, r);
    return 0;
}

void lml_parts_note(lua_State *L, const lml_recipe *r)
{
    lua_pushcfunction(L, note);
    lua_pushlightuserdata(L, (void *)(uintptr_t)r);
    if (!lua_pcall(L, 1, 0, 0))
        return;
    if (lml_box_of(L)->dead)
        lua_error(L);
    lua_pop(L, 1);
}
