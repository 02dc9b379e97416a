/* Keep: a folder in which `lemel batch --keep` saves the result of each job, for `lemel compare
 * --keep` to use instead of running the job again.
 *
 * A file's name is a digest of everything it depends on: the program, every available recipe and
 * script, house and prices, the limits, and the job. So nothing in the folder is ever out of date:
 * after a change another name is looked up. Damaged, truncated or missing files are recomputed. The
 * folder needs no cleaning, and can be emptied at any time.
 *
 *     lml_keep keep;
 *     lml_keep_open(&keep, call, &kit, true, err);
 *     lml_keep_write(&keep, &job, kept);                       true: batch, which writes
 *     if (lml_keep_read(&keep, &job, &text)) ...
 *     lml_keep_close(&keep);
 */
#ifndef LML_STUDIO_KEEP_H
#define LML_STUDIO_KEEP_H

#include "studio/find.h"
#include "worker/process.h"

typedef struct lml_keep {
    lml_call *call;
    const char *folder; /* NULL: nothing is kept, and none of these does anything */
    unsigned char kit[32];
    size_t taken, missed; /* of lml_keep_read */
    bool failed;          /* a file could not be written, and that is said */
} lml_keep;

/* What --keep says. With `makes` the folder is made when it is not there, else it has to be.
 * LML_NO_FILE, LML_NO_WRITE; LML_USAGE for a name that something else has. */
lml_status lml_keep_open(lml_keep *keep, lml_call *call, const lml_kit *kit, bool makes,
                         lml_error *err);
/* What was kept of the job, into `out`, which is emptied first; false when nothing was. */
bool lml_keep_read(lml_keep *keep, const lml_job *job, lml_builder *out);
/* Reported aside, once, if it cannot be written: the job was run all the same. */
void lml_keep_write(lml_keep *keep, const lml_job *job, lml_span kept);
/* Say aside how many jobs had nothing kept. */
void lml_keep_tell(const lml_keep *keep);

#endif
