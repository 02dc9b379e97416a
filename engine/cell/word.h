/* Words: the functions that a recipe can call, as rows from which their guide is printed too.
 *
 *     const lml_word lml_lib_table[] = {{"concat", table_concat, "list: any[]", "string", "...",
 * "...", "..."}, {0}};
 */
#ifndef LML_CELL_WORD_H
#define LML_CELL_WORD_H

#include <lua.h>

/* One of them. Arrays of them end with a NULL name. */
typedef struct lml_word {
    const char *name;
    lua_CFunction function;
    const char
        *takes; /* "list: value[], of?: string|function", types as LuaLS has them; "" nothing */
    const char *gives; /* a type; "" nothing */
    const char *sentence;
    const char *example; /* an expression; a statement where `wanted` is NULL */
    const char *wanted;  /* the result of the example */
} lml_word;

/* Set the functions in the table on top of the stack. */
void lml_word_set_all(lua_State *L, const lml_word *words);

#endif
