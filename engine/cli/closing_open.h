/* Closing open: what a job that was offered still lacks to be closed.
 */
#ifndef LML_CLI_CLOSING_OPEN_H
#define LML_CLI_CLOSING_OPEN_H

#include "cli/job_text.h"
#include "file/json.h"
#include "worker/kit.h"

/* Append it to `out`, step by step in the order in which it is done, with the commands. Nothing of
 * a job without an offer. */
lml_status lml_closing_open_tell(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                 lml_builder *out, lml_error *err);

/* The same of a closing that was run with settings `typed`; whether anything is still needed. */
bool lml_closing_open_steps(const lml_call *call, const lml_json *result, const char *shown,
                            lml_span typed, lml_builder *out);
/* What is still to be entered once it is closed. */
void lml_closing_open_after(const lml_call *call, const lml_json *result, const char *shown,
                            lml_builder *out);

#endif
