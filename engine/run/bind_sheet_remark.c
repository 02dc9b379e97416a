/* Notes, cautions, stops and points to confirm, of a sheet or of one page of it. */
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "file/shape.h"
#include "run/bind_sheet.h"
#include "run/confirm.h"
#include "run/part.h"
#include "run/run.h"

#include <string.h>

static void check_code(lua_State *L, int index)
{
    lml_span code = lml_what_need_text(L, index, "the code of a remark");
    bool ok = code.length > 0 && code.length <= 40;
    for (size_t i = 0; ok && i < code.length; i++) {
        char c = code.at[i];
        ok = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    }
    if (!ok)
        lml_raise_hint(L, LML_BAD_RECIPE, "write sheet:note(\"short-code\", \"What to say\")",
                       "the code of a remark may only have small letters, digits and hyphens");
}

/* A person confirms a sentence, so it must not be empty. */
static void check_says_something(lua_State *L, int index)
{
    lml_span text = lml_what_need_text(L, index, "the text of a remark");
    size_t blanks = 0;
    while (blanks < text.length && strchr(" \n\t", text.at[blanks]))
        blanks++;
    if (blanks == text.length)
        lml_raise_hint(L, LML_BAD_RECIPE, "write a sentence that says what to know or decide",
                       "the text of a remark is empty");
}

/* Push the remark made of the code and text at 2 and 3, with "recipe/code". */
static void push_remark(lua_State *L, const char *level, int part)
{
    check_code(L, 2);
    check_says_something(L, 3);
    lml_box_charge(L, LML_BIND_SHEET_ENTRY);
    lua_createtable(L, 0, 6);
    lml_trace_print(L, -1);
    if (!lml_run_of(L)->recipe) { /* its code is lemel's own */
        lua_pushboolean(L, 1);
        lua_setfield(L, -2, "gate");
    }
    lua_pushliteral(L, "remark");
    lua_setfield(L, -2, "is");
    lua_pushstring(L, level);
    lua_setfield(L, -2, "level");
    lua_getfield(L, part, "recipe");
    lua_pushfstring(L, "%s/%s", lua_tostring(L, -1), lua_tostring(L, 2));
    lua_remove(L, -2);
    lua_setfield(L, -2, "code");
    lml_wording_push(L, 3, "the text of a remark", LML_PART_TEXT);
    lua_setfield(L, -2, "text");
}

/* Push the part and the entries that a remark goes to: of the page itself, or the bench page. */
static void push_place(lua_State *L)
{
    if (lml_class_test(L, 1, LML_CLASS_PAGE)) {
        lua_getiuservalue(L, 1, 2);
        lua_getiuservalue(L, 1, 1);
    } else if (lml_class_test(L, 1, LML_CLASS_SHEET)) {
        lua_getiuservalue(L, 1, 1);
        lml_part_push_entries(L, lua_gettop(L), "bench");
    } else {
        lml_raise_hint(L, LML_BAD_RECIPE, "call it with a colon: sheet:note(\"code\", \"text\")",
                       "the sheet is needed before the colon");
    }
}

/* What a remark is about: the record or the give of a line, beside which it is printed; and the
 * question whose answer would mend it. Of a point to confirm also whether the house may decide it
 * for all jobs. */
static const char *const remark_options[] = {"concerns", "ask", NULL}, *const point_options[] = {
                                                                           "concerns", "ask",
                                                                           "all_jobs", NULL};

/* The remark is on top of the stack. */
static void set_options(lua_State *L, int options, const char *const *known)
{
    if (lua_isnoneornil(L, options))
        return;
    if (!lua_istable(L, options))
        lml_raise_hint(L, LML_BAD_RECIPE, "write { concerns = \"charge\" }",
                       "the options of a remark are a table, and %s was given",
                       lml_what_is(L, options));
    lml_bind_sheet_check_options(L, options, "a remark", known);
    for (int i = 0; i < 2; i++) {
        if (lml_bind_sheet_push_words(L, options, remark_options[i], "a remark"))
            lua_setfield(L, -2, remark_options[i]);
        else
            lua_pop(L, 1);
    }
}

static int remark(lua_State *L, const char *level)
{
    lua_settop(L, 4);
    push_place(L);
    push_remark(L, level, 5);
    set_options(L, 4, remark_options);
    lml_part_file_remark(L, 5, 6);
    return 0;
}

int lml_bind_sheet_note(lua_State *L)
{
    return remark(L, "note");
}

int lml_bind_sheet_caution(lua_State *L)
{
    return remark(L, "caution");
}

/* Set part.withheld for the gives named in the list at index 4 (all gives when it is nil) and list
 * them in the remark on top. */
static void withhold(lua_State *L, int part)
{
    lml_run_of(L)->withholds = true;
    int remark_at = lua_gettop(L);
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "gives");
    const int withheld = remark_at + 1;
    const lml_shape *gives = lua_touserdata(L, -1);
    lua_newtable(L); /* the names */
    bool named = !lua_isnoneornil(L, 4);
    lua_Integer count = 0;
    if (named) {
        lml_view_push_content(L, 4, "the gives that a stop withholds");
        count = (lua_Integer)lua_rawlen(L, -1);
        named = count > 0;
        lua_insert(L, -2);
    }
    if (!named) {
        for (size_t i = 0; i < gives->field_count; i++) {
            lua_pushstring(L, gives->fields[i].name);
            lml_part_append(L, -2);
        }
        lml_key_sort(L, -1, (lua_Integer)lua_rawlen(L, -1));
    } else {
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, -2, i);
            if (!lml_shape_field_named(gives, lml_what_need_text(L, -1, "the name of a give")))
                lml_raise_hint(L, LML_BAD_RECIPE, "name one of its gives, in quotes",
                               "'%s' is withheld, but the recipe does not give it",
                               lua_tostring(L, -1));
            lml_part_append(L, -2);
        }
    }
    lua_Integer n = (lua_Integer)lua_rawlen(L, -1);
    for (lua_Integer i = 1; i <= n; i++) {
        lua_rawgeti(L, -1, i);
        lua_getfield(L, remark_at, "code");
        lua_rawset(L, withheld);
    }
    lua_setfield(L, remark_at, "withholds");
    lua_settop(L, remark_at);
}

int lml_bind_sheet_stop(lua_State *L)
{
    lua_settop(L, 5);
    push_place(L);
    push_remark(L, "stop", 6);
    set_options(L, 5, remark_options);
    withhold(L, 6);
    lml_part_file_remark(L, 6, 7);
    return 0;
}

/* A job answers a point by its code, so two points of a part cannot share one. The point is on top.
 */
static void claim_code(lua_State *L, int part)
{
    int point = lua_gettop(L);
    if (lua_getfield(L, part, "points") == LUA_TNIL) {
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, part, "points");
    }
    lua_getfield(L, point, "code");
    lua_pushvalue(L, -1);
    if (lua_rawget(L, -3) != LUA_TNIL)
        lml_raise_hint(L, LML_BAD_RECIPE, "give each point its own code, such as \"spread-\" .. i",
                       "two points to confirm have the same code '%s'", lua_tostring(L, -2));
    lua_pushboolean(L, 1);
    lua_replace(L, -2);
    lua_rawset(L, -3);
    lua_settop(L, point);
}

/* What is decided may hold for all jobs: { all_jobs = true }. The remark is on top. */
static void set_all_jobs(lua_State *L, int options)
{
    if (lua_isnoneornil(L, options))
        return;
    if (lua_getfield(L, options, "all_jobs") != LUA_TNIL && !lua_isboolean(L, -1))
        lml_raise_text(L, LML_BAD_RECIPE, "the option 'all_jobs' of a remark is true or false");
    lua_setfield(L, -2, "all_jobs");
}

int lml_bind_sheet_confirm(lua_State *L)
{
    lua_settop(L, 5);
    push_place(L);
    push_remark(L, "confirm", 6);
    set_options(L, 5, point_options);
    set_all_jobs(L, 5);
    claim_code(L, 6);
    if (!lml_confirm_holds(L, -1))
        withhold(L, 6);
    lml_part_file_remark(L, 6, 7);
    return 0;
}
