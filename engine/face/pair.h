/* Pair: a job worked by two engines that differ in one recipe, for their results to be compared.
 *
 * What the change cannot reach is worked once (see run/reuse.h). What comes out is what
 * lml_engine_run would give with each: its figures, its stops and its errors.
 *
 * What lml_pair_keep keeps of a job takes the place of the first engine's working, as often as
 * wanted. It holds for this build of lemel, this job, and the same texts on the shelf: the caller
 * sees to that.
 */
#ifndef LML_FACE_PAIR_H
#define LML_FACE_PAIR_H

#include "base/text.h"
#include "lemel.h"

typedef struct lml_pair_side {
    lml_status status;
    lml_text result; /* of LML_OK, unless `same`; the engine's to free */
    bool same;       /* of the second: the result is that of the first */
    lml_error error;
} lml_pair_side;

/* As lml_engine_run; and append to `kept` what of it may be taken over later: nothing, where the
 * job came near a limit. */
lml_status lml_pair_keep(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                         lml_builder *kept, lml_error *err);
/* `changed` is the recipe in which the engines differ; all else on their shelves is the same.
 * `kept` is what lml_pair_keep kept of the first engine and this job, or empty. */
void lml_pair_work(lml_engine *const engine[2], const char *changed, lml_span job,
                   const char *shown, lml_span kept, lml_pair_side side[2]);
void lml_pair_free(lml_engine *const engine[2], lml_pair_side side[2]);

#endif
