/* Boxes: what a job's sheets leave to be filled in by hand. A box and an entry of the record find
 * each other by name.
 *
 *     lml_boxes boxes = lml_boxes_of(call, "jobs/x.json", &text);
 *     lml_box box = lml_boxes_find(&boxes, lml_span_of("raw casting"));
 *     lml_boxes_end(&boxes);
 */
#ifndef LML_CLI_BOXES_H
#define LML_CLI_BOXES_H

#include "cli/command.h"
#include "file/json.h"
#include "value/wanted.h"

typedef struct lml_boxes {
    lml_json_document *result; /* NULL: the job cannot be run, and nobody knows its boxes */
} lml_boxes;

/* Run the job of this text, as its sheet was printed. Whatever the run says. */
lml_status lml_boxes_read(lml_call *call, const char *path, const lml_builder *text, lml_boxes *out,
                          lml_error *err);
/* The same where it does not matter why it cannot be run. */
lml_boxes lml_boxes_of(lml_call *call, const char *path, const lml_builder *text);
void lml_boxes_end(lml_boxes *boxes);

typedef struct lml_box {
    size_t all, count; /* boxes there are; those of the name that was looked for */
    lml_wanted kind;   /* of what is printed beside it; ANYTHING when nothing is */
    lml_nearest near;
} lml_box;
lml_box lml_boxes_find(const lml_boxes *boxes, lml_span name);

#endif
