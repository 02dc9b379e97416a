/* Job stops: what stops a job whose file is complete.
 */
#ifndef LML_CLI_JOB_STOPS_H
#define LML_CLI_JOB_STOPS_H

#include "cli/job_text.h"
#include "worker/kit.h"

/* Run it, and append each stop and each point to confirm to `out`, a line each. LML_STOPPED, with
 * their numbers, where there is any. */
lml_status lml_job_stops_tell(const lml_call *call, const lml_kit *kit, const lml_job_text *job,
                              lml_builder *out, lml_error *err);

#endif
