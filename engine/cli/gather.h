/* Gather: other jobs, run for a recipe that reads their results. A recipe reads no files: the
 * command runs each and hands over its results, its settings and its record.
 *
 *     lml_json_write_name(&w, lml_span_of("recorded"));
 *     status = lml_gather_write(call, kit, &jobs, &w, &gathered, err);
 */
#ifndef LML_CLI_GATHER_H
#define LML_CLI_GATHER_H

#include "file/json_write.h"
#include "studio/jobs.h"
#include "worker/process.h"

typedef struct lml_gathered {
    size_t run, failed; /* a job that cannot be run is named in call->aside and left out */
} lml_gathered;

/* A list, for each job a record: { "job": its file's name, "results": { NAME: as a job writes it },
 * "settings": { RECIPE.NAME: ... }, "record": [ ... ] }. Results that are lists, or that cannot be
 * written as text, are left out. LML_NO_MEMORY and the command's own failures. */
lml_status lml_gather_write(lml_call *call, const lml_kit *kit, const lml_jobs *jobs,
                            lml_json_writer *w, lml_gathered *out, lml_error *err);

/* One such record: the job's text is in `job`. Appended to `out`. */
lml_status lml_gather_one(lml_call *call, const lml_kit *kit, const char *path,
                          const lml_builder *job, lml_builder *out, lml_error *err);

#endif
