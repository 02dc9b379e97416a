/* Find: where the studio's settings, the recipes and the modules are.
 *
 * A studio is a folder with house.json, prices.json, recipes/ and jobs/. It is the folder of the
 * file given with --house; else the first of the target's own folder, the one above it, and the
 * current one that holds a house.json or a prices.json; else the current one. What comes with lemel
 * is found from where the program stands (PREFIX/share/lemel, wherever PREFIX was moved to, and
 * share/lemel of a build folder), or where it was meant to be installed. A
 * studio's recipe wins over one of the same name that comes with lemel. A recipe is called as its
 * file is: up to 60 letters of a to z, digits, _ and -, and no - first.
 */
#ifndef LML_STUDIO_FIND_H
#define LML_STUDIO_FIND_H

#include "studio/path.h"
#include "terminal/call.h"
#include "worker/kit.h"

typedef enum lml_target_kind {
    LML_TARGET_JOB,
    LML_TARGET_INPUT,
    LML_TARGET_RECIPE
} lml_target_kind;

typedef struct lml_target {
    lml_target_kind kind;
    const char *path; /* of a job or a recipe's file; NULL for a recipe by name and for input */
    lml_span recipe;  /* the name of a RECIPE */
    bool named;       /* a person named the path: it may be a pipe */
} lml_target;

/* What a word of the command line means: "-" and "/dev/stdin" are standard input; what ends in .lua
 * is a recipe's file; what ends in .json or holds a / is a job's file; what can be a recipe's name
 * is one, whatever files there are; all else is a job's file when there is one of that name. */
lml_target lml_find_target(const char *word);
/* The same where only a recipe can be meant. */
lml_target lml_find_recipe(const char *word);

/* Fill the kit: limits, settings, prices, modules, recipes, and the target's own recipe. `target`
 * may be NULL. A file of a folder whose name can be no recipe's is passed over, and `call->aside`
 * says so. LML_NO_FILE for a file that was named; and for a recipe's name that is not in reach;
 * LML_USAGE for the file of a recipe with such a name.
 */
lml_status lml_find_kit(lml_call *call, const lml_target *target, lml_kit *kit, lml_error *err);
/* Complete an interrupted adoption in the studio of the current folder, as lml_find_kit does;
 * `call->aside` says so. LML_NO_WRITE. */
lml_status lml_find_finish(lml_call *call, lml_error *err);
/* The recipes and scripts that come with lemel, and nothing of a studio's. */
lml_status lml_find_shipped(lml_call *call, lml_kit *kit, lml_error *err);
/* Whether the job files `a` and `b` use the settings of the same studio. */
bool lml_find_same_studio(const lml_call *call, const char *a, const char *b);
/* Where the price list is, or would be: the file given with --prices, else prices.json of the
 * studio of the current folder. LML_NO_FILE when the path is too long. */
lml_status lml_find_prices(const lml_call *call, char out[LML_PATH], lml_error *err);
/* The folder that holds the recipes/ and scripts/ that come with lemel. */
void lml_find_shipped_folder(char out[LML_PATH]);
/* The studio's folder, "." for the current one. */
void lml_find_studio(const lml_call *call, const lml_target *target, char out[LML_PATH]);
/* Whether a recipe may be called so: as it is in the list of what was proved, in JSON and on the
 * command line. LML_USAGE. */
lml_status lml_find_check_name(lml_span name, lml_error *err);
/* Where a new recipe of that name belongs: recipes/NAME.lua of the studio of the current folder.
 * LML_USAGE for what can be no name, and where the recipes that come with lemel are. */
lml_status lml_find_place(const lml_call *call, const char *name, char out[LML_PATH],
                          lml_error *err);
/* A file of the studio of the current folder, whether or not it is there. */
lml_status lml_find_in_studio(const lml_call *call, const char *name, char out[LML_PATH],
                              lml_error *err);
/* Refuse to write through a link; `doing` names the action ("adopting"). LML_NO_WRITE. */
lml_status lml_find_refuse_link(const char *path, const char *doing, lml_error *err);
/* Make the folder of that file if it is not there. LML_NO_WRITE. */
lml_status lml_find_make_folder(const char *place, lml_error *err);
/* Add a recipe to a filled kit, unless it is there. */
lml_status lml_find_into(lml_kit *kit, const lml_target *recipe, lml_error *err);

#endif
