/* Boxes: places on a result's sheets to be filled in by hand. A box and an entry of the record are
 * matched by name.
 *
 *     lml_box box = lml_boxes_find(lml_json_root(result), lml_span_of("raw casting"));
 */
#ifndef LML_PAPERS_BOXES_H
#define LML_PAPERS_BOXES_H

#include "file/json.h"
#include "value/wanted.h"

typedef struct lml_box {
    size_t all, count;      /* number of boxes; of those with the wanted name */
    lml_wanted kind;        /* kind of what is printed beside it; ANYTHING if nothing is */
    const lml_json *entry;  /* of the sheet, the first of that name; NULL: none */
    lml_nearest near, open; /* of all names; of the boxes that nothing is recorded for */
    lml_span labelled;      /* the box that is printed so, or has these words in another order */
    lml_span long_for;      /* the only box that has every word of the name; empty: none */
} lml_box;

/* `result` NULL: there are no boxes. */
lml_box lml_boxes_find(const lml_json *result, lml_span name);
/* The box that was probably meant where none has the name; empty: none comes to mind. */
lml_span lml_boxes_near(const lml_box *box);

/* The next box of the same page that nothing is recorded for; empty: none is left there. */
lml_span lml_boxes_next(const lml_json *result, lml_span name);

#endif
