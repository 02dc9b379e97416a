/* Answer: one answer to one question of a recipe, before there is a job.
 *
 *     lml_answer_write(&run, "remake", "old_metal[0].gross", "0.481 ozt", &json, err);
 *     -> { "given": "0.481 ozt", "kind": "mass", "value": 0.481, "unit": "ozt",
 *          "text": "14.9608 g" }
 */
#ifndef LML_REPORT_ANSWER_H
#define LML_REPORT_ANSWER_H

#include "run/run.h"

/* As lml_engine_check_value says. */
lml_status lml_answer_write(lml_run *run, const char *recipe, const char *field, const char *text,
                            lml_builder *b, lml_error *err);

#endif
