#include "worker/process.h"
#include "worker/jail.h"

#include <errno.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif
#include <signal.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

/* ---- in the worker ---- */

typedef struct purse {
    size_t left;
} purse;

static _Noreturn void out_of_memory(lml_frame_kind whose)
{
    lml_frame_write(LML_JAIL_PIPE, whose, NULL, 0);
    _exit(0);
}

static void *spend(void *self, void *block, size_t old_size, size_t new_size)
{
    purse *p = self;
    if (new_size > old_size) {
        if (new_size - old_size > p->left)
            out_of_memory(LML_FRAME_MEMORY);
        p->left -= new_size - old_size;
    } else {
        p->left += old_size - new_size;
    }
    lml_alloc heap = lml_alloc_heap();
    void *moved = lml_alloc_resize(&heap, block, old_size, new_size);
    if (!moved && new_size > 0)
        out_of_memory(LML_FRAME_SHORT);
    return moved;
}

static void answer(lml_status status, const lml_text *text, const lml_error *error)
{
    if (status == LML_NO_MEMORY)
        out_of_memory(LML_FRAME_SHORT); /* of a part that does not use the purse */
    if (status != LML_OK && status != LML_STOPPED)
        lml_frame_write(LML_JAIL_PIPE, LML_FRAME_ERROR, error, sizeof *error);
    else if (lml_frame_write(LML_JAIL_PIPE, LML_FRAME_TEXT, text->text, text->length))
        lml_frame_write(LML_JAIL_PIPE, status == LML_OK ? LML_FRAME_DONE : LML_FRAME_STOPPED, NULL,
                        0);
}

typedef struct shop {
    const lml_task *task;
    lml_engine_options options;
    lml_engine *engine[LML_TASK_KITS];
} shop;

static lml_status need_engine(shop *s, size_t kit, lml_error *err)
{
    if (s->engine[kit])
        return LML_OK;
    return lml_kit_engine(s->task->kit[kit], &s->options, &s->engine[kit], err);
}

static lml_status serve_both(shop *s, const void *request, lml_text *out, lml_error *err)
{
    lml_error why[LML_TASK_KITS];
    for (size_t i = 0; i < LML_TASK_KITS; i++)
        if (need_engine(s, i, &why[i]) != LML_OK)
            s->engine[i] = NULL;
    return s->task->pair(s->task->self, s->engine, why, &s->options.alloc, request, out, err);
}

static void serve(shop *s, size_t kit, const void *request)
{
    lml_text text = {.text = NULL};
    lml_error error;
    memset(&error, 0, sizeof error); /* it goes over the pipe whole */
    lml_status status;
    if (kit == LML_TASK_BOTH) {
        status = serve_both(s, request, &text, &error);
    } else {
        status = need_engine(s, kit, &error);
        if (status == LML_OK)
            status = s->task->work(s->engine[kit], request, &text, &error);
    }
    answer(status, &text, &error);
    if (text.text)
        lml_alloc_free(&s->options.alloc, text.text, text.size);
}

/* Each job takes and gives back blocks of a few hundred KiB, which glibc would have from the system
 * each time, page by page: a tenth of a job's time. */
static void keep_memory(void)
{
#ifdef __GLIBC__
    mallopt(M_MMAP_THRESHOLD, 1 << 20);
    mallopt(M_TRIM_THRESHOLD, 16 << 20);
#endif
}

/* The bytes of a job, NUL-ended; the purse's. */
static char *receive(const shop *s, size_t length)
{
    char *bytes = lml_alloc_get(&s->options.alloc, length + 1);
    if (!lml_frame_read(LML_JAIL_PIPE, bytes, length))
        _exit(0);
    bytes[length] = '\0';
    return bytes;
}

static _Noreturn void serve_all(shop *s)
{
    lml_frame_job head;
    keep_memory();
    const uint32_t kits = s->task->pair ? LML_TASK_BOTH + 1 : LML_TASK_KITS;
    while (lml_frame_read(LML_JAIL_PIPE, &head, sizeof head) && head.kit < kits) {
        char *shown = receive(s, head.shown), *text = receive(s, head.text),
             *kept = receive(s, head.kept);
        lml_job job = {{text, head.text}, shown, {kept, head.kept}};
        serve(s, head.kit, &job);
        lml_alloc_free(&s->options.alloc, kept, (size_t)head.kept + 1);
        lml_alloc_free(&s->options.alloc, text, (size_t)head.text + 1);
        lml_alloc_free(&s->options.alloc, shown, (size_t)head.shown + 1);
    }
    _exit(0); /* the command is done, or it talks of a kit that cannot be */
}

static _Noreturn void enter(const lml_task *task, pid_t command, int pipe)
{
    lml_jail jail = {
        .seconds = task->limits.processor, .memory = task->limits.memory, .command = command};
    if (!lml_jail_enter(&jail, pipe))
        _exit(1);
    purse p = {task->limits.memory};
    shop s = {.task = task,
              .options = {.alloc = {spend, &p}, .limits = lml_limits_of_engine(&task->limits)}};
    if (task->many)
        serve_all(&s);
    serve(&s, 0, task->request);
    _exit(0); /* the system takes the memory back faster than we could */
}

/* ---- in the command ---- */

static lml_status refuse_start(const char *what, int code, lml_error *err)
{
    const char *why = code == EAGAIN ? ": this user may start no more of them (ulimit -u)"
                      : code == ENOMEM
                          ? ": the system has no more memory (ulimit -v, or a container's limit)"
                      : code == EMFILE || code == ENFILE ? ": too many files are open (ulimit -n)"
                                                         : "";
    return lml_fail(err, LML_FAULT, "could not create a %s a worker%s", what, why);
}

lml_status lml_process_start(const lml_task *task, long *process, int *pipe, lml_error *err)
{
    int ends[2];
    if (socketpair(AF_UNIX, SOCK_STREAM, 0, ends) != 0)
        return refuse_start("pipe to", errno, err);
    pid_t command = getpid(), child = fork();
    if (child < 0) {
        int code = errno;
        close(ends[0]);
        close(ends[1]);
        return refuse_start("process for", code, err);
    }
    if (child == 0) {
        close(ends[0]);
        enter(task, command, ends[1]);
    }
    close(ends[1]);
    *process = child;
    *pipe = ends[0];
    return LML_OK;
}

static lml_status report_death(int state, lml_error *err)
{
    if (WIFSIGNALED(state) && WTERMSIG(state) == SIGXCPU) {
        lml_fail(err, LML_LIMIT, "the recipe reached the limit of processor time");
        lml_error_hint(err, "it may be in an endless loop");
        return LML_LIMIT;
    }
    if (WIFSIGNALED(state) && WTERMSIG(state) == SIGKILL) {
        lml_fail(err, LML_FAULT, "the system ended the worker (signal 9); nothing else was harmed");
        lml_error_hint(err, "this happens when the computer or a container runs out of memory: "
                            "give it more, or use fewer --workers");
        return LML_FAULT;
    }
    if (WIFSIGNALED(state))
        return lml_fail(err, LML_FAULT, "the worker died (signal %d); nothing else was harmed",
                        WTERMSIG(state));
    return lml_fail(err, LML_FAULT, "the worker ended without an answer (status %d)",
                    WIFEXITED(state) ? WEXITSTATUS(state) : -1);
}

static lml_status report(const lml_worker_limits *limits, lml_frame_end end, int state,
                         lml_error *error)
{
    switch (end) {
    case LML_FRAMES_ANSWER:
        return LML_OK;
    case LML_FRAMES_STOPPED:
        return LML_STOPPED;
    case LML_FRAMES_ERROR:
        return error->status;
    case LML_FRAMES_MEMORY:
        return lml_fail(error, LML_LIMIT, "the recipe reached the memory limit (%zu MiB)",
                        limits->memory >> 20);
    case LML_FRAMES_SHORT:
        lml_fail(error, LML_LIMIT,
                 "the system refuses the worker more memory, although it may have %zu MiB",
                 limits->memory >> 20);
        lml_error_hint(
            error,
            "raise the system's limit (ulimit -v, or a container's), or use fewer --workers");
        return LML_LIMIT;
    case LML_FRAMES_LATE:
        return lml_fail(error, LML_LIMIT, "the recipe reached the time limit (%ld seconds)",
                        (limits->patience + 999) / 1000);
    case LML_FRAMES_MORE:
    case LML_FRAMES_FOUL:
        return lml_fail(error, LML_FAULT, "the worker's answer cannot be understood");
    case LML_FRAMES_LOST:
        lml_fail(error, LML_FAULT, "the system did not allow reading from the worker");
        lml_error_hint(error, "nothing was changed by it; try again");
        return LML_FAULT;
    case LML_FRAMES_CUT:
        return report_death(state, error);
    }
    return lml_fail(error, LML_FAULT, "the worker's end is unknown");
}

lml_status lml_process_end(const lml_task *task, long process, lml_frame_end end, lml_error *error)
{
    int state = 0;
    kill((pid_t)process, SIGKILL); /* how it died is already recorded */
    while (waitpid((pid_t)process, &state, 0) < 0 && errno == EINTR)
        continue;
    return report(&task->limits, end, state, error);
}

lml_status lml_process_run(const lml_task *orders, lml_builder *out, lml_error *err)
{
    lml_task task = *orders;
    task.limits = lml_limits_full(task.limits);
    long process;
    int pipe;
    lml_status status = lml_process_start(&task, &process, &pipe, err);
    if (status != LML_OK)
        return status;
    if (task.started)
        task.started(task.started_self, process);
    lml_builder text = lml_builder_on(out->alloc, task.limits.answer);
    lml_frame_reader reader = lml_frame_reader_on(&text);
    lml_frame_end end = lml_frame_read_answer(pipe, task.limits.patience, &reader);
    close(pipe);
    status = lml_process_end(&task, process, end, &reader.error);
    if (status == LML_OK || status == LML_STOPPED)
        lml_builder_add(out, text.at, text.length);
    else if (err)
        *err = reader.error;
    if (text.status == LML_NO_MEMORY) /* of ours, and not the worker's */
        status = lml_builder_status(&text, err);
    else if (out->status == LML_NO_MEMORY)
        status = lml_builder_status(out, err);
    lml_builder_free(&text);
    return status;
}
