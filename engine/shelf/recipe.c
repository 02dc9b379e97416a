#include "shelf/recipe.h"

#include "base/ascii.h"
#include "base/decimal.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/view.h"
#include "shelf/default.h"
#include "shelf/token.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "value/wanted.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What one declaration may hold: one text or table in Lua can be named many times over. */
enum { HELD_MOST = 1 << 20, USES_MOST = 64, CHOICES_MOST = 500, NAME_MOST = 60 };

static void *keep(lml_recipe *r, size_t size)
{
    r->held += size;
    void *block = lml_pool_resize(&r->pool, NULL, 0, size);
    if (block)
        memset(block, 0, size);
    return block;
}

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

/* ---- reading -----------------------------------------------------------------------------------
 */

/* The reader runs inside lml_box_call: it may raise, and all it allocates hangs on the recipe,
 * which the caller frees. */
typedef struct reader {
    lml_recipe *recipe;
    const char *name;
    bool asking; /* what is asked is not negative unless its `from` says so; what is given may
                    be */
} reader;

static void *must(lua_State *L, reader *r, size_t size)
{
    if (r->recipe->held + size > HELD_MOST)
        lml_raise_text(L, LML_LIMIT, "%s declares more than a recipe can", r->name);
    void *kept = keep(r->recipe, size);
    if (!kept)
        lml_raise_text(L, LML_NO_MEMORY, "out of memory for the declaration of a recipe");
    return kept;
}

/* Declared texts are shown by inspect and in messages: only what can be printed is kept. */
static const char *keep_text(lua_State *L, reader *r, int index)
{
    index = lua_absindex(L, index);
    lml_view_push_clean(L, index, "a text of a recipe", LML_TEXT_MOST);
    if (!lua_rawequal(L, -1, index))
        lml_raise_text(L, LML_BAD_RECIPE, "%s: a text has characters that cannot be printed",
                       r->name);
    size_t length;
    const char *text = lua_tolstring(L, -1, &length);
    const char *fault = lml_wording_fault((lml_span){text, length});
    if (fault)
        lml_raise_hint(
            L, LML_BAD_RECIPE, "say it in other words, on one line",
            "%s: a text in its declaration looks like one of lemel's own: it contains \"%s\"",
            r->name, fault);
    char *out = must(L, r, length + 1);
    memcpy(out, text, length);
    lua_pop(L, 1);
    return out;
}

/* The name of an ask, an allowance or a give: also a member in Lua, a name in JSON and on the
 * command line. */
static const char *keep_name(lua_State *L, reader *r, int index)
{
    lml_span name = lml_what_need_text(L, index, "a name");
    bool ok = name.length > 0 && name.length <= NAME_MOST;
    for (size_t i = 0; ok && i < name.length; i++) {
        char c = name.at[i];
        bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
        ok = letter || (i > 0 && c >= '0' && c <= '9');
    }
    if (!ok)
        lml_raise_hint(L, LML_BAD_RECIPE, "a name is made of up to 60 letters, digits and _",
                       "%s: '%.*s' cannot be a name", r->name, (int)name.length, name.at);
    return keep_text(L, r, index);
}

/* What is in the foot of a sheet: letters, digits and a few marks, so that it is no sentence of
 * its own. */
static void check_mark(lua_State *L, const reader *r, const char *name, const char *text,
                       const char *marks)
{
    size_t length = strlen(text);
    bool ok = length <= NAME_MOST;
    for (size_t i = 0; ok && i < length; i++) {
        char c = text[i];
        ok = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || lml_ascii_is_digit(c) ||
             strchr(marks, c);
    }
    if (!ok)
        lml_raise_hint(L, LML_BAD_RECIPE, "such as version = \"1.0.0\", licence = \"CC0-1.0\"",
                       "%s: the %s is made of up to %d letters, digits and any of \"%s\"", r->name,
                       name, NAME_MOST, marks);
}

/* A text member of the declaration at index; required ones are refused when absent. */
static const char *text_member(lua_State *L, reader *r, int index, const char *name, bool required)
{
    const char *out = NULL;
    lua_getfield(L, index, name);
    if (lua_type(L, -1) == LUA_TSTRING)
        out = keep_text(L, r, -1);
    else if (!lua_isnil(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' must be a text", r->name, name);
    else if (required)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: a recipe needs a '%s'", r->name, name);
    lua_pop(L, 1);
    return out;
}

static bool is_unknown(lua_State *L, const void *self)
{
    if (lua_type(L, -2) != LUA_TSTRING)
        return lua_type(L, -2) != LUA_TNUMBER;
    lml_span name = lml_what_need_text(L, -2, "a name");
    for (const char *const *known = self; *known; known++)
        if (lml_span_is(name, *known))
            return false;
    return true;
}

/* "take it out; known are: title, version, ..." */
static void hint_names(lml_error *e, const char *const *known)
{
    char list[200];
    size_t at = 0;
    for (; *known; known++) {
        size_t length = strlen(*known);
        if (strcmp(*known, "rule") == 0) /* which nobody writes */
            continue;
        if (at + length + 6 > sizeof list)
            break;
        at += (size_t)snprintf(list + at, sizeof list - at, "%s%s", at ? ", " : "", *known);
    }
    lml_error_hint(e, "leave it out; what can be there: %s%s", list, *known ? ", ..." : "");
}

/* `member` is where in the recipe, or NULL. */
static void check_names(lua_State *L, int index, const char *recipe, const char *member,
                        const char *const *known)
{
    if (!lml_key_find_odd(L, index, is_unknown, known))
        return;
    lml_span name = lml_what_need_text(L, -1, "a name");
    lml_nearest nearest = lml_nearest_to(name);
    for (const char *const *k = known; *k; k++)
        lml_nearest_offer(&nearest, lml_span_of(*k));
    lml_error e;
    char where[120];
    if (member)
        snprintf(where, sizeof where, "%s: '%s'", recipe, member);
    else
        snprintf(where, sizeof where, "%s", recipe);
    lml_fail(&e, LML_BAD_RECIPE, "%s has no '%.*s'", where, (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else
        hint_names(&e, known);
    lml_raise(L, &e);
}

static bool holds_tables(lml_wanted w)
{
    return w == LML_WANT_LIST || w == LML_WANT_RECORD || w == LML_WANT_BY_NAME;
}

/* The default on top of the stack, a table, as JSON. */
static const char *table_default(lua_State *L, reader *r, const lml_shape *s)
{
    lml_default_push_json(L, -1, s->name);
    const char *json = lua_tostring(L, -1), *out;
    bool is_list = s->wanted == LML_WANT_LIST;
    if (is_list != (json[0] == '[') && strcmp(json, "{}") != 0)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: default of '%s' is %s, but %s is needed", r->name,
                       s->name, is_list ? "a record" : "a list", lml_wanted_words(s->wanted));
    out = is_list && json[0] == '{' ? "[]" : keep_text(L, r, -1);
    lua_pop(L, 1);
    return out;
}

/* A bound or default: a text, or a bare number or true/false where the kind is one. */
static const char *figure_member(lua_State *L, reader *r, int index, const char *name,
                                 const lml_shape *s)
{
    const char *out = NULL;
    lua_getfield(L, index, name);
    int type = lua_type(L, -1);
    if (type == LUA_TSTRING) {
        out = keep_text(L, r, -1);
    } else if (type == LUA_TNUMBER || type == LUA_TBOOLEAN) {
        if (lml_wanted_has_unit(s->wanted))
            lml_raise_text(L, LML_BAD_RECIPE,
                           "%s: %s of '%s' is %s, but %s is needed, such as \"%s\"", r->name, name,
                           s->name, lml_what_is(L, -1), lml_wanted_words(s->wanted),
                           lml_wanted_example(s->wanted));
        lml_what_push_text(L, -1);
        out = keep_text(L, r, -1);
        lua_pop(L, 1);
    } else if (type == LUA_TTABLE && strcmp(name, "default") == 0 && holds_tables(s->wanted)) {
        out = table_default(L, r, s);
    } else if (type != LUA_TNIL) {
        lml_raise_text(L, LML_BAD_RECIPE, "%s: %s of '%s' must be a text", r->name, name, s->name);
    }
    lua_pop(L, 1);
    return out;
}

static void read_shape(lua_State *L, reader *r, int index, const char *name, lml_shape *out,
                       int depth);

/* Whether the key at -2 is a name, or that of a group of shapes at -1. */
static bool is_no_shape(lua_State *L, const void *self)
{
    (void)self;
    return lua_type(L, -2) != LUA_TSTRING && !(lua_isinteger(L, -2) && lua_istable(L, -1));
}

static bool is_no_name(lua_State *L, const void *self)
{
    (void)self;
    return lua_type(L, -2) != LUA_TSTRING && !(lua_isinteger(L, -2) && lua_tointeger(L, -2) == 1);
}

static void check_entries(lua_State *L, const reader *r, int index, const char *where,
                          lml_key_is_odd *odd)
{
    if (lml_key_find_odd(L, index, odd, NULL))
        lml_raise_hint(L, LML_BAD_RECIPE, "write wax = ask.mass { \"Finished wax\" }",
                       "%s: every entry of %s needs a name", r->name, where);
}

static int by_order(const void *a, const void *b)
{
    const lml_shape *one = a, *other = b;
    if (one->order != other->order)
        return one->order < other->order ? -1 : 1;
    return strcmp(one->name, other->name);
}

/* The named shapes of one table, in the order in which they were declared. How many. */
static size_t read_group(lua_State *L, reader *r, int index, lml_shape *fields, int depth)
{
    size_t count = 0;
    lua_Integer keys = lml_key_push_sorted(L, index);
    int list = lua_gettop(L);
    for (lua_Integer i = 1; i <= keys; i++) {
        lua_rawgeti(L, list, i);
        if (lua_type(L, -1) == LUA_TSTRING) {
            const char *name = keep_name(L, r, -1);
            lua_rawget(L, index);
            read_shape(L, r, -1, name, &fields[count++], depth);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    qsort(fields, count, sizeof *fields, by_order);
    return count;
}

/* The heading of a group is its first entry. */
static void read_heading(lua_State *L, reader *r, int index, const char *where, lml_shape *first)
{
    if (lua_rawgeti(L, index, 1) != LUA_TSTRING)
        lml_raise_hint(L, LML_BAD_RECIPE,
                       "write { \"The wax\", wax = ask.mass { \"Finished wax\" } }",
                       "%s: a group of %s must begin with its heading", r->name, where);
    if (first)
        first->heading = keep_text(L, r, -1);
    lua_pop(L, 1);
}

static size_t count_entries(lua_State *L, int index)
{
    size_t count = 0;
    index = lua_absindex(L, index);
    for (lua_pushnil(L); lua_next(L, index); lua_pop(L, 1)) {
        lml_box_charge(L, 1);
        count++;
    }
    return count;
}

/* The named shapes of the table at index, and of the groups in it: { "The wax", wax = ... }. */
static void read_fields(lua_State *L, reader *r, int index, const char *where, lml_shape *out,
                        int depth)
{
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 8);
    check_entries(L, r, index, where, is_no_shape);
    lua_Integer groups = (lua_Integer)lua_rawlen(L, index);
    size_t room = count_entries(L, index);
    for (lua_Integer g = 1; g <= groups; g++) {
        lua_rawgeti(L, index, g);
        room += count_entries(L, -1);
        lua_pop(L, 1);
    }
    lml_shape *fields = must(L, r, (room ? room : 1) * sizeof *fields);
    size_t count = read_group(L, r, index, fields, depth);
    for (lua_Integer g = 1; g <= groups; g++) {
        lua_rawgeti(L, index, g);
        check_entries(L, r, lua_gettop(L), where, is_no_name);
        size_t more = read_group(L, r, lua_gettop(L), fields + count, depth);
        read_heading(L, r, lua_gettop(L), where, more ? fields + count : NULL);
        count += more;
        lua_pop(L, 1);
    }
    out->wanted = LML_WANT_RECORD;
    out->fields = fields;
    out->field_count = count;
}

static void read_choices(lua_State *L, reader *r, int index, lml_shape *out)
{
    lua_getfield(L, index, "options");
    if (!lua_istable(L, -1))
        lml_raise_hint(L, LML_BAD_RECIPE, "write options = { \"wax\", \"resin\" }",
                       "%s: the choice '%s' has no options", r->name, out->name);
    size_t count = lml_key_length(L, -1);
    if (count > CHOICES_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' has more than %d options", r->name, out->name,
                       CHOICES_MOST);
    const char **choices = must(L, r, (count + 1) * sizeof *choices);
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        choices[i] = keep_text(L, r, -1);
        lua_pop(L, 1);
    }
    out->choices = choices;
    lua_pop(L, 1);
}

/* What a price is per: a unit, of whose kind it then has to be. */
static const char *per_member(lua_State *L, reader *r, int index, const lml_shape *s)
{
    const char *per = text_member(L, r, index, "per", false);
    lml_unit unit;
    lml_dimension dimension;
    if (per && s->wanted != LML_WANT_PRICE)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' is %s, but only a price can have per", r->name,
                       s->name, lml_wanted_words(s->wanted));
    if (per && (lml_unit_read(lml_span_of(per), &unit, &dimension, NULL) || dimension.money))
        lml_raise_hint(L, LML_BAD_RECIPE, "write a unit, such as per = \"g\" or per = \"h\"",
                       "%s: per of '%s' is \"%s\", which is not a unit", r->name, s->name, per);
    return per;
}

/* An offer keeps whole gives, and nothing that is asked. */
static void read_promised(lua_State *L, const reader *r, int index, lml_shape *out, int depth)
{
    lua_getfield(L, index, "promised");
    out->promised = lua_toboolean(L, -1);
    lua_pop(L, 1);
    if (out->promised && (r->asking || depth > 0))
        lml_raise_hint(L, LML_BAD_RECIPE, "write promised = true beside the title of a give",
                       "%s: '%s' is not a give of the recipe: it cannot be promised", r->name,
                       out->name ? out->name : "a part");
}

static void read_shape(lua_State *L, reader *r, int index, const char *name, lml_shape *out,
                       int depth)
{
    static const char *const known[] = {
        "kind", "from", "to",      "default", "source", "optional", "metal",    "options", "fields",
        "of",   "note", "example", "apart",   "seldom", "per",      "promised", NULL};
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 24);
    if (depth > 8)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' is nested too deep", r->name, name);
    if (!lua_istable(L, index))
        lml_raise_hint(L, LML_BAD_RECIPE, "write ask.mass { \"Finished wax\" }",
                       "%s: '%s' has no kind", r->name, name);
    out->name = name;
    lua_getfield(L, index, "kind");
    lml_wanted wanted = lua_type(L, -1) == LUA_TSTRING
                            ? lml_wanted_by_name(lml_span_of(lua_tostring(L, -1)))
                            : LML_WANTED_COUNT;
    if (wanted == LML_WANTED_COUNT)
        lml_raise_hint(L, LML_BAD_RECIPE, "write ask.mass { \"Finished wax\" }",
                       "%s: '%s' has no kind", r->name, name);
    lua_pop(L, 1);
    out->wanted = wanted;
    check_names(L, index, r->name, name, known);
    lua_rawgeti(L, index, 1);
    if (lua_type(L, -1) == LUA_TSTRING)
        out->title = keep_text(L, r, -1);
    else
        out->title = name;
    lua_pop(L, 1);
    lua_getfield(L, index, "optional");
    out->optional = lua_toboolean(L, -1);
    lua_getfield(L, index, "seldom");
    out->seldom = lua_toboolean(L, -1);
    lua_rawgeti(L, index, LML_SHAPE_ORDER);
    out->order = (unsigned)lua_tointeger(L, -1);
    lua_pop(L, 3);
    read_promised(L, r, index, out, depth);
    out->from = figure_member(L, r, index, "from", out);
    if (!out->from && r->asking)
        out->from = lml_wanted_nothing(wanted);
    out->to = figure_member(L, r, index, "to", out);
    out->default_text = figure_member(L, r, index, "default", out);
    out->source = text_member(L, r, index, "source", false);
    bool constant =
        lml_wanted_has_unit(wanted) || wanted == LML_WANT_NUMBER || wanted == LML_WANT_WHOLE;
    if (out->default_text && constant && !out->source)
        lml_raise_hint(L, LML_BAD_RECIPE,
                       "write source = \"common practice, no source\" if there is none",
                       "%s: the default of '%s' has no source", r->name, name);
    out->note = text_member(L, r, index, "note", false);
    out->example = text_member(L, r, index, "example", false);
    out->apart = text_member(L, r, index, "apart", false);
    out->per = per_member(L, r, index, out);
    lua_getfield(L, index, "metal");
    if (!lua_isnil(L, -1))
        out->metal = lml_what_metal(L, -1);
    else if (wanted == LML_WANT_FINENESS || wanted == LML_WANT_FINE_MASS ||
             wanted == LML_WANT_ASSAY) {
        out->metal = LML_Au; /* a goldsmith's bare fineness is of gold */
        out->any_metal = true;
    }
    lua_pop(L, 1);
    if (wanted == LML_WANT_CHOICE)
        read_choices(L, r, index, out);
    lua_getfield(L, index, "fields");
    if (wanted == LML_WANT_RECORD) {
        if (!lua_istable(L, -1))
            lml_raise_text(L, LML_BAD_RECIPE, "%s: the record '%s' has no fields", r->name, name);
        read_fields(L, r, -1, name, out, depth + 1);
    }
    lua_pop(L, 1);
    if (wanted == LML_WANT_LIST || wanted == LML_WANT_BY_NAME) {
        lml_shape *of = must(L, r, sizeof *of);
        lua_getfield(L, index, "of");
        if (!lua_istable(L, -1))
            lml_raise_hint(L, LML_BAD_RECIPE, "write of = ask.mass { } or of = ask.record { ... }",
                           "%s: '%s' does not say of what", r->name, name);
        read_shape(L, r, -1, name, of, depth + 1);
        of->name = NULL;
        lua_pop(L, 1);
        out->of = of;
    }
}

/* A section that may be left out; its table, or an empty one, is pushed. */
static void push_section(lua_State *L, reader *r, int index, const char *name)
{
    lua_getfield(L, index, name);
    if (lua_isnil(L, -1)) {
        lua_pop(L, 1);
        lua_newtable(L);
    } else if (!lua_istable(L, -1)) {
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' must be a table", r->name, name);
    }
}

/* All the fields of both, each optional unless the ask is required: what a command line may name.
 */
static void join(lua_State *L, reader *r)
{
    lml_recipe *recipe = r->recipe;
    size_t count = recipe->asks.field_count + recipe->allowances.field_count;
    lml_shape *fields = must(L, r, (count ? count : 1) * sizeof *fields);
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
static void push_union(lua_State *L, const reader *r, int first, int second)
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
static void take_point(lua_State *L, reader *r)
{
    const char *point = lua_tostring(L, -1);
    lml_box_need_stack(L, 12);
    if (strncmp(r->name, LML_RULE, strlen(LML_RULE)) != 0 ||
        strcmp(r->name + strlen(LML_RULE), point) != 0)
        lml_raise_hint(L, LML_BAD_RECIPE, "name the file after its point: each point has one rule",
                       "%s is a rule for the point '%s', so its file must be " LML_RULE "%s.lua",
                       r->name, point, point);
    r->recipe->rule = keep_text(L, r, -1);
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
    push_section(L, r, 3, "asks");
    push_section(L, r, 2, "asks");
    int told = lua_gettop(L) - 1, own = told + 1;
    push_union(L, r, told, own);
    lua_setfield(L, 2, "asks");
    lua_pushvalue(L, own);
}

/* The level on top of the stack. What runs with level 1 runs with a later one. */
static int level_of(lua_State *L, const reader *r)
{
    if (!lua_isinteger(L, -1) || lua_tointeger(L, -1) < 1)
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

static int read_recipe(lua_State *L)
{
    static const char *const known[] = {"title", "version",    "licence", "level", "uses",
                                        "asks",  "allowances", "gives",   "work",  "proofs",
                                        "about", "heads",      "rule",    NULL};
    reader *r = lua_touserdata(L, 1);
    lml_recipe *recipe = r->recipe;
    if (!lua_istable(L, 2))
        return lml_raise_hint(L, LML_BAD_RECIPE, "the file ends with: return recipe { ... }",
                              "%s does not return a recipe", r->name);
    check_names(L, 2, r->name, NULL, known);
    if (lua_getfield(L, 2, "rule") == LUA_TSTRING) {
        take_point(L, r);
        r->asking = true;
        read_fields(L, r, -1, "asks", &recipe->own, 0);
        r->asking = false;
    } else if (strncmp(r->name, LML_RULE, strlen(LML_RULE)) == 0) {
        return lml_raise_hint(L, LML_BAD_RECIPE, "begin it with: return rule \"NAME\" {",
                              "%s is named like a house rule, but returns a recipe", r->name);
    }
    recipe->title = text_member(L, r, 2, "title", true);
    recipe->version = text_member(L, r, 2, "version", true);
    recipe->licence = text_member(L, r, 2, "licence", false);
    if (!recipe->licence)
        recipe->licence = "";
    if (!lml_ascii_is_digit(recipe->version[0]))
        return lml_raise_hint(L, LML_BAD_RECIPE, "such as version = \"1.0.0\"",
                              "%s: the version must begin with a number", r->name);
    check_mark(L, r, "version", recipe->version, ".-+_");
    check_mark(L, r, "licence", recipe->licence, ".-+_ ()");
    recipe->about = text_member(L, r, 2, "about", false);
    recipe->heads = text_member(L, r, 2, "heads", false);
    lua_getfield(L, 2, "level");
    recipe->level = level_of(L, r);
    push_section(L, r, 2, "uses");
    recipe->use_count = lml_key_length(L, -1);
    if (recipe->use_count > USES_MOST)
        return lml_raise_text(L, LML_BAD_RECIPE, "%s uses more than %d recipes", r->name,
                              USES_MOST);
    const char **uses = must(L, r, (recipe->use_count + 1) * sizeof *uses);
    for (size_t i = 0; i < recipe->use_count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        uses[i] = keep_text(L, r, -1);
        lua_pop(L, 1);
    }
    recipe->uses = uses;
    r->asking = true;
    push_section(L, r, 2, "asks");
    read_fields(L, r, -1, "asks", &recipe->asks, 0);
    push_section(L, r, 2, "allowances");
    read_fields(L, r, -1, "allowances", &recipe->allowances, 0);
    r->asking = false;
    push_section(L, r, 2, "gives");
    read_fields(L, r, -1, "gives", &recipe->gives, 0);
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
    reader r = {.recipe = recipe, .name = name};
    lua_pushcfunction(L, read_recipe);
    lua_pushlightuserdata(L, &r);
    lua_pushvalue(L, index);
    lua_pushvalue(L, point);
    lml_status status = lml_box_call(box, 3, 0, err);
    if (!status) {
        char *own = keep(recipe, strlen(name) + 1);
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
