#include "cell/word.h"

#include <stddef.h>

void lml_word_set_all(lua_State *L, const lml_word *words)
{
    for (; words->name; words++) {
        lua_pushcfunction(L, words->function);
        lua_setfield(L, -2, words->name);
    }
}
