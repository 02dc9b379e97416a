/* A recipe's inputs: the tables behind `job` and `house`, each figure checked against its ask.
 *
 * Precedence of an allowance: passed by the recipe that uses this one; the job for this recipe,
 * then the job in general; the house for this recipe, then in general; the default.
 */
#ifndef LML_RUN_INPUTS_H
#define LML_RUN_INPUTS_H

#include "run/run.h"

/* Push the table. `arguments` is the index of a table of Lua values, or 0: from the job. Raises.
 * The first says whether more than asks is passed, which the second has to be told. */
bool lml_inputs_push_job(lua_State *L, const lml_recipe *recipe, int arguments);
void lml_inputs_push_house(lua_State *L, const lml_recipe *recipe, int arguments, bool more);
/* One of them alone, taken from the job as the tables are; and its place in the job or (for an
 * allowance) in the house, NULL if there is none. */
void lml_inputs_push_ask(lua_State *L, const lml_recipe *recipe, const lml_shape *ask);
void lml_inputs_push_allowance(lua_State *L, const lml_recipe *recipe, const lml_shape *allowance);
const lml_json *lml_inputs_given(const lml_run *run, const lml_shape *ask);
const lml_json *lml_inputs_set(const lml_run *run, const lml_recipe *recipe,
                               const lml_shape *allowance);
/* Refuse a member of the job's `given` that is asked by neither the recipe nor a rule that takes
 * part. */
void lml_inputs_check_given(lua_State *L, const lml_recipe *recipe, const lml_json *member);
/* Take what the house sets for the recipe, and the defaults of the rest, as a run would when it
 * reaches them; anything invalid is left to the run. Raises. */
void lml_inputs_take_house_beforehand(lua_State *L, const lml_recipe *recipe);
/* In a proof: the table at index is the house of the recipes in use, like a job's "house". */
void lml_inputs_proof_house(lua_State *L, int index);
/* What the job gives to the rules that take part. */
void lml_inputs_proof_given(lua_State *L, int index);

#endif
