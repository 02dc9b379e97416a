/* Adopt merge: what `lemel adopt recipes/NAME.lua --merge` does: what lemel changed of its own text
 * since the studio's took its place is put into the studio's. */
#ifndef LML_CLI_ADOPT_MERGE_H
#define LML_CLI_ADOPT_MERGE_H

#include "studio/find.h"

/* LML_USAGE for a file that is not the studio's; LML_NO_FILE where no base is kept; LML_NO_WRITE
 * where both changed the same lines, which are shown; LML_STOPPED where the merged text is not
 * proved. Then nothing is written. */
lml_status lml_adopt_merge(lml_call *call, const lml_target *target, lml_error *err);

#endif
