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

/* A figure that is asked for. To be freed in any case. */
typedef struct lml_run_name {
    /* What the job itself calls it. What it only shows: "quote.price" of a recipe that it uses, or
     * in quotes the label of a line or a cell. */
    char text[LML_LEAF_NAME];
    /* Of what the job only shows: its steps, as lml_engine_why answers; NULL for a give. */
    lml_json_document *why;
} lml_run_name;
/* Read the name that the user typed; the answer to it, where it was asked for: the name takes it.
 */
void lml_run_name_take(const lml_json *result, lml_json_document *why, lml_run_name *out);
/* The same, asking the engine, unless the result knows it. As lml_engine_why. */
lml_status lml_run_find_name(lml_engine *engine, lml_span job, const char *shown,
                             const lml_asked_why *asked, const lml_json *result, lml_run_name *out,
                             lml_error *err);
/* Without the quotes of a label. */
lml_span lml_run_name_shown(const char *text);
/* Whether the result has the figure. */
bool lml_run_knows(const lml_json *result, const char *name);
/* The figure in a bare result, or in the answer that came with its name; NULL. */
const lml_json *lml_run_datum(const lml_json *result, const char *text);
const lml_json *lml_run_name_datum(const lml_json *result, const lml_run_name *name);
/* Refuse its datum, which is no number: LML_BAD_VALUE, with figures within it, or beside it. */
lml_status lml_run_refuse_kind(const lml_json *datum, const lml_run_name *name, lml_error *err);

/* LML_NO_MEMORY; to be freed in any case. */
typedef struct lml_run_names {
    const lml_alloc *alloc;
    size_t count;
    lml_run_name *name;
} lml_run_names;
lml_status lml_run_names_open(lml_run_names *out, const lml_alloc *alloc, const char *const *figure,
                              size_t count, lml_error *err);
void lml_run_names_free(lml_run_names *names);

#endif
