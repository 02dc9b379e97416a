#include "cell/figure.h"

#include "cell/class.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/what.h"
#include "read/memo.h"

#include <math.h>

void lml_figure_push(lua_State *L, const lml_value *v)
{
    if (v->kind == LML_NUMBER) {
        lua_pushnumber(L, v->amount);
        return;
    }
    lml_value *block = lml_class_new(L, LML_CLASS_VALUE, sizeof *block, 0);
    *block = *v;
}

enum { READ = 60, REFUSED = 700 /* all units are looked through for the one that was meant */ };

void lml_figure_prepare(lua_State *L)
{
    lua_newtable(L);
    lua_rawseti(L, LUA_REGISTRYINDEX, LML_READ_SLOT);
}

/* Text to value, remembered for the run: values never change, and recipes say Q "0.1 g" in loops.
 */
void lml_figure_push_read(lua_State *L, int index)
{
    index = lua_absindex(L, index);
    lua_rawgeti(L, LUA_REGISTRYINDEX, LML_READ_SLOT);
    lua_pushvalue(L, index);
    if (lua_rawget(L, -2) != LUA_TNIL) {
        lua_replace(L, -2);
        return;
    }
    lua_pop(L, 1);
    lml_value v;
    lml_error e;
    lml_box_charge(L, READ);
    if (lml_memo_read(lml_box_of(L)->memo, lml_what_need_text(L, index, "a value in quotes"),
                      LML_WANT_ANYTHING, LML_NO_METAL, &v, &e)) {
        lml_box_charge(L, REFUSED);
        lml_raise(L, &e);
    }
    lml_figure_push(L, &v);
    lua_pushvalue(L, index);
    lua_pushvalue(L, -2);
    lua_rawset(L, -4);
    lua_remove(L, -2);
}

bool lml_figure_is_finite(lua_State *L, int index)
{
    return isfinite(lua_tonumber(L, index));
}

const lml_value *lml_figure_check(lua_State *L, int index, lml_value *room)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v)
        return v;
    const int type = lua_type(L, index);
    if (type == LUA_TNUMBER && lml_figure_is_finite(L, index)) {
        *room = lml_value_number(lua_tonumber(L, index));
        return room;
    }
    if (type != LUA_TSTRING)
        lml_raise_hint(L, LML_BAD_RECIPE,
                       "a method of a value is called with a colon, and its step in quotes: "
                       "mass:up_to \"0.1 g\"",
                       "a value is needed, but %s was given", lml_what_is(L, index));
    lml_figure_push_read(L, index);
    if (lua_type(L, -1) == LUA_TNUMBER)
        *room = lml_value_number(lua_tonumber(L, -1));
    else
        *room = *(const lml_value *)lml_class_test(L, -1, LML_CLASS_VALUE);
    lua_pop(L, 1);
    return room;
}

double lml_figure_amount(lua_State *L, int index, lml_wanted wanted, const char *argument)
{
    lml_value room;
    lml_error e;
    const lml_value *v = lml_figure_check(L, index, &room);
    /* A ratio is accepted where a number is needed, and the other way round. */
    bool plain =
        v->kind == LML_NUMBER || (v->kind == LML_QUANTITY && lml_dimension_none(v->dimension));
    bool plain_due = wanted == LML_WANT_NUMBER || wanted == LML_WANT_RATIO;
    if (!(plain && plain_due) && lml_wanted_check(wanted, v, &e)) {
        lml_error_context(&e, e.status, "%s", argument);
        lml_raise(L, &e);
    }
    return v->amount;
}
