/* Question: a step of the walk as JSON, to be displayed.
 */
#ifndef LML_PAPERS_QUESTION_H
#define LML_PAPERS_QUESTION_H

#include "file/json_write.h"
#include "file/shape.h"
#include "papers/walk.h"

/* The outcome of the previous answer. */
typedef struct lml_question_after {
    const lml_error *fault; /* NULL: it was taken */
    lml_span told;          /* as the house writes it; empty: as it was typed */
    bool more;              /* it asked for more */
    lml_span from, to;      /* with more: bounds as the house writes them, or empty */
} lml_question_after;

/* How an answer to the step is written, as the house of the job writes it; empty where any text is
 * one.
 */
void lml_question_example(const lml_step *step, const lml_json *job, char out[LML_EXAMPLE_TEXT]);
/* Step `index` of the walk; after the last: the end. `job` is its root. */
void lml_question_write(const lml_walk *walk, size_t index, const lml_json *job,
                        const lml_question_after *after, lml_json_writer *w);

#endif
