/* Worker: an engine call in a process of its own.
 *
 * The command has read all that the call needs; the worker inherits it, does one piece of work (see
 * hand.h) and sends the answer over a pipe. A worker that hangs, uses up what it may, or dies costs
 * its own work only and is reported as such; the next gets a new process.
 *
 *     lml_worker_orders orders = {.kit = &kit, .work = run_job, .request = &job};
 *     lml_status s = lml_worker_run(&orders, &answer, err);
 */
#ifndef LML_CLI_WORKER_H
#define LML_CLI_WORKER_H

#include "cli/hand.h"

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
