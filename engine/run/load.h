/* Loading: the chunks of recipes and scripts, run once a run, and what a recipe declares.
 *
 * Every recipe has its own instance of each script that it requires, and so has the engine (for
 * gates and alloys): what a recipe does to its instance, nobody else sees. All of it raises.
 */
#ifndef LML_RUN_LOAD_H
#define LML_RUN_LOAD_H

#include "run/run.h"

/* Push the table that a recipe file gives back, loaded once a run. */
void lml_load_push_recipe_table(lua_State *L, const char *name);
/* Push what a script gives back to the recipe at work. */
void lml_load_push_script(lua_State *L, const char *name);
/* The recipe's declaration, read once an engine; in a box of its own unless it was loaded
 * beforehand: so that a run costs the same whether or not it is the first. */
const lml_recipe *lml_load_recipe(lua_State *L, const char *name);
/* The same without raising: `item->recipe` is there when it is done. */
lml_status lml_load_describe_item(lml_run *run, lml_item *item, lml_error *err);
/* The same of a recipe that is to be worked: it is loaded unless it is there, as beforehand. */
const lml_recipe *lml_load_for_work(lua_State *L, const char *name);
/* Push its table: what it required is used from now on. */
void lml_load_push_worked_table(lua_State *L, const char *name);
/* Whether the item is a recipe that is loaded in this state. */
bool lml_load_is_loaded(lua_State *L, const lml_item *item);
/* Load the recipe, what it uses as far as runs of this engine have worked it or nothing is known of
 * it (of what ships everything is), what the engine itself requires, and what its gates came to
 * require in earlier runs, as a run would when it comes to them; the result of the run is the same.
 * A script that a recipe requires while it works is left to the work: what it finds may depend on
 * what was done before. Tidy: what one recipe leaves behind makes room for the next, for a state
 * that will be copied often. */
void lml_load_beforehand(lua_State *L, const char *recipe, bool tidy);
/* Push what the rule point of that name is told and answers. */
void lml_load_push_rule_point(lua_State *L, lml_span name);
/* A result names the script among what took part in it. */
void lml_load_note_script(lua_State *L, const char *name);
lml_item *lml_load_need_item(lua_State *L, lml_put kind, const char *name);
/* Leave the recipe's table on the stack; read its declaration. Both protected. */
lml_status lml_load_recipe_table(lml_run *run, const char *recipe, lml_error *err);
lml_status lml_load_describe(lml_run *run, const char *recipe, lml_error *err);

/* Argument: the item, as a pointer. Works its chunk anew, and gives back what that gives. */
int lml_load_work_chunk(lua_State *L);

/* Push what a script gives back: the engine's own instance, loaded once a run, which no recipe can
 * reach. Raises. */
void lml_load_push_module(lua_State *L, const char *name);

#endif
