/* Job text: the text of a job from the command line.
 */
#ifndef LML_CLI_JOB_TEXT_H
#define LML_CLI_JOB_TEXT_H

#include "studio/find.h"

/* The name in messages of a job with typed values. */
#define LML_JOB_TYPED "the command line"

/* The text of a job and its name in messages. */
typedef struct lml_job_text {
    lml_builder text;
    const char *shown;
    bool closing;   /* its closing is run */
    bool afresh;    /* as though nothing had been offered yet */
    bool why;       /* with the steps that lead to each figure */
    lml_span typed; /* the settings of the command line, as the words of a shell */
} lml_job_text;

/* Read the target's job: a file, standard input, or a new job of a recipe. */
lml_status lml_job_text_read(const lml_call *call, const lml_target *target, lml_job_text *out,
                             lml_error *err);

/* Put the words NAME=VALUE of the command line into it, from that word on. */
lml_status lml_job_text_put(const lml_call *call, size_t first, lml_job_text *job, lml_error *err);

/* What is wrong with a setting of the command line, from that word on, is not said to stand on a
 * line of the file. */
void lml_job_text_blame(const lml_call *call, size_t first, const lml_job_text *job,
                        lml_error *err);

#endif
