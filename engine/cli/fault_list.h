/* Fault list: everything that is wrong in a job and in the files it is run with, reported at once.
 */
#ifndef LML_CLI_FAULT_LIST_H
#define LML_CLI_FAULT_LIST_H

#include "cli/job_text.h"
#include "file/json.h"
#include "worker/kit.h"

/* Which files are checked. */
typedef enum lml_fault_list_of {
    LML_FAULT_LIST_JOB, /* and the settings and prices that it is run with */
    LML_FAULT_LIST_HOUSE,
    LML_FAULT_LIST_PRICES,
} lml_fault_list_of;

/* Read the faults as lml_engine_faults lists them. `job` may be NULL if none is checked. */
lml_status lml_fault_list_read(const lml_call *call, const lml_kit *kit, lml_fault_list_of what,
                               const lml_job_text *job, lml_json_document **out, lml_error *err);
/* Print them one after the other, except those that were reported before. */
void lml_fault_list_tell(lml_call *call, const lml_json *faults);
/* A job was refused with *err: if that is one of several faults, report the others before it, and
 * leave it to the caller. */
void lml_fault_list_tell_others(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                const lml_error *err);
/* Lines of lemel's own recipes are shown only with --verbose. */
void lml_fault_list_leave_out_said(const lml_call *call, lml_error *error);

#endif
