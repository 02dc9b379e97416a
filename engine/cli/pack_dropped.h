/* Pack dropped: what a pack's new version no longer has, and who in the studio still needs it.
 */
#ifndef LML_CLI_PACK_DROPPED_H
#define LML_CLI_PACK_DROPPED_H

#include "cli/ask.h"
#include "studio/intake.h"

/* Take what goes out of the kit; where it stood in the place of lemel's own, that is there again.
 */
lml_status lml_pack_dropped_take_out(lml_call *call, const lml_intake *intake, lml_kit *kit,
                                     lml_error *err);
/* Whether a recipe or script that stays uses or requires what goes and nothing takes its place.
 * `now` is the studio as it is, `then` as it will be. LML_NO_WRITE for the first; with `replace`
 * all are said in `call->aside`. */
lml_status lml_pack_dropped_check(lml_call *call, const lml_intake *intake, const lml_kit *now,
                                  const lml_kit *then, bool replace, lml_error *err);

#endif
