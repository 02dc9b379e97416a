/* Put before the C library (LD_PRELOAD), this fails one request for memory of a process or of one
 * that it forks. Which one, and how many there were, stands in the file that LML_FAULT_COUNTS
 * names: it is mapped, so that a worker without files counts too. Requests of the loader, before
 * this is set up, are let through. */
#define _GNU_SOURCE
#include "counts.h"

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

/* glibc's own names of what is put in its place. */
extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *block, size_t size);

static struct fault_counts *counts;
static int process; /* 0 is the command, workers follow in the order of their start */

__attribute__((constructor)) static void set_up(void)
{
    const char *path = getenv("LML_FAULT_COUNTS");
    int file = path ? open(path, O_RDWR | O_CLOEXEC) : -1;
    if (file < 0)
        return;
    void *at = mmap(NULL, sizeof *counts, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    close(file);
    if (at == MAP_FAILED)
        return;
    counts = at;
    counts->processes = 1;
}

static bool fails_now(void)
{
    if (!counts || process >= FAULT_PROCESSES)
        return false;
    int64_t call = ++counts->calls[process];
    if (process != counts->fail_process || call != counts->fail_call)
        return false;
    counts->reached = 1;
    errno = ENOMEM;
    return true;
}

#pragma GCC visibility push(                                                                       \
    default) /* the rest of the project hides what it does not mean to show */
void *malloc(size_t size)
{
    return fails_now() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return fails_now() ? NULL : __libc_calloc(count, size);
}

/* Making a block smaller is no request, but it may fail too. */
void *realloc(void *block, size_t size)
{
    return size > 0 && fails_now() ? NULL : __libc_realloc(block, size);
}

pid_t fork(void)
{
    static pid_t (*next)(void);
    if (!next)
        *(void **)&next = dlsym(RTLD_NEXT, "fork");
    int number = counts ? (int)counts->processes++ : 0;
    pid_t child = next();
    if (child == 0)
        process = number;
    return child;
}
#pragma GCC visibility pop
