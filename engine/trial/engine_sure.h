/* Engine, sure: lml_engine_sure of lemel.h with more digits than it needs.
 *
 *     lml_engine_sure_digits(engine, &(lml_sure_question){job, length, "job.json", &asked, 2},
 * &out, err);
 */
#ifndef LML_TRIAL_ENGINE_SURE_H
#define LML_TRIAL_ENGINE_SURE_H

#include "lemel.h"

typedef struct lml_sure_question {
    const char *job;
    size_t length;
    const char *shown;
    const lml_asked_sure *asked;
    int digits; /* of each deviation that are to be stable: JCGM 101, 7.9.2 */
} lml_sure_question;

/* As lml_engine_sure, which asks for one digit: that is enough for a bench. What is compared with a
 * published case takes two. */
lml_status lml_engine_sure_digits(lml_engine *engine, const lml_sure_question *question,
                                  lml_text *out, lml_error *err);

#endif
