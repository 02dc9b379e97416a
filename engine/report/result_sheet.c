#include "report/result_sheet.h"

#include "run/engine.h"
#include "run/part.h"
#include "cell/class.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "value/show.h"
#include "value/wanted.h"
#include "report/result_datum.h"
#include "report/result_withheld.h"

#include <lauxlib.h>
#include <string.h>

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

/* ---- sheets ------------------------------------------------------------------------------------
 */

/* The value in the unit that the house wants for its kind on this page: "mass_bench" before "mass".
 */
static lml_value for_house(const lml_run *run, const lml_value *v, const char *page)
{
    lml_value out = *v;
    const lml_json *units = lml_json_member(lml_shelf_house(&run->engine->shelf), "units");
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
        if (wanted < LML_WANT_NUMBER && rank > best &&
            lml_wanted_check(wanted, v, NULL) == LML_OK &&
            lml_show_value_in(v, lml_json_text(u), &other, NULL) == LML_OK) {
            best = rank;
            out = lml_unit_equal(other.unit, v->unit) ? *v : other;
        }
    }
    return out;
}

void lml_result_sheet_put_figure(lua_State *L, lml_json_writer *w, int index, const char *page)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    lml_value shown;
    if (v)
        shown = for_house(lml_run_of(L), v, page);
    lml_result_datum_put(L, w, index, v ? &shown : NULL);
}

/* A figure on a page: the value at index, in `unit` when that is not empty, else as the house likes
 * it. */
static void put_figure(lua_State *L, lml_json_writer *w, int index, const char *page,
                       const char *unit)
{
    index = lua_absindex(L, index);
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    lml_value shown;
    lml_error e;
    lml_json_write_open_record(w);
    if (!v || !unit) {
        lml_result_sheet_put_figure(L, w, index, page);
    } else {
        if (lml_show_value_in(v, lml_span_of(unit), &shown, &e))
            lml_raise_as_is(L, &e);
        lml_result_datum_put(L, w, index, &shown);
    }
    lml_json_write_close(w);
}

/* A text of the entry that is printed whatever is withheld, but for the figures in it. */
static void put_words(lua_State *L, lml_json_writer *w, int part, int entry, const char *field)
{
    if (lua_getfield(L, entry, field) == LUA_TSTRING) {
        lml_result_withheld_push(L, part, lua_gettop(L));
        name(w, field);
        lml_result_datum_put_text(L, w, -1);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* Whose metal a line weighs, and what it is taken to be: an entry of the record has them from here.
 */
static void put_metal(lua_State *L, lml_json_writer *w, int part, int entry)
{
    put_words(L, w, part, entry, "owner");
    lua_getfield(L, entry, "fineness");
    if (lml_class_test(L, -1, LML_CLASS_VALUE) &&
        !lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
        name(w, "fineness");
        lml_json_write_open_record(w);
        lml_result_datum_put(L, w, lua_gettop(L), NULL);
        lml_json_write_close(w);
    }
    lua_pop(L, 1);
}

static void put_line(lua_State *L, lml_json_writer *w, int part, int entry, const char *page)
{
    put_words(L, w, part, entry, "label");
    lml_result_datum_put_field(L, w, entry, "of");
    lua_getfield(L, entry, "of");
    lua_getfield(L, entry, "value");
    lua_insert(L, -2); /* the name stays on the stack while it is looked at */
    bool withheld = lml_result_withheld_figure(L, part, lua_tostring(L, -1), lua_gettop(L) - 1);
    lua_pop(L, 1);
    if (withheld) {
        name(w, "withheld");
        lml_json_write_yes_no(w, true);
    } else {
        lua_getfield(L, entry, "unit");
        name(w, "value");
        put_figure(L, w, -2, page, lua_tostring(L, -1));
        lua_pop(L, 1);
    }
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    lua_getfield(L, entry, "from");
    if (lua_type(L, -1) == LUA_TSTRING) {
        lml_result_withheld_push(L, part, lua_gettop(L));
        lml_json_write_member(w, "origin", lua_tostring(L, -1));
        lua_pop(L, 1);
    } else if (v && v->origin) {
        lml_json_write_member(w, "origin", lml_origin_name((lml_origin)v->origin));
    }
    lua_pop(L, 2);
    put_words(L, w, part, entry, "record");
    put_metal(L, w, part, entry);
    lua_getfield(L, entry, "big");
    if (lua_toboolean(L, -1)) {
        name(w, "big");
        lml_json_write_yes_no(w, true);
    }
    lua_pop(L, 1);
}

static void put_row(lua_State *L, lml_json_writer *w, int part, int row, const char *page)
{
    row = lua_absindex(L, row);
    lml_json_write_open_list(w);
    lua_Integer n = (lua_Integer)lua_rawlen(L, row);
    for (lua_Integer i = 1; i <= n; i++) {
        lua_rawgeti(L, row, i);
        if (lua_isboolean(L, -1) && !lua_toboolean(L, -1)) {
            lml_json_write_null(w);
        } else if (lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
            lml_json_write_open_record(w);
            name(w, "withheld");
            lml_json_write_yes_no(w, true);
            lml_json_write_close(w);
        } else {
            put_figure(L, w, -1, page, NULL);
        }
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
}

static void put_grid(lua_State *L, lml_json_writer *w, int part, int entry, const char *page)
{
    lua_getfield(L, entry, "columns");
    name(w, "columns");
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        lml_what_push_text(L, -1);
        lml_result_withheld_push(L, part, lua_gettop(L));
        lml_result_datum_put_text(L, w, -1);
        lua_pop(L, 3);
    }
    lml_json_write_close(w);
    lua_getfield(L, entry, "rows");
    name(w, "rows");
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        put_row(L, w, part, -1, page);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
    if (lua_getfield(L, entry, "total") == LUA_TTABLE) {
        name(w, "total");
        put_row(L, w, part, -1, page);
    }
    lua_pop(L, 3);
}

/* The names that a remark withholds, as "recipe.name". */
static void put_withholds(lua_State *L, lml_json_writer *w, int part, int entry)
{
    if (lua_getfield(L, entry, "withholds") == LUA_TTABLE) {
        name(w, "withholds");
        lml_json_write_open_list(w);
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
            lua_getfield(L, part, "recipe");
            lua_rawgeti(L, -2, i);
            lua_pushfstring(L, "%s.%s", lua_tostring(L, -2), lua_tostring(L, -1));
            lml_result_datum_put_text(L, w, -1);
            lua_pop(L, 3);
        }
        lml_json_write_close(w);
    }
    lua_pop(L, 1);
}

/* "recipe/code". A note's may be a withheld figure with hyphens in it: then "recipe/withheld". */
static void put_code(lua_State *L, lml_json_writer *w, int part, int entry, bool note)
{
    lua_getfield(L, entry, "code");
    const char *code = lua_tostring(L, -1), *own = strchr(code, '/');
    own = own ? own + 1 : code;
    luaL_gsub(L, own, "-", " ");
    if (note && lml_result_withheld_text(L, part, NULL, lua_gettop(L))) {
        lua_pushlstring(L, code, (size_t)(own - code));
        lua_pushliteral(L, "withheld");
        lua_concat(L, 2);
    } else {
        lua_pushvalue(L, -2);
    }
    name(w, "code");
    lml_result_datum_put_text(L, w, -1);
    lua_pop(L, 3);
}

void lml_result_sheet_put_remark(lua_State *L, lml_json_writer *w, int part, int entry)
{
    lml_result_datum_put_field(L, w, entry, "level");
    lua_getfield(L, entry, "level");
    bool note = strcmp(lua_tostring(L, -1), "note") ==
                0; /* whoever decides a stop reads the figures that it is about */
    lua_pop(L, 1);
    put_code(L, w, part, entry, note);
    if (note)
        put_words(L, w, part, entry, "text");
    else
        lml_result_datum_put_field(L, w, entry, "text");
    lml_result_datum_put_field(L, w, entry, "reason");
    lml_result_datum_put_field(L, w, entry, "by");
    lua_getfield(L, entry, "lapsed");
    if (lua_toboolean(L, -1)) {
        name(w, "lapsed");
        lml_json_write_yes_no(w, true);
    }
    lua_pop(L, 1);
    put_withholds(L, w, part, entry);
}

/* A sentence. One that has a figure that is withheld is left out whole: what stands beside the
 * figure gives it away. */
static void put_text(lua_State *L, lml_json_writer *w, int part, int entry)
{
    lml_result_datum_put_field(L, w, entry, "of");
    lua_getfield(L, entry, "of");
    lua_getfield(L, entry, "text");
    if (lml_result_withheld_text(L, part, lua_tostring(L, -2), lua_gettop(L))) {
        name(w, "withheld");
        lml_json_write_yes_no(w, true);
    } else {
        name(w, "text");
        lml_result_datum_put_text(L, w, -1);
    }
    lua_pop(L, 2);
}

static void put_entries(lua_State *L, lml_json_writer *w, int part, const char *page);

/* Whether its recipe, or one that used it, failed. */
static bool is_failed(lua_State *L, int part)
{
    bool failed = false;
    lua_pushvalue(L, part);
    while (!failed && lua_istable(L, -1)) {
        lua_getfield(L, -1, "failed");
        failed = lua_toboolean(L, -1);
        lua_getfield(L, -2, "outer");
        lua_replace(L, -3);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return failed;
}

/* Push the entries of the page that are printed, a list: of a part whose recipe failed, which no
 * gate has looked at, the remarks only. */
static void push_entries(lua_State *L, int part, const char *page)
{
    lua_getfield(L, part, "pages");
    lua_getfield(L, -1, page);
    lua_remove(L, -2);
    if (!is_failed(L, part))
        return;
    int entries = lua_gettop(L);
    lua_newtable(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        lua_rawgeti(L, entries, i);
        lua_getfield(L, -1, "is");
        const char *is = lua_tostring(L, -1);
        bool stays = strcmp(is, "remark") == 0 || strcmp(is, "part") == 0;
        lua_pop(L, 1);
        if (stays)
            lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
        else
            lua_pop(L, 1);
    }
    lua_remove(L, entries);
}

bool lml_result_sheet_has_entries(lua_State *L, int part, const char *page)
{
    lml_box_need_stack(L, 12);
    push_entries(L, part, page);
    bool any = false;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1) && !any; i++) {
        lua_rawgeti(L, -1, i);
        if (lua_getfield(L, -1, "part") == LUA_TTABLE)
            any = lml_result_sheet_has_entries(L, lua_gettop(L), page);
        else
            any = true;
        lua_pop(L, 2);
    }
    lua_pop(L, 1);
    return any;
}

static void put_entry(lua_State *L, lml_json_writer *w, int part, int entry, const char *page)
{
    lua_getfield(L, entry, "is");
    const char *is = lua_tostring(L, -1);
    int child = 0;
    if (strcmp(is, "part") == 0) {
        lua_getfield(L, entry, "part");
        child = lua_gettop(L);
        if (!lml_result_sheet_has_entries(L, child, page)) {
            lua_pop(L, 2);
            return;
        }
    }
    lml_json_write_open_record(w);
    lml_json_write_member(w, "is", is);
    if (child) {
        lml_result_datum_put_field(L, w, child, "recipe");
        lml_result_datum_put_field(L, w, child, "title");
        name(w, "entries");
        put_entries(L, w, child, page);
        lua_pop(L, 1);
    } else if (strcmp(is, "line") == 0 || strcmp(is, "total") == 0) {
        put_line(L, w, part, entry, page);
    } else if (strcmp(is, "grid") == 0) {
        put_grid(L, w, part, entry, page);
    } else if (strcmp(is, "remark") == 0) {
        lml_result_sheet_put_remark(L, w, part, entry);
    } else if (strcmp(is, "text") == 0) {
        put_text(L, w, part, entry);
    } else {
        put_words(L, w, part, entry, "label");
        put_words(L, w, part, entry, "text");
        put_words(L, w, part, entry, "record");
        put_metal(L, w, part, entry);
    }
    lml_json_write_close(w);
    lua_pop(L, 1);
}

static void put_entries(lua_State *L, lml_json_writer *w, int part, const char *page)
{
    lml_box_need_stack(L, 16);
    push_entries(L, part, page);
    int entries = lua_gettop(L);
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        lua_rawgeti(L, entries, i);
        put_entry(L, w, part, lua_gettop(L), page);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
    lua_pop(L, 1);
}

void lml_result_sheet_put(lua_State *L, lml_json_writer *w, int part, const char *page)
{
    put_entries(L, w, part, page);
}
