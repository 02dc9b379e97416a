/* Closing open: what a job that was offered still lacks to be closed.
 */
#ifndef LML_CLI_CLOSING_OPEN_H
#define LML_CLI_CLOSING_OPEN_H

#include "cli/job_text.h"
#include "worker/kit.h"

/* Append it to `out`: that the offer is not accepted, or what is in the way of lemel close. Nothing
 * of a job without an offer. */
lml_status lml_closing_open_tell(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                 lml_builder *out, lml_error *err);

#endif
