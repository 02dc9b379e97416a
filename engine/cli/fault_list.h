/* Fault list: everything that is wrong in a job and in the files it is worked with, told at once.
 */
#ifndef LML_CLI_FAULT_LIST_H
#define LML_CLI_FAULT_LIST_H

#include "cli/job_text.h"
#include "file/json.h"
#include "worker/kit.h"

/* What of the files is looked at. */
typedef enum lml_fault_list_of {
    LML_FAULT_LIST_JOB, /* and the settings and prices that it is worked with */
    LML_FAULT_LIST_HOUSE,
    LML_FAULT_LIST_PRICES,
} lml_fault_list_of;

/* Read the faults as lml_engine_faults lists them. `job` may be NULL where none is looked at. */
lml_status lml_fault_list_read(const lml_call *call, const lml_kit *kit, lml_fault_list_of what,
                               const lml_job_text *job, lml_json_document **out, lml_error *err);
/* One after the other, but for those that were told before. */
void lml_fault_list_tell(lml_call *call, const lml_json *faults);
/* A job was refused with *err: when it is one of several faults, tell the others before it, and
 * leave it to the caller. */
void lml_fault_list_tell_others(lml_call *call, const lml_kit *kit, const lml_job_text *job,
                                const lml_error *err);
/* The lines of lemel's own recipes are for those who ask: without --verbose, none is told. */
void lml_fault_list_leave_out_said(const lml_call *call, lml_error *error);

#endif
