#include "shelf/recipe.h"

#include "base/ascii.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/what.h"
#include "shelf/declared.h"
#include "shelf/reader.h"

#include <string.h>

enum { USES_MOST = 64 };

void lml_recipe_free(lml_recipe *recipe)
{
    if (!recipe)
        return;
    lml_alloc alloc = recipe->pool.under;
    lml_pool_close(&recipe->pool);
    lml_alloc_free(&alloc, recipe, sizeof *recipe);
}

bool lml_recipe_uses(const lml_recipe *recipe, lml_span name)
{
    for (size_t i = 0; i < recipe->use_count; i++)
        if (lml_span_is(name, recipe->uses[i]))
            return true;
    return false;
}

/* All the fields of both, each optional unless the ask is required: what a command line may name.
 */
static void join(lua_State *L, lml_reader *r)
{
    lml_recipe *recipe = r->recipe;
    size_t count = recipe->asks.field_count + recipe->allowances.field_count;
    lml_shape *fields = lml_reader_must(L, r, (count ? count : 1) * sizeof *fields);
    memcpy(fields, recipe->asks.fields, recipe->asks.field_count * sizeof *fields);
    for (size_t i = 0; i < recipe->allowances.field_count; i++) {
        lml_shape *f = &fields[recipe->asks.field_count + i];
        *f = recipe->allowances.fields[i];
        f->optional = true;
        if (lml_shape_field(&recipe->asks, f->name))
            lml_raise_hint(L, LML_BAD_RECIPE, "a name can only be in one of them",
                           "%s: '%s' is both an ask and an allowance", r->name, f->name);
    }
    recipe->loose = (lml_shape){.wanted = LML_WANT_RECORD, .fields = fields, .field_count = count};
}

/* ---- rules -------------------------------------------------------------------------------------
 */

/* Push the names of both tables in one; `what` is what the second of them may not say again. */
static void push_union(lua_State *L, const lml_reader *r, int first, int second)
{
    lua_newtable(L);
    int all = lua_gettop(L), tables[] = {first, second};
    for (int i = 0; i < 2; i++) {
        lua_pushnil(L);
        while (lua_next(L, tables[i])) {
            lua_pushvalue(L, -2);
            if (lua_rawget(L, all) != LUA_TNIL)
                lml_raise_hint(L, LML_BAD_RECIPE,
                               "remove it from its asks: it is read as job.NAME all the same",
                               "%s: the rule is already given '%s'", r->name, lua_tostring(L, -3));
            lua_pop(L, 1);
            lua_pushvalue(L, -2);
            lua_insert(L, -2);
            lua_rawset(L, all);
        }
    }
}

/* The rule at index 2 and its point at index 3: put in what the point says. Its own asks are
 * pushed. */
static void take_point(lua_State *L, lml_reader *r)
{
    const char *point = lua_tostring(L, -1);
    lml_box_need_stack(L, 12);
    if (strncmp(r->name, LML_RULE, strlen(LML_RULE)) != 0 ||
        strcmp(r->name + strlen(LML_RULE), point) != 0)
        lml_raise_hint(L, LML_BAD_RECIPE, "name the file after its point: each point has one rule",
                       "%s is a rule for the point '%s', so its file must be " LML_RULE "%s.lua",
                       r->name, point, point);
    r->recipe->rule = lml_reader_keep_text(L, r, -1);
    if (lua_getfield(L, 2, "gives") != LUA_TNIL)
        lml_raise_hint(L, LML_BAD_RECIPE,
                       "remove gives; lemel recipes --rules lists what each point answers",
                       "%s: what a rule answers is fixed by its point", r->name);
    lua_getfield(L, 3, "gives");
    lua_setfield(L, 2, "gives");
    if (lua_getfield(L, 2, "title") == LUA_TNIL) {
        lua_getfield(L, 3, "title");
        lua_setfield(L, 2, "title");
    }
    if (lua_getfield(L, 2, "level") == LUA_TNIL) {
        lua_pushinteger(L, LML_RECIPE_LEVEL);
        lua_setfield(L, 2, "level");
    }
    lml_reader_push_section(L, r, 3, "asks");
    lml_reader_push_section(L, r, 2, "asks");
    int told = lua_gettop(L) - 1, own = told + 1;
    push_union(L, r, told, own);
    lua_setfield(L, 2, "asks");
    lua_pushvalue(L, own);
}

/* The level on top of the stack. What runs with level 1 runs with a later one. */
static int level_of(lua_State *L, const lml_reader *r)
{
    if (!lua_isnil(L, -1) && (!lua_isinteger(L, -1) || lua_tointeger(L, -1) < 1)) {
        lml_what_push_text(L, -1);
        return lml_raise_hint(L, LML_BAD_RECIPE, "write level = 2, a bare number",
                              "%s: level is \"%s\", but the recipe language has levels 1 to %d",
                              r->name, lua_tostring(L, -1), LML_RECIPE_LEVEL);
    }
    if (lua_isnil(L, -1))
        return lml_raise_hint(L, LML_BAD_RECIPE, "write level = 2",
                              "%s: it does not say which level of the recipe language it is "
                              "written in",
                              r->name);
    lua_Integer level = lua_tointeger(L, -1);
    if (level > LML_RECIPE_LEVEL)
        return lml_raise_hint(
            L, LML_BAD_RECIPE,
            "level 1 is read by every lemel, level 2 from lemel 0.2 on: it "
            "needs a newer lemel than this one",
            "%s: it is written in level %lld of the recipe language, and lemel %s "
            "reads 1 to %d",
            r->name, (long long)level, LML_VERSION, LML_RECIPE_LEVEL);
    return (int)level;
}

/* Three numbers. In level 1 any text that begins with one was let pass, and runs as before. */
static void check_version(lua_State *L, const lml_reader *r)
{
    static const char hint[] = "such as version = \"1.0.0\"";
    const lml_recipe *recipe = r->recipe;
    if (!lml_ascii_is_digit(recipe->version[0]))
        lml_raise_hint(L, LML_BAD_RECIPE, hint, "%s: the version must begin with a number",
                       r->name);
    lml_reader_check_mark(L, r, "version", recipe->version, ".-+_");
    if (recipe->level > 1 && !lml_text_is_version(recipe->version))
        lml_raise_hint(L, LML_BAD_RECIPE, hint, "%s: the version \"%s\" is not three numbers",
                       r->name, recipe->version);
}

static int read_recipe(lua_State *L)
{
    static const char *const known[] = {"title", "version",    "licence", "level", "uses",
                                        "asks",  "allowances", "gives",   "work",  "proofs",
                                        "about", "heads",      "rule",    NULL};
    lml_reader *r = lua_touserdata(L, 1);
    lml_recipe *recipe = r->recipe;
    if (!lua_istable(L, 2))
        return lml_raise_hint(L, LML_BAD_RECIPE, "the file ends with: return recipe { ... }",
                              "%s does not return a recipe", r->name);
    lml_reader_check_names(L, 2, r->name, NULL, known);
    if (lua_getfield(L, 2, "rule") == LUA_TSTRING) {
        take_point(L, r);
        r->asking = true;
        lml_declared_read_fields(L, r, -1, "asks", &recipe->own, 0);
        r->asking = false;
    } else if (strncmp(r->name, LML_RULE, strlen(LML_RULE)) == 0) {
        return lml_raise_hint(L, LML_BAD_RECIPE, "begin it with: return rule \"NAME\" {",
                              "%s is named like a house rule, but returns a recipe", r->name);
    }
    recipe->title = lml_reader_text_member(L, r, 2, "title", true);
    recipe->version = lml_reader_text_member(L, r, 2, "version", true);
    recipe->licence = lml_reader_text_member(L, r, 2, "licence", false);
    if (!recipe->licence)
        recipe->licence = "";
    lml_reader_check_mark(L, r, "licence", recipe->licence, ".-+_ ()");
    recipe->about = lml_reader_text_member(L, r, 2, "about", false);
    recipe->heads = lml_reader_text_member(L, r, 2, "heads", false);
    lua_getfield(L, 2, "level");
    recipe->level = level_of(L, r);
    check_version(L, r);
    lml_reader_push_section(L, r, 2, "uses");
    recipe->use_count = lml_key_length(L, -1);
    if (recipe->use_count > USES_MOST)
        return lml_raise_text(L, LML_BAD_RECIPE, "%s uses more than %d recipes", r->name,
                              USES_MOST);
    const char **uses = lml_reader_must(L, r, (recipe->use_count + 1) * sizeof *uses);
    for (size_t i = 0; i < recipe->use_count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        uses[i] = lml_reader_keep_text(L, r, -1);
        lua_pop(L, 1);
    }
    recipe->uses = uses;
    r->asking = true;
    lml_reader_push_section(L, r, 2, "asks");
    lml_declared_read_fields(L, r, -1, "asks", &recipe->asks, 0);
    lml_reader_push_section(L, r, 2, "allowances");
    lml_declared_read_fields(L, r, -1, "allowances", &recipe->allowances, 0);
    r->asking = false;
    lml_reader_push_section(L, r, 2, "gives");
    lml_declared_read_fields(L, r, -1, "gives", &recipe->gives, 0);
    for (size_t i = 0; i < recipe->gives.field_count; i++)
        if (lml_shape_field(&recipe->asks, recipe->gives.fields[i].name) ||
            lml_shape_field(&recipe->allowances, recipe->gives.fields[i].name))
            return lml_raise_hint(L, LML_BAD_RECIPE, "a name can only be in one of them",
                                  "%s: '%s' is a give and also an ask or an allowance", r->name,
                                  recipe->gives.fields[i].name);
    join(L, r);
    if (lua_getfield(L, 2, "proofs") != LUA_TFUNCTION && !lua_istable(L, -1) && !lua_isnil(L, -1))
        return lml_raise_hint(
            L, LML_BAD_RECIPE,
            "write proofs = { { ... } }, or proofs = function() return { ... } end",
            "%s: 'proofs' is neither a list nor a function that returns one", r->name);
    if (lua_istable(L, -1) && lua_rawlen(L, -1) > LML_PROOFS_MOST)
        return lml_raise_text(L, LML_BAD_RECIPE, "%s has more than %d proofs", r->name,
                              LML_PROOFS_MOST);
    lua_getfield(L, 2, "work");
    if (!lua_isfunction(L, -1))
        return lml_raise_hint(L, LML_BAD_RECIPE,
                              "write work = function (job, house, sheet) ... end",
                              "%s: a recipe needs a 'work'", r->name);
    return 0;
}

lml_status lml_recipe_read(lml_box *box, int index, int point, const char *name,
                           const lml_alloc *alloc, lml_recipe **out, lml_error *err)
{
    lua_State *L = box->L;
    index = lua_absindex(L, index);
    point = lua_absindex(L, point);
    lml_recipe *recipe = lml_alloc_get(alloc, sizeof *recipe);
    if (!recipe)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the declaration of a recipe");
    memset(recipe, 0, sizeof *recipe);
    lml_pool_open(&recipe->pool, alloc);
    lml_reader r = {.recipe = recipe, .name = name};
    lua_pushcfunction(L, read_recipe);
    lua_pushlightuserdata(L, &r);
    lua_pushvalue(L, index);
    lua_pushvalue(L, point);
    lml_status status = lml_box_call(box, 3, 0, err);
    if (!status) {
        char *own = lml_reader_keep(recipe, strlen(name) + 1);
        if (own)
            strcpy(own, name);
        else
            status = lml_fail(err, LML_NO_MEMORY, "out of memory for the declaration of a recipe");
        recipe->name = own;
    }
    if (!status)
        status = lml_error_context(err, lml_shape_valid(alloc, &recipe->asks, err), "in asks of %s",
                                   name);
    if (!status)
        status = lml_error_context(err, lml_shape_valid(alloc, &recipe->allowances, err),
                                   "in allowances of %s", name);
    if (!status)
        status = lml_error_context(err, lml_shape_valid(alloc, &recipe->gives, err),
                                   "in gives of %s", name);
    if (status) {
        lml_recipe_free(recipe);
        return status;
    }
    *out = recipe;
    return LML_OK;
}
