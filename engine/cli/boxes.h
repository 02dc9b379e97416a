/* Boxes: the result of a job, for the boxes on its sheets and for its open points.
 *
 *     lml_text result = lml_boxes_of(call, "jobs/x.json", &text);
 *     lml_engine_box(engine, &result, "raw casting", &told, err);
 *     lml_boxes_end(call, &result);
 */
#ifndef LML_CLI_BOXES_H
#define LML_CLI_BOXES_H

#include "lemel.h"
#include "terminal/call.h"

/* Run the job of this text as its sheet was printed, and return any error of the run. */
lml_status lml_boxes_read(lml_call *call, const char *path, const lml_builder *text, lml_text *out,
                          lml_error *err);
/* The same as though nothing had been offered yet. */
lml_status lml_boxes_read_afresh(lml_call *call, const char *path, const lml_builder *text,
                                 lml_text *out, lml_error *err);
/* The same where the reason of a failure does not matter: out.text is NULL then. */
lml_text lml_boxes_of(lml_call *call, const char *path, const lml_builder *text);
/* Run the closing of this text, which has its date, as its sheet was printed. */
lml_status lml_boxes_read_closing(lml_call *call, const char *path, const lml_builder *text,
                                  lml_text *out, lml_error *err);
/* The same for the job's closing, dated today where the job has none: out.text is NULL if that
 * cannot be worked out. */
lml_text lml_boxes_of_closing(lml_call *call, const char *path, const lml_builder *text);
void lml_boxes_end(const lml_call *call, lml_text *result);

#endif
