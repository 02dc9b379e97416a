#include "cell/names.h"

#include "base/text.h"
#include "cell/raise.h"

static const char NAMES_KEY;

void lml_names_push(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &NAMES_KEY);
}

static int refuse_write(lua_State *L)
{
    return lml_raise_hint(L, LML_BAD_RECIPE, "copy what you need into a local table of your own",
                          "%s cannot be changed", lua_tostring(L, lua_upvalueindex(1)));
}

static int length_behind(lua_State *L)
{
    lua_pushinteger(L, (lua_Integer)lua_rawlen(L, lua_upvalueindex(1)));
    return 1;
}

void lml_names_read_only(lua_State *L, const char *what)
{
    lua_newtable(L); /* the view */
    lua_createtable(L, 0, 4);
    lua_pushvalue(L, -3);
    lua_pushcclosure(L, length_behind, 1);
    lua_setfield(L, -2, "__len");
    lua_pushvalue(L, -3);
    lua_setfield(L, -2, "__index");
    lua_pushstring(L, what);
    lua_pushcclosure(L, refuse_write, 1);
    lua_setfield(L, -2, "__newindex");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
    lua_remove(L, -2);
}

static int refuse_global(lua_State *L)
{
    if (lua_type(L, 2) != LUA_TSTRING)
        return lml_raise_text(L, LML_BAD_RECIPE, "recipes have no globals");
    const char *name = lua_tostring(L, 2);
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "'%s' is set as a global, but recipes have no globals", name);
    lml_error_hint(&e, "write local %s = ...", name);
    return lml_raise(L, &e);
}

void lml_names_keep(lua_State *L)
{
    lua_rawsetp(L, LUA_REGISTRYINDEX, &NAMES_KEY);
}

int lml_names_environment(lua_State *L)
{
    lua_newtable(L);
    lua_createtable(L, 0, 3);
    lml_names_push(L);
    lua_setfield(L, -2, "__index");
    lua_pushcfunction(L, refuse_global);
    lua_setfield(L, -2, "__newindex");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
    return 1;
}
