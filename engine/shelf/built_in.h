/* Built in: the shipped recipes and scripts as they were when the engine was built, with what was
 * computed then: the digest of each, its compiled Lua, and a recipe's declaration.
 *
 * The engine still reads no file and assumes nothing: a text on the shelf is looked up here by all
 * its bytes. A text changed by even one letter is not found, and is hashed and compiled like any
 * other.
 *
 *     const lml_built_in *b = lml_built_in_find(LML_PUT_SCRIPT, "gates", text);
 *     if (b) ... b->digest
 *
 * The rows are written by the build (engine/make/built_in.c); in a build without LEMEL_BUILT_IN
 * there are none.
 */
#ifndef LML_SHELF_BUILT_IN_H
#define LML_SHELF_BUILT_IN_H

#include "shelf/recipe.h"
#include "lemel.h"

typedef struct lml_built_in {
    lml_put kind;
    const char *name, *shown;
    const char *text;
    size_t length;
    const char *digest; /* "sha256:..." of its text */
    const char *code;   /* what lua_dump gave, with the names and lines that messages need */
    size_t code_length;
    const lml_recipe *recipe; /* what it declares; NULL of a script */
} lml_built_in;

/* NULL when no text that ships has this name and these bytes. */
const lml_built_in *lml_built_in_find(lml_put kind, const char *name, lml_span text);
/* Whether the Lua that is linked is the one that compiled them: another must not be given their
 * code. */
bool lml_built_in_is_for_this_lua(void);

/* As the build writes them: in byte order of kind and name, and the lua_ident of the Lua that
 * compiled them. */
extern const lml_built_in lml_built_in_rows[];
extern const size_t lml_built_in_count, lml_built_in_scripts; /* of all, and of scripts */
extern const char *const lml_built_in_lua;

#endif
