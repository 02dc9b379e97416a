/* Loading: the chunks of recipes and scripts, each run once per run, and recipes' declarations.
 *
 * Every recipe has its own instance of each script that it requires, and so has the engine (for
 * gates and alloys): what a recipe does to its instance affects no one else. Lemel's own recipes
 * share theirs, which they do not change. Everything here raises.
 */
#ifndef LML_RUN_LOAD_H
#define LML_RUN_LOAD_H

#include "run/run.h"

/* Push the table that a recipe file returns, loaded once per run. */
void lml_load_push_recipe_table(lua_State *L, const char *name);
/* Push what a script returns, for the current recipe. */
void lml_load_push_script(lua_State *L, const char *name);
/* The recipe's declaration, read once per engine; in a box of its own unless it was preloaded, so
 * that the first run costs the same as later ones. */
const lml_recipe *lml_load_recipe(lua_State *L, const char *name);
/* The same without raising: afterwards `item->recipe` is set. */
lml_status lml_load_describe_item(lml_run *run, lml_item *item, lml_error *err);
/* All that is wrong with its declaration: see lml_recipe_gather. The caller frees what was read. */
lml_status lml_load_gather(lml_run *run, lml_item *item, lml_recipe_note *note, void *self,
                           lml_recipe **out, bool *whole, lml_error *err);
/* A recipe that is to run, with its declaration: it is loaded unless it was preloaded. */
lml_item *lml_load_for_work(lua_State *L, const char *name);
/* Push its table: what it required counts as used from now on. */
void lml_load_push_worked_table(lua_State *L, const lml_item *item);
/* Whether the item is a recipe that is loaded in this state. */
bool lml_load_is_loaded(lua_State *L, const lml_item *item);
/* Preload the recipe, the recipes it uses (if runs of this engine have used them, or if nothing is
 * known about them), what the engine requires, and what its gates required in earlier runs; the
 * result of the run is the same. A script that a recipe requires while it runs is not preloaded:
 * what it finds may depend on what was done before. Garbage is collected between recipes, because
 * the state will be copied often. */
void lml_load_beforehand(lua_State *L, const char *recipe, bool tidy);
/* Push what the rule point of that name is given and answers. */
void lml_load_push_rule_point(lua_State *L, lml_span name);
/* Add the script to those that a result names. */
void lml_load_note_script(lua_State *L, const char *name);
lml_item *lml_load_need_item(lua_State *L, lml_put kind, const char *name);
/* One leaves the recipe's table on the stack, the other reads its declaration. Both protected. */
lml_status lml_load_recipe_table(lml_run *run, const char *recipe, lml_error *err);
lml_status lml_load_describe(lml_run *run, const char *recipe, lml_error *err);

/* Argument: the item, as a pointer. Runs its chunk again and returns its result. */
int lml_load_work_chunk(lua_State *L);

/* Push what a script returns: the engine's own instance, loaded once per run, which no recipe can
 * reach. Raises. */
void lml_load_push_module(lua_State *L, const char *name);

#endif
