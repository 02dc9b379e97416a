/* Gates: stops that come from law, physics or health, which no recipe can leave out.
 *
 * They are in scripts/gates.lua and check, by name, what every recipe was given and what it
 * returned. A gate runs when everything it needs is there and not withheld. The engine uses its own
 * instance of the script, which no recipe can reach.
 */
#ifndef LML_RUN_GATE_H
#define LML_RUN_GATE_H

#include "run/run.h"

/* The name of their script. */
#define LML_GATES "gates"

/* Sort out which gates may have what they need after the recipe, in a state that is kept. Raises
 * only where the run is dead. */
void lml_gate_sort_out(lua_State *L, const lml_recipe *recipe);
/* Run the gates on the part at index `part` of the recipe, calculated from the tables at `job` and
 * `house`. Raises. */
void lml_gate_pass(lua_State *L, const lml_recipe *recipe, int part, int job, int house);

#endif
