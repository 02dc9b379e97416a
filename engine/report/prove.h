/* The recipes' own proofs: worked examples that a recipe must reproduce.
 *
 *     { "18 kt from wax", given = { wax = "2.85 g", ... }, expect = { piece = "45.9 g" }, within =
 * "0.1 g", source = "..." }
 *
 * `given` names asks and allowances; defaults and `given` are all that a proof sees. `within` is
 * how far a figure may be from what is expected: a value of its kind, or a percentage of it;
 * without it figures must be equal. `stops = { "crucible" }` names the remarks that must stop it,
 * `expect` what still comes out.
 */
#ifndef LML_REPORT_PROVE_H
#define LML_REPORT_PROVE_H

#include "run/run.h"

lml_status lml_prove_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err);

#endif
