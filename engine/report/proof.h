/* A proof as it is written: a table of known members, and where it is in the recipe's text.
 *
 *     { "18 kt from wax", given = { wax = "2.85 g" }, house = { button = "9 g" }, expect = { piece
 * = "45.9 g" }, within = "0.1 g", stops = { "crucible" }, source = "..." }
 */
#ifndef LML_REPORT_PROOF_H
#define LML_REPORT_PROOF_H

#include "shelf/recipe.h"
#include "cell/state.h"

/* Push the recipe's list of proofs, calling its function if it has one (a run never does). Returns
 * how many there are. */
lua_Integer lml_proof_push_all(lua_State *L, const char *recipe);
/* Push proof `index` (from 1) as the recipe lists it. */
void lml_proof_push(lua_State *L, const lml_recipe *recipe, lua_Integer index);
/* Push a copy of the table with all tables in it: what a proof says comes before the recipe works,
 * and may be shared with other proofs. */
void lml_proof_push_copy(lua_State *L, int table);

/* Something that is wrong with a proof as it is written, and how to fix it. `line` is 0 where the
 * text does not list the proof itself. */
typedef void lml_proof_tell(void *self, int line, const char *text, const char *mend);
/* Tells all that is wrong with what is at `proof`: a member that no proof has, a name that the
 * recipe neither asks nor gives, a figure of another kind, a `within` that is not a value or fits
 * none of the figures, no source, nothing expected. How much was told. Raises only when the run is
 * dead. */
int lml_proof_review(lua_State *L, int proof, const lml_recipe *recipe, lua_Integer index,
                     lml_proof_tell *tell, void *self);

/* The line where proof `index` begins; 0 when the text does not list them itself. */
int lml_proof_line(lml_span source, lua_Integer index);

#endif
