/* Pack dropped: what a pack's new version no longer has, and who in the studio still needs it.
 */
#ifndef LML_CLI_PACK_DROPPED_H
#define LML_CLI_PACK_DROPPED_H

#include "cli/ask.h"
#include "studio/intake.h"

/* Remove from the kit what the pack no longer has; lemel's own text comes back where it was
 * replaced. */
lml_status lml_pack_dropped_take_out(lml_call *call, const lml_intake *intake, lml_kit *kit,
                                     lml_error *err);
/* Whether a remaining recipe or script uses or requires something that goes without a replacement.
 * `now` is the studio as it is, `then` as it will be. LML_NO_WRITE for the first; with `replace`
 * all are listed in `call->aside`. */
lml_status lml_pack_dropped_check(lml_call *call, const lml_intake *intake, const lml_kit *now,
                                  const lml_kit *then, bool replace, lml_error *err);

#endif
