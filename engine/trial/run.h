/* Run: one run of a job with other figures than it says, in the engine's own process.
 *
 *     lml_json_document *result;
 *     lml_status status = lml_trial_run(engine, text, "job.json", &result, err);
 */
#ifndef LML_TRIAL_RUN_H
#define LML_TRIAL_RUN_H

#include "file/json.h"
#include "lemel.h"

/* The bare result, to be freed; NULL when there is none. As lml_engine_run. */
lml_status lml_run_trial(lml_engine *engine, lml_span job, const char *shown,
                         lml_json_document **result, lml_error *err);
/* Refuse a figure that a result does not have: LML_NOT_FOUND, saying that it is withheld, or with
 * the nearest name. */
lml_status lml_run_refuse_figure(const lml_json *result, const char *name, lml_error *err);

#endif
