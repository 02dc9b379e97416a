/* What a recipe is told: the tables behind `job` and `house`, each figure checked against its ask.
 *
 * Precedence of an allowance: passed by the recipe that uses this one; the job for this recipe,
 * then in general; the house likewise; the default.
 */
#ifndef LML_RUN_INPUTS_H
#define LML_RUN_INPUTS_H

#include "run/run.h"

/* Push the table. `arguments` is the index of a table of Lua values, or 0: from the job. Raises. */
void lml_inputs_push_job(lua_State *L, const lml_recipe *recipe, int arguments);
void lml_inputs_push_house(lua_State *L, const lml_recipe *recipe, int arguments);
/* One of them alone, from the job, as the tables are made; and the place where it is said, in the
 * job or (of an allowance) in the house: NULL where nothing is said. */
void lml_inputs_push_ask(lua_State *L, const lml_recipe *recipe, const lml_shape *ask);
void lml_inputs_push_allowance(lua_State *L, const lml_recipe *recipe, const lml_shape *allowance);
const lml_json *lml_inputs_given(const lml_run *run, const lml_shape *ask);
const lml_json *lml_inputs_set(const lml_run *run, const lml_recipe *recipe,
                               const lml_shape *allowance);
/* Refuse a member of the job's `given` that neither the recipe nor a rule that takes part asks. */
void lml_inputs_check_given(lua_State *L, const lml_recipe *recipe, const lml_json *member);
/* Take what the house sets for the recipe, and the defaults of the rest, as a run would when it
 * comes to them; what cannot be taken is left to the run. Raises. */
void lml_inputs_take_house_beforehand(lua_State *L, const lml_recipe *recipe);
/* In a proof: the table at index says what the house of the recipes in use sets, as a job's "house"
 * does. */
void lml_inputs_proof_house(lua_State *L, int index);
/* What it gives, for what the rules that take part ask of the job themselves. */
void lml_inputs_proof_given(lua_State *L, int index);

#endif
