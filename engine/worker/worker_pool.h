/* Worker pool: runs many jobs in a few persistent workers.
 *
 * Each worker serves one job after the other (see process.h). Jobs are handed in one at a time;
 * results are handed out in the order of the jobs, through `deliver`. Only a limited number is held
 * at a time: lml_worker_pool_put waits, and delivers, until there is room.
 *
 * A worker that hangs or dies costs its own job only and is replaced. One that dies, or runs out of
 * time or memory, after it has served other jobs may only be worn out: the job is run once more by
 * a new one, and that result counts. So the result of a job does not depend on the jobs before it.
 *
 *     lml_worker_pool_put(pool, &job, err);      ... for each job
 *     lml_worker_pool_finish(pool, err);
 *     lml_worker_pool_free(pool);
 */
#ifndef LML_WORKER_WORKER_POOL_H
#define LML_WORKER_WORKER_POOL_H

#include "worker/process.h"

typedef struct lml_worker_pool lml_worker_pool;

typedef struct lml_worker_pool_result {
    size_t number; /* of the job, counted from 0 */
    size_t kit;
    const char *shown;
    lml_span job;      /* its text */
    lml_status status; /* LML_OK, LML_STOPPED: the text holds; else the error */
    lml_span text;     /* lives as long as the call */
    const lml_error *error;
} lml_worker_pool_result;

typedef struct lml_worker_pool_orders {
    const lml_alloc *alloc;
    lml_task task; /* its kits, work and limits */
    size_t workers;
    /* Not LML_OK ends lml_worker_pool_put and lml_worker_pool_finish with that. */
    lml_status (*deliver)(void *self, const lml_worker_pool_result *result, lml_error *err);
    /* Called when the pool is about to wait, and nothing is left to deliver; may be NULL. */
    lml_status (*idle)(void *self, lml_error *err);
    void *self;
    /* Called with each new worker's process number; may be NULL. Tests use it to kill workers. */
    void (*started)(void *self, long process);
    /* Milliseconds of a clock that only goes forward; NULL: the system's. Tests have their own. */
    long (*now)(void);
} lml_worker_pool_orders;

enum { LML_WORKER_POOL_MOST = 256 };

/* --workers, else the number of processors. LML_USAGE. */
lml_status lml_worker_pool_workers(const lml_arguments *arguments, size_t *out, lml_error *err);
/* Starts no worker yet. LML_NO_MEMORY. */
lml_status lml_worker_pool_new(const lml_worker_pool_orders *orders, lml_worker_pool **out,
                               lml_error *err);
/* Hand in a job, which is copied. */
lml_status lml_worker_pool_put(lml_worker_pool *pool, size_t kit, const lml_job *job,
                               lml_error *err);
/* Hand in a job that could not be read: its result is this error. */
lml_status lml_worker_pool_put_error(lml_worker_pool *pool, size_t kit, const char *shown,
                                     const lml_error *error, lml_error *err);
/* Deliver results until `descriptor` can be read. */
lml_status lml_worker_pool_await(lml_worker_pool *pool, int descriptor, lml_error *err);
/* Until all is delivered. */
lml_status lml_worker_pool_finish(lml_worker_pool *pool, lml_error *err);
/* Ends the workers. NULL is fine. */
void lml_worker_pool_free(lml_worker_pool *pool);

#endif
