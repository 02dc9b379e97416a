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

/* A declaration in numbers: pointers would be set each time that a program starts, all of them, on
 * a megabyte of pages. A text is its place in lml_built_in_words; fields, `of` and choices are the
 * place of the first in lml_built_in_shapes and lml_built_in_names. 0 stands for NULL. */
typedef struct lml_built_in_shape {
    uint32_t name, title, from, to, default_text, source, per, example, note, heading, apart,
        unless, when;
    uint32_t order, fields, field_count, of, choices;
    uint8_t wanted, metal;
    bool optional, promised, seldom, usual, any_metal;
} lml_built_in_shape;

typedef struct lml_built_in_recipe {
    uint32_t name, title, version, licence, about, heads, rule, uses, use_count, level;
    lml_built_in_shape asks, allowances, gives, own, loose;
} lml_built_in_recipe;

typedef struct lml_built_in {
    lml_put kind;
    const char *name, *shown;
    const char *text;
    size_t length;
    const char *digest; /* "sha256:..." of its text */
    const char *code;   /* what lua_dump gave, with the names and lines that messages need */
    size_t code_length;
    const lml_built_in_recipe *recipe; /* what it declares; NULL of a script */
} lml_built_in;

/* NULL when no text that ships has this name and these bytes. */
const lml_built_in *lml_built_in_find(lml_put kind, const char *name, lml_span text);
/* What the row declares, as lml_recipe_read gives it; NULL when out of memory. */
lml_recipe *lml_built_in_declaration(const lml_built_in *row, const lml_alloc *alloc);
/* Whether that recipe has an allowance of that name. */
bool lml_built_in_allows(const lml_built_in *row, lml_span name);
/* Whether the Lua that is linked is the one that compiled them: another must not be given their
 * code. */
bool lml_built_in_is_for_this_lua(void);

/* As the build writes them: in byte order of kind and name, and the lua_ident of the Lua that
 * compiled them. */
extern const lml_built_in lml_built_in_rows[];
extern const char lml_built_in_words[];
extern const lml_built_in_shape lml_built_in_shapes[];
extern const uint32_t lml_built_in_names[]; /* of words; each list ends with a 0 */
extern const size_t lml_built_in_count, lml_built_in_scripts; /* of all, and of scripts */
extern const char *const lml_built_in_lua;

#endif
