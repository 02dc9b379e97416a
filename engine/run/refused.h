/* Refused: what a recipe refuses, told with its place in the job or in the house.
 *
 *     error("the crucible A has no rating", "crucibles", "A")    -- in Lua
 *     house.json:15: crucibles[0]: the crucible A has no rating
 *
 * A run that collects (run->faults) notes what a recipe refuses and goes on, as if the recipe had
 * been stopped: all that it gives is withheld.
 */
#ifndef LML_RUN_REFUSED_H
#define LML_RUN_REFUSED_H

#include "run/run.h"

/* Put before the message where its steps lead: as far as they go in the job or the house, else what
 * the job gives. A message of lemel's without steps names the job. */
void lml_refused_place(const lml_run *run, lml_error *err);
/* Note it, and take it off the caller's hands; false when the run does not collect, or it is no
 * fault of job or house. */
bool lml_refused_note(lml_run *run, lml_error *err);

#endif
