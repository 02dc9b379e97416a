/* Pair: a job worked by two engines that differ in one recipe, for their results to be compared.
 *
 * What the change cannot reach is worked once (see run/reuse.h). What comes out is what
 * lml_engine_run would give with each: its figures, its stops and its errors.
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

/* `changed` is the recipe in which the engines differ; all else on their shelves is the same. */
void lml_pair_work(lml_engine *const engine[2], const char *changed, lml_span job,
                   const char *shown, lml_pair_side side[2]);
void lml_pair_free(lml_engine *const engine[2], lml_pair_side side[2]);

#endif
