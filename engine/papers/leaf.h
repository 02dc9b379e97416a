/* Leaf: a figure of a result, found by its name and read as the value it was written from.
 *
 *     lml_leaf_find(results, "weigh[0].mass")      its record of kind, value, unit and text
 */
#ifndef LML_PAPERS_LEAF_H
#define LML_PAPERS_LEAF_H

#include "file/json.h"
#include "value/value.h"

enum { LML_LEAF_NAME = 4096 };

/* False for anything that is not a value: a text, an alloy, a record. */
bool lml_leaf_read(const lml_json *datum, lml_value *out);
/* NULL if the results have none of that name. */
const lml_json *lml_leaf_find(const lml_json *results, lml_span name);
/* Each leaf of the results in their order. A status other than LML_OK from `visit` ends it. */
lml_status lml_leaf_each(const lml_json *results,
                         lml_status (*visit)(void *self, const char *name, const lml_json *datum,
                                             lml_error *err),
                         void *self, lml_error *err);

#endif
