/* Run: one run of a job with other figures than it says, in the engine's own process.
 *
 *     lml_json_document *result;
 *     lml_status status = lml_trial_run(engine, text, "job.json", &result, err);
 */
#ifndef LML_TRIAL_RUN_H
#define LML_TRIAL_RUN_H

#include "file/json.h"
#include "lemel.h"
#include "papers/leaf.h"

/* The bare result, to be freed; NULL when there is none. As lml_engine_run. */
lml_status lml_run_trial(lml_engine *engine, lml_span job, const char *shown,
                         lml_json_document **result, lml_error *err);
/* Refuse a figure that a result does not have: LML_NOT_FOUND, saying that it is withheld, or with
 * the nearest name. */
lml_status lml_run_refuse_figure(const lml_json *result, const char *name, lml_error *err);
/* Hint at a figure in place of the datum, which is none: at one within it, or at another. */
void lml_run_hint_figure(const lml_json *datum, lml_error *err);

/* Copies of the names of figures, for what the job itself calls them. LML_NO_MEMORY; to be freed in
 * any case. */
typedef struct lml_run_names {
    const lml_alloc *alloc;
    size_t count;
    char (*text)[LML_LEAF_NAME];
    const char **figure; /* each points to its text */
} lml_run_names;
lml_status lml_run_names_open(lml_run_names *out, const lml_alloc *alloc, const char *const *figure,
                              size_t count, lml_error *err);
void lml_run_names_free(lml_run_names *names);
/* Whether the result has the figure, or withholds it. */
bool lml_run_knows(const lml_json *result, const char *name);
/* What the job itself calls it, as lemel why answers: "price" for "quote.price" and "Total to pay".
 * LML_NOT_FOUND for a figure of another recipe that the job does not hand on. */
lml_status lml_run_take_name(const lml_json *result, const lml_json *why, char out[LML_LEAF_NAME],
                             lml_error *err);
/* The same, asking the engine; a name that the result knows is copied. */
lml_status lml_run_find_name(lml_engine *engine, lml_span job, const char *shown,
                             const lml_asked_why *asked, const lml_json *result,
                             char out[LML_LEAF_NAME], lml_error *err);

#endif
