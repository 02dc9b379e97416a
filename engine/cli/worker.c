#include "cli/worker.h"
#include "cli/frame.h"
#include "cli/jail.h"

#include <errno.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static lml_worker_limits with_defaults(lml_worker_limits limits)
{
    if (limits.processor == 0)
        limits.processor = 10;
    if (limits.patience == 0)
        limits.patience = 10000;
    if (limits.memory == 0)
        limits.memory = (size_t)128 << 20;
    if (limits.answer == 0)
        limits.answer = (size_t)8 << 20;
    return limits;
}

/* ---- in the worker ---- */

typedef struct purse {
    size_t left;
} purse;

static _Noreturn void out_of_memory(void)
{
    lml_frame_write(LML_JAIL_PIPE, LML_FRAME_MEMORY, NULL, 0);
    _exit(0);
}

static void *spend(void *self, void *block, size_t old_size, size_t new_size)
{
    purse *p = self;
    if (new_size > old_size) {
        if (new_size - old_size > p->left)
            out_of_memory();
        p->left -= new_size - old_size;
    } else {
        p->left += old_size - new_size;
    }
    lml_alloc heap = lml_alloc_heap();
    void *moved = lml_resize(&heap, block, old_size, new_size);
    if (!moved && new_size > 0)
        out_of_memory();
    return moved;
}

static void answer(lml_status status, const lml_text *text, const lml_error *error)
{
    if (status == LML_NO_MEMORY)
        out_of_memory(); /* of a part that does not use the purse */
    if (status != LML_OK)
        lml_frame_write(LML_JAIL_PIPE, LML_FRAME_ERROR, error, sizeof *error);
    else if (lml_frame_write(LML_JAIL_PIPE, LML_FRAME_TEXT, text->text, text->length))
        lml_frame_write(LML_JAIL_PIPE, LML_FRAME_DONE, NULL, 0);
}

static _Noreturn void work(const lml_worker_orders *orders, const lml_worker_limits *limits,
                           int pipe)
{
    lml_jail jail = {.seconds = limits->processor, .memory = limits->memory};
    if (!lml_jail_enter(&jail, pipe))
        _exit(1);
    purse p = {limits->memory};
    lml_engine_options options = {.alloc = {spend, &p}, .limits = {.memory = 2 * limits->memory}};
    lml_engine *engine = NULL;
    lml_text text = {NULL, 0, 0};
    lml_error error;
    memset(&error, 0, sizeof error); /* it goes over the pipe whole */
    lml_status status = lml_kit_engine(orders->kit, &options, &engine, &error);
    if (status == LML_OK)
        status = orders->work(engine, orders->request, &text, &error);
    answer(status, &text, &error);
    _exit(0); /* the system takes the memory back faster than we could */
}

/* ---- in the command ---- */

static lml_status report_end(int state, lml_error *err)
{
    if (WIFSIGNALED(state) && WTERMSIG(state) == SIGXCPU) {
        lml_fail(err, LML_LIMIT, "the recipe hit the limit of processor time");
        return lml_error_hint(err, "it may be going round in a circle");
    }
    if (WIFSIGNALED(state))
        return lml_fail(err, LML_FAULT, "the worker died (signal %d); nothing else was harmed",
                        WTERMSIG(state));
    return lml_fail(err, LML_FAULT, "the worker ended without an answer (status %d)",
                    WIFEXITED(state) ? WEXITSTATUS(state) : -1);
}

static lml_status report(lml_frame_end end, int state, const lml_worker_limits *limits,
                         lml_error *err)
{
    switch (end) {
    case LML_FRAMES_ANSWER:
        return LML_OK;
    case LML_FRAMES_ERROR:
        return err->status;
    case LML_FRAMES_MEMORY:
        return lml_fail(err, LML_LIMIT, "the recipe hit the limit of memory (%zu MB)",
                        limits->memory >> 20);
    case LML_FRAMES_LATE:
        return lml_fail(err, LML_LIMIT, "the recipe hit the limit of time (%ld seconds)",
                        (limits->patience + 999) / 1000);
    case LML_FRAMES_FOUL:
        return lml_fail(err, LML_FAULT, "the worker's answer cannot be understood");
    case LML_FRAMES_CUT:
        return report_end(state, err);
    }
    return lml_fail(err, LML_FAULT, "the worker's end is unknown");
}

static int reap(pid_t process)
{
    int state = 0;
    while (waitpid(process, &state, 0) < 0 && errno == EINTR)
        continue;
    return state;
}

lml_status lml_worker_run(const lml_worker_orders *orders, lml_builder *out, lml_error *err)
{
    lml_worker_limits limits = with_defaults(orders->limits);
    int ends[2];
    if (pipe(ends) != 0)
        return lml_fail(err, LML_FAULT, "no pipe to a worker could be had");
    pid_t process = fork();
    if (process < 0) {
        close(ends[0]);
        close(ends[1]);
        return lml_fail(err, LML_FAULT, "no process for a worker could be had");
    }
    if (process == 0) {
        close(ends[0]);
        work(orders, &limits, ends[1]);
    }
    close(ends[1]);
    if (orders->started)
        orders->started(orders->started_self, (long)process);
    lml_error error = {.status = LML_FAULT};
    lml_builder text = lml_builder_on(out->alloc, limits.answer);
    lml_frame_end end = lml_frame_read_answer(ends[0], limits.patience, &text, &error);
    close(ends[0]);
    kill(process,
         SIGKILL); /* it has answered, or never will; how it died by itself stands already */
    lml_status status = report(end, reap(process), &limits, &error);
    if (status == LML_OK)
        lml_append(out, text.at, text.length);
    else if (err)
        *err = error;
    lml_builder_free(&text);
    return status;
}
