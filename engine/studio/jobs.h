/* Jobs: the job files that the words of a command line mean, files or folders of them.
 *
 * A folder means all *.json in it, by name; not what is in folders below it. All jobs of one
 * command belong to one studio, since they use one house: a job of another studio is refused,
 * unless --house names the settings.
 */
#ifndef LML_STUDIO_JOBS_H
#define LML_STUDIO_JOBS_H

#include "terminal/call.h"

typedef struct lml_jobs {
    const lml_alloc *alloc;
    char **path;
    size_t count, room;
} lml_jobs;

/* The words from `first` on. LML_NO_FILE for a folder that holds no job. */
lml_status lml_jobs_find(const lml_call *call, size_t first, lml_jobs *out, lml_error *err);
/* The same of one file or folder. */
lml_status lml_jobs_find_in(const lml_call *call, const char *path, lml_jobs *out, lml_error *err);
void lml_jobs_free(lml_jobs *jobs);
/* Read one into `text`, which is emptied first. What lml_store_read says; LML_BAD_DATA for a job of
 * another studio than that of the first. */
lml_status lml_jobs_read(const lml_call *call, const lml_jobs *jobs, size_t index,
                         lml_builder *text, lml_error *err);

#endif
