/* Job: a job's text worked, checked, or brought to its end; or worked for its figures alone.
 *
 *     lml_status status = lml_job_need_gates(engine, err);
 */
#ifndef LML_FACE_JOB_H
#define LML_FACE_JOB_H

#include "base/text.h"
#include "lemel.h"

/* LML_NO_GATES on an engine without them, unless it was made so. */
lml_status lml_job_need_gates(const lml_engine *engine, lml_error *err);

struct lml_faults;
/* Run it to collect what its recipes refuse: one that is refused something holds up no other. A job
 * that lists others, and nothing came of them yet, is not run, and none is without gates. */
lml_status lml_job_try(lml_engine *engine, lml_span job, const char *shown,
                       struct lml_faults *faults, lml_error *err);

struct lml_reuse;
/* As a run, for a result to be compared: see lml_result_write_bare and run/reuse.h. Where
 * `reuse->sure` is false afterwards, what came of it is of no use. */
lml_status lml_job_run_bare(lml_engine *engine, lml_span job, const char *shown, bool closing,
                            struct lml_reuse *reuse, lml_text *result, lml_error *err);
/* Whether every setting of the house means something to a recipe on the shelf: as a run asks first.
 */
lml_status lml_job_check_house(lml_engine *engine, lml_error *err);

#endif
