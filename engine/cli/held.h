/* Held: the book of a studio's jobs, for a job whose charge takes metal out of the safe. A recipe
 * reads no files: the command reads the jobs and hands over what the book holds.
 *
 *     status = lml_held_put(call, 1, &job, err);
 */
#ifndef LML_CLI_HELD_H
#define LML_CLI_HELD_H

#include "cli/job_text.h"
#include "studio/jobs.h"

/* The texts of all jobs at once: metal goes from one to another. */
typedef struct lml_job_texts {
    lml_builder *text;
    lml_source *source; /* room for one more */
    size_t count;
} lml_job_texts;

/* LML_NO_MEMORY, and the statuses of lml_jobs_read. To be freed in any case. */
lml_status lml_job_texts_read(const lml_call *call, const lml_jobs *jobs, lml_job_texts *out,
                              lml_error *err);
void lml_job_texts_free(const lml_call *call, lml_job_texts *texts);

/* The day of the book from --at, or NULL; `now` is room for the text of the clock. */
lml_status lml_held_moment(const lml_call *call, char *now, const char **at, lml_error *err);

/* Put the words NAME=VALUE of the command line, from `first` on, into the job, and then, with
 * --book, what the book holds. The job's own file among the jobs is replaced by this text.
 * LML_USAGE for --at without --book; LML_BAD_DATA if the book cannot be read. */
lml_status lml_held_put(const lml_call *call, size_t first, lml_job_text *job, lml_error *err);

#endif
