#include "shelf/declared.h"

#include "cell/key.h"
#include "cell/raise.h"
#include "cell/what.h"
#include "shelf/default.h"
#include "value/wanted.h"

#include <stdlib.h>
#include <string.h>

enum { CHOICES_MOST = 500 };

static bool holds_tables(lml_wanted w)
{
    return w == LML_WANT_LIST || w == LML_WANT_RECORD || w == LML_WANT_BY_NAME;
}

/* The default on top of the stack, a table, as JSON. */
static const char *table_default(lua_State *L, lml_reader *r, const lml_shape *s)
{
    lml_default_push_json(L, -1, s->name);
    const char *json = lua_tostring(L, -1), *out;
    bool is_list = s->wanted == LML_WANT_LIST;
    if (is_list != (json[0] == '[') && strcmp(json, "{}") != 0)
        lml_reader_fault(L, r, NULL, "%s: default of '%s' is %s, but %s is needed", r->name,
                         s->name, is_list ? "a record" : "a list", lml_wanted_words(s->wanted));
    out = is_list && json[0] == '{' ? "[]" : lml_reader_keep_text(L, r, -1);
    lua_pop(L, 1);
    return out;
}

/* A bound or default: a text, or a bare number or true/false where the kind is one. */
static const char *figure_member(lua_State *L, lml_reader *r, int index, const char *name,
                                 const lml_shape *s)
{
    const char *out = NULL;
    lua_getfield(L, index, name);
    int type = lua_type(L, -1);
    if (type == LUA_TSTRING) {
        out = lml_reader_keep_text(L, r, -1);
    } else if (type == LUA_TNUMBER || type == LUA_TBOOLEAN) {
        if (lml_wanted_has_unit(s->wanted)) {
            lml_reader_fault(L, r, NULL, "%s: %s of '%s' is %s, but %s is needed, such as \"%s\"",
                             r->name, name, s->name, lml_what_is(L, -1),
                             lml_wanted_words(s->wanted), lml_wanted_example(s->wanted));
        } else {
            lml_what_push_text(L, -1);
            out = lml_reader_keep_text(L, r, -1);
            lua_pop(L, 1);
        }
    } else if (type == LUA_TTABLE && strcmp(name, "default") == 0 && holds_tables(s->wanted)) {
        out = table_default(L, r, s);
    } else if (type != LUA_TNIL) {
        lml_reader_fault(L, r, NULL, "%s: %s of '%s' must be a text", r->name, name, s->name);
    }
    lua_pop(L, 1);
    return out;
}

static void read_shape(lua_State *L, lml_reader *r, int index, const char *name, lml_shape *out,
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

static void check_entries(lua_State *L, const lml_reader *r, int index, const char *where,
                          lml_key_is_odd *odd)
{
    int top = lua_gettop(L);
    if (lml_key_find_odd(L, index, odd, NULL))
        lml_reader_fault(L, r, "write wax = ask.mass { \"Finished wax\" }",
                         "%s: every entry of %s needs a name", r->name, where);
    lua_settop(L, top);
}

static int by_order(const void *a, const void *b)
{
    const lml_shape *one = a, *other = b;
    if (one->order != other->order)
        return one->order < other->order ? -1 : 1;
    return strcmp(one->name, other->name);
}

/* One entry, and where the faults are gathered what it holds. */
typedef struct entry {
    lml_reader *r;
    const char *name;
    lml_shape *out;
    int depth;
} entry;

/* Arguments: the entry and its table. */
static int read_entry(lua_State *L)
{
    const entry *e = lua_touserdata(L, 1);
    read_shape(L, e->r, 2, e->name, e->out, e->depth);
    return 0;
}

/* Of one that cannot be read no more is known than its name. */
static void gather_shape(lua_State *L, lml_reader *r, const char *name, lml_shape *out, int depth)
{
    entry e = {r, name, out, depth};
    int line = r->line;
    lua_pushcfunction(L, read_entry);
    lua_pushlightuserdata(L, &e);
    lua_pushvalue(L, -3);
    int failed = lua_pcall(L, 2, 0, 0);
    if (failed)
        lml_reader_note_raised(L, r, failed);
    if (failed || !out->name)
        *out = (lml_shape){.name = name, .title = name, .order = out->order};
    r->line = line;
}

/* The named shapes of one table, in the order in which they were declared. How many. */
static size_t read_group(lua_State *L, lml_reader *r, int index, lml_shape *fields, int depth)
{
    size_t count = 0;
    lua_Integer keys = lml_key_push_sorted(L, index);
    int list = lua_gettop(L);
    for (lua_Integer i = 1; i <= keys; i++) {
        lua_rawgeti(L, list, i);
        if (lua_type(L, -1) == LUA_TSTRING) {
            const char *name = lml_reader_keep_name(L, r, -1);
            lua_rawget(L, index);
            if (!name)
                ;
            else if (r->note)
                gather_shape(L, r, name, &fields[count++], depth);
            else
                read_shape(L, r, -1, name, &fields[count++], depth);
        }
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    qsort(fields, count, sizeof *fields, by_order);
    return count;
}

/* The heading of a group is its first entry. */
static void read_heading(lua_State *L, lml_reader *r, int index, const char *where,
                         lml_shape *first)
{
    bool has = lua_rawgeti(L, index, 1) == LUA_TSTRING;
    if (!has)
        lml_reader_fault(L, r, "write { \"The wax\", wax = ask.mass { \"Finished wax\" } }",
                         "%s: a group of %s must begin with its heading", r->name, where);
    if (first && has)
        first->heading = lml_reader_keep_text(L, r, -1);
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

/* How many groups there are, up to the first that is not a table. */
static lua_Integer groups_of(lua_State *L, int index)
{
    lua_Integer count = 0;
    while (lua_rawgeti(L, index, count + 1) == LUA_TTABLE) {
        lua_pop(L, 1);
        count++;
    }
    lua_pop(L, 1);
    return count;
}

void lml_declared_read_fields(lua_State *L, lml_reader *r, int index, const char *where,
                              lml_shape *out, int depth)
{
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 8);
    check_entries(L, r, index, where, is_no_shape);
    lua_Integer groups = groups_of(L, index);
    size_t room = count_entries(L, index);
    for (lua_Integer g = 1; g <= groups; g++) {
        lua_rawgeti(L, index, g);
        room += count_entries(L, -1);
        lua_pop(L, 1);
    }
    lml_shape *fields = lml_reader_must(L, r, (room ? room : 1) * sizeof *fields);
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

static void read_choices(lua_State *L, lml_reader *r, int index, lml_shape *out)
{
    lua_getfield(L, index, "options");
    if (!lua_istable(L, -1)) {
        lml_reader_fault(L, r, "write options = { \"wax\", \"resin\" }",
                         "%s: the choice '%s' has no options", r->name, out->name);
        out->wanted = LML_WANT_ANYTHING;
        lua_pop(L, 1);
        return;
    }
    size_t count = lml_key_length(L, -1);
    if (count > CHOICES_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' has more than %d options", r->name, out->name,
                       CHOICES_MOST);
    const char **choices = lml_reader_must(L, r, (count + 1) * sizeof *choices);
    for (size_t i = 0; i < count; i++) {
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        choices[i] = lml_reader_keep_text(L, r, -1);
        lua_pop(L, 1);
    }
    out->choices = choices;
    lua_pop(L, 1);
}

/* What a price is per: a unit, of whose kind it then has to be. */
static const char *per_member(lua_State *L, lml_reader *r, int index, const lml_shape *s)
{
    const char *per = lml_reader_text_member(L, r, index, "per", false);
    lml_unit unit;
    lml_dimension dimension;
    if (per && s->wanted != LML_WANT_PRICE)
        lml_reader_fault(L, r, NULL, "%s: '%s' is %s, but only a price can have per", r->name,
                         s->name, lml_wanted_words(s->wanted));
    else if (per && (lml_unit_read(lml_span_of(per), &unit, &dimension, NULL) || dimension.money))
        lml_reader_fault(L, r, "write a unit, such as per = \"g\" or per = \"h\"",
                         "%s: per of '%s' is \"%s\", which is not a unit", r->name, s->name, per);
    return per;
}

/* An offer keeps whole gives, and nothing that is asked. */
static void read_promised(lua_State *L, const lml_reader *r, int index, lml_shape *out, int depth)
{
    lua_getfield(L, index, "promised");
    out->promised = lua_toboolean(L, -1);
    lua_pop(L, 1);
    if (out->promised && (r->asking || depth > 0))
        lml_reader_fault(L, r, "write promised = true beside the title of a give",
                         "%s: '%s' is not a give of the recipe: it cannot be promised", r->name,
                         out->name ? out->name : "a part");
}

/* LML_WANTED_COUNT: none, which is noted. One that there is not was set by `ask` while advice is
 * given, which reports it itself. */
static lml_wanted kind_of(lua_State *L, lml_reader *r, int index, const char *name)
{
    lml_wanted wanted = LML_WANTED_COUNT;
    if (!lua_istable(L, index)) {
        lml_reader_fault(L, r, "write ask.mass { \"Finished wax\" }", "%s: '%s' has no kind",
                         r->name, name);
        return wanted;
    }
    lua_rawgeti(L, index, LML_SHAPE_LINE);
    r->line = lua_isinteger(L, -1) ? (int)lua_tointeger(L, -1) : 0;
    lua_getfield(L, index, "kind");
    bool said = lua_type(L, -1) == LUA_TSTRING;
    if (said)
        wanted = lml_wanted_by_name(lml_span_of(lua_tostring(L, -1)));
    if (wanted == LML_WANTED_COUNT && !(said && r->note))
        lml_reader_fault(L, r, "write ask.mass { \"Finished wax\" }", "%s: '%s' has no kind",
                         r->name, name);
    lua_pop(L, 2);
    return wanted;
}

static void read_shape(lua_State *L, lml_reader *r, int index, const char *name, lml_shape *out,
                       int depth)
{
    static const char *const known[] = {"kind",     "from",     "to",      "default", "source",
                                        "optional", "metal",    "options", "fields",  "of",
                                        "note",     "example",  "apart",   "seldom",  "usual",
                                        "per",      "promised", "unless",  "when",    NULL};
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 24);
    if (depth > 8)
        lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' is nested too deep", r->name, name);
    lml_wanted wanted = kind_of(L, r, index, name);
    if (wanted == LML_WANTED_COUNT)
        return;
    out->name = name;
    out->wanted = wanted;
    out->line = r->line;
    lml_reader_check_names(L, r, index, name, known);
    lua_rawgeti(L, index, 1);
    if (lua_type(L, -1) == LUA_TSTRING)
        out->title = lml_reader_keep_text(L, r, -1);
    else
        out->title = name;
    lua_pop(L, 1);
    lua_getfield(L, index, "optional");
    out->optional = lua_toboolean(L, -1);
    lua_getfield(L, index, "seldom");
    out->seldom = lua_toboolean(L, -1);
    lua_getfield(L, index, "usual");
    out->usual = lua_toboolean(L, -1);
    lua_rawgeti(L, index, LML_SHAPE_ORDER);
    out->order = (unsigned)lua_tointeger(L, -1);
    lua_pop(L, 4);
    read_promised(L, r, index, out, depth);
    out->from = figure_member(L, r, index, "from", out);
    if (!out->from && r->asking)
        out->from = lml_wanted_nothing(wanted);
    out->to = figure_member(L, r, index, "to", out);
    out->default_text = figure_member(L, r, index, "default", out);
    out->source = lml_reader_text_member(L, r, index, "source", false);
    bool constant =
        lml_wanted_has_unit(wanted) || wanted == LML_WANT_NUMBER || wanted == LML_WANT_WHOLE;
    if (out->default_text && constant && !out->source)
        lml_reader_fault(L, r, "write source = \"common practice, no source\" if there is none",
                         "%s: the default of '%s' has no source", r->name, name);
    out->note = lml_reader_text_member(L, r, index, "note", false);
    out->example = lml_reader_text_member(L, r, index, "example", false);
    out->unless = lml_reader_text_member(L, r, index, "unless", false);
    out->when = lml_reader_text_member(L, r, index, "when", false);
    out->apart = lml_reader_text_member(L, r, index, "apart", false);
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
        if (lua_istable(L, -1))
            lml_declared_read_fields(L, r, -1, name, out, depth + 1);
        else
            lml_reader_fault(L, r, NULL, "%s: the record '%s' has no fields", r->name, name);
    }
    lua_pop(L, 1);
    if (wanted == LML_WANT_LIST || wanted == LML_WANT_BY_NAME) {
        lml_shape *of = lml_reader_must(L, r, sizeof *of);
        lua_getfield(L, index, "of");
        if (lua_istable(L, -1))
            read_shape(L, r, -1, name, of, depth + 1);
        else
            lml_reader_fault(L, r, "write of = ask.mass { } or of = ask.record { ... }",
                             "%s: '%s' does not say of what", r->name, name);
        of->name = NULL;
        lua_pop(L, 1);
        out->of = of;
    }
}
