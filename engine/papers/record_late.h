/* Record late: an entry that is recorded after later ones, such as a weighing that was forgotten.
 *
 *     status = lml_record_late_check(record, entry, what, from, err);
 */
#ifndef LML_PAPERS_RECORD_LATE_H
#define LML_PAPERS_RECORD_LATE_H

#include "papers/paper.h"

/* Whether an entry of the record is later than the moment `at`, which has been read before. */
bool lml_record_late_than(const lml_json *entry, const char *at);

/* Whether `at` is later than a moment as a result writes it; false where that is empty. */
bool lml_record_late_is_after(const char *at, lml_span moment);

/* The moment of the entry called `what`, later than `at` and of the same round, that counts in
 * place of one at `at`; `way`: of those, one with that way, NULL for any. Empty: there is none. */
lml_span lml_record_late_counts(const lml_json *record, const char *at, lml_span what,
                                const lml_span *way);

/* The moment of the first entry called `what` with that way after the next pour behind `at`; empty
 * where there is none. */
lml_span lml_record_late_next_round(const lml_json *record, const char *at, lml_span what,
                                    lml_span way);

/* Refuse what cannot be: metal that is taken from something (`from`, may be NULL), or weighed out
 * of it ("weighed chain"), before that was recorded as come in or weighed. LML_BAD_VALUE. */
lml_status lml_record_late_check(const lml_json *record, const lml_entry *entry, lml_span what,
                                 const char *from, lml_error *err);

#endif
