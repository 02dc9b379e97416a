/* What: how a figure of a job changes with one input, or which input gives a wanted figure; by runs
 * of the whole job.
 *
 *     lml_asked_what what = {.figure = "price", .input = "rates.bench", .range = "50..90 USD/h"};
 *     lml_what_run(engine, job, "job.json", &what, &writer, err);
 */
#ifndef LML_TRIAL_WHAT_H
#define LML_TRIAL_WHAT_H

#include "file/json_write.h"
#include "lemel.h"

/* At most so many runs, whatever is asked; a figure that crosses what is wished more often than is
 * said of is left at that. */
enum { LML_WHAT_ROWS = 10, LML_WHAT_SCAN = 40, LML_WHAT_RUNS = 200, LML_WHAT_ANSWERS = 12 };

/* The members of the report: see lml_engine_what. */
lml_status lml_what_run(lml_engine *engine, lml_span job, const char *shown,
                        const lml_asked_what *asked, lml_json_writer *w, lml_error *err);

#endif
