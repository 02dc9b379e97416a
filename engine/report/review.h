/* Review: everything that is wrong in a job, its house and its prices; a run reports only the
 * first.
 *
 *     lml_faults faults = lml_faults_on(&json);
 *     status = lml_review_job(run, "need", &faults, err);
 */
#ifndef LML_REPORT_REVIEW_H
#define LML_REPORT_REVIEW_H

#include "file/faults.h"
#include "run/run.h"

/* What `recipe` asks of the job and of the house, and what the job says that nothing asks. Not
 * LML_OK only if that could not be checked: the recipe is not there or faulty, a limit. */
lml_status lml_review_job(lml_run *run, const char *recipe, lml_faults *faults, lml_error *err);
/* Each setting of the house as the recipes on the shelf read it, and those that none reads. With a
 * `recipe`, and unless that cannot be read, only those that it and the recipes it uses read. */
lml_status lml_review_house(lml_run *run, const char *recipe, lml_faults *faults, lml_error *err);

#endif
