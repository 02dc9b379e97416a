/* Record entry: what was weighed or measured, as entries of a job's record.
 */
#ifndef LML_PAPERS_RECORD_ENTRY_H
#define LML_PAPERS_RECORD_ENTRY_H

#include "papers/boxes.h"
#include "papers/paper.h"

/* One entry: `what` and its NAME=VALUE words. LML_USAGE, LML_BAD_VALUE. */
lml_status lml_record_entry(const lml_entry *entry, lml_builder *out, lml_error *err);

/* The entry of one "WHAT=VALUE": the value's kind says which member it is, and the box of that name
 * on the sheets of the result (NULL: not known) whether it is the right one. LML_USAGE,
 * LML_BAD_VALUE. */
lml_status lml_record_entry_reading(const lml_entry *entry, const lml_json *result,
                                    const char *word, lml_builder *out, lml_error *err);

#endif
