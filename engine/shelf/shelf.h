/* The shelf: the recipes, scripts and settings that an engine was handed, by name.
 *
 * The engine reads no file, so what is on the shelf is all there is. Items own copies of their
 * texts; a recipe's declaration and the compiled form of every chunk are kept beside it once they
 * were needed. Items are in byte order of kind and name.
 */
#ifndef LML_SHELF_SHELF_H
#define LML_SHELF_SHELF_H

#include "shelf/built_in.h"
#include "shelf/recipe.h"
#include "file/digest.h"
#include "file/json.h"
#include "lemel.h"

enum { LML_NAME_MOST = 60 };

typedef struct lml_item {
    lml_put kind;
    char *name, *shown;
    const lml_built_in *built_in; /* with the same bytes: text, digest and code are its; or NULL */
    const char *text;
    size_t length;
    char digest[72];  /* empty until lml_item_digest */
    const char *code; /* compiled by us from `text`; NULL until first loaded */
    size_t code_length;
    const lml_recipe *recipe; /* of a recipe, once described */
    bool is_own;              /* it was put as LML_PUT_OWN_RECIPE */
    lml_error *refused;       /* why its text was not taken; NULL when it was */
    uint64_t price;           /* of a step after it was loaded: see lml_box */
    bool is_worked;           /* a recipe that a run of this engine has worked */
    bool comes_late;          /* a script that a gate required in its check, not before: see
                                 lml_load_beforehand */
} lml_item;

typedef struct lml_shelf {
    const lml_alloc *alloc;
    lml_item **items; /* each in a block of its own, so that pointers to items stay good */
    size_t count, room;
    lml_json_document *house, *prices;                                  /* NULL when none was put */
    char house_digest[LML_DIGEST_TEXT], prices_digest[LML_DIGEST_TEXT]; /* of their texts */
} lml_shelf;

/* Whether recipes and scripts can be called so: 1 to LML_NAME_MOST of a to z, A to Z, digits, _ and
 * -, and no - first. A path and an option of the command line are no names. */
bool lml_shelf_can_name(lml_span name);

void lml_shelf_free(lml_shelf *shelf);
/* Replaces an item of the same kind and name. LML_NO_MEMORY. */
lml_status lml_shelf_put(lml_shelf *shelf, lml_put kind, const char *name, lml_span text,
                         const char *shown, lml_item **out, lml_error *err);
/* Put an item without a text, so that only its users get the error. LML_NO_MEMORY. */
lml_status lml_shelf_put_refused(lml_shelf *shelf, lml_put kind, const char *name,
                                 const char *shown, const lml_error *why, lml_error *err);
/* NULL when there is none. */
lml_item *lml_shelf_find(const lml_shelf *shelf, lml_put kind, lml_span name);
/* "sha256:..." over the bytes of its text. */
const char *lml_item_digest(lml_item *item);
/* Take over what its text was compiled to when the engine was built: false where that is not known,
 * or would be another for this Lua or this name in messages. */
bool lml_item_take_code(lml_item *item);
/* LML_NOT_FOUND with the nearest name of that kind; what it was refused for. */
lml_status lml_shelf_need(const lml_shelf *shelf, lml_put kind, lml_span name, lml_item **out,
                          lml_error *err);
/* Whether a recipe and all that it may require are as they were when the engine was built: what was
 * checked then still holds. */
bool lml_shelf_is_as_built(const lml_shelf *shelf, const lml_item *recipe);
/* What the recipe declares, as far as it is known: it was read before, or is as built. NULL where
 * it must be loaded for that. */
const lml_recipe *lml_shelf_declared(const lml_shelf *shelf, lml_item *recipe);
/* Bytes of the item that is shown so; 0 when there is none. */
size_t lml_shelf_length(const lml_shelf *shelf, const char *shown);
/* The text of a line of the item shown by that name; empty when there is none. */
lml_span lml_shelf_line(const lml_shelf *shelf, const char *shown, int line);
/* Whether all that is shown so is as it was when the engine was built. */
bool lml_shelf_is_lemels(const lml_shelf *shelf, const char *shown);
/* Whether any recipe's text holds the word, or its declaration as far as that is known: a cheap
 * test of whether a setting can mean anything. True if a recipe was refused, since its content is
 * not known. */
bool lml_shelf_has_word(const lml_shelf *shelf, lml_span word);

const lml_json *lml_shelf_house(const lml_shelf *shelf);  /* the root, or NULL */
const lml_json *lml_shelf_prices(const lml_shelf *shelf); /* its "prices", or NULL */
bool lml_shelf_has_script(const lml_shelf *shelf, const char *name);
/* The house as a recipe in this state may see it: NULL in a proof, which does not look at it, and
 * in a bare state. */
const lml_json *lml_shelf_house_in(lua_State *L);

#endif
