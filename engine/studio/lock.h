/* Lock: one command at a time reads a file, changes it and writes it again.
 *
 * The folder of the file is locked, because the file itself is replaced. Only lemel's commands
 * respect it. It ends with the process at the latest. On a file system without locks nothing is
 * locked, without a message.
 *
 *     lml_lock lock;
 *     if (lml_lock_take("jobs/x.json", &lock, err) == LML_OK) ... read, write
 *     lml_lock_end(&lock);
 */
#ifndef LML_STUDIO_LOCK_H
#define LML_STUDIO_LOCK_H

#include "base/status.h"

typedef struct lml_lock {
    int folder; /* -1: none */
} lml_lock;

/* Waits for some seconds; then LML_NO_WRITE. `out` is to be ended in any case. */
lml_status lml_lock_take(const char *path, lml_lock *out, lml_error *err);
void lml_lock_end(lml_lock *lock);

#endif
