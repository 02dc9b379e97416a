/* Given: NAME=VALUE words put into a job text.
 *
 * The text is spliced, not rewritten, so that every line keeps its number and messages still point
 * at the right one. A dotted name reaches into records, which are created if missing, and
 * "lots[0].price" into a list, whose items must exist. A value that starts with [ or { goes in as
 * JSON, all others as a text.
 */
#ifndef LML_PAPERS_GIVEN_H
#define LML_PAPERS_GIVEN_H

#include "base/text.h"

/* The job text of a recipe that is run without a job file. */
lml_status lml_given_start(lml_builder *job, lml_span recipe, lml_error *err);
/* Put one word into `given` of the job; `shown` names the job in messages. Marks the job as loose:
 * its `given` may set allowances too. LML_USAGE for a word without '=', a bad name or bad JSON;
 * LML_BAD_DATA when the job cannot be read. */
lml_status lml_given_put(lml_builder *job, const char *word, const char *shown, lml_error *err);
/* The same for the `given` of its closing. */
lml_status lml_given_put_closing(lml_builder *job, const char *word, const char *shown,
                                 lml_error *err);
/* Put JSON at a path of the job, as ("house", "button"). LML_BAD_DATA, LML_USAGE, LML_NO_MEMORY. */
lml_status lml_given_put_raw(lml_builder *job, const lml_span *step, size_t steps, lml_span value,
                             const char *shown, lml_error *err);
/* Set what `rest` (".bench", "[0].price" or nothing) reaches within a setting of the house that the
 * job, or its closing, has. */
lml_status lml_given_put_house(lml_builder *job, bool closing, lml_span setting, const char *rest,
                               const char *value, const char *shown, lml_error *err);

#endif
