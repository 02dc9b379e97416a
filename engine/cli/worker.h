/* Worker: an engine call in a process of its own.
 *
 * The command has read all that the call needs; the worker inherits it, gives up the rest (see
 * jail.h), makes an engine, does one piece of work and sends the answer over a pipe. A worker that
 * hangs, uses up what it may, or dies costs its own work only and is reported as such; the next
 * gets a new process.
 *
 * In a worker the allocator never returns NULL: over the limit it says so on the pipe and ends the
 * process, so that no path for want of memory runs inside Lua.
 *
 *     lml_worker_orders orders = {.kit = &kit, .work = run_job, .request = &job};
 *     lml_status s = lml_worker_run(&orders, &answer, err);
 */
#ifndef LML_CLI_WORKER_H
#define LML_CLI_WORKER_H

#include "cli/kit.h"

/* Runs in the worker. On LML_OK `out` holds the answer, else `err` the error. */
typedef lml_status (*lml_work)(lml_engine *engine, const void *request, lml_text *out,
                               lml_error *err);

typedef struct lml_worker_limits {
    unsigned processor; /* seconds of processor time; 0: 10 */
    long patience;      /* milliseconds until the worker is killed; 0: 10,000 */
    size_t memory;      /* bytes the engine may hold; 0: 128 MiB */
    size_t answer;      /* bytes of the answer; 0: 8 MiB */
} lml_worker_limits;

typedef struct lml_worker_orders {
    const lml_kit *kit;
    lml_work work;
    const void *request;
    lml_worker_limits limits;
    /* Called in the parent once the worker runs, with its process number; may be NULL. Tests use it
     * to kill workers. */
    void (*started)(void *self, long process);
    void *started_self;
} lml_worker_orders;

/* Append the answer to `out`. What `work` returned; LML_LIMIT when the worker used up time or
 * memory; LML_FAULT when it died or no process could be had. */
lml_status lml_worker_run(const lml_worker_orders *orders, lml_builder *out, lml_error *err);

#endif
