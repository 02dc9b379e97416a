/* Listed: the files of the jobs that a job lists, relative to its own folder. */
#ifndef LML_CLI_LISTED_H
#define LML_CLI_LISTED_H

#include "cli/job_text.h"

typedef struct lml_listed {
    const lml_alloc *alloc;
    lml_source *jobs; /* in the order of the list; each shown by its path */
    size_t count;
    bool lists; /* the job has such a list, even an empty one */
} lml_listed;

/* Read them. A job that cannot be parsed lists none: running it will say why. LML_NO_FILE for one
 * that does not exist or cannot be read, LML_BAD_DATA for one that is not a JSON record: none of
 * its lines are shown, since a stranger's job may list any file on this computer. */
lml_status lml_listed_read(const lml_alloc *alloc, const lml_job_text *job, lml_listed *out,
                           lml_error *err);
void lml_listed_free(lml_listed *listed);

#endif
