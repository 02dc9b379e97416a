#include "run/take.h"

#include "base/ascii.h"
#include "base/letter.h"
#include "run/engine.h"
#include "run/run.h"
#include "shelf/shelf.h"

#include "words/bind.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "cell/what.h"
#include "file/alloy_read.h"
#include "value/value.h"
#include "read/memo.h"
#include "value/wanted.h"
#include "value/write.h"
#include "file/assay_read.h"
#include "shelf/default.h"
#include "value/compare.h"

#include <string.h>

/* ---- texts -------------------------------------------------------------------------------------
 */

lml_status lml_take_check_bounds(lua_State *L, const lml_shape *s, const lml_value *v,
                                 lml_error *err)
{
    const char *const bound[] = {s->from, s->to};
    lml_status status = lml_shape_check_per(s, v, err);
    for (int i = 0; i < 2 && !status; i++) {
        lml_value b;
        int order = 0;
        if (!bound[i])
            continue;
        status =
            lml_memo_read(lml_box_of(L)->memo, lml_span_of(bound[i]), s->wanted, s->metal, &b, err);
        if (!status)
            status = lml_compare(v, &b, &order, err);
        if (!status && (i == 0 ? order < 0 : order > 0)) {
            char text[LML_VALUE_TEXT];
            lml_write_text(v, text);
            status =
                lml_fail(err, LML_BAD_VALUE, "%s is %s %s: check the figure and its unit", text,
                         i == 0 ? "below the minimum of" : "above the maximum of", bound[i]);
        }
    }
    return status;
}

void lml_take_bounds(lua_State *L, const lml_shape *s, const lml_value *v, const char *path)
{
    lml_error e;
    if (lml_take_check_bounds(L, s, v, &e))
        lml_take_refuse(L, &e, NULL, path);
}

static void take_default(lua_State *L, const lml_shape *s, const char *path);

/* One entry of a default, on top of the stack, becomes what the shape says of it. */
static void take_entry(lua_State *L, const lml_shape *s, const char *path)
{
    lml_box_need_stack(L, 10);
    if (lua_istable(L, -1)) {
        take_default(L, s, path);
        return;
    }
    lml_what_push_text(L, -1);
    lml_take_text(L, s, lml_what_need_text(L, -1, "a default"), path);
    lua_replace(L, -3);
    lua_pop(L, 1);
}

/* The table of a default, on top of the stack, becomes a list or a record. That it fits the shape
 * was seen when it was declared. */
static void take_default(lua_State *L, const lml_shape *s, const char *path)
{
    lml_box_need_stack(L, 10);
    bool is_list = s->wanted == LML_WANT_LIST;
    char inner[LML_TAKE_PATH];
    int table = lua_gettop(L);
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        lml_take_path(inner, path, f->name);
        if (lua_getfield(L, table, f->name) != LUA_TNIL) {
            take_entry(L, f, inner);
        } else {
            lua_pop(L, 1);
            if (f->default_text)
                lml_take_text(L, f, lml_span_of(f->default_text), inner);
            else
                lml_view_push_absent(L);
        }
        lua_setfield(L, table, f->name);
    }
    if (s->of)
        lua_pushnil(L);
    while (s->of && lua_next(L, table)) { /* entries are set, none is added */
        lml_box_charge(L, 4);
        lua_pushvalue(L, -2);
        lua_insert(L, -2);
        lml_take_path(inner, path, is_list ? "" : lua_tostring(L, -3));
        take_entry(L, s->of, inner);
        lua_rawset(L, table);
    }
    lml_view_push(L, is_list ? LML_CLASS_LIST : LML_CLASS_RECORD, path);
}

static unsigned line_at(lml_span text, const char *at)
{
    unsigned line = 1;
    const char *feed = text.at;
    while ((feed = memchr(feed, '\n', (size_t)(at - feed)))) {
        feed++;
        line++;
    }
    return line;
}

/* The line of the text that declares an ask of that name, `name = ask.`; 0 if none does. */
static unsigned line_of_ask(lml_span text, const char *name)
{
    const size_t length = strlen(name);
    const char *end = text.at + text.length;
    for (const char *at = text.at; (size_t)(end - at) > length; at++) {
        at = memchr(at, name[0], (size_t)(end - at) - length);
        if (!at)
            return 0;
        bool inside = at > text.at && lml_ascii_is_name(at[-1]);
        if (inside || memcmp(at, name, length) != 0)
            continue;
        lml_span rest = lml_span_trim(lml_span_between(at + length, end));
        if (!lml_span_starts(rest, "="))
            continue;
        rest = lml_span_trim((lml_span){rest.at + 1, rest.length - 1});
        if (lml_span_starts(rest, "ask."))
            return line_at(text, at);
    }
    return 0;
}

/* Where the default of an ask is written: in the recipe, or else in a script. */
static void find_default(lua_State *L, const char *name, lml_said *said)
{
    const lml_run *run = lml_box_of(L)->run;
    const lml_shelf *shelf = &run->engine->shelf;
    said->file = ""; /* nowhere */
    for (size_t i = 0; i < shelf->count && name; i++) {
        const lml_item *item = shelf->items[i];
        bool own = run->recipe && item->kind == LML_PUT_RECIPE &&
                   strcmp(item->name, run->recipe->name) == 0;
        if (!own && (item->kind != LML_PUT_SCRIPT || said->line > 0))
            continue;
        unsigned line = line_of_ask((lml_span){item->text, item->length}, name);
        if (line == 0)
            continue;
        said->file = item->shown;
        said->line = line;
        if (own)
            return;
    }
}

/* What a text says: a default, or what the command line or a recipe gives. */
static void say_text(lua_State *L, const lml_shape *s, lml_span text, const char *path)
{
    bool assumed = s->default_text && text.at == s->default_text;
    char what[LML_TAKE_PATH + 20];
    if (!lml_box_of(L)->trace)
        return;
    lml_text_join(what, sizeof what, path, assumed ? ", assumed" : "", "");
    lml_said said = {.what = what, .source = assumed ? s->source : NULL};
    if (assumed)
        find_default(L, s->name, &said);
    lml_trace_say(L, -1, &said);
}

void lml_take_text(lua_State *L, const lml_shape *s, lml_span text, const char *path)
{
    lml_value v;
    lml_error e;
    lml_shape part = *s; /* of an assay */
    lml_box_charge(L, 20);
    if (lml_wanted_has_unit(s->wanted)) {
        if (lml_shape_value_text(s, text, lml_box_of(L)->memo, &v, &e))
            lml_take_refuse(L, &e, NULL, path);
        lml_take_bounds(L, s, &v, path);
        lml_figure_push(L, &v);
        say_text(L, s, text, path);
        return;
    }
    switch (s->wanted) {
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
        if (lml_memo_read(lml_box_of(L)->memo, text, s->wanted, LML_NO_METAL, &v, &e))
            lml_take_refuse(L, &e, NULL, path);
        lml_take_bounds(L, s, &v, path);
        lua_pushnumber(L, v.amount);
        say_text(L, s, text, path);
        return;
    case LML_WANT_YES_NO:
        if (lml_span_is(text, "true") || lml_span_is(text, "false")) {
            lua_pushboolean(L, lml_span_is(text, "true"));
            return;
        }
        break;
    case LML_WANT_CHOICE:
        for (const char *const *c = s->choices; *c; c++) {
            if (lml_span_is(text, *c)) {
                lua_pushlstring(L, text.at, text.length);
                return;
            }
        }
        break;
    case LML_WANT_TEXT:
    case LML_WANT_OWNER:
    case LML_WANT_ANYTHING:
        lua_pushlstring(L, text.at, text.length);
        return;
    case LML_WANT_ALLOY:
        lml_take_push_alloy_named(L, text, NULL, path);
        return;
    case LML_WANT_ASSAY:
        if (lml_assay_read_is_name(text, lml_box_of(L)->memo)) {
            lml_take_push_assay_named(L, text, NULL, path);
            return;
        }
        part.wanted = LML_WANT_FINENESS;
        part.any_metal = true; /* a bare figure is of the metal that is asked for */
        if (!lml_shape_value_text(&part, text, lml_box_of(L)->memo, &v, &e)) {
            lml_assay a;
            memset(&a, 0, sizeof a);
            a.found.part[v.metal] = v.amount;
            a.found.part[0] = 1 - v.amount;
            a.deviation.part[v.metal] = lml_value_deviation(&v);
            lml_bind_push_assay(L, &a);
            return;
        }
        lml_take_refuse(L, &e, NULL, path);
        return;
    case LML_WANT_RING_SIZE:
        if (lml_take_push_ring_size(L, text))
            return;
        break;
    case LML_WANT_LIST:
    case LML_WANT_RECORD:
    case LML_WANT_BY_NAME: /* a default: what lml_default_push_json wrote */
        lml_default_push_table(L, text);
        take_default(L, s, path);
        return;
    default:
        break;
    }
    lml_fail(&e, LML_BAD_VALUE, "\"%.*s\" is not %s", (int)(text.length > 60 ? 60 : text.length),
             text.at, lml_wanted_words(s->wanted));
    char example[LML_EXAMPLE_TEXT];
    lml_shape_example_typed(s, lml_shelf_house_in(L), example, sizeof example);
    lml_error_hint(&e, "such as %s", example);
    lml_take_refuse(L, &e, NULL, path);
}

/* ---- nodes -------------------------------------------------------------------------------------
 */

/* One that is read as a whole: a refusal has its place in the job, and no path. */
static bool is_figure(const lml_shape *s)
{
    return lml_wanted_has_unit(s->wanted) || s->wanted == LML_WANT_NUMBER ||
           s->wanted == LML_WANT_WHOLE;
}

static bool take_node(lua_State *L, const lml_shape *s, const lml_json *node, const char *path);

static bool take_fields(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    bool clean = true;
    lml_box_need_stack(L, 10);
    lua_createtable(L, 0, (int)s->field_count);
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        const lml_json *m = lml_json_member(node, f->name);
        char inner[LML_TAKE_PATH];
        if (f->default_text || (m && !is_figure(f)))
            lml_take_path(inner, path, f->name);
        if (m)
            clean = take_node(L, f, m, inner) && clean;
        else if (f->default_text) {
            lml_take_text(L, f, lml_span_of(f->default_text), inner);
            lml_take_origin(L, LML_ASSUMED);
        } else
            lml_view_push_absent(L);
        lua_setfield(L, -2, f->name);
    }
    lml_view_push_taken(L, LML_CLASS_RECORD, path, clean ? s : NULL);
    return clean;
}

static const lml_json *entry_at(const lml_json *list, lua_Integer i)
{
    const lml_json *m = lml_json_first(list);
    while (m && --i > 0)
        m = lml_json_next(m);
    return m;
}

/* Two are called the same: in the job both places are said, with their lines. */
static void refuse_same(lua_State *L, const char *apart, lml_span name, const lml_json *node,
                        const char *path, lua_Integer first, lua_Integer second)
{
    lml_error e;
    int length = (int)(name.length > 60 ? 60 : name.length);
    if (node) {
        char place[LML_JSON_PATH];
        const lml_json *one = entry_at(node, first), *other = entry_at(node, second);
        const lml_json *own = lml_json_member(other, apart); /* absent: called so by default */
        lml_json_path(one, place, sizeof place);
        lml_json_fail(own ? own : other, &e, LML_BAD_DATA,
                      "\"%.*s\" is also the name of %s, on line %u", length, name.at, place,
                      lml_json_line(one));
    } else {
        lml_fail(&e, LML_BAD_DATA, "in %s entries %d and %d are both \"%.*s\"", path, (int)first,
                 (int)second, length, name.at);
    }
    lml_error_hint(&e, "give each its own %s: it tells them apart on the sheet and in the record",
                   apart);
    lml_raise_as_is(L, &e);
}

enum { APART = 3 /* a name looked up among those before it */ };

void lml_take_apart(lua_State *L, const lml_shape *list, const lml_json *node, const char *path)
{
    const char *apart = list->of->apart;
    if (!apart)
        return;
    int entries = lua_gettop(L), places = entries + 1;
    lua_Integer count = (lua_Integer)lua_rawlen(L, entries);
    lml_box_need_stack(L, 6);
    lua_newtable(L);
    for (lua_Integer i = 1; i <= count; i++) {
        lml_box_charge(L, APART);
        lua_rawgeti(L, entries, i);
        lml_view_test_content(L, -1);
        lml_view_get_member(L, -1, apart);
        lml_span name = lml_span_trim(lml_what_need_text(L, -1, "a name"));
        lua_pushlstring(L, name.at, name.length);
        lua_pushvalue(L, -1);
        if (lua_rawget(L, places) != LUA_TNIL)
            refuse_same(L, apart, name, node, path, lua_tointeger(L, -1), i);
        lua_pop(L, 1);
        lua_pushinteger(L, i);
        lua_rawset(L, places);
        lua_settop(L, places);
    }
    lua_settop(L, entries);
}

/* Anything without a shape is taken as it is: texts stay texts. */
static void take_anything(lua_State *L, const lml_json *node, const char *path)
{
    lml_box_need_stack(L, 10);
    lml_box_charge(L, 10);
    lml_json_kind kind = lml_json_kind_of(node);
    bool list = kind == LML_JSON_LIST;
    if (list || kind == LML_JSON_RECORD) {
        lua_newtable(L);
        lua_Integer count = 0;
        for (const lml_json *m = lml_json_first(node); m; m = lml_json_next(m)) {
            take_anything(L, m, path);
            if (list)
                lua_rawseti(L, -2, ++count);
            else
                lua_setfield(L, -2, lml_json_name(m).at);
        }
        lml_view_push(L, list ? LML_CLASS_LIST : LML_CLASS_RECORD, path);
    } else if (kind == LML_JSON_NUMBER) {
        lua_pushnumber(L, lml_json_number(node));
    } else if (kind == LML_JSON_YES_NO) {
        lua_pushboolean(L, lml_json_yes(node));
    } else {
        lml_span text = lml_json_text(node);
        lua_pushlstring(L, text.at, text.length);
    }
}

static void say_node(lua_State *L, const lml_json *node)
{
    char place[LML_JSON_PATH];
    if (!lml_box_of(L)->trace)
        return;
    lml_trace_say(L, -1,
                  &(lml_said){.what = lml_json_path(node, place, sizeof place),
                              .file = lml_json_path_source(node),
                              .line = lml_json_line(node)});
}

/* Whether lml_take_value takes the name of an entry: a job may have one with escapes in it that a
 * recipe may not pass on. */
static bool is_clean_name(lml_span name)
{
    uint32_t code;
    return name.length <= LML_TAKE_NAME && lml_letter_find_hidden(name, "\n", &code) == name.length;
}

static bool take_entries(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    const bool list = s->wanted == LML_WANT_LIST;
    bool clean = true;
    lua_Integer i = 0;
    lml_box_need_stack(L, 10);
    lua_newtable(L);
    for (const lml_json *m = lml_json_first(node); m; m = lml_json_next(m)) {
        char inner[LML_TAKE_PATH];
        i++;
        lml_span name = lml_json_name(m);
        if (list) {
            lml_text_place(inner, sizeof inner, path, (int)i);
            clean = take_node(L, s->of, m, inner) && clean;
            lua_rawseti(L, -2, i);
        } else {
            lml_take_path(inner, path, name.at);
            lua_pushlstring(L, name.at, name.length);
            clean = take_node(L, s->of, m, inner) && clean && is_clean_name(name);
            lua_rawset(L, -3);
        }
    }
    if (list)
        lml_take_apart(L, s, node, path);
    lml_view_push_taken(L, list ? LML_CLASS_LIST : LML_CLASS_RECORD, path, clean ? s : NULL);
    return clean;
}

static void take_alloy(lua_State *L, const lml_json *node, const char *path)
{
    lml_alloy alloy;
    lml_error e;
    if (lml_alloy_read_is_name(node)) {
        lml_take_push_alloy_named(L, lml_json_text(node), node, path);
        return;
    }
    if (lml_alloy_read(node, &alloy, &e) || lml_bind_alloy_complete(&alloy, &e))
        lml_raise_as_is(L, &e);
    lml_bind_push_alloy(L, &alloy);
    say_node(L, node);
}

static void take_assay(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    lml_span text = lml_json_text(node);
    lml_assay assay;
    lml_error e;
    if (lml_assay_read_is_name(text, lml_box_of(L)->memo)) {
        lml_take_push_assay_named(L, text, node, path);
        return;
    }
    if (lml_assay_read(node, s->metal, &assay, &e))
        lml_raise_as_is(L, &e);
    lml_bind_push_assay(L, &assay);
    say_node(L, node);
}

/* Whether it is just what lml_take_value makes of it: that cleans a text without a shape, and
 * refuses some names of entries. */
static bool take_node(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    lml_value v;
    lml_error e;
    lml_box_charge(L, 20);
    if (is_figure(s)) {
        if (lml_shape_value(s, node, &v, &e))
            lml_raise_as_is(L, &e);
        lml_figure_push(L, &v);
        say_node(L, node);
        return true;
    }
    switch (s->wanted) {
    case LML_WANT_RECORD:
        return take_fields(L, s, node, path);
    case LML_WANT_BY_NAME:
    case LML_WANT_LIST:
        return take_entries(L, s, node, path);
    case LML_WANT_YES_NO:
        lua_pushboolean(L, lml_json_yes(node));
        return true;
    case LML_WANT_ALLOY:
        take_alloy(L, node, path);
        return true;
    case LML_WANT_ASSAY:
        take_assay(L, s, node, path);
        return true;
    case LML_WANT_ANYTHING:
        take_anything(L, node, path);
        return lml_json_kind_of(node) != LML_JSON_TEXT;
    default:
        lml_take_text(L, s, lml_json_text(node), path);
        return true;
    }
}

void lml_take_node(lua_State *L, const lml_shape *s, const lml_json *node, const char *path)
{
    take_node(L, s, node, path);
}

void lml_take_origin(lua_State *L, lml_origin origin)
{
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    if (!v)
        return;
    lml_value marked = *v;
    marked.origin = (uint8_t)origin;
    lml_figure_push(L, &marked);
    lml_trace_same(L, -1, -2);
    lua_remove(L, -2);
}
