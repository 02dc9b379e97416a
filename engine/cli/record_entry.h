/* Record entry: the words of a command line as entries of a job's record.
 */
#ifndef LML_CLI_RECORD_ENTRY_H
#define LML_CLI_RECORD_ENTRY_H

#include "cli/boxes.h"

/* One entry: WHAT and its NAME=VALUE words. `at` is the moment that it says. LML_USAGE,
 * LML_BAD_VALUE. */
lml_status lml_record_entry(const lml_call *call, const char *at, lml_builder *out, lml_error *err);

/* The entry of one "WHAT=VALUE": the value's kind says which member it is, and the box of that name
 * whether it is the right one. LML_USAGE, LML_BAD_VALUE. */
lml_status lml_record_reading(const lml_call *call, const lml_boxes *boxes, const char *word,
                              const char *at, lml_builder *out, lml_error *err);

/* The moment of the entries against the date of the job, and against the clock unless it is `now`. LML_BAD_VALUE. */
lml_status lml_record_check_moment(const lml_call *call, const char *path, const lml_builder *job,
                                   lml_error *err);

#endif
