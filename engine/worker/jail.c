#define _DEFAULT_SOURCE /* syscall, RLIMIT_NPROC */
#include "worker/jail.h"
#include "worker/filter.h"

#include <dirent.h>
#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/prctl.h>
#include <sys/syscall.h>
#endif

/* The sanitizers keep terabytes of address space and report to standard error. */
#ifdef LML_SANITIZED
enum { SANITIZED = true };
#else
enum { SANITIZED = false };
#endif

/* Where the system lists the descriptors that this process holds. */
#ifdef __linux__
#define DESCRIPTORS "/proc/self/fd"
#else
#define DESCRIPTORS "/dev/fd"
#endif

enum { ROOM_FOR_PROGRAM = 64 << 20 };

/* No limit tells how high a descriptor may be: it can have been lowered since. */
static bool close_listed(int first)
{
    DIR *list = opendir(DESCRIPTORS);
    if (!list)
        return false;
    errno = 0;
    for (struct dirent *entry = readdir(list); entry; entry = readdir(list)) {
        int descriptor = atoi(entry->d_name);
        if (descriptor >= first && descriptor != dirfd(list))
            close(descriptor);
        errno = 0;
    }
    bool whole = errno == 0;
    closedir(list);
    return whole;
}

static bool close_from(int first)
{
#ifdef SYS_close_range
    if (syscall(SYS_close_range, (unsigned)first, ~0U, 0U) == 0)
        return true;
#endif
    return close_listed(first);
}

static bool keep_only(int pipe)
{
    if (pipe != LML_JAIL_PIPE && dup2(pipe, LML_JAIL_PIPE) < 0)
        return false;
    if (SANITIZED) {
        close(1);
        return close_from(3);
    }
    return close_from(LML_JAIL_PIPE + 1);
}

static bool bound(int resource, rlim_t soft, rlim_t hard)
{
    struct rlimit old;
    if (getrlimit(resource, &old) != 0)
        return false;
    if (old.rlim_max != RLIM_INFINITY && hard > old.rlim_max)
        hard = old.rlim_max; /* a stricter limit from outside stays */
    if (old.rlim_cur != RLIM_INFINITY && soft > old.rlim_cur)
        soft = old.rlim_cur;
    struct rlimit new = {soft < hard ? soft : hard, hard};
    return setrlimit(resource, &new) == 0;
}

static bool bound_resources(const lml_jail *jail)
{
    rlim_t space = (rlim_t)jail->memory + ROOM_FOR_PROGRAM;
    signal(SIGXFSZ, SIG_DFL); /* the command ignores it */
    bool ok = bound(RLIMIT_CPU, jail->seconds, (rlim_t)jail->seconds + 1);
    ok = (SANITIZED || bound(RLIMIT_AS, space, space)) && ok;
    ok = bound(RLIMIT_FSIZE, 0, 0) && ok;
    ok = bound(RLIMIT_NOFILE, 0, 0) && ok;
    ok = bound(RLIMIT_CORE, 0, 0) && ok;
#ifdef RLIMIT_NPROC
    ok = bound(RLIMIT_NPROC, 0, 0) && ok;
#endif
    return ok;
}

/* The command may be gone before the system was asked to tell. */
static bool die_with(long command)
{
#ifdef __linux__
    return prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0) == 0 && getppid() == (pid_t)command;
#else
    (void)command;
    return true;
#endif
}

static bool renounce_privileges(void)
{
#ifdef __linux__
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && prctl(PR_SET_DUMPABLE, 0, 0, 0, 0) == 0;
#else
    return true;
#endif
}

bool lml_jail_enter(const lml_jail *jail, int pipe)
{
    return die_with(jail->command) && keep_only(pipe) && bound_resources(jail) &&
           renounce_privileges() && lml_filter_set();
}
