/* Whether a figure on a page is one that a stop withholds, wherever it was printed. */
#include "box/result_part.h"

#include "box/view.h"

#include <string.h>

enum { DEPTH_MOST = 24, COST = 8 /* of a figure that is gathered */ };

/* ---- the figures of a give --------------------------------------------------------------------- */

/* Push what tells the figure at index from all others: of a value its kind and amount in eight bytes, behind a byte
 * that no printed text has; numbers, texts and alloys are told apart as Lua does. Nothing, and false, for the rest:
 * half of all figures are yes, and half of them no. */
static bool push_key(lua_State *L, int index)
{
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    if (v) {
        char key[3 + sizeof v->dimension + sizeof v->exact] = {'\0', (char)v->kind, (char)v->metal};
        memcpy(key + 3, &v->dimension, sizeof v->dimension);
        memcpy(key + 3 + sizeof v->dimension, &v->exact, sizeof v->exact);
        lua_pushlstring(L, key, sizeof key);
        return true;
    }
    int type = lua_type(L, index);
    if (type != LUA_TNUMBER && type != LUA_TSTRING && !lml_test(L, index, LML_CLASS_ALLOY))
        return false;
    lua_pushvalue(L, index);
    return true;
}

/* Add the figure at index, or for lists and records all that stand in it, to the set. */
static void gather(lua_State *L, int set, int index, int depth)
{
    lml_need_stack(L, 8);
    lml_charge(L, COST);
    index = lua_absindex(L, index);
    if (push_key(L, index)) {
        lua_pushboolean(L, 1);
        lua_rawset(L, set);
    } else if (depth < DEPTH_MOST && lml_test_content(L, index)) {
        for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
            gather(L, set, -1, depth + 1);
        lua_pop(L, 1);
    }
}

/* Push the figures of the give called `of`, or of all that the part withholds when it is NULL: a set, gathered once. */
static void push_figures(lua_State *L, int part, const char *of)
{
    if (lua_getfield(L, part, "figures") == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, part, "figures");
    }
    int figures = lua_gettop(L), set = figures + 1;
    if (lua_getfield(L, figures, of ? of : "") == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_getfield(L, part, "withheld");
        if (lua_getfield(L, part, "results") == LUA_TNIL) {
            lua_newtable(L);
            lua_replace(L, -2);
        }
        int withheld = set + 1, results = set + 2;
        if (of) {
            lua_getfield(L, results, of);
            gather(L, set, -1, 0);
        } else {
            for (lua_pushnil(L); lua_next(L, withheld); lua_pop(L, 1)) {
                lua_pop(L, 1);
                lua_pushvalue(L, -1);
                lua_rawget(L, results);
                gather(L, set, -1, 0);
            }
        }
        lua_settop(L, set);
        lua_pushvalue(L, set);
        lua_setfield(L, figures, of ? of : "");
    }
    lua_remove(L, figures);
}

static bool is_among(lua_State *L, int part, const char *of, int index)
{
    push_figures(L, part, of);
    return push_key(L, index) && lua_rawget(L, -2) != LUA_TNIL;
}

/* ---- what becomes of a figure ------------------------------------------------------------------ */

static bool withholds_anything(lua_State *L, int part)
{
    lua_getfield(L, part, "withheld");
    lua_pushnil(L);
    return lua_next(L, -2);
}

static bool gives_nothing(lua_State *L, int part, const char *of)
{
    return lua_getfield(L, part, "results") != LUA_TTABLE || lua_getfield(L, -1, of) == LUA_TNIL;
}

/* Whether the part keeps back the figure at index, which a line says is the give `of` when that is not NULL. Where
 * the part does give this figure by that name, the name decides, and not what else has the same figure, so that two
 * gates that both say GO are withheld apart; and where it gives nothing by that name, being stopped half-way. */
static bool part_withholds(lua_State *L, int part, const char *of, int index)
{
    lml_need_stack(L, 16);
    if (!withholds_anything(L, part)) /* most of the time */
        return false;
    lml_charge(L, COST);
    if (of) {
        lua_getfield(L, part, "withheld");
        bool kept_back = lua_getfield(L, -1, of) != LUA_TNIL;
        if ((kept_back && gives_nothing(L, part, of)) || is_among(L, part, of, index))
            return kept_back;
    }
    return is_among(L, part, NULL, index);
}

bool lml_is_withheld_figure(lua_State *L, int part, const char *of, int index)
{
    bool found = false;
    int top = lua_gettop(L), here = top + 1;
    index = lua_absindex(L, index);
    lua_pushvalue(L, part);
    while (!found && lua_istable(L, here)) {
        found = part_withholds(L, here, of, index);
        lua_settop(L, here);
        lua_getfield(L, here, "outer");
        lua_replace(L, here);
    }
    lua_settop(L, top);
    return found;
}
