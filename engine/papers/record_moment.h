/* Whether the moment of an entry can be right: detects a wrong year, or a moment in the future.
 */
#ifndef LML_PAPERS_RECORD_MOMENT_H
#define LML_PAPERS_RECORD_MOMENT_H

#include "papers/paper.h"

/* The moment of the entries against the date of the job, and against `now`. LML_BAD_VALUE. */
lml_status lml_record_moment_check(const lml_entry *entry, const lml_alloc *alloc, lml_span job,
                                   const char *shown, lml_error *err);

#endif
