/* Replaced: a studio's recipe compared with lemel's own of that name, which it replaces. What other
 * recipes and the jobs pass to it and read from it must still be there, and of the same kind.
 */
#ifndef LML_CLI_REPLACED_H
#define LML_CLI_REPLACED_H

#include "cli/job_text.h"
#include "terminal/call.h"
#include "worker/kit.h"

/* What is missing or of another kind, appended to `out` as complaints; nothing if lemel has no
 * recipe of that name. `text` is of `kit`. As lml_ask_inspect and lml_find_shipped. */
lml_status lml_replaced_tell(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                             lml_builder *out, lml_error *err);
/* The same for everything that the job's recipe uses, reported in `call->aside` before the run,
 * since it may explain errors in the run. Rules are left out: their kinds are their point's. Where
 * `checked` is the job's target, not NULL, also what lemel changed in its own since.
 * LML_NO_MEMORY; the run reports what cannot be read. */
lml_status lml_replaced_tell_job(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                 const lml_target *checked, lml_error *err);

#endif
