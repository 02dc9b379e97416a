/* Record far: refuses a weighing that is far from what the sheet prints for it, or from what was
 * weighed before: 52 g for a ring of 5.2 g. And one of more than there is of the lot it is taken
 * from.
 *
 *     s = lml_record_far_check(&box, entry, false, record, name, reading, LML_WANT_MASS, err);
 *
 * It knows nothing of --anyway: its caller does not call it then.
 */
#ifndef LML_PAPERS_RECORD_FAR_H
#define LML_PAPERS_RECORD_FAR_H

#include "lemel.h"
#include "papers/boxes.h"

/* What two weighings of one thing on a usual scale differ by at most, two of its divisions: a part
 * is not heavier than what it is of by more. As in scripts/weighings.lua; common practice, no
 * source. */
enum { LML_RECORD_FAR_ALIKE = 20 /* mg */ };

/* Compare the reading of the box called `name` with what is printed beside it, or for what is cast
 * with an earlier weighing in `record`, which may be NULL. LML_USAGE when it is more than one and a
 * half times as much, or less than two thirds.
 * `aside`: the entry says way, owner or lot, and so is not compared with what is printed; nor is
 * what is added after a pour. */
lml_status lml_record_far_check(const lml_box *box, const lml_entry *entry, bool aside,
                                const lml_json *record, lml_span name, lml_span reading,
                                lml_wanted kind, lml_error *err);

/* LML_USAGE when `mass` is more than what `record` leaves of `lot`, by more than two weighings of
 * one thing differ. `corrected`: the moment of the entry that this one replaces, or empty. */
lml_status lml_record_far_check_from(const lml_json *record, lml_span name, lml_span mass,
                                     const char *lot, lml_span corrected, lml_error *err);

#endif
