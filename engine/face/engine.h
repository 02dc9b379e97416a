/* What the floors above may know of an engine: where its memory comes from, and jobs that are
 * worked for their figures alone. */
#ifndef LML_FACE_ENGINE_H
#define LML_FACE_ENGINE_H

#include "base/alloc.h"
#include "base/text.h"
#include "lemel.h"

/* What a function cannot do without: LML_BAD_DATA, naming the function and the first that is NULL.
 *
 *     if (LML_NEED(err, {"job", job}, {"result", result}))
 *         return LML_BAD_DATA;
 */
typedef struct lml_need {
    const char *name;
    const void *at;
} lml_need;
lml_status lml_need_all(const char *function, const lml_need *needs, lml_error *err);
#define LML_NEED(err, ...)                                                                         \
    lml_need_all(__func__, (const lml_need[]){__VA_ARGS__, {NULL, NULL}}, err)

const lml_alloc *lml_engine_alloc(const lml_engine *engine);

struct lml_reuse;
/* As lml_engine_run, for a result to be compared: see lml_result_write_bare and run/reuse.h. Where
 * `reuse->sure` is false afterwards, what came of it is of no use. */
lml_status lml_engine_run_bare(lml_engine *engine, lml_span job, const char *shown,
                               struct lml_reuse *reuse, lml_text *result, lml_error *err);
/* Whether every setting of the house means something to a recipe on the shelf: as a run asks first.
 */
lml_status lml_engine_check_house(lml_engine *engine, lml_error *err);

#endif
