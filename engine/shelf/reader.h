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
    lml_recipe_note *note; /* gathers the faults; NULL: the first is raised */
    void *self;
    bool misspelt; /* the recipe has members that none has: one of them may be what is missing */
    int line;      /* of the entry that is read; 0 where it is not known */
} lml_reader;

/* A fault of the declaration: noted, or raised if they are not gathered. `hint` may be NULL. */
void lml_reader_fault(lua_State *L, const lml_reader *r, const char *hint, const char *format, ...)
    LML_PRINTF(4, 5);
/* The error value on top of the stack is taken off and noted. */
void lml_reader_note_raised(lua_State *L, const lml_reader *r, int failed);

/* Zeroed memory that belongs to the recipe; NULL if there is none. */
void *lml_reader_keep(lml_recipe *r, size_t size);
/* The same, raising. */
void *lml_reader_must(lua_State *L, lml_reader *r, size_t size);
/* Declared texts are shown by inspect and in messages: only what can be printed is kept. */
const char *lml_reader_keep_text(lua_State *L, lml_reader *r, int index);
/* The name of an ask, an allowance or a give: also a member in Lua, a name in JSON and on the
 * command line. NULL, once that is noted, if it cannot be one. */
const char *lml_reader_keep_name(lua_State *L, lml_reader *r, int index);
/* Text for the foot of a sheet: letters, digits and a few marks, so that it cannot be a
 * sentence. */
void lml_reader_check_mark(lua_State *L, const lml_reader *r, const char *name, const char *text,
                           const char *marks);
/* A text member of the declaration at index; required ones are refused when absent. */
const char *lml_reader_text_member(lua_State *L, lml_reader *r, int index, const char *name,
                                   bool required);
/* `member` is where in the recipe, or NULL. False, once they are noted, if there are others. */
bool lml_reader_check_names(lua_State *L, const lml_reader *r, int index, const char *member,
                            const char *const *known);
/* A section that may be left out; its table, or an empty one, is pushed. */
void lml_reader_push_section(lua_State *L, lml_reader *r, int index, const char *name);

#endif
