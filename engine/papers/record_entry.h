/* Record entry: what was weighed or measured, as entries of a job's record.
 */
#ifndef LML_PAPERS_RECORD_ENTRY_H
#define LML_PAPERS_RECORD_ENTRY_H

#include "papers/boxes.h"
#include "papers/paper.h"

/* The job as it is before the entry. */
typedef struct lml_record_known {
    const lml_json *result;             /* NULL: no boxes are known */
    const lml_json *record;             /* NULL: nothing was recorded yet */
    lml_span vacuum_gauge;              /* what the house says its gauge shows; empty: nothing */
    bool studio_button, studio_filings; /* left to the studio by agreement */
} lml_record_known;

/* One entry: `what`, and words that are NAME=VALUE or one reading, whose kind says which member it
 * is. A mass has way, owner and fineness from its box where no word says them, and owner and
 * fineness from what it is taken out of. `also`: the reading in the unit of the sheet where that is
 * another; else unchanged. LML_USAGE, LML_BAD_VALUE. */
lml_status lml_record_entry(const lml_entry *entry, const lml_record_known *known, lml_builder *out,
                            lml_builder *also, lml_error *err);

/* The entry of one "WHAT=READING", and there must be a box of that name if boxes are known.
 * LML_USAGE, LML_BAD_VALUE. */
lml_status lml_record_entry_reading(const lml_entry *entry, const lml_record_known *known,
                                    const char *word, lml_builder *out, lml_builder *also,
                                    lml_error *err);

#endif
