#define _DEFAULT_SOURCE /* flock, realpath */
#include "studio/lock.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

enum { ATTEMPTS = 500, PAUSE = 10 * 1000 * 1000 }; /* nanoseconds: five seconds in all */

/* A link leads to the folder where the file is that will be written. */
static int open_folder(const char *path)
{
    char whole[PATH_MAX];
    if (!realpath(path, whole) && snprintf(whole, sizeof whole, "%s", path) >= (int)sizeof whole)
        return -1;
    char *slash = strrchr(whole, '/');
    if (slash)
        slash[slash == whole] = '\0';
    return open(slash ? whole : ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

lml_status lml_lock_take(const char *path, lml_lock *out, lml_error *err)
{
    struct timespec pause = {0, PAUSE};
    out->folder = open_folder(path);
    for (int n = 0; out->folder >= 0 && n < ATTEMPTS; n++) {
        if (flock(out->folder, LOCK_EX | LOCK_NB) == 0 || (errno != EWOULDBLOCK && errno != EINTR))
            return LML_OK;
        nanosleep(&pause, NULL);
    }
    if (out->folder < 0)
        return LML_OK; /* reading or writing the file will say why */
    lml_fail(err, LML_NO_WRITE, "cannot write %s: another lemel is writing in its folder", path);
    lml_error_hint(err, "try again when it has finished");
    return LML_NO_WRITE;
}

void lml_lock_end(lml_lock *lock)
{
    if (lock->folder >= 0)
        close(lock->folder);
    lock->folder = -1;
}
