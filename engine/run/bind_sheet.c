#include "run/bind_sheet.h"
#include "run/engine.h"
#include "run/run.h"
#include "shelf/recipe.h"
#include "run/part.h"
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/word.h"
#include "cell/wording.h"

#include <string.h>

/* ---- pages -------------------------------------------------------------------------------------
 */

static bool is_not_of(lua_State *L, const void *self)
{
    (void)self;
    return lua_type(L, -2) != LUA_TSTRING ||
           !lml_span_is(lml_what_need_text(L, -2, "a name"), "of");
}

static int words(lua_State *L, const char *is)
{
    lua_settop(L, 2);
    lml_bind_sheet_begin(L, is);
    lml_wording_push(L, 2, "a text on a sheet", LML_PART_TEXT);
    lua_setfield(L, -2, "text");
    return lml_bind_sheet_end(L);
}

static int page_heading(lua_State *L)
{
    return words(L, "heading");
}

/* page:text("The studio buys it for ...", { of = "purchase" }): left out while the give is
 * withheld. */
static int page_text(lua_State *L)
{
    bool named = lua_istable(L, 3);
    if (!lua_isnoneornil(L, 3) && !named)
        return lml_raise_text(L, LML_BAD_RECIPE,
                              "the option of a text must be a table: { of = \"...\" }");
    lua_settop(L, 3);
    lml_bind_sheet_begin(L, "text");
    lml_wording_push_paragraph(L, 2, "a text on a sheet", LML_PART_TEXT);
    lua_setfield(L, 4, "text");
    if (named) {
        if (lml_key_find_odd(L, 3, is_not_of, NULL))
            return lml_raise_text(L, LML_BAD_RECIPE,
                                  "the only option of a text is 'of', the give it depends on");
        if (lua_getfield(L, 3, "of") != LUA_TSTRING)
            return lml_raise_text(L, LML_BAD_RECIPE, "the option 'of' of a text must be a text");
        lml_bind_sheet_check_give(L, lua_gettop(L));
        lua_setfield(L, 4, "of");
    }
    return lml_bind_sheet_end(L);
}

/* A cell that is a box: { box = true }, or { box = "what it records" }. Its place in the row is on
 * top of the stack. */
static void push_box(lua_State *L, int cell)
{
    static const char *const known[] = {"box", NULL};
    lml_bind_sheet_check_options(L, cell, "a box in a grid", known);
    lua_createtable(L, 0, 2);
    lua_pushliteral(L, "");
    if (lua_getfield(L, cell, "box") == LUA_TSTRING) {
        lml_wording_push(L, -1, "what the box records", LML_PART_TEXT);
        lua_replace(L, -3);
    } else if (!lua_toboolean(L, -1)) {
        lml_raise_hint(L, LML_BAD_RECIPE, "write { box = true }, or { box = \"raw inside\" }",
                       "a cell of a grid is a figure, a text or a box, and a table was given");
    }
    lua_pop(L, 1);
    lua_setfield(L, -2, "box");
}

static void copy_row(lua_State *L, int row, lua_Integer columns)
{
    lml_view_push_content(L, row, "a row of a grid");
    if ((lua_Integer)lua_rawlen(L, -1) > columns)
        lml_raise_text(L, LML_BAD_RECIPE,
                       "a row of a grid has more cells than the grid has columns");
    lua_createtable(L, (int)columns, 0);
    for (lua_Integer i = 1; i <= columns; i++) {
        lua_rawgeti(L, -2, i);
        if (lua_isnil(L, -1)) {
            lua_pop(L, 1);
            lua_pushboolean(L, 0); /* an empty cell */
        } else if (lua_istable(L, -1)) {
            push_box(L, lua_gettop(L));
            lua_remove(L, -2);
        } else {
            lml_bind_sheet_push_figure(L, lua_gettop(L), "a cell of a grid");
            lua_remove(L, -2);
        }
        lua_rawseti(L, -2, i);
    }
    lua_remove(L, -2);
}

enum { GRID_COLUMNS = 12, GRID_ROWS = 500, SIGN_MOST = 6 };

/* page:grid { columns = { "Lot", "Net" }, rows = { { "ring", m }, ... }, total = { "All", sum } }
 */
static int page_grid(lua_State *L)
{
    lua_settop(L, 2);
    if (!lua_istable(L, 2))
        return lml_raise_text(L, LML_BAD_RECIPE,
                              "a grid must be a table: { columns = { ... }, rows = { ... } }");
    lml_bind_sheet_begin(L, "grid");
    lua_getfield(L, 2, "columns");
    lml_view_push_content(L, -1, "the columns of a grid");
    lua_Integer columns = (lua_Integer)lua_rawlen(L, -1);
    if (columns < 1 || columns > GRID_COLUMNS)
        return lml_raise_text(L, LML_BAD_RECIPE, "a grid has 1 to %d columns", GRID_COLUMNS);
    copy_row(L, -1, columns);
    lua_setfield(L, 3, "columns");
    lua_getfield(L, 2, "rows");
    lml_view_push_content(L, -1, "the rows of a grid");
    lua_Integer rows = (lua_Integer)lua_rawlen(L, -1);
    if (rows > GRID_ROWS)
        return lml_raise_text(L, LML_BAD_RECIPE, "a grid has at most %d rows", GRID_ROWS);
    int list = lua_gettop(L);
    lua_createtable(L, (int)rows, 0);
    for (lua_Integer i = 1; i <= rows; i++) {
        lml_box_charge(L, LML_BIND_SHEET_ENTRY);
        lua_rawgeti(L, list, i);
        copy_row(L, -1, columns);
        lua_rawseti(L, list + 1, i);
        lua_pop(L, 1);
    }
    lua_setfield(L, 3, "rows");
    lua_getfield(L, 2, "total");
    if (!lua_isnil(L, -1)) {
        copy_row(L, -1, columns);
        lua_setfield(L, 3, "total");
    }
    lua_settop(L, 3);
    return lml_bind_sheet_end(L);
}

/* page:sign("Agreed", { "Client", "Date" }): lines to sign on. */
static int page_sign(lua_State *L)
{
    lua_settop(L, 3);
    lml_bind_sheet_begin(L, "sign");
    const int entry = 4;
    lml_wording_push(L, 2, "a text on a sheet", LML_PART_TEXT);
    lua_setfield(L, entry, "label");
    lml_view_push_content(L, 3, "who signs");
    lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
    if (count < 1 || count > SIGN_MOST)
        return lml_raise_hint(L, LML_BAD_RECIPE,
                              "write page:sign(\"Agreed\", { \"Client\", \"Date\" })",
                              "1 to %d sign, and not %d", SIGN_MOST, (int)count);
    lua_createtable(L, (int)count, 0);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, -2, i);
        lml_wording_push(L, -1, "who signs", LML_PART_TEXT);
        lua_rawseti(L, -3, i);
        lua_pop(L, 1);
    }
    lua_setfield(L, entry, "who");
    lua_settop(L, entry);
    return lml_bind_sheet_end(L);
}

/* ---- the sheet itself
 * ----------------------------------------------------------------------------
 */

/* sheet:order("client", { "quote", "stone" }): on that page these recipes, used here, come first.
 */
static int sheet_order(lua_State *L)
{
    lua_settop(L, 3);
    if (!lml_class_test(L, 1, LML_CLASS_SHEET))
        return lml_raise_hint(L, LML_BAD_RECIPE,
                              "call it with a colon: sheet:order(\"client\", { \"quote\" })",
                              "the sheet is needed before the colon");
    lml_span page = lml_what_need_text(L, 2, "a page");
    size_t i = 0;
    while (i < lml_part_pages() && !lml_span_is(page, lml_part_page(i)))
        i++;
    if (i == lml_part_pages())
        return lml_raise_text(L, LML_BAD_RECIPE, "a sheet has no '%.*s'", (int)page.length,
                              page.at);
    lml_view_push_content(L, 3, "the order of a page");
    lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
    lua_createtable(L, 0, (int)count);
    for (lua_Integer k = 1; k <= count; k++) {
        lml_box_charge(L, LML_BIND_SHEET_OPTION);
        lua_rawgeti(L, -2, k);
        lml_span name = lml_what_need_text(L, -1, "the name of a recipe");
        const lml_recipe *recipe = lml_run_of(L)->recipe;
        if (!recipe || !lml_recipe_uses(recipe, name))
            return lml_raise_hint(L, LML_BAD_RECIPE, "name it under uses = { ... }",
                                  "this recipe does not list '%.*s' in uses", (int)name.length,
                                  name.at);
        lua_pushinteger(L, k);
        lua_rawset(L, -3);
    }
    lua_getiuservalue(L, 1, 1);
    if (lua_getfield(L, -1, "order") == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, -3, "order");
    }
    lua_pushvalue(L, 2);
    lua_pushvalue(L, 5);
    lua_rawset(L, -3);
    return 0;
}

/* ---- opening -----------------------------------------------------------------------------------
 */

static int write_nothing(lua_State *L)
{
    (void)L;
    return 0;
}

/* Of a try (see face/tries.h) only the stops of a sheet are read, unless it shows what is wanted.
 */
static bool is_read(lua_State *L)
{
    const lml_run *run = lml_box_of(L)->run;
    if (!run || !run->engine->no_sheets)
        return true;
    lml_span name = lml_what_need_text(L, 2, "a name");
    return lml_span_is(name, "stop") || lml_span_is(name, "confirm");
}

/* Push the word of that name; false, with nil, where there is none. */
static bool push_word(lua_State *L)
{
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) == LUA_TNIL)
        return false;
    if (!is_read(L))
        lua_pushcfunction(L, write_nothing);
    return true;
}

static int sheet_index(lua_State *L)
{
    lml_span name = lml_what_need_text(L, 2, "a page");
    for (size_t i = 0; i < lml_part_pages(); i++) {
        if (lml_span_is(name, lml_part_page(i))) {
            lua_getiuservalue(L, 1, 1);
            lml_class_new(L, LML_CLASS_PAGE, 0, 2);
            lml_part_push_entries(L, 3, lml_part_page(i));
            lua_setiuservalue(L, 4, 1);
            lua_pushvalue(L, 3);
            lua_setiuservalue(L, 4, 2);
            return 1;
        }
    }
    if (push_word(L))
        return 1;
    return lml_raise_hint(L, LML_BAD_RECIPE,
                          "pages: bench piece client metal receipt consent card cost; remarks: "
                          "note caution stop confirm; order",
                          "a sheet has no '%.*s'", (int)name.length, name.at);
}

static int page_index(lua_State *L)
{
    if (push_word(L))
        return 1;
    lml_span name = lml_what_need_text(L, 2, "a name");
    return lml_raise_hint(L, LML_BAD_RECIPE,
                          "line weigh set measure tick total heading text box grid sign "
                          "curve flow section note caution stop confirm",
                          "a page has no '%.*s'", (int)name.length, name.at);
}

static int refuse_write(lua_State *L)
{
    return lml_raise_hint(L, LML_BAD_RECIPE, "write sheet.bench:line(\"label\", value)",
                          "a sheet is written by its own functions only");
}

void lml_bind_sheet_push(lua_State *L, int part)
{
    part = lua_absindex(L, part);
    lml_class_new(L, LML_CLASS_SHEET, 0, 1);
    lua_pushvalue(L, part);
    lua_setiuservalue(L, -2, 1);
}

#define OPTIONS "options are those of a line"
const lml_word lml_bind_sheet[] = {
    {"caution", lml_bind_sheet_caution, "code: string, text: string, options?: table", "",
     "Protects a person's health; nothing hides it. The option is concerns, a record or a give.",
     "sheet:caution(\"fume\", \"Burning wax gives fume: run the extractor\")", NULL},
    {"confirm", lml_bind_sheet_confirm,
     "code: string, text: string, gives?: string[], options?: table", "",
     "A stop until the job says who accepts it and why; with { all_jobs = true } the house may say "
     "it for all jobs.",
     "sheet:confirm(\"share\", \"Old metal is 63 % of the charge\", { \"out\" })", NULL},
    {"note", lml_bind_sheet_note, "code: string, text: string, options?: table", "",
     "Prints a note: something worth knowing.", "sheet:note(\"warm\", \"Warm the mould\")", NULL},
    {"order", sheet_order, "page: string, recipes: string[]", "",
     "On that page what these recipes wrote comes first; without it a page keeps the order of "
     "work.",
     "sheet:order(\"client\", {}) sheet.client:heading \"Quote\"", NULL},
    {"stop", lml_bind_sheet_stop, "code: string, text: string, gives?: string[], options?: table",
     "",
     "Withholds the gives it names, or all: the sheet prints DO NOT in their place. The option "
     "ask names the question whose answer would mend it.",
     "sheet:stop(\"crucible\", \"The charge is larger than the crucible holds\", { \"out\" })",
     NULL},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

const lml_word lml_bind_sheet_page[] = {
    {"box", lml_bind_sheet_box, "label: string, record: string, options?: table", "",
     "An empty box for a figure that is not known in advance; " OPTIONS ".",
     "sheet.bench:box(\"Weigh the tree dry\", \"tree\")", NULL},
    {"caution", lml_bind_sheet_caution, "code: string, text: string, options?: table", "",
     "As on the sheet, printed on this page.",
     "sheet.client:caution(\"nickel\", \"Nickel may raise a rash\")", NULL},
    {"confirm", lml_bind_sheet_confirm,
     "code: string, text: string, gives?: string[], options?: table", "",
     "As on the sheet, printed on this page.",
     "sheet.client:confirm(\"share\", \"Old metal is 63 % of the charge\", { \"out\" })", NULL},
    {"curve", lml_bind_sheet_curve, "of: table", "",
     "A picture: what a kiln or the like does over time. from, steps (to, rate, hold, begins, "
     "there, ends, name), and if need be title, of, unit, loaded, nobody, alone_most, reads. One "
     "that goes back in time is refused.",
     "sheet.bench:curve { from = Q \"20 °C\", steps = { { to = Q \"150 °C\", begins = Q "
     "\"2026-11-27T03:00\", there = Q \"2026-11-27T04:00\", ends = Q \"2026-11-27T05:00\" } } }",
     NULL},
    {"flow", lml_bind_sheet_flow, "of: table", "",
     "A picture: what goes from place to place. A list of moves, and if need be title, of, owners, "
     "marks (back, lost, open), foretold, step. One that does not add up is refused.",
     "sheet.metal:flow { { \"ring A\", \"melt\", Q \"7.9 g\" }, { \"melt\", \"casting\", Q \"7.9 "
     "g\" }, owners = { [\"ring A\"] = \"client\" } }",
     NULL},
    {"grid", page_grid, "of: table", "",
     "A table: columns, rows, total. The cell { box = true } is a box to tick.",
     "sheet.metal:grid { columns = { \"Lot\", \"Net\" }, rows = { { \"ring\", Q \"5.2 g\" } "
     "}, total = { \"All\", Q \"5.2 g\" } }",
     NULL},
    {"heading", page_heading, "text: string", "", "A heading.", "sheet.bench:heading \"Metal\"",
     NULL},
    {"line", lml_bind_sheet_line, "label: string, figure: any, options?: table", "",
     "A figure on a line of its own, to be read; options are record, unit, from, of, big, least, "
     "most, at, till, after, latest, owner and fineness of what is weighed, taken_from, way, "
     "way_owner, step, "
     "whole, also, chance, since (what was recorded before it is not shown).",
     "sheet.bench:line(\"Raw casting\", Q \"31 g\", { record = \"raw casting\", unit = \"dwt\" })",
     NULL},
    {"measure", lml_bind_sheet_measure, "label: string, figure?: any, options?: table", "",
     "What is read or weighed and written down, with the figure it should be; " OPTIONS ".",
     "sheet.bench:measure(\"Flask held\", nil, { least = Q \"60 min\", record = \"flask held\" })",
     NULL},
    {"note", lml_bind_sheet_note, "code: string, text: string, options?: table", "",
     "As on the sheet, printed on this page.",
     "sheet.client:note(\"polish\", \"The inside stays unpolished\")", NULL},
    {"section", lml_bind_sheet_section, "of: table", "",
     "A picture: a body in its vessel, both round. vessel and body (name, diameter, height, foot), "
     "and if need be title, of, least (wall, top), fill, over.",
     "sheet.bench:section { vessel = { diameter = Q \"63 mm\", height = Q \"76 mm\" }, body = { "
     "diameter = Q \"40 mm\", height = Q \"50 mm\", foot = Q \"10 mm\" }, least = { wall = Q \"8 "
     "mm\" } }",
     NULL},
    {"set", lml_bind_sheet_set, "label: string, figure: any, options?: table", "",
     "What is set on a machine; " OPTIONS ".",
     "sheet.bench:set(\"Furnace\", Q \"1000 °C\", { record = \"furnace\" })", NULL},
    {"sign", page_sign, "label: string, who: string[]", "", "Lines to sign on.",
     "sheet.client:sign(\"Agreed\", { \"Client\", \"Date\" })", NULL},
    {"stop", lml_bind_sheet_stop, "code: string, text: string, gives?: string[], options?: table",
     "", "As on the sheet, printed on this page.",
     "sheet.client:stop(\"crucible\", \"The charge is larger than the crucible holds\", { "
     "\"out\" })",
     NULL},
    {"text", page_text, "text: string, options?: table", "",
     "A paragraph; the option is of, the give it depends on: it is left out while that is "
     "withheld.",
     "sheet.client:text \"Your metal is returned\"", NULL},
    {"tick", lml_bind_sheet_tick, "label: string, figure?: any, options?: table", "",
     "What is done and ticked off, or a gate; the figure may be left out, the table then follows "
     "the label; " OPTIONS ".",
     "sheet.bench:tick(\"POUR\", { record = \"poured\" })", NULL},
    {"total", lml_bind_sheet_total, "label: string, figure: any, options?: table", "",
     "A sum with a rule above it; after lines to weigh, the final reading of the scale.",
     "sheet.cost:total(\"Total\", Q \"120 USD\")", NULL},
    {"weigh", lml_bind_sheet_weigh, "label: string, figure: any, options?: table", "",
     "What is weighed out to this figure; " OPTIONS ". Several in a row, ended by a total, are put "
     "on one tared scale.",
     "sheet.bench:weigh(\"Powder\", Q \"270 g\", { record = \"powder\", step = Q \"1 g\" })", NULL},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

static void open_class(lua_State *L, lml_class class, lua_CFunction index, const lml_word *methods)
{
    lml_class_push(L, class);
    lua_newtable(L);
    lml_word_set_all(L, methods);
    lua_pushcclosure(L, index, 1);
    lua_setfield(L, -2, "__index");
    lua_pushcfunction(L, refuse_write);
    lua_setfield(L, -2, "__newindex");
    lua_pop(L, 1);
}

void lml_bind_sheet_open(lua_State *L)
{
    open_class(L, LML_CLASS_SHEET, sheet_index, lml_bind_sheet);
    open_class(L, LML_CLASS_PAGE, page_index, lml_bind_sheet_page);
}
