#define _DEFAULT_SOURCE /* MAP_ANONYMOUS */
/* What a worker can no longer do. Each task runs in the worker itself. */
#include <criterion/criterion.h>

#include "cli/filter.h"
#include "cli/worker.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif

static void expect_nothing(lml_work task, const char *request)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_builder out = lml_builder_on(&heap, 0);
    lml_error error = {.message = ""};
    lml_worker_orders orders = {.kit = &kit, .work = task, .request = request};
    cr_expect_eq(lml_worker_run(&orders, &out, &error), LML_OK, "%s", error.message);
    cr_expect_eq(out.length, 0, "the worker can still do: %s", out.at);
    lml_builder_free(&out);
    lml_kit_free(&kit);
}

static lml_status say(lml_text *out, const char *can)
{
    size_t length = strlen(can);
    out->text = malloc(length + 1);
    memcpy(out->text, can, length + 1);
    *out = (lml_text){out->text, length, length + 1};
    return LML_OK;
}

/* Each check is a letter of the answer when the worker can do what it must not. */
static lml_status try_everything(lml_engine *engine, const void *request, lml_text *out,
                                 lml_error *err)
{
    (void)engine;
    (void)err;
    char can[20] = "";
    if (open("/dev/null", O_RDONLY) >= 0)
        strcat(can, "r");
    if (open(request, O_CREAT | O_WRONLY, 0600) >= 0)
        strcat(can, "w");
    if (socket(AF_UNIX, SOCK_STREAM, 0) >= 0)
        strcat(can, "s");
    int ends[2];
    if (pipe(ends) == 0)
        strcat(can, "p");
    for (int i = 3; i < 1024; i++)
        if (fcntl(i, F_GETFD) >= 0) {
            strcat(can, "d");
            break;
        }
    if (fcntl(1, F_GETFD) >= 0)
        strcat(can, "o");
#ifndef LML_SANITIZED
    if (fcntl(2, F_GETFD) >= 0)
        strcat(can, "e");
    volatile size_t much = (size_t)1 << 33;
    void *volatile p = malloc(much);
    if (p)
        strcat(can, "m");
#endif
#ifdef __linux__
    errno = 0; /* EPERM: the filter refuses the question too */
    if (prctl(PR_GET_NO_NEW_PRIVS, 0, 0, 0, 0) != 1 && errno != EPERM)
        strcat(can, "n");
    if (prctl(PR_GET_DUMPABLE, 0, 0, 0, 0) != 0 && errno != EPERM)
        strcat(can, "c");
#endif
    return say(out, can);
}

Test(jail, takes_files_sockets_descriptors_and_memory)
{
    int inherited = open("/dev/null", O_RDONLY);
    cr_assert_geq(inherited, 0);
    expect_nothing(try_everything, "worker-wrote-this");
    cr_expect_neq(access("worker-wrote-this", F_OK), 0);
    close(inherited);
}

static bool refused(long result)
{
    return result == -1 && errno == EPERM;
}

/* The limits alone would refuse these with EMFILE and the like; the filter does with EPERM. */
static lml_status try_calls(lml_engine *engine, const void *request, lml_text *out, lml_error *err)
{
    (void)engine;
    (void)request;
    (void)err;
    char can[20] = "";
    size_t page = 4096;
    if (!refused(open("/dev/null", O_RDONLY)))
        strcat(can, "r");
    if (!refused(socket(AF_INET, SOCK_STREAM, 0)))
        strcat(can, "s");
    if (!refused(kill(getppid(), 0)))
        strcat(can, "k");
    if (!refused((long)fork()))
        strcat(can, "f");
    if (!refused(execl("/bin/true", "true", (char *)NULL)))
        strcat(can, "x");
    if (!refused((long)mmap(NULL, page, PROT_READ | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0)))
        strcat(can, "c");
    if (!refused((long)mmap(NULL, page, PROT_READ, MAP_PRIVATE, 0, 0)))
        strcat(can, "m");
    void *own = mmap(NULL, page, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (own == MAP_FAILED || !refused(mprotect(own, page, PROT_READ | PROT_EXEC)))
        strcat(can, "p");
    return say(out, can);
}

Test(jail, the_filter_refuses_all_calls_but_those_for_memory_and_the_pipe)
{
    if (!lml_filter_there())
        cr_skip_test("this build or system has no filter of system calls");
    expect_nothing(try_calls, NULL);
}
