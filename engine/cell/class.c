#include "cell/class.h"

#include <lauxlib.h>

const char lml_class_key[LML_CLASSES];

void *lml_class_new(lua_State *L, lml_class class, size_t size, int slots)
{
    lml_seal *seal = lua_newuserdatauv(L, sizeof *seal + size, slots);
    seal->class = &lml_class_key[class];
    lml_class_push(L, class);
    lua_setmetatable(L, -2);
    return seal + 1;
}

void lml_class_prepare(lua_State *L)
{
    for (int i = 0; i < LML_CLASSES; i++) {
        lua_newtable(L);
        lua_pushboolean(L, 0);
        lua_setfield(L, -2, "__metatable");
        lua_rawseti(L, LUA_REGISTRYINDEX, LML_CLASS_SLOT + i);
    }
}

void lml_class_push(lua_State *L, lml_class class)
{
    lua_rawgeti(L, LUA_REGISTRYINDEX, LML_CLASS_SLOT + class);
}
