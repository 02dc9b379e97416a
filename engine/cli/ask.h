/* Ask: calls of an engine by the subcommands, each in a worker of its own, with the answer parsed.
 */
#ifndef LML_CLI_ASK_H
#define LML_CLI_ASK_H

#include "cli/job_text.h"
#include "file/json.h"
#include "file/json_copy.h"
#include "file/json_write.h"
#include "worker/process.h"

/* Read the files that the job lists, if any, and put their results into its text, in a worker of
 * its own. A file that no person named is read only as a job: if it is not one, none of its lines
 * are shown. lml_ask_run does this itself. */
lml_status lml_ask_gather(const lml_kit *kit, lml_job_text *job, lml_error *err);

/* One engine call in a worker of its own; the answer is appended to `out`. */
lml_status lml_ask_run(const lml_kit *kit, const lml_job_text *job, lml_builder *out, bool *stopped,
                       lml_error *err);
/* Empty texts are ignored. */
typedef struct lml_ask_files {
    lml_source job, house, prices;
} lml_ask_files;
lml_status lml_ask_faults(const lml_kit *kit, const lml_ask_files *files, lml_builder *out,
                          lml_error *err);
/* A question about a recipe, with its answer read; `out` is set on LML_OK. */
typedef lml_status (*lml_ask_of)(const lml_kit *kit, const char *recipe, lml_json_document **out,
                                 lml_error *err);
lml_status lml_ask_inspect(const lml_kit *kit, const char *recipe, lml_json_document **out,
                           lml_error *err);
lml_status lml_ask_prove(const lml_kit *kit, const char *recipe, lml_json_document **out,
                         lml_error *err);
/* The same, with what no proof reaches. */
lml_status lml_ask_reach(const lml_kit *kit, const char *recipe, lml_json_document **out,
                         lml_error *err);
lml_status lml_ask_advise(const lml_kit *kit, const char *recipe, lml_json_document **out,
                          lml_error *err);
/* The steps by which a figure of a job came about, as lml_engine_why writes them. */
typedef struct lml_ask_figure {
    lml_source job;
    lml_asked_why asked;
} lml_ask_figure;
lml_status lml_ask_why(const lml_kit *kit, const lml_ask_figure *figure, lml_json_document **out,
                       lml_error *err);
/* NULL for the recipe: of house.json. */
lml_status lml_ask_schema(const lml_kit *kit, const char *recipe, lml_builder *out, lml_error *err);
typedef struct lml_sum {
    const char *expression, *unit;
    int digits;
} lml_sum;
lml_status lml_ask_reckon(const lml_kit *kit, const lml_sum *sum, lml_builder *out, lml_error *err);

/* One step through the questions of a job. The answer: { "question": as lml_engine_ask gives it,
 * and if the job changed "after": its new text }. */
typedef struct lml_ask_step {
    lml_source job;
    lml_answer said;
} lml_ask_step;
lml_status lml_ask_question(const lml_kit *kit, const lml_ask_step *step, lml_builder *out,
                            lml_error *err);

/* In a worker: `request` is an lml_job. LML_STOPPED, with the result, if a rule stopped
 * something. */
lml_status lml_ask_job(lml_engine *engine, const void *request, lml_text *out, lml_error *err);

/* An engine in this process, for the functions over texts: nothing is put on its shelf.
 * LML_NO_MEMORY. */
lml_status lml_ask_engine(const lml_call *call, lml_engine **out, lml_error *err);

/* Read an answer that must be JSON, of any length: anything else is LML_FAULT. */
lml_status lml_ask_parse(const lml_call *call, const lml_builder *answer, lml_json_document **out,
                         lml_error *err);
lml_status lml_ask_parse_span(const lml_call *call, lml_span answer, lml_json_document **out,
                              lml_error *err);

#endif
