/* Pair: a job run by two engines that differ in one recipe, to compare their results.
 *
 * What the change cannot reach is run once (see run/reuse.h). The results are those of
 * lml_engine_run with each: figures, stops and errors.
 *
 * What lml_pair_keep saves of a job replaces the first engine's run, any number of times. It is
 * valid for this build of lemel, this job, and the same texts on the shelf; the caller ensures
 * that.
 */
#ifndef LML_FACE_PAIR_H
#define LML_FACE_PAIR_H

#include "base/text.h"
#include "lemel.h"

typedef struct lml_pair_side {
    lml_status status;
    lml_text result; /* for LML_OK, unless `same`; freed by the engine */
    bool same;       /* for the second: its result equals the first */
    lml_error error;
} lml_pair_side;

/* As lml_engine_run; also append to `kept` what can be reused later: nothing if the job came near a
 * limit. */
lml_status lml_pair_keep(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                         lml_builder *kept, lml_error *err);
/* `changed` is the recipe in which the engines differ; everything else on their shelves is the
 * same. `kept` is what lml_pair_keep saved for the first engine and this job, or empty. */
void lml_pair_work(lml_engine *const engine[2], const char *changed, lml_span job,
                   const char *shown, lml_span kept, lml_pair_side side[2]);
void lml_pair_free(lml_engine *const engine[2], lml_pair_side side[2]);

#endif
