/* Splice: adds an entry to a job's record, a confirmation or an offer, and keeps every other byte
 * of the file.
 *
 * A job file belongs to a person: its indentation, order and line ends are kept. So the text is not
 * rewritten; the entry is put in where its moment belongs, formatted like the one beside it, and if
 * there is none yet the member is added after the last member.
 *
 *     lml_builder after = lml_builder_on(&alloc, 0);
 *     lml_status s = lml_splice_record(text, "jobs/x.json", entry, &after, err);
 *
 * The spliced bytes are contiguous: removing them gives the old text.
 */
#ifndef LML_FILE_SPLICE_H
#define LML_FILE_SPLICE_H

#include "base/text.h"

/* Append to `out` the job text with `entry` (one JSON record on one line, not yet checked) added to
 * its record, behind the last entry that is not later. The job is checked before and after, the
 * entry by lml_shapes_record_entry. `source` names the job in messages. LML_BAD_DATA,
 * LML_BAD_VALUE, LML_LIMIT, LML_NO_MEMORY; `out` is then as it was. */
lml_status lml_splice_record(lml_span job, const char *source, lml_span entry, lml_builder *out,
                             lml_error *err);
/* The same for a person's decision: `entry` is put under `code` in "confirmed". An entry that is
 * there already is replaced: the caller has found that it no longer holds. LML_BAD_DATA, LML_LIMIT,
 * LML_NO_MEMORY. */
lml_status lml_splice_confirmed(lml_span job, const char *source, lml_span code, lml_span entry,
                                lml_builder *out, lml_error *err);
/* The same for a decision for all jobs: `entry` is added to "confirmed" in house.json.
 * LML_BAD_DATA, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_splice_house_confirmed(lml_span house, const char *source, lml_span entry,
                                      lml_builder *out, lml_error *err);
/* The same for an offer or its outcome: `entry` is added to the offers, and refused if it is
 * earlier than the last one. LML_BAD_DATA, LML_BAD_VALUE, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_splice_offer(lml_span job, const char *source, lml_span entry, lml_builder *out,
                            lml_error *err);

#endif
