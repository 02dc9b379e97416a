/* Replaced: a studio's recipe beside lemel's own of that name, whose place it takes. What other
 * recipes and the jobs hand to it and read of it has to be there still, and of the same kind.
 */
#ifndef LML_CLI_REPLACED_H
#define LML_CLI_REPLACED_H

#include "cli/job_text.h"
#include "terminal/call.h"
#include "worker/kit.h"

/* What is missing or of another kind, appended to `out` as complaints; nothing where lemel has no
 * recipe of that name. `text` is of `kit`. As lml_ask_inspect and lml_find_shipped. */
lml_status lml_replaced_tell(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                             lml_builder *out, lml_error *err);
/* The same of all that the job's recipe uses, told before it is run in `call->aside`: what goes
 * wrong in the run may well come of it. Rules are left out, whose kinds are their point's.
 * LML_NO_MEMORY; what cannot be read is told by the run. */
lml_status lml_replaced_tell_job(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                 lml_error *err);

#endif
