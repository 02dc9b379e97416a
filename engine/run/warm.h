/* Warm: runs that start after loading.
 *
 * Loading is most of the cost of a job: ten recipes, each with its scripts. In a first run shipped
 * recipes are loaded when they are used. When an engine runs the same recipe again, everything that
 * its runs have used is preloaded, the memory of that box is saved, and restored for each run; if a
 * run uses more, the next one loads again. Each run still has a fresh state, byte for byte, and its
 * changes are discarded; budget and result are those of a run that loads by itself.
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

/* A run in which nothing has run yet. LML_NO_MEMORY. */
lml_status lml_warm_open(struct lml_engine *engine, const char *recipe, lml_run **out,
                         lml_error *err);
/* The run that was opened last; NULL before the first. */
lml_run *lml_warm_latest(struct lml_engine *engine);
void lml_warm_close(lml_run *run);
/* Forget everything: the shelf is about to change. */
void lml_warm_drop(struct lml_engine *engine);

#endif
