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
        r->line = f->line;
        if (lml_shape_field(&recipe->asks, f->name))
            lml_reader_fault(L, r, "a name can only be in one of them",
                             "%s: '%s' is both an ask and an allowance", r->name, f->name);
    }
    r->line = 0;
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
                lml_reader_fault(
                    L, r, "remove it from its asks: it is read as job.NAME all the same",
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
        lml_reader_fault(L, r, "name the file after its point: each point has one rule",
                         "%s is a rule for the point '%s', so its file must be " LML_RULE "%s.lua",
                         r->name, point, point);
    r->recipe->rule = lml_reader_keep_text(L, r, -1);
    if (lua_getfield(L, 2, "gives") != LUA_TNIL)
        lml_reader_fault(L, r, "remove gives; lemel recipes --rules lists what each point answers",
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
        lml_reader_fault(L, r, "write level = 2, a bare number",
                         "%s: 'level' is \"%s\", but the recipe language has levels 1 to %d",
                         r->name, lua_tostring(L, -1), LML_RECIPE_LEVEL);
        lua_pop(L, 1);
        return LML_RECIPE_LEVEL;
    }
    if (lua_isnil(L, -1)) {
        if (!r->misspelt)
            lml_reader_fault(
                L, r, "write level = 2",
                "%s: it does not say which level of the recipe language it is written in", r->name);
        return LML_RECIPE_LEVEL;
    }
    lua_Integer level = lua_tointeger(L, -1);
    if (level > LML_RECIPE_LEVEL)
        lml_reader_fault(
            L, r,
            "level 1 is read by every lemel, level 2 from lemel 0.2 on: it needs a newer lemel "
            "than this one",
            "%s: it is written in level %lld of the recipe language, and lemel %s reads 1 to %d",
            r->name, (long long)level, LML_VERSION, LML_RECIPE_LEVEL);
    return level > LML_RECIPE_LEVEL ? LML_RECIPE_LEVEL : (int)level;
}

/* Three numbers. In level 1 any text that begins with one was let pass, and runs as before. */
static void check_version(lua_State *L, const lml_reader *r)
{
    static const char hint[] = "such as version = \"1.0.0\"";
    const lml_recipe *recipe = r->recipe;
    if (!recipe->version)
        return;
    if (!lml_ascii_is_digit(recipe->version[0]))
        lml_reader_fault(L, r, hint, "%s: 'version' must begin with a number", r->name);
    lml_reader_check_mark(L, r, "version", recipe->version, ".-+_");
    if (recipe->level > 1 && lml_ascii_is_digit(recipe->version[0]) &&
        !lml_text_is_version(recipe->version))
        lml_reader_fault(L, r, hint, "%s: 'version' is \"%s\", which is not three numbers", r->name,
                         recipe->version);
}

static void read_uses(lua_State *L, lml_reader *r)
{
    lml_recipe *recipe = r->recipe;
    lml_reader_push_section(L, r, 2, "uses");
    recipe->use_count = lml_key_length(L, -1);
    if (recipe->use_count > USES_MOST) {
        lml_reader_fault(L, r, NULL, "%s uses more than %d recipes", r->name, USES_MOST);
        recipe->use_count = USES_MOST;
    }
    const char **uses = lml_reader_must(L, r, (recipe->use_count + 1) * sizeof *uses);
    for (size_t i = 0; i < recipe->use_count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        uses[i] = lml_reader_keep_text(L, r, -1);
        lua_pop(L, 1);
    }
    recipe->uses = uses;
}

static void read_sections(lua_State *L, lml_reader *r)
{
    lml_recipe *recipe = r->recipe;
    r->asking = true;
    lml_reader_push_section(L, r, 2, "asks");
    lml_declared_read_fields(L, r, -1, "asks", &recipe->asks, 0);
    lml_reader_push_section(L, r, 2, "allowances");
    lml_declared_read_fields(L, r, -1, "allowances", &recipe->allowances, 0);
    r->asking = false;
    lml_reader_push_section(L, r, 2, "gives");
    lml_declared_read_fields(L, r, -1, "gives", &recipe->gives, 0);
    for (size_t i = 0; i < recipe->gives.field_count; i++) {
        r->line = recipe->gives.fields[i].line;
        if (lml_shape_field(&recipe->asks, recipe->gives.fields[i].name) ||
            lml_shape_field(&recipe->allowances, recipe->gives.fields[i].name))
            lml_reader_fault(L, r, "a name can only be in one of them",
                             "%s: '%s' is a give and also an ask or an allowance", r->name,
                             recipe->gives.fields[i].name);
    }
    r->line = 0;
    join(L, r);
}

static void check_functions(lua_State *L, const lml_reader *r)
{
    if (lua_getfield(L, 2, "proofs") != LUA_TFUNCTION && !lua_istable(L, -1) && !lua_isnil(L, -1))
        lml_reader_fault(L, r,
                         "write proofs = { { ... } }, or proofs = function() return { ... } end",
                         "%s: 'proofs' is neither a list nor a function that returns one", r->name);
    if (lua_istable(L, -1) && lua_rawlen(L, -1) > LML_PROOFS_MOST)
        lml_reader_fault(L, r, NULL, "%s has more than %d proofs", r->name, LML_PROOFS_MOST);
    lua_getfield(L, 2, "work");
    if (!lua_isfunction(L, -1) && !r->misspelt)
        lml_reader_fault(L, r, "write work = function (job, house, sheet) ... end",
                         "%s: a recipe needs a 'work'", r->name);
}

static bool is_rule_name(const char *name)
{
    return strncmp(name, LML_RULE, strlen(LML_RULE)) == 0;
}

static int read_recipe(lua_State *L)
{
    static const char *const known[] = {"title", "version",    "licence", "level", "uses",
                                        "asks",  "allowances", "gives",   "work",  "proofs",
                                        "about", "heads",      "rule",    NULL};
    lml_reader *r = lua_touserdata(L, 1);
    lml_recipe *recipe = r->recipe;
    if (!lua_istable(L, 2))
        return is_rule_name(r->name)
                   ? lml_raise_hint(L, LML_BAD_RECIPE,
                                    "the file ends with: return rule \"POINT\" { ... }",
                                    "%s does not return a rule", r->name)
                   : lml_raise_hint(L, LML_BAD_RECIPE, "the file ends with: return recipe { ... }",
                                    "%s does not return a recipe", r->name);
    r->misspelt = !lml_reader_check_names(L, r, 2, NULL, known);
    if (lua_getfield(L, 2, "rule") == LUA_TSTRING) {
        take_point(L, r);
        r->asking = true;
        lml_declared_read_fields(L, r, -1, "asks", &recipe->own, 0);
        r->asking = false;
    } else if (is_rule_name(r->name)) {
        lml_reader_fault(L, r, "begin it with: return rule \"NAME\" {",
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
    read_uses(L, r);
    read_sections(L, r);
    check_functions(L, r);
    return 0;
}

/* What was read is there even where it is refused: the caller frees it. */
static lml_status read_table(lml_box *box, int index, int point, lml_reader *r,
                             const lml_alloc *alloc, lml_error *err)
{
    lua_State *L = box->L;
    index = lua_absindex(L, index);
    point = lua_absindex(L, point);
    lml_recipe *recipe = lml_alloc_get(alloc, sizeof *recipe);
    r->recipe = recipe;
    if (!recipe)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the declaration of a recipe");
    memset(recipe, 0, sizeof *recipe);
    lml_pool_open(&recipe->pool, alloc);
    lua_pushcfunction(L, read_recipe);
    lua_pushlightuserdata(L, r);
    lua_pushvalue(L, index);
    lua_pushvalue(L, point);
    lml_status status = lml_box_call(box, 3, 0, err);
    if (status)
        return status;
    char *own = lml_reader_keep(recipe, strlen(r->name) + 1);
    if (!own)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the declaration of a recipe");
    strcpy(own, r->name);
    recipe->name = own;
    return LML_OK;
}

lml_status lml_recipe_read(lml_box *box, int index, int point, const char *name,
                           const lml_alloc *alloc, lml_recipe **out, lml_error *err)
{
    lml_reader r = {.name = name};
    lml_status status = read_table(box, index, point, &r, alloc, err);
    if (!status)
        status = lml_error_context(err, lml_shape_valid(alloc, &r.recipe->asks, err),
                                   "in asks of %s", name);
    if (!status)
        status = lml_error_context(err, lml_shape_valid(alloc, &r.recipe->allowances, err),
                                   "in allowances of %s", name);
    if (!status)
        status = lml_error_context(err, lml_shape_valid(alloc, &r.recipe->gives, err),
                                   "in gives of %s", name);
    if (status) {
        lml_recipe_free(r.recipe);
        return status;
    }
    *out = r.recipe;
    return LML_OK;
}

/* ---- all its faults ----------------------------------------------------------------------------
 */

/* A bound or a default that does not fit its own entry. */
static void note_invalid(const lml_reader *r, const char *name, int line, const lml_error *found)
{
    static const char DEFAULT[] = "default:1: "; /* where lml_shape_read says that it is */
    const bool is_default = strncmp(found->message, DEFAULT, sizeof DEFAULT - 1) == 0;
    lml_error e;
    lml_fail(&e, found->status, "%s: %s'%s': %s", r->name, is_default ? "default of " : "", name,
             found->message + (is_default ? sizeof DEFAULT - 1 : 0));
    lml_error_hint(&e, "%s", found->hint);
    r->note(r->self, line, &e);
}

/* Whether all is well with the entry and with what is in it. `name` is the nearest that it has. */
static bool note_shape(const lml_reader *r, const lml_alloc *alloc, const lml_shape *s,
                       const char *name)
{
    lml_error e;
    bool sound = s->of ? note_shape(r, alloc, s->of, name) : true;
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        if (lml_shape_field(s, f->name) != f) {
            lml_fail(&e, LML_BAD_RECIPE, "%s: two entries are called '%s'", r->name, f->name);
            lml_error_hint(&e, "rename one of them");
            r->note(r->self, f->line, &e);
            sound = false;
        }
        sound = note_shape(r, alloc, f, f->name) && sound;
    }
    if (sound && name && lml_shape_valid(alloc, s, &e)) {
        note_invalid(r, name, s->line, &e);
        sound = false;
    }
    return sound;
}

lml_status lml_recipe_gather(lml_box *box, int index, int point, const char *name,
                             const lml_alloc *alloc, lml_recipe_note *note, void *self,
                             lml_recipe **out, bool *whole, lml_error *err)
{
    lml_reader r = {.name = name, .note = note, .self = self};
    lml_status status = read_table(box, index, point, &r, alloc, err);
    if (status) {
        lml_recipe_free(r.recipe);
        return status;
    }
    r.recipe->title = r.recipe->title ? r.recipe->title : "";
    r.recipe->version = r.recipe->version ? r.recipe->version : "";
    note_shape(&r, alloc, &r.recipe->asks, NULL);
    note_shape(&r, alloc, &r.recipe->allowances, NULL);
    note_shape(&r, alloc, &r.recipe->gives, NULL);
    *whole = !r.misspelt;
    *out = r.recipe;
    return LML_OK;
}
