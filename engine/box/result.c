#include "box/result.h"

#include "box/bind.h"
#include "box/engine.h"
#include "box/sheet.h"
#include "box/view.h"
#include "file/json_write.h"
#include "value/show.h"
#include "value/write.h"

#include <string.h>

enum { DEPTH_MOST = 32 };

typedef lml_json_writer writer;

static void put_lua_text(lua_State *L, writer *w, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    lml_json_put_text(w, (lml_span){at, length});
}

static void name(writer *w, const char *text)
{
    lml_json_put_name(w, lml_span_of(text));
}

/* Into a fixed buffer: all that is written of one value is short. */
typedef struct short_text {
    char text[480];
    size_t length;
} short_text;

static void *in_short(void *self, void *block, size_t old_size, size_t new_size)
{
    (void)block;
    (void)old_size;
    return new_size <= sizeof((short_text *)0)->text ? self : NULL;
}

static void write_short(void (*f)(const lml_value *, lml_builder *), const lml_value *v,
                        short_text *out)
{
    lml_alloc alloc = {in_short, out->text};
    lml_builder b = lml_builder_on(&alloc, sizeof out->text - 1);
    f(v, &b);
    out->length = b.status ? 0 : b.length;
}

static void put_short(writer *w, const char *member, void (*f)(const lml_value *, lml_builder *),
                      const lml_value *v)
{
    short_text t;
    write_short(f, v, &t);
    name(w, member);
    lml_json_put_text(w, (lml_span){t.text, t.length});
}

/* The kind as an ask would name it: what this value could be given back as. */
static const char *kind_of(const lml_value *v)
{
    switch ((lml_kind)v->kind) {
    case LML_FINE_MASS:
        return "fine_mass";
    case LML_FINENESS_DIFFERENCE:
        return "fineness_difference";
    case LML_TIME_OF_DAY:
        return "time_of_day";
    case LML_QUANTITY:
        if (v->mode == LML_VACUUM)
            return "vacuum";
        for (int k = LML_WANT_MASS; k < LML_WANT_NUMBER; k++)
            if (lml_wanted_check((lml_wanted)k, v, NULL) == LML_OK)
                return lml_wanted_name((lml_wanted)k);
        return "quantity";
    default:
        return lml_kind_name((lml_kind)v->kind);
    }
}

static double in_unit(const lml_value *v, double amount)
{
    lml_value other = *v;
    other.amount = amount;
    return lml_value_in_unit(&other);
}

static void put_value(writer *w, const lml_value *v, const lml_value *shown)
{
    lml_json_put_member(w, "kind", kind_of(v));
    if (v->kind == LML_MONEY || v->kind > LML_MONEY) {
        put_short(w, "value", v->kind == LML_MONEY ? lml_value_write_amount : lml_value_write, v);
    } else {
        name(w, "value");
        lml_json_put_number(w, lml_value_in_unit(v));
    }
    if (v->kind <= LML_MONEY && v->kind != LML_NUMBER)
        put_short(w, "unit", lml_value_write_unit, v);
    put_short(w, "text", lml_value_show, shown);
    if (v->metal)
        lml_json_put_member(w, "metal", lml_metal_symbol((lml_metal)v->metal));
    if (v->spread == LML_DEVIATION) {
        name(w, "sd");
        lml_json_put_number(w, v->kind == LML_TEMPERATURE
                                   ? in_unit(v, v->amount + v->low) - in_unit(v, v->amount)
                                   : in_unit(v, v->low));
    } else if (v->spread == LML_BETWEEN) {
        name(w, "low");
        lml_json_put_number(w, in_unit(v, v->low));
        name(w, "high");
        lml_json_put_number(w, in_unit(v, v->high));
    }
    if (v->origin)
        lml_json_put_member(w, "origin", lml_origin_name((lml_origin)v->origin));
}

static void put_alloy(writer *w, const lml_alloy *a, const char *kind)
{
    lml_json_put_member(w, "kind", kind);
    lml_json_put_member(w, "value", a->name);
    lml_json_put_member(w, "text", a->name[0] ? a->name : "an alloy given by its composition");
    name(w, "composition");
    lml_json_open_record(w);
    for (int m = 1; m < LML_METALS; m++) {
        if (a->composition.part[m] > 0) {
            name(w, lml_metal_symbol((lml_metal)m));
            lml_json_put_number(w, a->composition.part[m] * 1000);
        }
    }
    lml_json_close(w);
    name(w, "density");
    lml_json_put_number(w, a->density / 1000);
}

static void put_datum(lua_State *L, writer *w, int index, const lml_value *shown, int depth);

static void put_table(lua_State *L, writer *w, int index, int depth)
{
    bool list = lml_test(L, index, LML_CLASS_LIST);
    if (!list && !lml_test(L, index, LML_CLASS_RECORD)) /* a plain table: a list when it has items */
        list = lua_istable(L, index) && lua_rawlen(L, index) > 0;
    lml_push_content(L, index, "a result");
    int content = lua_gettop(L);
    lml_json_put_member(w, "kind", list ? "list" : "record");
    name(w, "value");
    lua_Integer count = list ? (lua_Integer)lua_rawlen(L, content) : lml_sorted_keys(L, content);
    if (list)
        lml_json_open_list(w);
    else
        lml_json_open_record(w);
    for (lua_Integer i = 1; i <= count; i++) {
        if (list) {
            lua_rawgeti(L, content, i);
        } else {
            lua_rawgeti(L, content + 1, i);
            lml_push_text_of(L, -1);
            size_t length;
            const char *at = lua_tolstring(L, -1, &length);
            lml_json_put_name(w, (lml_span){at, length});
            lua_pop(L, 1);
            lua_rawget(L, content);
        }
        lml_json_open_record(w);
        put_datum(L, w, -1, NULL, depth + 1);
        lml_json_close(w);
        lua_pop(L, 1);
    }
    lml_json_close(w);
    lua_settop(L, content - 1);
}

/* The members of a datum; the record is open. `shown` is the value in the unit of a sheet, or NULL. */
static void put_datum(lua_State *L, writer *w, int index, const lml_value *shown, int depth)
{
    index = lua_absindex(L, index);
    luaL_checkstack(L, 12, "a result is nested too deep");
    lml_charge(L, 10);
    if (depth > DEPTH_MOST)
        lml_raise_text(L, LML_BAD_RECIPE, "a result is nested deeper than %d", DEPTH_MOST);
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    const lml_alloy *alloy = lml_test(L, index, LML_CLASS_ALLOY);
    const lml_assay *assay = lml_test(L, index, LML_CLASS_ASSAY);
    if (v) {
        put_value(w, v, shown ? shown : v);
    } else if (alloy) {
        put_alloy(w, alloy, "alloy");
    } else if (assay) {
        lml_alloy as_alloy;
        memset(&as_alloy, 0, sizeof as_alloy);
        as_alloy.composition = assay->found;
        put_alloy(w, &as_alloy, "assay");
    } else if (lua_type(L, index) == LUA_TNUMBER) {
        lml_value n = lml_number(lua_tonumber(L, index));
        put_value(w, &n, &n);
    } else if (lua_isboolean(L, index)) {
        lml_json_put_member(w, "kind", "yes_no");
        name(w, "value");
        lml_json_put_yes_no(w, lua_toboolean(L, index));
        lml_json_put_member(w, "text", lua_toboolean(L, index) ? "yes" : "no");
    } else if (lua_type(L, index) == LUA_TSTRING) {
        lml_json_put_member(w, "kind", "text");
        name(w, "value");
        put_lua_text(L, w, index);
    } else {
        put_table(L, w, index, depth);
    }
}

void lml_result_datum(lua_State *L, lml_json_writer *w, int index)
{
    lml_json_open_record(w);
    put_datum(L, w, index, NULL, 0);
    lml_json_close(w);
}

/* ---- sheets ------------------------------------------------------------------------------------ */

/* The value in the unit that the house wants for its kind on this page: "mass_bench" before "mass". */
static lml_value for_house(const lml_run *run, const lml_value *v, const char *page)
{
    lml_value out = *v;
    const lml_json *units = lml_json_member(lml_engine_house(run->engine), "units");
    size_t best = 0;
    for (const lml_json *u = lml_json_first(units); u; u = lml_json_next(u)) {
        lml_span kind = lml_json_name(u);
        size_t page_length = strlen(page);
        bool ours = kind.length > page_length + 1 &&
                    memcmp(kind.at + kind.length - page_length, page, page_length) == 0 &&
                    kind.at[kind.length - page_length - 1] == '_';
        if (ours)
            kind.length -= page_length + 1;
        lml_wanted wanted = lml_wanted_by_name(kind);
        size_t rank = ours ? 2 : 1;
        lml_value other;
        if (wanted < LML_WANT_NUMBER && rank > best && lml_wanted_check(wanted, v, NULL) == LML_OK &&
            lml_value_as(v, lml_json_text(u), &other, NULL) == LML_OK) {
            best = rank;
            out = lml_unit_equal(other.unit, v->unit) ? *v : other;
        }
    }
    return out;
}

/* Whether the result at index `at`, or for lists and records anything inside it, is this figure: the same
 * amount of the same kind. */
static bool holds_figure(lua_State *L, int at, const lml_value *v, int depth)
{
    const lml_value *r = lml_test(L, at, LML_CLASS_VALUE);
    if (r)
        return v->kind == r->kind && v->metal == r->metal &&
               lml_dimension_equal(v->dimension, r->dimension) &&
               v->exact == r->exact; /* the same eight bytes of amount */
    bool found = false;
    if (depth < DEPTH_MOST && lua_checkstack(L, 8) && lml_test_content(L, at)) {
        int content = lua_gettop(L);
        lua_pushnil(L);
        while (!found && lua_next(L, content)) {
            found = holds_figure(L, lua_gettop(L), v, depth + 1);
            lua_pop(L, 1);
        }
        lua_settop(L, content - 1);
    }
    return found;
}

/* Whether the figure at index is one that the part withholds, by itself or inside a list. */
static bool is_withheld_figure(lua_State *L, int part, int index)
{
    index = lua_absindex(L, index);
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    bool found = false;
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    int top = lua_gettop(L);
    if (lua_istable(L, top)) {
        lua_pushnil(L);
        while (!found && lua_next(L, top - 1)) {
            lua_pushvalue(L, -2);
            lua_rawget(L, top);
            found = lua_rawequal(L, -1, index) && !lua_isnil(L, -1) && !lua_isboolean(L, -1);
            found = found || (v && holds_figure(L, lua_gettop(L), v, 0));
            lua_pop(L, 2);
        }
    }
    lua_settop(L, top - 2);
    return found;
}

/* A figure on a page: the value at index, in `unit` when that is not empty, else as the house likes it. */
static void put_figure(lua_State *L, lml_run *run, writer *w, int index, const char *page,
                       const char *unit)
{
    index = lua_absindex(L, index);
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    lml_value shown;
    lml_json_open_record(w);
    if (v) {
        lml_error e;
        if (!unit)
            shown = for_house(run, v, page);
        else if (lml_value_as(v, lml_span_of(unit), &shown, &e))
            lml_raise_as_is(L, &e);
    }
    put_datum(L, w, index, v ? &shown : NULL, 0);
    lml_json_close(w);
}

static bool put_text_field(lua_State *L, writer *w, int entry, const char *field)
{
    bool there = lua_getfield(L, entry, field) == LUA_TSTRING;
    if (there) {
        name(w, field);
        put_lua_text(L, w, -1);
    }
    lua_pop(L, 1);
    return there;
}

static void put_line(lua_State *L, lml_run *run, writer *w, int part, int entry, const char *page)
{
    put_text_field(L, w, entry, "label");
    lua_getfield(L, entry, "value");
    if (is_withheld_figure(L, part, -1)) {
        name(w, "withheld");
        lml_json_put_yes_no(w, true);
    } else {
        lua_getfield(L, entry, "unit");
        name(w, "value");
        put_figure(L, run, w, -2, page, lua_tostring(L, -1));
        lua_pop(L, 1);
    }
    const lml_value *v = lml_test(L, -1, LML_CLASS_VALUE);
    lua_getfield(L, entry, "from");
    if (lua_type(L, -1) == LUA_TSTRING)
        lml_json_put_member(w, "origin", lua_tostring(L, -1));
    else if (v && v->origin)
        lml_json_put_member(w, "origin", lml_origin_name((lml_origin)v->origin));
    lua_pop(L, 2);
    put_text_field(L, w, entry, "record");
    lua_getfield(L, entry, "big");
    if (lua_toboolean(L, -1)) {
        name(w, "big");
        lml_json_put_yes_no(w, true);
    }
    lua_pop(L, 1);
}

static void put_row(lua_State *L, lml_run *run, writer *w, int part, int row, const char *page)
{
    row = lua_absindex(L, row);
    lml_json_open_list(w);
    lua_Integer n = (lua_Integer)lua_rawlen(L, row);
    for (lua_Integer i = 1; i <= n; i++) {
        lua_rawgeti(L, row, i);
        if (lua_isboolean(L, -1) && !lua_toboolean(L, -1)) {
            lml_json_put_null(w);
        } else if (is_withheld_figure(L, part, -1)) {
            lml_json_open_record(w);
            name(w, "withheld");
            lml_json_put_yes_no(w, true);
            lml_json_close(w);
        } else {
            put_figure(L, run, w, -1, page, NULL);
        }
        lua_pop(L, 1);
    }
    lml_json_close(w);
}

static void put_grid(lua_State *L, lml_run *run, writer *w, int part, int entry, const char *page)
{
    lua_getfield(L, entry, "columns");
    name(w, "columns");
    lml_json_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        lml_push_text_of(L, -1);
        put_lua_text(L, w, -1);
        lua_pop(L, 2);
    }
    lml_json_close(w);
    lua_getfield(L, entry, "rows");
    name(w, "rows");
    lml_json_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        put_row(L, run, w, part, -1, page);
        lua_pop(L, 1);
    }
    lml_json_close(w);
    if (lua_getfield(L, entry, "total") == LUA_TTABLE) {
        name(w, "total");
        put_row(L, run, w, part, -1, page);
    }
    lua_pop(L, 3);
}

/* The names that a remark withholds, as "recipe.name". */
static void put_withholds(lua_State *L, writer *w, int part, int entry)
{
    if (lua_getfield(L, entry, "withholds") == LUA_TTABLE) {
        name(w, "withholds");
        lml_json_open_list(w);
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
            lua_getfield(L, part, "recipe");
            lua_rawgeti(L, -2, i);
            lua_pushfstring(L, "%s.%s", lua_tostring(L, -2), lua_tostring(L, -1));
            put_lua_text(L, w, -1);
            lua_pop(L, 3);
        }
        lml_json_close(w);
    }
    lua_pop(L, 1);
}

static void put_remark(lua_State *L, writer *w, int part, int entry)
{
    static const char *const fields[] = {"level", "code", "text", "reason", "by"};
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        put_text_field(L, w, entry, fields[i]);
    lua_getfield(L, entry, "lapsed");
    if (lua_toboolean(L, -1)) {
        name(w, "lapsed");
        lml_json_put_yes_no(w, true);
    }
    lua_pop(L, 1);
    put_withholds(L, w, part, entry);
}

static void put_entries(lua_State *L, lml_run *run, writer *w, int part, const char *page);

static bool has_entries(lua_State *L, int part, const char *page)
{
    luaL_checkstack(L, 8, "a sheet is nested too deep");
    lua_getfield(L, part, "pages");
    lua_getfield(L, -1, page);
    bool any = false;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1) && !any; i++) {
        lua_rawgeti(L, -1, i);
        if (lua_getfield(L, -1, "part") == LUA_TTABLE)
            any = has_entries(L, lua_gettop(L), page);
        else
            any = true;
        lua_pop(L, 2);
    }
    lua_pop(L, 2);
    return any;
}

static void put_entry(lua_State *L, lml_run *run, writer *w, int part, int entry, const char *page)
{
    lua_getfield(L, entry, "is");
    const char *is = lua_tostring(L, -1);
    int child = 0;
    if (strcmp(is, "part") == 0) {
        lua_getfield(L, entry, "part");
        child = lua_gettop(L);
        if (!has_entries(L, child, page)) {
            lua_pop(L, 2);
            return;
        }
    }
    lml_json_open_record(w);
    lml_json_put_member(w, "is", is);
    if (child) {
        put_text_field(L, w, child, "recipe");
        put_text_field(L, w, child, "title");
        name(w, "entries");
        put_entries(L, run, w, child, page);
        lua_pop(L, 1);
    } else if (strcmp(is, "line") == 0 || strcmp(is, "total") == 0) {
        put_line(L, run, w, part, entry, page);
    } else if (strcmp(is, "grid") == 0) {
        put_grid(L, run, w, part, entry, page);
    } else if (strcmp(is, "remark") == 0) {
        put_remark(L, w, part, entry);
    } else {
        put_text_field(L, w, entry, "label");
        put_text_field(L, w, entry, "text");
        put_text_field(L, w, entry, "record");
    }
    lml_json_close(w);
    lua_pop(L, 1);
}

static void put_entries(lua_State *L, lml_run *run, writer *w, int part, const char *page)
{
    luaL_checkstack(L, 12, "a sheet is nested too deep");
    lua_getfield(L, part, "pages");
    lua_getfield(L, -1, page);
    int entries = lua_gettop(L);
    lml_json_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        lua_rawgeti(L, entries, i);
        put_entry(L, run, w, part, lua_gettop(L), page);
        lua_pop(L, 1);
    }
    lml_json_close(w);
    lua_pop(L, 2);
}

/* ---- remarks ----------------------------------------------------------------------------------- */

/* Every remark of the part and of those within it; every page holds each of them, so one page serves. With
 * a NULL writer only asks whether any of them stops. */
static bool walk_remarks(lua_State *L, writer *w, int part)
{
    bool stops = false;
    luaL_checkstack(L, 12, "a sheet is nested too deep");
    lua_getfield(L, part, "remarks");
    int remarks = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, remarks); i++) {
        lua_rawgeti(L, remarks, i);
        lua_getfield(L, -1, "level");
        const char *level = lua_tostring(L, -1);
        stops = stops || strcmp(level, "stop") == 0 || strcmp(level, "confirm") == 0;
        lua_pop(L, 1);
        if (w) {
            lml_json_open_record(w);
            put_remark(L, w, part, lua_gettop(L));
            lml_json_close(w);
        }
        lua_pop(L, 1);
    }
    lua_getfield(L, part, "pages");
    lua_getfield(L, -1, lml_page_name(0));
    int entries = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        lua_rawgeti(L, entries, i);
        if (lua_getfield(L, -1, "part") == LUA_TTABLE && walk_remarks(L, w, lua_gettop(L)))
            stops = true;
        lua_pop(L, 2);
    }
    lua_settop(L, remarks - 1);
    return stops;
}

/* ---- the whole --------------------------------------------------------------------------------- */

static void put_job(writer *w, const lml_run *run)
{
    static const char *const fields[] = {"recipe", "title", "date"};
    name(w, "job");
    lml_json_open_record(w);
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
        const lml_json *m = lml_json_member(run->job, fields[i]);
        if (m) {
            name(w, fields[i]);
            lml_json_put_text(w, lml_json_text(m));
        }
    }
    lml_json_close(w);
    const lml_json *house = lml_json_member(lml_engine_house(run->engine), "name");
    if (house) {
        name(w, "house");
        lml_json_open_record(w);
        name(w, "name");
        lml_json_put_text(w, lml_json_text(house));
        lml_json_close(w);
    }
}

static void put_worked(lua_State *L, writer *w)
{
    static const char *const fields[] = {"recipe", "version", "digest", "under"};
    lml_push_worked(L);
    name(w, "worked");
    lml_json_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        lml_json_open_record(w);
        for (size_t f = 0; f < sizeof fields / sizeof fields[0]; f++)
            put_text_field(L, w, lua_gettop(L), fields[f]);
        lml_json_close(w);
        lua_pop(L, 1);
    }
    lml_json_close(w);
    lua_pop(L, 1);
}

static void put_settings(lua_State *L, writer *w)
{
    lml_push_settings(L);
    int settings = lua_gettop(L);
    lua_Integer count = lml_sorted_keys(L, settings);
    name(w, "settings");
    lml_json_open_record(w);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, settings + 1, i);
        name(w, lua_tostring(L, -1));
        lua_rawget(L, settings);
        lml_json_open_record(w);
        lua_getfield(L, -1, "value");
        put_datum(L, w, -1, NULL, 0);
        lua_pop(L, 1);
        put_text_field(L, w, lua_gettop(L), "from");
        lml_json_close(w);
        lua_pop(L, 1);
    }
    lml_json_close(w);
    lua_settop(L, settings - 1);
}

static void put_results(lua_State *L, writer *w, int part)
{
    lua_getfield(L, part, "results");
    lua_getfield(L, part, "withheld");
    int results = lua_gettop(L) - 1, withheld = results + 1;
    name(w, "results");
    lml_json_open_record(w);
    lua_Integer count = lml_sorted_keys(L, results);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, withheld + 1, i);
        lua_pushvalue(L, -1);
        if (lua_rawget(L, withheld) == LUA_TNIL) {
            name(w, lua_tostring(L, -2));
            lua_pushvalue(L, -2);
            lua_rawget(L, results);
            lml_json_open_record(w);
            put_datum(L, w, -1, NULL, 0);
            lml_json_close(w);
            lua_pop(L, 1);
        }
        lua_pop(L, 2);
    }
    lml_json_close(w);
    lua_settop(L, withheld);
    count = lml_sorted_keys(L, withheld);
    if (count > 0) {
        name(w, "withheld");
        lml_json_open_list(w);
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, -1, i);
            put_lua_text(L, w, -1);
            lua_pop(L, 1);
        }
        lml_json_close(w);
    }
    lua_settop(L, results - 1);
}

typedef struct task {
    lml_run *run;
    writer w;
} task;

static int write_result(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    writer *w = &t->w;
    const int part = 2;
    lml_json_open_record(w);
    lml_json_put_member(w, "lemel", LML_VERSION);
    put_job(w, t->run);
    put_worked(L, w);
    name(w, "stopped");
    lml_json_put_yes_no(w, walk_remarks(L, NULL, part));
    put_results(L, w, part);
    put_settings(L, w);
    name(w, "sheets");
    lml_json_open_record(w);
    for (size_t i = 0; i < lml_page_count(); i++) {
        const char *page = lml_page_name(i);
        if (i < 3 || has_entries(L, part, page)) {
            name(w, page);
            put_entries(L, t->run, w, part, page);
        }
    }
    lml_json_close(w);
    name(w, "remarks");
    lml_json_open_list(w);
    walk_remarks(L, w, part);
    lml_json_close(w);
    lml_json_close(w);
    return 0;
}

lml_status lml_result_write(lml_run *run, lml_builder *b, lml_error *err)
{
    lua_State *L = run->box.L;
    task t = {run, lml_json_writer_on(b, false)};
    lua_pushcfunction(L, write_result);
    lua_pushlightuserdata(L, &t);
    lua_pushvalue(L, -3);
    lml_status status = lml_box_call(&run->box, 2, 0, err);
    return status ? status : lml_json_writer_end(&t.w, err);
}
