/* Tries: one job worked again and again, each time with other figures than it says, as sure and
 * what do.
 *
 * What the recipes gave that the first try asked is kept, and taken over by the others where it
 * cannot be another (see run/reuse.h): where a recipe of lemel's own is told the same. A try that
 * comes near a limit is worked whole, so that what comes of one never hangs on those before it.
 *
 *     lml_tries_open(engine, lml_span_of("markup"), err);
 *     lml_tries_work(engine, text, "job.json", &result, err);      as often as wanted
 *     lml_tries_close(engine);
 */
#ifndef LML_FACE_TRIES_H
#define LML_FACE_TRIES_H

#include "base/text.h"
#include "lemel.h"

#define LML_TRIES_CLOSING "closing:"

/* From here on the jobs are one job. What they say otherwise stands in `about`, as paths or words
 * between what is no letter; behind an empty line may stand the gives that are wanted, a line each.
 * A first line LML_TRIES_CLOSING says that the job's closing is worked.
 * Does nothing where tries are open already. LML_NO_MEMORY. */
lml_status lml_tries_open(lml_engine *engine, lml_span about, lml_error *err);
/* NULL is fine, and an engine without any. */
void lml_tries_close(lml_engine *engine);
/* As a run. Each point that the job confirms holds, whatever its words have become, and the result
 * is bare, with the wanted gives alone. */
lml_status lml_tries_work(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                          lml_error *err);

#endif
