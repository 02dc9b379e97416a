/* Warm: runs that start where loading ends.
 *
 * Loading is most of what a job costs: ten recipes, each with its scripts. In a first run what
 * ships is loaded when it is used. When an engine works the same recipe again, all that runs of it
 * have used is loaded beforehand, the memory of that box is kept, and wound back to that moment for
 * each run; a run that uses more has the next one load anew. A run still has a fresh state, byte
 * for byte, and what it does to it goes nowhere; budget and result are those of a run that loads by
 * itself.
 *
 *     lml_run *run;
 *     lml_warm_open(engine, "need", &run, err);
 *     lml_work_job_run(run, "need", err);
 *     lml_warm_close(run);
 */
#ifndef LML_RUN_WARM_H
#define LML_RUN_WARM_H

#include "run/run.h"

typedef struct lml_warm lml_warm;

/* A run in which nothing has been worked. LML_NO_MEMORY. */
lml_status lml_warm_open(struct lml_engine *engine, const char *recipe, lml_run **out,
                         lml_error *err);
/* The run that was opened last; NULL before the first. */
lml_run *lml_warm_latest(struct lml_engine *engine);
void lml_warm_close(lml_run *run);
/* Forget all: what stands on the shelf changes. */
void lml_warm_drop(struct lml_engine *engine);

#endif
