/* Record entry: what was weighed or measured, as entries of a job's record.
 */
#ifndef LML_PAPERS_RECORD_ENTRY_H
#define LML_PAPERS_RECORD_ENTRY_H

#include "papers/boxes.h"
#include "papers/paper.h"

/* One entry: `what`, and words that are NAME=VALUE or one reading, whose kind says which member it
 * is. `result` NULL: no boxes are known. A mass has owner and fineness from its box where no word
 * says them. `also`: the reading in the unit of the sheet where that is another; else unchanged.
 * LML_USAGE, LML_BAD_VALUE. */
lml_status lml_record_entry(const lml_entry *entry, const lml_json *result, lml_builder *out,
                            lml_builder *also, lml_error *err);

/* The entry of one "WHAT=READING", and there must be a box of that name if boxes are known.
 * LML_USAGE, LML_BAD_VALUE. */
lml_status lml_record_entry_reading(const lml_entry *entry, const lml_json *result,
                                    const char *word, lml_builder *out, lml_builder *also,
                                    lml_error *err);

#endif
