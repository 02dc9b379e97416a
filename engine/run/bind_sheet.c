#include "run/bind_sheet.h"
#include "words/bind.h"
#include "run/run.h"
#include "run/part.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/word.h"
#include "cell/wording.h"
#include "value/write.h"
#include "words/nil_name.h"

#include <string.h>

/* ---- pages -------------------------------------------------------------------------------------
 */

/* A page's user value 1 is its list of entries, 2 the part. */
static void begin_entry(lua_State *L, const char *is)
{
    if (!lml_class_test(L, 1, LML_CLASS_PAGE))
        lml_raise_hint(L, LML_BAD_RECIPE, "call it with a colon: sheet.bench:line(\"...\", value)",
                       "a page of the sheet is due before the colon");
    lml_box_charge(L, LML_BIND_SHEET_ENTRY);
    lua_createtable(L, 0, 6);
    lua_pushstring(L, is);
    lua_setfield(L, -2, "is");
}

static int end_entry(lua_State *L)
{
    lua_getiuservalue(L, 1, 1);
    lua_insert(L, -2);
    lml_part_append(L, -2);
    return 0;
}

static bool printable(lua_State *L, int index)
{
    int type = lua_type(L, index);
    return type == LUA_TNUMBER || type == LUA_TSTRING || type == LUA_TBOOLEAN ||
           lml_class_test(L, index, LML_CLASS_VALUE) || lml_class_test(L, index, LML_CLASS_ALLOY);
}

static void set_figure(lua_State *L, int index, const char *where)
{
    if (lua_type(L, index) == LUA_TNUMBER && !lml_figure_is_finite(L, index))
        lml_raise_hint(L, LML_BAD_RECIPE, "see to it that nothing is divided by zero",
                       "%s: %s cannot be printed", where, lml_what_is(L, index));
    if (!printable(L, index)) {
        char name[80];
        if (lua_isnil(L, index) && lml_nil_name(L, name, sizeof name))
            lml_raise_text(L, LML_BAD_RECIPE, "%s: '%s' is nothing (nil)", where, name);
        lml_raise_text(L, LML_BAD_RECIPE, "%s: a figure or a text is due, and %s was given", where,
                       lml_what_is(L, index));
    }
    if (lua_type(L, index) == LUA_TSTRING)
        lml_wording_push(L, index, "a text on a sheet", LML_PART_TEXT);
    else
        lua_pushvalue(L, index);
}

/* The unit of a line must fit its figure; said now, where the line stands. */
static void check_unit(lua_State *L, int figure, int unit)
{
    const lml_value *v = lml_class_test(L, figure, LML_CLASS_VALUE);
    lml_value shown;
    lml_error e;
    if (!v)
        lml_raise_text(L, LML_BAD_RECIPE, "a line has a unit, and its figure is %s",
                       lml_what_is(L, figure));
    if (lml_write_as(v, lml_what_need_text(L, unit, "a unit in quotes"), &shown, &e))
        lml_raise(L, &e);
}

/* The give that a line prints must be one of the recipe's; the page's user value 2 is its part. */
static void check_give(lua_State *L, int name)
{
    lua_getiuservalue(L, 1, 2);
    lua_getfield(L, -1, "gives");
    lua_pushvalue(L, name);
    if (lua_rawget(L, -2) == LUA_TNIL)
        lml_raise_text(L, LML_BAD_RECIPE, "a line prints '%s', and the recipe does not give it",
                       lua_tostring(L, name));
    lua_pop(L, 3);
}

/* What may be said of a line; of a box, which has no figure, only what is said of any metal. */
typedef enum option_kind { TEXT, YES, FINENESS } option_kind;
static const struct {
    const char *name;
    option_kind kind;
    bool of_box;
} OPTIONS[] = {{"record", TEXT, false},     {"unit", TEXT, false}, {"from", TEXT, false},
               {"of", TEXT, false},         {"big", YES, false},   {"owner", TEXT, true},
               {"fineness", FINENESS, true}};
enum { OPTION_COUNT = sizeof OPTIONS / sizeof *OPTIONS };

static bool is_no_option(lua_State *L, const void *of_box)
{
    if (lua_type(L, -2) != LUA_TSTRING)
        return true;
    lml_span name = lml_what_need_text(L, -2, "a name");
    for (int i = 0; i < OPTION_COUNT; i++)
        if (lml_span_is(name, OPTIONS[i].name))
            return of_box && !OPTIONS[i].of_box;
    return true;
}

/* Where a figure is from is said by the engine where it knows: a line may add it, and not say
 * something else. */
static void check_from(lua_State *L, int figure, int from)
{
    const lml_value *v = lml_class_test(L, figure, LML_CLASS_VALUE);
    const char *known = v && v->origin ? lml_origin_name((lml_origin)v->origin) : NULL;
    lml_span said = lml_what_need_text(L, from, "the option 'from' of a line");
    bool is_origin = false;
    for (int i = LML_ASSUMED; i <= LML_ESTIMATED; i++)
        is_origin = is_origin || lml_span_is(said, lml_origin_name((lml_origin)i));
    if (known && is_origin && !lml_span_is(said, known))
        lml_raise_hint(L, LML_BAD_RECIPE, "leave 'from' out: it is printed by itself",
                       "a line says that its figure is from '%.*s', and it is from '%s'",
                       (int)said.length, said.at, known);
}

static void check_kind(lua_State *L, option_kind kind, const char *name)
{
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    if (kind == YES && !lua_isboolean(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "the option '%s' of a line is true or false", name);
    if (kind == FINENESS && (!v || v->kind != LML_FINENESS))
        lml_raise_text(L, LML_BAD_RECIPE, "the option '%s' of a line is a fineness", name);
    if (kind == TEXT && lua_type(L, -1) != LUA_TSTRING)
        lml_raise_text(L, LML_BAD_RECIPE, "the option '%s' of a line is a text", name);
}

static void check_text(lua_State *L, int figure, const char *name)
{
    if (strcmp(name, "unit") == 0)
        check_unit(L, figure, lua_gettop(L));
    if (strcmp(name, "from") == 0)
        check_from(L, figure, lua_gettop(L));
    if (strcmp(name, "of") == 0)
        check_give(L, lua_gettop(L));
    lml_wording_push(L, -1, "an option of a line", LML_PART_TEXT);
    lua_replace(L, -2);
}

/* The options into the entry on top: record = "raw casting", unit = "dwt", from = "client says", of
 * = "charge", big = true, owner = "client", fineness = f. `figure` 0: of a box. */
static void set_options(lua_State *L, int figure, int options)
{
    const bool of_box = figure == 0;
    if (lua_isnoneornil(L, options))
        return;
    if (!lua_istable(L, options))
        lml_raise_text(L, LML_BAD_RECIPE, "the options of a %s are a table: { %s }",
                       of_box ? "box" : "line", of_box ? "owner = \"...\"" : "record = \"...\"");
    if (lml_key_find_odd(L, options, is_no_option, of_box ? &of_box : NULL)) {
        lml_span name = lml_what_need_text(L, -1, "the name of an option");
        lml_raise_hint(L, LML_BAD_RECIPE,
                       of_box ? "owner, fineness" : "record, unit, from, of, big, owner, fineness",
                       "a %s has no option '%.*s'", of_box ? "box" : "line", (int)name.length,
                       name.at);
    }
    for (int i = 0; i < OPTION_COUNT; i++) {
        const char *name = OPTIONS[i].name;
        if (lua_getfield(L, options, name) == LUA_TNIL) {
            lua_pop(L, 1);
            continue;
        }
        check_kind(L, OPTIONS[i].kind, name);
        if (OPTIONS[i].kind == TEXT)
            check_text(L, figure, name);
        lua_setfield(L, -2, name);
    }
}

static int figure_line(lua_State *L, const char *is)
{
    lua_settop(L, 4);
    begin_entry(L, is);
    lml_wording_push(L, 2, "the label of a line", LML_PART_TEXT);
    lua_setfield(L, 5, "label");
    set_figure(L, 3, lua_tostring(L, 2));
    lua_setfield(L, 5, "value");
    set_options(L, 3, 4);
    return end_entry(L);
}

static int page_line(lua_State *L)
{
    return figure_line(L, "line");
}

static int page_total(lua_State *L)
{
    return figure_line(L, "total");
}

static bool is_not_of(lua_State *L, const void *self)
{
    (void)self;
    return lua_type(L, -2) != LUA_TSTRING ||
           !lml_span_is(lml_what_need_text(L, -2, "a name"), "of");
}

static int words(lua_State *L, const char *is)
{
    lua_settop(L, 2);
    begin_entry(L, is);
    lml_wording_push(L, 2, "a text on a sheet", LML_PART_TEXT);
    lua_setfield(L, -2, "text");
    return end_entry(L);
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
                              "the option of a text is a table: { of = \"...\" }");
    lua_settop(L, 3);
    begin_entry(L, "text");
    lml_wording_push_paragraph(L, 2, "a text on a sheet", LML_PART_TEXT);
    lua_setfield(L, 4, "text");
    if (named) {
        if (lml_key_find_odd(L, 3, is_not_of, NULL))
            return lml_raise_text(L, LML_BAD_RECIPE,
                                  "the one option of a text is 'of', the give that it rests on");
        if (lua_getfield(L, 3, "of") != LUA_TSTRING)
            return lml_raise_text(L, LML_BAD_RECIPE, "the option 'of' of a text is a text");
        check_give(L, lua_gettop(L));
        lua_setfield(L, 4, "of");
    }
    return end_entry(L);
}

/* page:box("Weigh the tree dry", "tree", { owner = "client" }): an empty box with no figure
 * foretold. */
static int page_box(lua_State *L)
{
    lua_settop(L, 4);
    begin_entry(L, "box");
    lml_wording_push(L, 2, "the label of a box", LML_PART_TEXT);
    lua_setfield(L, -2, "label");
    lml_wording_push(L, 3, "what the box records", LML_PART_TEXT);
    lua_setfield(L, -2, "record");
    set_options(L, 0, 4);
    return end_entry(L);
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
        } else {
            set_figure(L, lua_gettop(L), "a cell of a grid");
            lua_remove(L, -2);
        }
        lua_rawseti(L, -2, i);
    }
    lua_remove(L, -2);
}

enum { GRID_COLUMNS = 12, GRID_ROWS = 500 };

/* page:grid { columns = { "Lot", "Net" }, rows = { { "ring", m }, ... }, total = { "All", sum } }
 */
static int page_grid(lua_State *L)
{
    lua_settop(L, 2);
    if (!lua_istable(L, 2))
        return lml_raise_text(L, LML_BAD_RECIPE,
                              "a grid is a table: { columns = { ... }, rows = { ... } }");
    begin_entry(L, "grid");
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
    return end_entry(L);
}

/* ---- opening -----------------------------------------------------------------------------------
 */

static int sheet_index(lua_State *L)
{
    lml_span name = lml_what_need_text(L, 2, "a page");
    for (size_t i = 0; i < lml_part_pages(); i++) {
        if (lml_span_is(name, lml_part_page(i))) {
            lua_getiuservalue(L, 1, 1);
            lml_class_new(L, LML_CLASS_PAGE, 0, 2);
            lua_getfield(L, 3, "pages");
            lua_getfield(L, -1, lml_part_page(i));
            lua_setiuservalue(L, 4, 1);
            lua_pop(L, 1);
            lua_pushvalue(L, 3);
            lua_setiuservalue(L, 4, 2);
            return 1;
        }
    }
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    return lml_raise_hint(L, LML_BAD_RECIPE,
                          "pages: bench client metal receipt consent card cost; remarks: note "
                          "caution stop confirm",
                          "a sheet has no '%.*s'", (int)name.length, name.at);
}

static int page_index(lua_State *L)
{
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
        return 1;
    lml_span name = lml_what_need_text(L, 2, "a name");
    return lml_raise_hint(L, LML_BAD_RECIPE,
                          "line total heading text box grid note caution stop confirm",
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

const lml_word lml_bind_sheet[] = {
    {"caution", lml_bind_sheet_caution, "code: string, text: string", "",
     "Protects a person's health; nothing hides it.",
     "sheet:caution(\"fume\", \"Burning wax gives fume: run the extractor\")", NULL},
    {"confirm", lml_bind_sheet_confirm, "code: string, text: string, gives?: string[]", "",
     "A stop until the job says who accepts it and why.",
     "sheet:confirm(\"share\", \"Old metal is 63 % of the charge\", { \"out\" })", NULL},
    {"note", lml_bind_sheet_note, "code: string, text: string", "", "Worth knowing.",
     "sheet:note(\"warm\", \"Warm the mould\")", NULL},
    {"stop", lml_bind_sheet_stop, "code: string, text: string, gives?: string[]", "",
     "Withholds the gives that it names, or all: the sheet prints DO NOT in their place.",
     "sheet:stop(\"crucible\", \"The charge is larger than the crucible holds\", { \"out\" })",
     NULL},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

const lml_word lml_bind_sheet_page[] = {
    {"box", page_box, "label: string, record: string, options?: table", "",
     "An empty box for a figure that nobody foretells; options are owner and fineness.",
     "sheet.bench:box(\"Weigh the tree dry\", \"tree\")", NULL},
    {"caution", lml_bind_sheet_caution, "code: string, text: string", "",
     "As on the sheet, printed on this page.",
     "sheet.client:caution(\"nickel\", \"Nickel may raise a rash\")", NULL},
    {"confirm", lml_bind_sheet_confirm, "code: string, text: string, gives?: string[]", "",
     "As on the sheet, printed on this page.",
     "sheet.client:confirm(\"share\", \"Old metal is 63 % of the charge\", { \"out\" })", NULL},
    {"grid", page_grid, "of: table", "", "A table: columns, rows, total.",
     "sheet.metal:grid { columns = { \"Lot\", \"Net\" }, rows = { { \"ring\", Q \"5.2 g\" } "
     "}, total = { \"All\", Q \"5.2 g\" } }",
     NULL},
    {"heading", page_heading, "text: string", "", "A heading.", "sheet.bench:heading \"Metal\"",
     NULL},
    {"line", page_line, "label: string, figure: any, options?: table", "",
     "A figure on a line of its own; options are record, unit, from, of, big, and owner and "
     "fineness of what is weighed.",
     "sheet.bench:line(\"Raw casting\", Q \"31 g\", { record = \"raw casting\", unit = \"dwt\" })",
     NULL},
    {"note", lml_bind_sheet_note, "code: string, text: string", "",
     "As on the sheet, printed on this page.",
     "sheet.client:note(\"polish\", \"The inside stays unpolished\")", NULL},
    {"stop", lml_bind_sheet_stop, "code: string, text: string, gives?: string[]", "",
     "As on the sheet, printed on this page.",
     "sheet.client:stop(\"crucible\", \"The charge is larger than the crucible holds\", { "
     "\"out\" })",
     NULL},
    {"text", page_text, "text: string, options?: table", "",
     "A paragraph; the option is of, the give that it rests on: it is left out while that is "
     "withheld.",
     "sheet.client:text \"What comes back is yours\"", NULL},
    {"total", page_total, "label: string, figure: any, options?: table", "",
     "A figure under a rule.", "sheet.cost:total(\"Total\", Q \"120 USD\")", NULL},
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
