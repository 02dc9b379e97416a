/* Work: what the subcommands ask of an engine, done in a worker and handed back as parsed JSON.
 */
#ifndef LML_CLI_WORK_H
#define LML_CLI_WORK_H

#include "cli/command.h"
#include "cli/find.h"
#include "cli/worker.h"
#include "file/json.h"
#include "file/json_copy.h"
#include "file/json_write.h"

#define LML_JOB_TYPED                                                                              \
    "the command line" /* how messages name a job of a recipe with typed values                    \
                        */

/* The text of a job and how messages name it. */
typedef struct lml_job_text {
    lml_builder text;
    const char *shown;
} lml_job_text;

/* Read the job that the target says: a file, standard input, or a new job of a recipe. */
lml_status lml_work_read_job(const lml_call *call, const lml_target *target, lml_job_text *out,
                             lml_error *err);

/* Put the words NAME=VALUE of the command line, from that one on, into it. */
lml_status lml_work_put_words(const lml_call *call, size_t first, lml_job_text *job,
                              lml_error *err);

/* One engine call in a worker of its own; the answer is appended to `out`. */
lml_status lml_work_run(const lml_kit *kit, const lml_job_text *job, lml_builder *out,
                        bool *stopped, lml_error *err);
lml_status lml_work_check(const lml_kit *kit, const lml_job_text *job, lml_error *err);
lml_status lml_work_inspect(const lml_kit *kit, const char *recipe, lml_builder *out,
                            lml_error *err);
lml_status lml_work_prove(const lml_kit *kit, const char *recipe, lml_builder *out, lml_error *err);
lml_status lml_work_advise(const lml_kit *kit, const char *recipe, lml_builder *out,
                           lml_error *err);
lml_status lml_work_schema(const lml_kit *kit, const char *recipe, lml_builder *out,
                           lml_error *err);
typedef struct lml_sum {
    const char *expression, *unit;
    int digits;
} lml_sum;
lml_status lml_work_reckon(const lml_kit *kit, const lml_sum *sum, lml_builder *out,
                           lml_error *err);

/* In a worker: `request` is an lml_job. LML_STOPPED, with the result, when a rule stopped
 * something. */
lml_status lml_work_job(lml_engine *engine, const void *request, lml_text *out, lml_error *err);

/* An engine in this process, for the functions over texts: nothing is put on its shelf.
 * LML_NO_MEMORY. */
lml_status lml_work_engine(const lml_call *call, lml_engine **out, lml_error *err);

/* Read an answer that must be JSON, however long it is: a foul one is LML_FAULT. */
lml_status lml_work_parse(const lml_call *call, const lml_builder *answer, lml_json_document **out,
                          lml_error *err);
lml_status lml_work_parse_span(const lml_call *call, lml_span answer, lml_json_document **out,
                               lml_error *err);
/* End what is printed as JSON with a line feed. */
lml_status lml_work_end(lml_json_writer *w, lml_error *err);

#endif
