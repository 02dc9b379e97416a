/* Gates: stops that come from law, physics or health, which no recipe can leave out.
 *
 * They stand in scripts/gates.lua and look, by name, at what every recipe was told and what it
 * gave. A gate runs when all that it needs is there and not withheld. The engine's own instance of
 * the script is used, which no recipe can reach.
 */
#ifndef LML_RUN_GATE_H
#define LML_RUN_GATE_H

#include "run/run.h"

/* The name of the script that holds them. */
#define LML_GATES "gates"

/* Let the gates look at the part at index `part`, worked from the tables at `job` and `house`.
 * Raises. */
void lml_gate_pass(lua_State *L, int part, int job, int house);

#endif
