/* The words that make a file a recipe: recipe rule ask give use require setting withheld. */
#include "run/lib_recipe.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/part.h"
#include "run/reuse.h"
#include "run/take.h"
#include "run/work.h"
#include "cell/class.h"
#include "cell/names.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/word.h"
#include "cell/wording.h"

#include <string.h>

/* Push the heading of use.NAME({ ... }, { under = "The melt" }), under which the output continues
 * as the caller's own; nil without one. */
static void push_heading(lua_State *L, int options)
{
    if (lua_isnil(L, options)) {
        lua_pushnil(L);
        return;
    }
    if (!lua_istable(L, options) || lua_getfield(L, options, "under") != LUA_TSTRING)
        lml_raise_hint(L, LML_BAD_RECIPE, "write use.melt({ ... }, { under = \"The melt\" })",
                       "the one option of a recipe in use is 'under', a text");
    lml_wording_push(L, -1, "a heading", LML_PART_TEXT);
    lua_remove(L, -2);
}

/* The function that use.NAME gives: upvalue 1 is the name. */
static int use_call(lua_State *L)
{
    lml_run *run = lml_run_of(L);
    lua_settop(L, 2);
    if (lua_isnil(L, 1)) {
        lua_newtable(L);
        lua_replace(L, 1);
    }
    lml_view_push_content(L, 1, "a recipe in use");
    lua_replace(L, 1);
    push_heading(L, 2);
    lua_replace(L, 2);
    lua_rawgetp(L, LUA_REGISTRYINDEX, run);
    lml_box_charge(L, 100);
    lml_work_recipe(L, lua_tostring(L, lua_upvalueindex(1)), 1, 3);
    const bool printed = !lua_isnil(L, -1); /* else its answer was reused */
    if (printed && lua_toboolean(L, lua_upvalueindex(2)))
        lml_part_hush(L, -1);
    if (printed && !lua_isnil(L, 2))
        lml_part_join(L, -1, 2);
    lua_pop(L, 1);
    return 1;
}

/* Push the function that works the recipe of that name. */
static int push_use(lua_State *L, int index, bool quietly)
{
    const lml_run *run = lml_run_of(L);
    lml_span name = lml_what_need_text(L, index, "the name of a recipe");
    if (!run->recipe || !lml_recipe_uses(run->recipe, name))
        return lml_raise_hint(L, LML_BAD_RECIPE, "name it under uses = { ... }",
                              "this recipe does not list '%.*s' in uses", (int)name.length,
                              name.at);
    lua_pushvalue(L, index);
    lua_pushboolean(L, quietly);
    lua_pushcclosure(L, use_call, 2);
    return 1;
}

static int uses_index(lua_State *L)
{
    return push_use(L, 2, false);
}

/* quietly "need" { ... }: run as by use.need, but only its remarks are printed. */
static int quietly(lua_State *L)
{
    return push_use(L, 1, true);
}

static int require(lua_State *L)
{
    lml_load_push_script(L, lml_what_need_name(L, 1, "the name of a script"));
    return 1;
}

/* withheld(results, "charge"): whether a stop withholds it, without reading it. */
static int withheld(lua_State *L)
{
    lml_view_push_content(L, 1, "withheld");
    lml_what_need_text(L, 2, "the name of a give");
    lua_pushvalue(L, 2);
    lua_rawget(L, -2);
    lua_pushboolean(L, lml_view_is_withheld(L, -1));
    return 1;
}

/* member(record, "name"): what is there, or nil: what pairs would come by, without walking all
 * of it. */
static int member(lua_State *L)
{
    lml_view_push_content(L, 1, "member");
    lml_what_need_text(L, 2, "the name of a member");
    lua_pushvalue(L, 2);
    lua_rawget(L, -2);
    if (lua_islightuserdata(L, -1)) /* absent, or withheld */
        lua_pushnil(L);
    return 1;
}

/* ---- setting -----------------------------------------------------------------------------------
 */

/* What `setting` looks for: "button", of any recipe, or "need.button", of that one. */
typedef struct sought {
    lml_span name, recipe; /* recipe: empty for any */
    lml_nearest nearest;
    bool found;
} sought;

/* Hold the value at index 2 against that recipe's allowance, if it has one; what it was taken as
 * takes its place at 3. */
static void hold_against(lua_State *L, sought *s, const lml_recipe *recipe)
{
    const lml_shape *allowances = &recipe->allowances;
    for (size_t i = 0; i < allowances->field_count; i++)
        lml_view_offer(L, &s->nearest, lml_span_of(allowances->fields[i].name));
    const lml_shape *field = lml_shape_field_named(allowances, s->name);
    if (!field)
        return;
    s->found = true;
    if (lua_isnil(L, 2))
        return;
    char path[LML_TAKE_PATH];
    lml_take_path(path, recipe->name, field->name);
    lml_take_value(L, field, 2, path);
    lua_replace(L, 3);
}

static int refuse_setting(lua_State *L, const sought *s)
{
    lml_error e;
    if (s->recipe.length)
        lml_fail(&e, LML_BAD_VALUE, "%.*s has no allowance called '%.*s'", (int)s->recipe.length,
                 s->recipe.at, (int)s->name.length, s->name.at);
    else
        lml_fail(&e, LML_BAD_VALUE, "no available recipe has an allowance called '%.*s'",
                 (int)s->name.length, s->name.at);
    if (lml_nearest_found(&s->nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)s->nearest.best.length, s->nearest.best.at);
    else
        lml_error_hint(&e, "lemel inspect RECIPE lists the names the house can set");
    return lml_raise(L, &e);
}

/* A recipe that cannot be read is passed over while another one has the allowance. */
static int setting(lua_State *L)
{
    lml_run *run = lml_run_of(L);
    lml_span whole = lml_what_need_text(L, 1, "the name of an allowance");
    const char *dot = memchr(whole.at, '.', whole.length);
    sought s = {.name = dot ? lml_span_between(dot + 1, whole.at + whole.length) : whole,
                .recipe = dot ? lml_span_between(whole.at, dot) : (lml_span){"", 0}};
    s.nearest = lml_nearest_to(s.name);
    lua_settop(L, 2);
    lua_pushnil(L);
    if (run->engine->reuse)
        run->engine->reuse->looked = true;
    lml_error e, unread = {0};
    lml_item *item;
    const lml_shelf *shelf = &run->engine->shelf;
    if (dot && lml_shelf_need(shelf, LML_PUT_RECIPE, s.recipe, &item, &e))
        return lml_raise(L, &e);
    for (size_t i = 0; i < shelf->count; i++) {
        item = shelf->items[i];
        if (item->kind != LML_PUT_RECIPE || (dot && !lml_span_is(s.recipe, item->name)))
            continue;
        lml_box_charge(L, 100 + item->length);
        if (!lml_load_describe_item(run, item, &e))
            hold_against(L, &s, item->recipe);
        else if (!unread.status)
            unread = e;
    }
    if (!s.found)
        return unread.status ? lml_raise_as_is(L, &unread) : refuse_setting(L, &s);
    return 1;
}

/* recipe { ... } gives its table back: the words before it are only there to read well. */
static int recipe(lua_State *L)
{
    if (!lua_istable(L, 1))
        return lml_raise_text(L, LML_BAD_RECIPE, "recipe needs a table: recipe { title = ... }");
    lua_settop(L, 1);
    return 1;
}

/* rule "hours" { ... }: the same for a house rule, which says whose question it answers. */
static int rule_at(lua_State *L)
{
    if (!lua_istable(L, 1))
        return lml_raise_hint(L, LML_BAD_RECIPE,
                              "write rule \"hours\" { version = \"1.0.0\", work = ... }",
                              "a rule needs the name of its point and a table");
    lua_settop(L, 1);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_setfield(L, 1, "rule");
    return 1;
}

static int rule(lua_State *L)
{
    lml_what_need_text(L, 1, "the name of a rule point");
    lua_settop(L, 1);
    lua_pushcclosure(L, rule_at, 1);
    return 1;
}

const lml_word lml_lib_recipe[] = {
    {"member", member, "record: table, name: string", "any",
     "The entry of a record with that name; nil if there is none, or a stop withholds "
     "it.",
     "member({ metal = \"gold\" }, \"owner\")", "nil"},
    {"quietly", quietly, "recipe: string", "fun(given: table): table",
     "The same as use.NAME, but only the remarks of that recipe are printed: "
     "quietly \"need\" { wax = job.wax } (level 2).",
     "(pcall(quietly, \"no_such_recipe\"))", "false"},
    {"recipe", recipe, "all: recipe_members", "table",
     "Makes a file a recipe: return recipe { ... }.", "type(recipe { title = \"Wax\" })", "table"},
    {"require", require, "script: string", "table",
     "A module of scripts/: formulas and tables that recipes share.",
     "type(require \"ring_sizes\")", "table"},
    {"rule", rule, "point: string", "fun(all: rule_members): table",
     "Makes a file a house rule: return rule \"hours\" { ... }. What it is given and what it "
     "answers depends on the point: lemel recipes --rules.",
     "type(rule \"hours\" { version = \"1.0.0\" })", "table"},
    {"setting", setting, "name: string, value?: any", "any",
     "The value as house.json would set that allowance, NAME or RECIPE.NAME; refused if no "
     "available recipe has it or accepts the value. Without a value only the name is "
     "checked.",
     "(pcall(setting, \"no_such_allowance\", Q \"1 g\"))", "false"},
    {"withheld", withheld, "results: table, name: string", "boolean",
     "Whether a stop withholds that figure of a recipe that was used.",
     "withheld({ charge = Q \"1 g\" }, \"charge\")", "false"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

/* The line of the recipe that advice is given on, where the calling function is in its file; else
 * 0.
 */
static int line_of_caller(lua_State *L, const lml_item *advised)
{
    lua_Debug at;
    if (!lua_getstack(L, 1, &at) || !lua_getinfo(L, "Sl", &at))
        return 0;
    return at.source[0] == '@' && strcmp(at.source + 1, advised->shown) == 0 ? at.currentline : 0;
}

static const lml_item *advised(lua_State *L)
{
    const lml_run *run = lml_box_of(L)->run;
    return run ? run->engine->advised : NULL;
}

/* ask.mass { "Finished wax", from = "0.02 g" } or give.mass "Raw casting": marks the table with its
 * kind, and with the order of asking, which a table does not keep, at its place LML_SHAPE_ORDER. */
static int declare(lua_State *L)
{
    if (lua_type(L, 1) == LUA_TSTRING) {
        lua_newtable(L);
        lua_pushvalue(L, 1);
        lua_rawseti(L, -2, 1);
    } else if (lua_istable(L, 1)) {
        lua_settop(L, 1);
    } else {
        return lml_raise_hint(L, LML_BAD_RECIPE, "write ask.mass { \"Finished wax\" }",
                              "an ask needs a table or a text, but was given %s",
                              lml_what_is(L, 1));
    }
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_setfield(L, -2, "kind");
    if (!lml_box_of(L)->unordered) {
        lua_pushinteger(L, (lua_Integer)++lml_box_of(L)->asked);
        lua_rawseti(L, -2, LML_SHAPE_ORDER);
    }
    const lml_item *item = advised(L);
    if (item) {
        lua_pushinteger(L, line_of_caller(L, item));
        lua_rawseti(L, -2, LML_SHAPE_LINE);
    }
    return 1;
}

/* What a kind is called elsewhere; NULL. */
static const char *kind_called(lml_span name)
{
    static const char *const rows[][2] = {
        {"weight", "mass"},     {"grams", "mass"},      {"hours", "time"},
        {"minutes", "time"},    {"duration", "time"},   {"percent", "ratio"},
        {"share", "ratio"},     {"karat", "fineness"},  {"carat", "fineness"},
        {"purity", "fineness"}, {"string", "text"},     {"integer", "whole"},
        {"count", "whole"},     {"boolean", "yes_no"},  {"bool", "yes_no"},
        {"date", "moment"},     {"amount", "money"},    {"cost", "money"},
        {"table", "record"},    {"array", "list"},      {"size", "ring_size"},
        {"option", "choice"},   {"heat", "temperature"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (lml_span_is(name, rows[i][0]))
            return rows[i][1];
    return NULL;
}

void lml_lib_recipe_no_kind(lml_span name, lml_error *err)
{
    lml_nearest nearest = lml_nearest_to(name);
    for (int w = 0; w < LML_WANTED_COUNT; w++)
        lml_nearest_offer(&nearest, lml_span_of(lml_wanted_name((lml_wanted)w)));
    lml_fail(err, LML_BAD_RECIPE, "there is no kind '%.*s' to ask for or give", (int)name.length,
             name.at);
    if (kind_called(name))
        lml_error_hint(err, "write ask.%s", kind_called(name));
    else if (lml_nearest_found(&nearest))
        lml_error_hint(err, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(err, "such as mass, time, money, price, ratio, text or whole");
}

/* Advice reports all that there are not: see look_at_wrong_kinds in report/advice.c. */
static int declare_unknown(lua_State *L)
{
    enum { LOOKED_AT = LML_WANTED_COUNT * 10 };
    lml_error e;
    lml_box_charge(L, LOOKED_AT);
    if (advised(L) && lua_type(L, 2) == LUA_TSTRING) {
        lua_pushvalue(L, 2);
        lua_pushcclosure(L, declare, 1);
        return 1;
    }
    lml_lib_recipe_no_kind(lml_what_need_text(L, 2, "a kind"), &e);
    return lml_raise(L, &e);
}

void lml_lib_recipe_open(lua_State *L)
{
    lml_names_push(L);
    lua_createtable(L, 0, LML_WANTED_COUNT);
    for (int w = 0; w < LML_WANTED_COUNT; w++) {
        lua_pushstring(L, lml_wanted_name((lml_wanted)w));
        lua_pushcclosure(L, declare, 1);
        lua_setfield(L, -2, lml_wanted_name((lml_wanted)w));
    }
    lua_createtable(L, 0, 1);
    lua_pushcfunction(L, declare_unknown);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
    lua_pushvalue(L, -1);
    lml_names_read_only(L, "ask");
    lua_setfield(L, -3, "ask");
    lml_names_read_only(L, "give");
    lua_setfield(L, -2, "give");
    lml_class_new(L, LML_CLASS_USES, 0, 0);
    lua_setfield(L, -2, "use");
    lua_pop(L, 1);
    lml_class_push(L, LML_CLASS_USES);
    lua_pushcfunction(L, uses_index);
    lua_setfield(L, -2, "__index");
    lua_pop(L, 1);
}
