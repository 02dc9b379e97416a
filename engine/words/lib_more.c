/* Words of level 2: copy contains decimals leftover. */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/word.h"
#include "words/lib.h"

#include "file/leftover.h"
#include "value/compare.h"
#include "value/step.h"
#include "value/wanted.h"
#include "value/write.h"

/* Set all that the table or view at the index holds in the table `into`. What is absent or
 * withheld is left out. */
static void take_all(lua_State *L, int index, int into, const char *who)
{
    lml_view_push_content(L, index, who);
    int from = lua_gettop(L);
    for (lua_pushnil(L); lua_next(L, from); lua_pop(L, 1)) {
        lml_box_charge(L, 3);
        if (lml_view_is_withheld(L, -1))
            lml_raise_stop(L);
        if (lua_islightuserdata(L, -1))
            continue;
        lua_pushvalue(L, -2);
        lua_pushvalue(L, -2);
        lua_rawset(L, into);
    }
    lua_settop(L, from - 1);
}

/* copy(record, changes): a table of one's own with what is in both, the second before the
 * first. */
static int copy(lua_State *L)
{
    lua_settop(L, 2);
    lml_box_charge(L, 5);
    lua_newtable(L);
    take_all(L, 1, 3, "copy");
    if (!lua_isnil(L, 2))
        take_all(L, 2, 3, "copy");
    return 1;
}

/* Whether the item at the top is the one at index 2. */
static bool is_same(lua_State *L)
{
    const lml_value *a = lml_class_test(L, -1, LML_CLASS_VALUE),
                    *b = lml_class_test(L, 2, LML_CLASS_VALUE);
    bool equal = false;
    if (a && b)
        return lml_compare_equal(a, b, &equal, NULL) == LML_OK && equal;
    return lua_rawequal(L, -1, 2);
}

static int contains(lua_State *L)
{
    lua_settop(L, 2);
    if (lua_type(L, 1) == LUA_TSTRING)
        return lml_raise_hint(L, LML_BAD_RECIPE, "in a text use t:find(part)",
                              "contains needs a list, but was given %s", lml_what_is(L, 1));
    lml_view_push_content(L, 1, "contains");
    lua_Integer n = (lua_Integer)lua_rawlen(L, 3);
    bool found = false;
    for (lua_Integer i = 1; i <= n && !found; i++) {
        lml_box_charge(L, 4);
        lua_rawgeti(L, 3, i);
        found = is_same(L);
        lua_pop(L, 1);
    }
    lua_pushboolean(L, found);
    return 1;
}

enum { DECIMALS_MOST = 12, METHOD = 15 };

/* decimals(x, 2): a bare number as a text, rounded to so many places, halves away from zero. */
static int decimals(lua_State *L)
{
    double x = lml_figure_amount(L, 1, LML_WANT_NUMBER, "decimals"), tens = 1;
    lua_Integer places = luaL_checkinteger(L, 2);
    if (places < 0 || places > DECIMALS_MOST)
        return lml_raise_text(L, LML_BAD_RECIPE, "decimals takes 0 to %d places, but %s was given",
                              DECIMALS_MOST, lua_tostring(L, 2));
    for (lua_Integer i = 0; i < places; i++)
        tens *= 10;
    lml_value v = lml_value_number(x), step = lml_value_number(1 / tens), out;
    lml_error e;
    char text[LML_VALUE_TEXT];
    if (lml_step_round(&v, &step, LML_TO_NEAREST, &out, &e))
        return lml_raise(L, &e);
    out.decimals = (uint8_t)places;
    lml_box_charge(L, METHOD);
    lua_pushlstring(L, text, lml_write_text(&out, text));
    return 1;
}

/* leftover(what): "button", "filings" or nil. */
static int leftover(lua_State *L)
{
    lml_span what = lml_what_need_text(L, 1, "the name of an entry");
    lml_box_charge(L, METHOD);
    lua_pushstring(L, lml_leftover_name(lml_leftover_of(what)));
    return 1;
}

const lml_word lml_lib_more[] = {
    {"contains", contains, "list: any[], item: any", "boolean", "Whether the item is in the list.",
     "contains({ \"gold\", \"silver\" }, \"gold\")", "true"},
    {"copy", copy, "record: table, changes?: table", "table",
     "Your own copy of a record or list, with the changes in the second table.",
     "copy({ mass = Q \"2 g\", name = \"ring\" }, { mass = Q \"3 g\" }).mass", "3 g"},
    {"decimals", decimals, "x: number, places: number", "string",
     "A bare number as a text with that many decimals, rounded to the nearest.",
     "decimals(1.6180339, 2)", "1.62"},
    {"leftover", leftover, "what: string", "string?",
     "What an entry of the record is of what a casting leaves, by its name up to a comma: button "
     "(with "
     "its sprues, or these) or filings; else nil.",
     "leftover(\"button, the rest\")", "button"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
