/* Taking in what a recipe says: the arguments of a use, what work gives back, what a proof gives.
 */
#include "run/take.h"

#include "words/bind.h"
#include "run/run.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/trace.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "value/value.h"
#include "value/wanted.h"

#include <math.h>
#include <string.h>

enum { DEPTH_MOST = 16 };

static void refuse_kind(lua_State *L, const lml_shape *s, int index, const char *path)
{
    lml_error e;
    lml_fail(&e, LML_BAD_VALUE, "%s is needed, but %s was given", lml_wanted_words(s->wanted),
             lml_what_is(L, index));
    lml_take_refuse(L, &e, NULL, path);
}

bool lml_take_is_no_field(lua_State *L, const void *record)
{
    return lua_type(L, -2) != LUA_TSTRING ||
           !lml_shape_field_named(record, lml_what_need_text(L, -2, "a name"));
}

/* The key is on top of the stack. */
static void refuse_field(lua_State *L, const lml_shape *s, const char *path)
{
    lml_what_push_text(L, -1);
    lml_span name = lml_what_need_text(L, -1, "a name");
    lml_error e;
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < s->field_count; i++)
        lml_view_offer(L, &nearest, lml_span_of(s->fields[i].name));
    lml_fail(&e, LML_BAD_VALUE, "'%.*s' is not asked for here", (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    lml_take_refuse(L, &e, NULL, path);
}

/* Push what the content has of each field, or nil. Raises if it has anything else. */
static void push_fields(lua_State *L, const lml_shape *s, int content, const char *path)
{
    size_t known = 0;
    lml_box_need_stack(L, (int)s->field_count + 12);
    for (size_t i = 0; i < s->field_count; i++)
        known += lua_getfield(L, content, s->fields[i].name) != LUA_TNIL;
    if (lml_key_has_more(L, content, known) &&
        lml_key_find_odd(L, content, lml_take_is_no_field, s))
        refuse_field(L, s, path);
}

/* Push the field, whose value is at the index. */
static void take_field(lua_State *L, const lml_shape *f, int index, const char *path)
{
    char inner[LML_TAKE_PATH];
    if (lml_take_at_once(L, f, index))
        return;
    if (lml_view_is_withheld(L, index))
        lml_raise_stop(L);
    const bool is_there = !lua_isnil(L, index) && !lua_islightuserdata(L, index);
    if (is_there || f->default_text)
        lml_take_path(inner, path, f->name);
    if (is_there) {
        lml_take_value(L, f, index, inner);
    } else if (f->default_text) {
        lml_take_text(L, f, lml_span_of(f->default_text), inner);
        lml_take_origin(L, LML_ASSUMED);
    } else if (f->optional) {
        lml_view_push_absent(L);
    } else {
        lml_error e;
        lml_fail(&e, LML_BAD_VALUE, "'%s' (%s) is missing", f->name, f->title);
        lml_take_refuse(L, &e, NULL, path);
    }
}

static void take_record(lua_State *L, const lml_shape *s, int index, const char *path)
{
    if (!lml_view_test_content(L, index))
        refuse_kind(L, s, index, path);
    const int content = lua_gettop(L);
    push_fields(L, s, content, path);
    lua_createtable(L, 0, (int)s->field_count);
    const int table = lua_gettop(L);
    for (size_t i = 0; i < s->field_count; i++) {
        take_field(L, &s->fields[i], content + 1 + (int)i, path);
        lua_setfield(L, table, s->fields[i].name);
    }
    lua_replace(L, content);
    lua_settop(L, content);
    lml_view_push_taken(L, LML_CLASS_RECORD, path, s);
}

static bool is_no_place(lua_State *L, const void *count)
{
    lua_Integer at = lua_isinteger(L, -2) ? lua_tointeger(L, -2) : 0;
    return at < 1 || at > *(const lua_Integer *)count;
}

/* A list with holes or names would lose entries without a word. */
static void refuse_names(lua_State *L, int content, const char *path)
{
    lua_Integer count = (lua_Integer)lua_rawlen(L, content);
    if (lml_key_find_odd(L, content, is_no_place, &count))
        lml_raise_hint(L, LML_BAD_RECIPE, "write { first, second, ... }",
                       "%s is a list, but it was given an entry called %s", path,
                       lml_what_is(L, -1));
}

static void take_entries(lua_State *L, const lml_shape *s, int index, const char *path)
{
    bool list = s->wanted == LML_WANT_LIST;
    if (!lml_view_test_content(L, index))
        refuse_kind(L, s, index, path);
    int content = lua_gettop(L);
    if (list)
        refuse_names(L, content, path);
    lua_newtable(L);
    lua_Integer count =
        list ? (lua_Integer)lua_rawlen(L, content) : lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= count; i++) {
        char inner[LML_TAKE_PATH];
        if (list) {
            lua_rawgeti(L, content, i);
            if (!lml_take_at_once(L, s->of, -1)) {
                lml_text_place(inner, sizeof inner, path, (int)i);
                lml_take_value(L, s->of, -1, inner);
            }
            lua_rawseti(L, content + 1, i);
        } else {
            lua_rawgeti(L, content + 2, i);
            lml_view_push_clean(L, -1, "the name of an entry", LML_TAKE_NAME);
            if (!lua_rawequal(L, -1, -2))
                lml_raise_text(L, LML_BAD_RECIPE,
                               "a name in %s has characters that cannot be printed", path);
            lua_pop(L, 1);
            lml_take_path(inner, path, lua_tostring(L, -1));
            lua_pushvalue(L, -1);
            lua_rawget(L, content);
            lml_take_value(L, s->of, -1, inner);
            lua_pushvalue(L, -3);
            lua_insert(L, -2);
            lua_rawset(L, content + 1);
        }
        lua_settop(L, list ? content + 1 : content + 2);
    }
    lua_settop(L, content + 1);
    lua_remove(L, content);
    if (list)
        lml_take_apart(L, s, NULL, path);
    lml_view_push_taken(L, list ? LML_CLASS_LIST : LML_CLASS_RECORD, path, s);
}

/* ---- what has no shape -------------------------------------------------------------------------
 */

/* A recipe's own table is copied, so that what was passed on cannot change. */
static void take_anything(lua_State *L, int index, const char *path, int depth)
{
    lml_box_need_stack(L, 12);
    lml_box_charge(L, 10);
    if (depth > DEPTH_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "%s is nested deeper than %d", path, DEPTH_MOST);
    int type = lua_type(L, index);
    if (type == LUA_TSTRING) {
        lml_view_push_clean(L, index, path, LML_TEXT_MOST);
    } else if (type == LUA_TTABLE) {
        lml_view_push_content(L, index, path);
        int content = lua_gettop(L);
        bool list = lua_rawlen(L, content) > 0;
        if (list)
            refuse_names(L, content, path);
        lua_newtable(L);
        lua_Integer count = lml_key_push_sorted(L, content);
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, content + 2, i);
            lua_pushvalue(L, -1);
            lua_rawget(L, content);
            take_anything(L, lua_gettop(L), path, depth + 1);
            lua_remove(L, -2);
            lua_rawset(L, content + 1);
        }
        lua_settop(L, content + 1);
        lua_remove(L, content);
        lml_view_push(L, list ? LML_CLASS_LIST : LML_CLASS_RECORD, path);
    } else if (type == LUA_TBOOLEAN || (type == LUA_TNUMBER && lml_figure_is_finite(L, index)) ||
               lml_class_test(L, index, LML_CLASS_VALUE) ||
               lml_class_test(L, index, LML_CLASS_ALLOY) ||
               lml_class_test(L, index, LML_CLASS_ASSAY) ||
               lml_class_test(L, index, LML_CLASS_RECORD) ||
               lml_class_test(L, index, LML_CLASS_LIST)) {
        lua_pushvalue(L, index);
    } else {
        lml_raise_text(L, LML_BAD_RECIPE, "%s is %s, which cannot be passed on", path,
                       lml_what_is(L, index));
    }
}

/* ---- single figures ----------------------------------------------------------------------------
 */

static bool takes_number(lml_wanted w)
{
    return w == LML_WANT_NUMBER || w == LML_WANT_WHOLE || w == LML_WANT_RATIO;
}

static void take_number(lua_State *L, const lml_shape *s, int index, double x, const char *path)
{
    bool whole =
        x == floor(x) && fabs(x) <= 9007199254740992.0; /* 2^53: beyond, doubles skip some */
    if (!isfinite(x) || (s->wanted == LML_WANT_WHOLE && !whole))
        refuse_kind(L, s, index, path);
    lml_value n = s->wanted == LML_WANT_RATIO ? lml_value_ratio(x) : lml_value_number(x);
    lml_take_bounds(L, s, &n, path);
    lml_figure_push(L, &n);
    lml_trace_same(L, -1, index);
}

static bool is_of_metal(const lml_shape *s, const lml_value *v)
{
    const bool of_metal = s->wanted == LML_WANT_FINENESS || s->wanted == LML_WANT_FINE_MASS;
    return !of_metal || !s->metal || s->any_metal || v->metal == s->metal;
}

static void take_quantity(lua_State *L, const lml_shape *s, int index, const char *path)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    lml_error e;
    if (lml_wanted_check(s->wanted, v, &e))
        lml_take_refuse(L, &e, NULL, path);
    if (!is_of_metal(s, v)) {
        lml_fail(&e, LML_BAD_VALUE, "%s of %s is needed, but %s was given",
                 lml_wanted_words(s->wanted), lml_metal_name(s->metal), lml_what_is(L, index));
        lml_take_refuse(L, &e, NULL, path);
    }
    lml_take_bounds(L, s, v, path);
    lua_pushvalue(L, index);
}

static bool is_free(const lml_shape *s)
{
    return s->wanted == LML_WANT_TEXT || s->wanted == LML_WANT_OWNER;
}

/* Bytes of a free text. */
static size_t length_most(const lml_shape *s)
{
    return s->wanted == LML_WANT_TEXT ? LML_TEXT_MOST : LML_OWNER_MOST;
}

static void take_text(lua_State *L, const lml_shape *s, int index, const char *path)
{
    if (is_free(s))
        lml_view_push_clean(L, index, path, length_most(s));
    else
        lml_take_text(L, s, lml_what_need_text(L, index, "a text"), path);
}

/* Alloys and assays, made already or as a table. */
static void take_metal(lua_State *L, const lml_shape *s, int index, const char *path)
{
    bool assay = s->wanted == LML_WANT_ASSAY;
    lml_error e;
    if (lml_class_test(L, index, LML_CLASS_ALLOY) ||
        (assay && lml_class_test(L, index, LML_CLASS_ASSAY))) {
        lua_pushvalue(L, index);
        return;
    }
    if (!lml_view_test_content(L, index))
        refuse_kind(L, s, index, path);
    if (assay) {
        lml_assay read;
        if (lml_bind_assay_from_table(L, -1, &read, &e))
            lml_take_refuse(L, &e, NULL, path);
        lml_bind_push_assay(L, &read);
    } else {
        lml_alloy read;
        if (lml_bind_alloy_from_table(L, -1, &read, &e))
            lml_take_refuse(L, &e, NULL, path);
        lml_bind_push_alloy(L, &read);
    }
    lua_remove(L, -2);
}

/* A ring size is known by its text: another record that looks like one is read again. */
static void take_ring_size(lua_State *L, const lml_shape *s, int index, const char *path)
{
    if (!lml_class_test(L, index, LML_CLASS_RECORD))
        refuse_kind(L, s, index, path);
    lml_view_test_content(L, index);
    lml_view_get_member(L, -1, "text");
    if (lua_type(L, -1) != LUA_TSTRING)
        refuse_kind(L, s, index, path);
    lml_take_text(L, s, lml_what_need_text(L, -1, "a text"), path);
    lua_replace(L, -3);
    lua_pop(L, 1);
}

/* ---- any of them -------------------------------------------------------------------------------
 */

/* Not where values are traced: each recipe takes its own. */
static bool is_taken(lua_State *L, const lml_shape *s, int index)
{
    const lml_shape *as = lml_view_taken(L, index);
    return as && !lml_box_of(L)->trace && lml_take_alike(L, as, s);
}

static bool block_fits(lua_State *L, const lml_shape *s, int index)
{
    const lml_wanted w = s->wanted;
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v)
        return lml_wanted_has_unit(w) && !lml_wanted_check(w, v, NULL) && is_of_metal(s, v) &&
               !lml_take_check_bounds(L, s, v, NULL);
    if (w == LML_WANT_ALLOY || w == LML_WANT_ASSAY)
        return lml_class_test(L, index, LML_CLASS_ALLOY) ||
               (w == LML_WANT_ASSAY && lml_class_test(L, index, LML_CLASS_ASSAY));
    return is_taken(L, s, index);
}

static bool text_fits(lua_State *L, const lml_shape *s, int index)
{
    lml_span text = lml_what_need_text(L, index, "a text");
    if (is_free(s)) {
        lml_box_charge(L, text.length / 16);
        return text.length <= length_most(s) && lml_view_is_plain(text);
    }
    for (const char *const *c = s->wanted == LML_WANT_CHOICE ? s->choices : NULL; c && *c; c++)
        if (lml_span_is(text, *c))
            return true;
    return false;
}

bool lml_take_at_once(lua_State *L, const lml_shape *s, int index)
{
    bool fits;
    switch (lua_type(L, index)) {
    case LUA_TBOOLEAN:
        fits = s->wanted == LML_WANT_YES_NO;
        break;
    case LUA_TSTRING:
        fits = text_fits(L, s, index);
        break;
    case LUA_TUSERDATA:
        fits = block_fits(L, s, index);
        break;
    default:
        return false;
    }
    if (fits) {
        lml_box_charge(L, 10);
        lua_pushvalue(L, index);
    }
    return fits;
}

void lml_take_value(lua_State *L, const lml_shape *s, int index, const char *path)
{
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 12);
    if (lml_take_at_once(L, s, index))
        return;
    lml_box_charge(L, 10);
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    bool ratio = v && v->kind == LML_QUANTITY && lml_dimension_none(v->dimension);
    lml_wanted w = s->wanted;
    if (w == LML_WANT_ANYTHING)
        take_anything(L, index, path, 0);
    else if (w == LML_WANT_RECORD)
        take_record(L, s, index, path);
    else if (w == LML_WANT_LIST || w == LML_WANT_BY_NAME)
        take_entries(L, s, index, path);
    else if (lua_type(L, index) == LUA_TSTRING)
        take_text(L, s, index, path);
    else if (v && lml_wanted_has_unit(w))
        take_quantity(L, s, index, path);
    else if (takes_number(w) && lua_type(L, index) == LUA_TNUMBER)
        take_number(L, s, index, lua_tonumber(L, index), path);
    else if (takes_number(w) && ratio)
        take_number(L, s, index, v->amount, path);
    else if (w == LML_WANT_YES_NO && lua_isboolean(L, index))
        lua_pushvalue(L, index);
    else if (w == LML_WANT_RING_SIZE)
        take_ring_size(L, s, index, path);
    else if (w == LML_WANT_ALLOY || w == LML_WANT_ASSAY)
        take_metal(L, s, index, path);
    else
        refuse_kind(L, s, index, path);
}
