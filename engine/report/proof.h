/* A proof as it is written: a table of known members, and where it is in the recipe's text.
 *
 *     { "18 kt from wax", given = { wax = "2.85 g" }, house = { button = "9 g" }, expect = { piece
 * = "45.9 g" }, within = "0.1 g", stops = { "crucible" }, source = "..." }
 */
#ifndef LML_REPORT_PROOF_H
#define LML_REPORT_PROOF_H

#include "shelf/recipe.h"
#include "cell/state.h"

/* Push the recipe's list of proofs, made by its function where it has one: a run never does. How
 * many there are. */
lua_Integer lml_proof_push_all(lua_State *L, const char *recipe);
/* Push proof `index` (from 1) as the recipe lists it. */
void lml_proof_push(lua_State *L, const lml_recipe *recipe, lua_Integer index);
/* Raises LML_BAD_RECIPE, with the line, where what stands at `proof` is none: a member that no
 * proof has, a name that the recipe neither asks nor gives, a within that is no value, no source,
 * nothing expected. */
void lml_proof_check(lua_State *L, int proof, const lml_recipe *recipe, lua_Integer index);

/* The line where proof `index` begins; 0 when the text does not list them itself. */
int lml_proof_line(lml_span source, lua_Integer index);

#endif
