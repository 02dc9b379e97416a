/* Refused: what a recipe refuses, reported with its place in the job or in the house.
 *
 *     error("the crucible A has no rating", "crucibles", "A")    -- in Lua
 *     house.json:15: crucibles[0]: the crucible A has no rating
 *
 * A run that collects (run->faults) notes what a recipe refuses and continues as if the recipe had
 * been stopped: everything it gives is withheld.
 */
#ifndef LML_RUN_REFUSED_H
#define LML_RUN_REFUSED_H

#include "run/run.h"

/* Put the place before the message: as far as its steps lead into the job or the house, else the
 * job's own entry. A message of lemel's without steps names the job. */
void lml_refused_place(const lml_run *run, lml_error *err);
/* Note it as handled; false if the run does not collect, or it is not a fault of job or house. */
bool lml_refused_note(lml_run *run, lml_error *err);

#endif
