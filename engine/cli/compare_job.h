/* Compare job: one job of `lemel compare`, run with both versions and compared in a worker: only
 * the small comparison goes through the pipe, not the results.
 *
 *     { "sides": [ { "worked": [ { "recipe": "need" } ], "status": 0, "words": "need/crucible" },
 *                  { ... } ], "figures": 41, "movements": [ ... ], "totals": [ ... ] }
 */
#ifndef LML_CLI_COMPARE_JOB_H
#define LML_CLI_COMPARE_JOB_H

#include "print/comparison.h"
#include "worker/process.h"

/* What a worker gets besides the job. */
typedef struct lml_compare_job {
    const char *recipe; /* the recipe in which the two kits differ */
    lml_within within;
} lml_compare_job;

/* An lml_task_pair: `self` is an lml_compare_job, the request an lml_job. */
lml_status lml_compare_job_work(const void *self, lml_engine *const engine[], const lml_error why[],
                                const lml_alloc *alloc, const void *request, lml_text *out,
                                lml_error *err);
/* The codes of what stops a result, as a person reads them: "need/crucible, cast/lots". */
void lml_compare_job_stops(char words[LML_COMPARE_WORDS], const lml_json *result);

#endif
