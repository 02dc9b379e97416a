/* Adopt merge: `lemel adopt recipes/NAME.lua --merge`: puts lemel's changes to its own text, since
 * the studio's replaced it, into the studio's. */
#ifndef LML_CLI_ADOPT_MERGE_H
#define LML_CLI_ADOPT_MERGE_H

#include "studio/find.h"

/* LML_USAGE for a file that does not belong to the studio; LML_NO_FILE where no base is kept;
 * LML_NO_WRITE where both changed the same lines, which are shown; LML_STOPPED where the merged
 * text fails its proofs. On failure nothing is written. */
lml_status lml_adopt_merge(lml_call *call, const lml_target *target, lml_error *err);

#endif
