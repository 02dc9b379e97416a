/* Tries: one job run many times with changed figures, for `sure` and `what`.
 *
 * Answers of recipes in the first try are kept, and reused by the others if they must be the same
 * (see run/reuse.h): if one of lemel's own recipes has the same inputs. A try that comes near a
 * limit is run in full, so that no result depends on the tries before it.
 *
 *     lml_tries_open(engine, lml_span_of("markup"), err);
 *     lml_tries_work(engine, text, "job.json", &result, err);      any number of times
 *     lml_tries_close(engine);
 */
#ifndef LML_FACE_TRIES_H
#define LML_FACE_TRIES_H

#include "base/text.h"
#include "lemel.h"

#define LML_TRIES_CLOSING "closing:"

/* From here on all jobs are variants of one job. `about` names what changes, as paths or words
 * separated by non-letters; after an empty line it may list the wanted gives, one per line (for
 * lml_tries_draw "=weigh[0].mass"), and what the job only shows: a figure of a recipe that it uses,
 * "quote.price", or the label of a line or a cell in quotes. For those every try is a full run with
 * its sheets. A first line
 * LML_TRIES_CLOSING means that the job's closing is run. Does nothing if tries are open already.
 * LML_NO_MEMORY. */
lml_status lml_tries_open(lml_engine *engine, lml_span about, lml_error *err);
/* What came from a figure that a try withholds is withheld too, as in a run; such a try takes
 * longer.
 */
void lml_tries_mark(lml_engine *engine);
/* NULL is fine, and so is an engine without tries. */
void lml_tries_close(lml_engine *engine);
/* As a run. Each point that the job confirms holds even if its words have changed, and the result
 * is bare, with only the wanted gives. */
lml_status lml_tries_work(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                          lml_error *err);
/* The same, with what report/drawn.h writes of the wanted figures as the result. */
lml_status lml_tries_draw(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                          lml_error *err);

#endif
