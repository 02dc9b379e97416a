/* Process: a worker, which is a process of its own, and what it does.
 *
 * The command has read all that the work needs; the worker inherits it. A worker that hangs, uses
 * up what it may, or dies costs its own work only and is reported as such; the next gets a new
 * process.
 *
 *     lml_task task = {.kit = {&kit}, .work = run_job, .request = &job};
 *     lml_status s = lml_process_run(&task, &answer, err);
 *
 * It gives up what the command holds (see jail.h), makes an engine of each kit it is asked for, and
 * works: one request that it inherited, or every job that comes over the pipe until there are no
 * more. Each job gets a Lua state of its own; the engine, with the recipes it has compiled, stays.
 *
 * The allocator never returns NULL: over the limit it says so on the pipe and ends the process, so
 * that no path when out of memory runs inside Lua.
 */
#ifndef LML_WORKER_PROCESS_H
#define LML_WORKER_PROCESS_H

#include "worker/kit.h"
#include "worker/protocol.h"

/* Runs in the worker. On LML_OK, and on LML_STOPPED when a rule stopped something, `out` holds the
 * answer, else `err` the error. */
typedef lml_status (*lml_task_work)(lml_engine *engine, const void *request, lml_text *out,
                                    lml_error *err);

/* The same with the engines of both kits. One that could not be made is NULL, and `why` says it;
 * memory for `out` is had from `alloc`. */
typedef lml_status (*lml_task_pair)(const void *self, lml_engine *const engine[],
                                    const lml_error why[], const lml_alloc *alloc,
                                    const void *request, lml_text *out, lml_error *err);

/* A job and how messages name it; NUL-ended both. `kept` is what lml_pair_keep kept of it once. */
typedef struct lml_job {
    lml_span text;
    const char *shown;
    lml_span kept;
} lml_job;

enum { LML_TASK_KITS = 2, LML_TASK_BOTH = LML_TASK_KITS /* the number of a job for both */ };

typedef struct lml_task {
    const lml_kit *kit[LML_TASK_KITS]; /* the second may be NULL */
    lml_task_work work;
    lml_task_pair pair;  /* of jobs for both kits; NULL when there are none */
    const void *self;    /* the other argument of `pair` */
    const void *request; /* what is run, with the first kit; */
    bool many;           /* or every job that comes: `work` gets each as an lml_job */
    lml_worker_limits limits;
    /* Called in the command by lml_process_run once the worker runs, with its process number; may
     * be NULL. Tests use it to kill workers. */
    void (*started)(void *self, long process);
    void *started_self;
} lml_task;

/* A new process at work on the task, and the command's end of its pipe. LML_FAULT when none
 * could be had. */
lml_status lml_process_start(const lml_task *task, long *process, int *pipe, lml_error *err);
/* End the process, which has answered or never will, and say in `error` (which holds a
 * worker's own error at LML_FRAMES_ERROR) what `end` means:
 * LML_OK, LML_STOPPED or the error's status. LML_LIMIT when it used up time or memory; LML_FAULT
 * when it died. */
lml_status lml_process_end(const lml_task *task, long process, lml_frame_end end, lml_error *error);
/* Start one, wait for its answer and append that to `out`. What the work returned; LML_LIMIT when
 * the worker used up time or memory; LML_FAULT when it died or no process could be had. */
lml_status lml_process_run(const lml_task *task, lml_builder *out, lml_error *err);

#endif
