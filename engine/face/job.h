/* Job: runs, checks or closes a job's text; or runs it for its figures alone.
 *
 *     lml_status status = lml_job_need_gates(engine, err);
 */
#ifndef LML_FACE_JOB_H
#define LML_FACE_JOB_H

#include "base/text.h"
#include "lemel.h"

/* LML_NO_GATES on an engine without gates, unless its options allow that. */
lml_status lml_job_need_gates(const lml_engine *engine, lml_error *err);

struct lml_faults;
/* Run it to collect what its recipes refuse; a refusal in one recipe does not stop the others. A
 * job that lists others without their results is not run, and no job is run without gates. */
lml_status lml_job_try(lml_engine *engine, lml_span job, const char *shown,
                       struct lml_faults *faults, lml_error *err);

struct lml_reuse;
/* As a run, for a result that is only compared: see lml_result_write_bare and run/reuse.h. If
 * `reuse->sure` is false afterwards, the result must not be used. */
lml_status lml_job_run_bare(lml_engine *engine, lml_span job, const char *shown, bool closing,
                            struct lml_reuse *reuse, lml_text *result, lml_error *err);
/* Whether every setting of the house is known to a recipe on the shelf; a run checks this first. */
lml_status lml_job_check_house(lml_engine *engine, lml_error *err);

#endif
