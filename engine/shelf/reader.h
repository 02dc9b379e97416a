/* Reader: what a recipe's table declares, kept member by member.
 */
#ifndef LML_SHELF_READER_H
#define LML_SHELF_READER_H

#include "shelf/recipe.h"

#include <lua.h>

/* The reader runs inside lml_box_call: it may raise, and everything it allocates belongs to the
 * recipe, which the caller frees. */
typedef struct lml_reader {
    lml_recipe *recipe;
    const char *name;
    bool asking; /* what is asked is not negative unless its `from` says so; what is given may
                    be */
} lml_reader;

/* Zeroed memory that belongs to the recipe; NULL if there is none. */
void *lml_reader_keep(lml_recipe *r, size_t size);
/* The same, raising. */
void *lml_reader_must(lua_State *L, lml_reader *r, size_t size);
/* Declared texts are shown by inspect and in messages: only what can be printed is kept. */
const char *lml_reader_keep_text(lua_State *L, lml_reader *r, int index);
/* The name of an ask, an allowance or a give: also a member in Lua, a name in JSON and on the
 * command line. */
const char *lml_reader_keep_name(lua_State *L, lml_reader *r, int index);
/* Text for the foot of a sheet: letters, digits and a few marks, so that it cannot be a
 * sentence. */
void lml_reader_check_mark(lua_State *L, const lml_reader *r, const char *name, const char *text,
                           const char *marks);
/* A text member of the declaration at index; required ones are refused when absent. */
const char *lml_reader_text_member(lua_State *L, lml_reader *r, int index, const char *name,
                                   bool required);
/* `member` is where in the recipe, or NULL. */
void lml_reader_check_names(lua_State *L, int index, const char *recipe, const char *member,
                            const char *const *known);
/* A section that may be left out; its table, or an empty one, is pushed. */
void lml_reader_push_section(lua_State *L, lml_reader *r, int index, const char *name);

#endif
