/* Gather: results of other jobs, for a recipe that reads them.
 *
 * A recipe reads no files. A job that lists others (its `jobs`) gets what its recipe asks of them
 * as its `listed`, spliced in after the last member, so every line of the job keeps its number.
 */
#ifndef LML_PAPERS_GATHER_H
#define LML_PAPERS_GATHER_H

#include "file/json.h"
#include "file/json_write.h"

/* The figures of a result or its settings, as a job writes them, as one record under `name`. Those
 * that cannot be written as text are left out. */
typedef struct lml_gather_figures {
    const char *name;
    const lml_json *figures;
    bool (*wants)(const lml_json *figure, const void *self);
    const void *self;
} lml_gather_figures;
lml_status lml_gather_put_figures(lml_json_writer *w, const lml_gather_figures *of, lml_error *err);

/* "jobs/cuff-links.json" is called cuff-links. */
lml_span lml_gather_called(const char *path);

#endif
