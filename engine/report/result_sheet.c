#include "report/result_sheet.h"

#include "run/part.h"
#include "cell/state.h"
#include "cell/what.h"
#include "report/marks.h"
#include "report/result_datum.h"
#include "report/result_figure.h"
#include "report/result_line.h"
#include "report/result_picture.h"
#include "report/result_withheld.h"

#include <lauxlib.h>
#include <string.h>

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_word(w, text);
}

/* A box to tick or to write into. */
static void put_box(lua_State *L, lml_json_writer *w, int part, int cell)
{
    lml_json_write_open_record(w);
    name(w, "box");
    lml_json_write_yes_no(w, true);
    lua_getfield(L, cell, "box");
    if (lua_rawlen(L, -1) > 0) {
        lml_result_withheld_push(L, part, lua_gettop(L));
        name(w, "record");
        lml_result_datum_put_text(L, w, -1);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    lml_json_write_close(w);
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
        } else if (lua_istable(L, -1)) {
            put_box(L, w, part, lua_gettop(L));
        } else if (lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
            lml_json_write_open_record(w);
            name(w, "withheld");
            lml_json_write_yes_no(w, true);
            lml_json_write_close(w);
        } else {
            lml_result_figure_put(L, w, -1, (lml_result_figure){.page = page}, false);
        }
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
}

/* The first cell of the row that is withheld, where nothing but boxes and blanks is beside it; 0.
 */
static lua_Integer withheld_cell(lua_State *L, int part, int row)
{
    lua_Integer first = 0;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, row); i++) {
        lua_rawgeti(L, row, i);
        bool figure = !lua_istable(L, -1) && (!lua_isboolean(L, -1) || lua_toboolean(L, -1));
        bool withheld = figure && lml_result_withheld_figure(L, part, NULL, lua_gettop(L));
        lua_pop(L, 1);
        if (figure && !withheld)
            return 0;
        if (withheld && first == 0)
            first = i;
    }
    return first;
}

static bool is_row_withheld(lua_State *L, int part, int rows, lua_Integer i)
{
    lua_rawgeti(L, rows, i);
    bool withheld = withheld_cell(L, part, lua_gettop(L)) > 0;
    lua_pop(L, 1);
    return withheld;
}

/* Whether nothing of the rows at the index may be said: that is said once, with the reason. */
static bool put_withheld_rows(lua_State *L, lml_json_writer *w, int part, int rows)
{
    lua_Integer count = (lua_Integer)lua_rawlen(L, rows);
    for (lua_Integer i = 1; i <= count; i++)
        if (!is_row_withheld(L, part, rows, i))
            return false;
    if (count == 0)
        return false;
    name(w, "withheld");
    lml_json_write_yes_no(w, true);
    lua_rawgeti(L, rows, 1);
    lua_rawgeti(L, -1, withheld_cell(L, part, lua_gettop(L)));
    lml_result_withheld_put_by(L, w, part, NULL, lua_gettop(L));
    lua_pop(L, 2);
    name(w, "rows");
    lml_json_write_open_list(w);
    lml_json_write_close(w);
    return true;
}

/* Of rows in a row of which nothing may be said one is put: how many there are says something too.
 */
static void put_rows(lua_State *L, lml_json_writer *w, int part, int rows, const char *page)
{
    bool before = false;
    name(w, "rows");
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, rows); i++) {
        bool withheld = is_row_withheld(L, part, rows, i);
        if (!withheld || !before) {
            lua_rawgeti(L, rows, i);
            put_row(L, w, part, -1, page);
            lua_pop(L, 1);
        }
        before = withheld;
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
    if (put_withheld_rows(L, w, part, lua_gettop(L))) {
        lua_pop(L, 2);
        return;
    }
    put_rows(L, w, part, lua_gettop(L), page);
    if (lua_getfield(L, entry, "total") == LUA_TTABLE) {
        name(w, "total");
        put_row(L, w, part, -1, page);
    }
    lua_pop(L, 3);
}

void lml_result_sheet_put_withholds(lua_State *L, lml_json_writer *w, int part, int remark)
{
    if (lua_getfield(L, remark, "withholds") == LUA_TTABLE) {
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

/* "recipe/code". A note's may be a withheld figure with hyphens in it: then "recipe/withheld". That
 * of a gate is lemel's own, and on paper it is the word of the hazard. */
static void put_code(lua_State *L, lml_json_writer *w, int part, int entry, bool note)
{
    lua_getfield(L, entry, "code");
    const char *code = lua_tostring(L, -1), *own = strchr(code, '/');
    own = own ? own + 1 : code;
    int top = lua_gettop(L);
    if (note && !lml_run_of(L)->nothing_withheld) {
        luaL_gsub(L, own, "-", " ");
        if (lml_result_withheld_text(L, part, NULL, top + 1)) {
            lua_pushlstring(L, code, (size_t)(own - code));
            lua_pushliteral(L, "withheld");
            lua_concat(L, 2);
            lua_replace(L, top);
        }
        lua_settop(L, top);
    }
    name(w, "code");
    lml_result_datum_put_text(L, w, -1);
    lua_pop(L, 1);
}

/* That a recipe failed, and with which error, unless that may show a withheld figure; where it
 * stands is no secret. */
static void put_failure(lua_State *L, lml_json_writer *w, int part, int entry)
{
    lua_getfield(L, part, "recipe");
    lua_getfield(L, entry, "failure");
    const int message = lua_gettop(L);
    if (!lml_result_withheld_failure(L, part, message)) {
        lua_pop(L, 2);
        lml_result_datum_put_field(L, w, entry, "text");
        return;
    }
    const int place = (int)lml_result_withheld_place(L, message);
    const char *recipe = lua_tostring(L, message - 1), *at = lua_tostring(L, message);
    lua_pushlstring(L, at, place > 2 ? (size_t)place - 2 : 0);
    lua_pushfstring(L,
                    "%s failed%s%s, so none of its figures are printed, and not the error either: "
                    "it may show a figure that is withheld",
                    recipe, place > 2 ? " at " : "", lua_tostring(L, -1));
    name(w, "text");
    lml_result_datum_put_text(L, w, -1);
    lua_settop(L, message - 2);
}

static void put_remark(lua_State *L, lml_json_writer *w, int part, int entry)
{
    lml_result_datum_put_field(L, w, entry, "level");
    lua_getfield(L, entry, "level");
    const char *level = lua_tostring(L, -1);
    /* The person who decides has to see the figures to be decided. A caution stays, and what it
     * says of a figure that is withheld does not. */
    bool note = strcmp(level, "note") == 0 || strcmp(level, "caution") == 0;
    lua_getfield(L, entry, "gate");
    put_code(L, w, part, entry, note && !lua_toboolean(L, -1));
    lua_pop(L, 2);
    bool failure = lua_getfield(L, entry, "failure") == LUA_TSTRING;
    lua_pop(L, 1);
    if (failure)
        put_failure(L, w, part, entry);
    else if (note)
        lml_result_figure_put_words(L, w, part, entry, "text");
    else
        lml_result_datum_put_field(L, w, entry, "text");
    lml_result_datum_put_field(L, w, entry, "reason");
    lml_result_datum_put_field(L, w, entry, "by");
    lua_getfield(L, entry, "lapsed");
    if (lua_toboolean(L, -1)) {
        name(w, "lapsed");
        lml_json_write_yes_no(w, true);
    }
    lua_getfield(L, entry, "all_jobs");
    if (lua_toboolean(L, -1)) {
        name(w, "all_jobs");
        lml_json_write_yes_no(w, true);
    }
    lua_pop(L, 2);
    lml_result_datum_put_field(L, w, entry, "house");
    lml_result_figure_put_words(L, w, part, entry, "concerns");
    lml_result_figure_put_words(L, w, part, entry, "ask");
    lml_result_sheet_put_withholds(L, w, part, entry);
}

void lml_result_sheet_put_remark(lua_State *L, lml_json_writer *w, int part, int entry)
{
    const lml_run *run = lml_run_of(L);
    lml_result_figures *all = run->figures;
    if (run->marks || !all || all->to != w->to) {
        put_remark(L, w, part, entry);
        return;
    }
    const void *same = lua_topointer(L, entry);
    const size_t row = (uintptr_t)same / 64 % LML_RESULT_REMARKS, place = lml_json_write_place(w);
    if (all->remark[row].entry == same) {
        lml_box_charge(L, all->remark[row].cost); /* it may be gone, by its address */
        lml_json_write_again(w, all->remark[row].place, all->remark[row].length);
        return;
    }
    const uint64_t spent = run->box.spent;
    put_remark(L, w, part, entry);
    if (w->status || w->to->status)
        return;
    all->remark[row].cost = run->box.spent - spent;
    all->remark[row].entry = same;
    all->remark[row].place = place;
    all->remark[row].length = w->to->length - place;
}

/* A sentence. One that has a figure that is withheld is left out whole: its context would reveal
 * the figure. */
static void put_text(lua_State *L, lml_json_writer *w, int part, int entry)
{
    lml_result_datum_put_field(L, w, entry, "of");
    lua_getfield(L, entry, "of");
    lua_getfield(L, entry, "text");
    if (lml_result_withheld_text(L, part, lua_tostring(L, -2), lua_gettop(L))) {
        name(w, "withheld");
        lml_json_write_yes_no(w, true);
        lml_result_withheld_put_by(L, w, part, lua_tostring(L, -2), lua_gettop(L));
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
    if (!lml_run_of(L)->part_failed)
        return false;
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
 * gate has checked, the remarks only. */
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

static void put_part(lua_State *L, lml_json_writer *w, int child, const char *page)
{
    lml_result_datum_put_field(L, w, child, "recipe");
    lml_marks_enter(L, child);
    lml_result_figure_put_words(L, w, child, child, "title");
    lua_getfield(L, child, "joined");
    if (lua_toboolean(L, -1)) {
        name(w, "joined");
        lml_json_write_yes_no(w, true);
    }
    lua_pop(L, 1);
    name(w, "entries");
    put_entries(L, w, child, page);
}

static void put_sign(lua_State *L, lml_json_writer *w, int part, int entry)
{
    lml_result_figure_put_words(L, w, part, entry, "label");
    lua_getfield(L, entry, "who");
    name(w, "who");
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, -1); i++) {
        lua_rawgeti(L, -1, i);
        lml_result_withheld_push(L, part, lua_gettop(L));
        lml_result_datum_put_text(L, w, -1);
        lua_pop(L, 2);
    }
    lml_json_write_close(w);
    lua_pop(L, 1);
}

static bool is_one_of(const char *is, const char *const *names)
{
    while (*names && strcmp(is, *names) != 0)
        names++;
    return *names;
}

static void put_entry(lua_State *L, lml_json_writer *w, lml_result_ladder *ladder, int part,
                      int entry, const char *page)
{
    static const char *const lines[] = {"line", "total", NULL};
    static const char *const pictures[] = {"curve", "flow", "section", NULL};
    lua_getfield(L, entry, "is");
    const char *is = lua_tostring(L, -1);
    lua_getfield(L, entry, "part");
    int child = lua_gettop(L);
    if (lua_istable(L, child) && !lml_result_sheet_has_entries(L, child, page)) {
        lua_pop(L, 2);
        return;
    }
    lml_marks_enter(L, entry);
    lml_json_write_open_record(w);
    lml_json_write_member(w, "is", is);
    if (lua_istable(L, child))
        put_part(L, w, child, page);
    else if (is_one_of(is, lines))
        lml_result_line_put(L, w, ladder, part, entry, page);
    else if (is_one_of(is, pictures))
        lml_result_picture_put(L, w, part, entry, page);
    else if (strcmp(is, "grid") == 0)
        put_grid(L, w, part, entry, page);
    else if (strcmp(is, "sign") == 0)
        put_sign(L, w, part, entry);
    else if (strcmp(is, "remark") == 0)
        lml_result_sheet_put_remark(L, w, part, entry);
    else if (strcmp(is, "text") == 0)
        put_text(L, w, part, entry);
    else
        lml_result_figure_put_words(L, w, part, entry, "text");
    lml_json_write_close(w);
    lua_pop(L, 2);
}

/* Where the entry on top of the stack comes in the order that the page was given: 0 for what that
 * does not name. */
static lua_Integer place_of(lua_State *L, int order)
{
    int top = lua_gettop(L);
    lua_Integer place = 0;
    if (lua_getfield(L, top, "part") == LUA_TTABLE) {
        lua_getfield(L, -1, "recipe");
        lua_rawget(L, order);
        place = lua_tointeger(L, -1);
    }
    lua_settop(L, top);
    return place;
}

/* Push a block with the place of each entry of the list in the order. */
static const lua_Integer *push_places(lua_State *L, int entries, int order, lua_Integer count)
{
    lua_Integer *place = lua_newuserdatauv(L, (size_t)count * sizeof *place, 0);
    lml_box_charge(L, (uint64_t)count);
    for (lua_Integer i = 0; i < count; i++) {
        lua_rawgeti(L, entries, i + 1);
        place[i] = place_of(L, order);
        lua_pop(L, 1);
    }
    return place;
}

/* Put the list of entries on top of the stack into the order that the recipe asked for: a new list
 * in its place. */
static void set_order(lua_State *L, int part, const char *page)
{
    int entries = lua_gettop(L);
    lua_getfield(L, part, "order");
    if (!lua_istable(L, -1) || lua_getfield(L, -1, page) != LUA_TTABLE) {
        lua_settop(L, entries);
        return;
    }
    int order = lua_gettop(L);
    lua_Integer count = (lua_Integer)lua_rawlen(L, entries), named = 0, put = 0;
    for (lua_pushnil(L); lua_next(L, order); lua_pop(L, 1))
        named++;
    lua_createtable(L, (int)count, 0);
    const lua_Integer *place_in = push_places(L, entries, order, count);
    for (lua_Integer place = 1; place <= named + 1; place++) {
        lml_box_charge(L, (uint64_t)count);
        for (lua_Integer i = 0; i < count; i++) {
            if (place_in[i] != (place <= named ? place : 0))
                continue;
            lua_rawgeti(L, entries, i + 1);
            lua_rawseti(L, order + 1, ++put);
        }
    }
    lua_settop(L, order + 1);
    lua_replace(L, entries);
    lua_settop(L, entries);
}

static void put_entries(lua_State *L, lml_json_writer *w, int part, const char *page)
{
    lml_box_need_stack(L, 16);
    push_entries(L, part, page);
    set_order(L, part, page);
    int entries = lua_gettop(L);
    lml_result_ladder ladder = {.end = 0};
    lml_json_write_open_list(w);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        lml_marks_enter(L, 0);
        lml_result_line_step(L, &ladder, part, entries, i);
        lua_rawgeti(L, entries, i);
        put_entry(L, w, &ladder, part, lua_gettop(L), page);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
    lua_pop(L, 1);
}

void lml_result_sheet_put(lua_State *L, lml_json_writer *w, int part, const char *page)
{
    put_entries(L, w, part, page);
}
