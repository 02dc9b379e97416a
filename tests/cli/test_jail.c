#define _DEFAULT_SOURCE /* MAP_ANONYMOUS */
/* What a worker can no longer do, and that it dies with its command. Each task runs in the worker
 * itself. */
#include <criterion/criterion.h>

#include "cli/spin.h"
#include "worker/filter.h"
#include "worker/worker_pool.h"
#include "worker/process.h"

#include <errno.h>
#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>
#ifdef __linux__
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#endif

static void expect_nothing(lml_task_work task, const void *request)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_builder out = lml_builder_on(&heap, 0);
    lml_error error = {.message = ""};
    lml_task orders = {
        .kit = {&kit}, .work = task, .request = request, .limits = {.patience = 600 * 1000L}};
    cr_expect_eq(lml_process_run(&orders, &out, &error), LML_OK, "%s", error.message);
    cr_expect_eq(out.length, 0, "the worker can still do: %s", out.at);
    lml_builder_free(&out);
    lml_kit_free(&kit);
}

static lml_status say(lml_text *out, const char *can)
{
    size_t length = strlen(can);
    out->text = malloc(length + 1);
    memcpy(out->text, can, length + 1);
    *out = (lml_text){.text = out->text, .length = length, .size = length + 1};
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

#ifdef __linux__

/* ---- descriptors, where the system cannot close all of them at once ---- */

/* From now on this call of this process, and of its workers, fails with ENOSYS. */
static bool take_away(unsigned call)
{
    struct sock_filter rules[] = {
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, call, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | ENOSYS),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    };
    struct sock_fprog program = {.len = sizeof rules / sizeof rules[0], .filter = rules};
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

static lml_status try_to_read(lml_engine *engine, const void *request, lml_text *out,
                              lml_error *err)
{
    char byte;
    (void)engine;
    (void)err;
    for (const int *descriptor = request; *descriptor >= 0; descriptor++)
        if (read(*descriptor, &byte, 1) >= 0 || errno != EBADF)
            return say(out, "d");
    return say(out, "");
}

#ifdef SYS_close_range
Test(jail, closes_each_descriptor_however_high_where_there_is_no_close_range)
{
    struct rlimit many;
    cr_assert_eq(getrlimit(RLIMIT_NOFILE, &many), 0);
    many.rlim_cur = many.rlim_max;
    cr_assert_eq(setrlimit(RLIMIT_NOFILE, &many), 0);
    int high = many.rlim_max > 70000 ? 70000 : (int)many.rlim_max - 1;
    int low = open("/dev/null", O_RDONLY), held[] = {low, 100, high, -1};
    cr_assert(dup2(low, 100) == 100 && dup2(low, high) == high);
    many.rlim_cur = 50; /* no descriptor is open above it, one could think */
    cr_assert_eq(setrlimit(RLIMIT_NOFILE, &many), 0);
    if (!take_away(SYS_close_range))
        cr_skip_test("filters of system calls are not allowed here");
    expect_nothing(try_to_read, held);
}

Test(jail, a_worker_that_cannot_close_what_it_holds_does_not_work)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_builder out = lml_builder_on(&heap, 0);
    lml_error error;
    if (!take_away(SYS_close_range) || !take_away(SYS_openat))
        cr_skip_test("filters of system calls are not allowed here");
    lml_task orders = {.kit = {&kit}, .work = try_to_read, .request = &(int){-1}};
    cr_expect_eq(lml_process_run(&orders, &out, &error), LML_FAULT);
    lml_builder_free(&out);
}
#endif

/* ---- the command's death ---- */

/* Where the command is killed: as soon as it has started its last worker, which may be anywhere on
 * its way then, or when all of them work. */
typedef enum moment { WORKERS_STARTED, WORKERS_WORK } moment;

static void tell(void *self, long process)
{
    if (write(*(int *)self, &process, sizeof process) != sizeof process)
        _exit(2);
}

/* More than a test takes on a busy machine: none of these ends a worker that outlives its command
 * sooner than the test would see it. */
static const lml_worker_limits some_time = {.processor = 5, .patience = 600 * 1000L};

static void command_of_one(int told)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_builder out = lml_builder_on(&heap, 0);
    lml_task orders = {
        .kit = {&kit}, .work = spin, .limits = some_time, .started = tell, .started_self = &told};
    lml_process_run(&orders, &out, NULL);
}

static lml_status ignore(void *self, const lml_worker_pool_result *result, lml_error *err)
{
    (void)self;
    (void)result;
    (void)err;
    return LML_OK;
}

static void command_of_a_pool(int told)
{
    lml_alloc heap = lml_alloc_heap();
    lml_kit kit = lml_kit_on(&heap);
    lml_worker_pool *pool;
    lml_worker_pool_orders orders = {.alloc = &heap,
                                     .task = {.kit = {&kit}, .work = spin, .limits = some_time},
                                     .workers = 2,
                                     .deliver = ignore,
                                     .started = tell,
                                     .self = &told};
    lml_job job = {.text = lml_span_of("{}"), .shown = "a job"};
    if (lml_worker_pool_new(&orders, &pool, NULL) != LML_OK)
        _exit(2);
    lml_worker_pool_put(pool, 0, &job, NULL);
    lml_worker_pool_put(pool, 0, &job, NULL);
    lml_worker_pool_finish(pool, NULL);
}

/* It was not in the jail yet, or found nobody at the other end of its pipe: the system closes that
 * before it tells of the death. */
static bool ended_by_itself(int state)
{
    return WIFEXITED(state) && (WEXITSTATUS(state) == 0 || WEXITSTATUS(state) == 1);
}

static void expect_death(void (*command)(int told), size_t workers, moment when)
{
    int ends[2], state;
    long worker[2];
    cr_assert_eq(pipe(ends), 0);
    cr_assert_eq(prctl(PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0), 0); /* to wait for its workers */
    atomic_store(spinning, 0);
    pid_t child = fork();
    if (child == 0) {
        command(ends[1]);
        _exit(2);
    }
    for (size_t i = 0; i < workers; i++)
        cr_assert_eq(read(ends[0], &worker[i], sizeof worker[i]), (ssize_t)sizeof worker[i]);
    while (when == WORKERS_WORK && atomic_load(spinning) < workers)
        sched_yield();
    kill(child, SIGKILL);
    cr_assert_eq(waitpid(child, &state, 0), child);
    for (size_t i = 0; i < workers; i++) {
        cr_assert_eq(waitpid((pid_t)worker[i], &state, 0), (pid_t)worker[i]);
        cr_expect((when == WORKERS_STARTED && ended_by_itself(state)) ||
                      (WIFSIGNALED(state) && WTERMSIG(state) == SIGKILL),
                  "the worker went on and ended with %x", (unsigned)state);
    }
    close(ends[0]);
    close(ends[1]);
}

Test(jail, a_worker_dies_with_its_command)
{
    spinning =
        mmap(NULL, sizeof *spinning, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    cr_assert_neq(spinning, MAP_FAILED);
    for (moment when = WORKERS_STARTED; when <= WORKERS_WORK; when++) {
        expect_death(command_of_one, 1, when);
        expect_death(command_of_a_pool, 2, when);
    }
}

#endif
