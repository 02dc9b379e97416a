/* Splice: one more entry in a job's record, one more point that is confirmed, or one more offer,
 * and every other byte of the file as it was.
 *
 * A job file is a person's own: its indents, its order, its line ends. So the text is not written
 * anew; the entry is put in behind the last one, dressed as that one is, and where there is none
 * yet the member comes into being behind the last member.
 *
 *     lml_builder after = lml_builder_on(&alloc, 0);
 *     lml_status s = lml_splice_record(text, "jobs/x.json", entry, &after, err);
 *
 * Taking the spliced bytes out again gives the old text: they are one run.
 */
#ifndef LML_FILE_SPLICE_H
#define LML_FILE_SPLICE_H

#include "base/text.h"

/* Append to `out` the job text with `entry` (one JSON record on one line, not yet checked) added to
 * its record. The job is checked before and after, the entry by lml_shapes_record_entry; an entry
 * that is earlier than the last one is refused, because a record only grows. `source` names the job
 * in messages. LML_BAD_DATA, LML_BAD_VALUE, LML_LIMIT, LML_NO_MEMORY; `out` is then as it was. */
lml_status lml_splice_record(lml_span job, const char *source, lml_span entry, lml_builder *out,
                             lml_error *err);
/* The same for what a person decided: `entry` is put under `code` among what is confirmed. A code
 * that is there already is refused, because nothing that a person wrote is taken out. LML_BAD_DATA,
 * LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_splice_confirmed(lml_span job, const char *source, lml_span code, lml_span entry,
                                lml_builder *out, lml_error *err);
/* The same for what a person decided for all jobs: `entry` is put behind the last one of what is
 * confirmed in house.json. LML_BAD_DATA, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_splice_house_confirmed(lml_span house, const char *source, lml_span entry,
                                      lml_builder *out, lml_error *err);
/* The same for an offer or what became of it: `entry` is put behind the last one among the offers,
 * and refused when it is earlier. LML_BAD_DATA, LML_BAD_VALUE, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_splice_offer(lml_span job, const char *source, lml_span entry, lml_builder *out,
                            lml_error *err);

#endif
