/* Limits: what one job may cost in a worker, and the options that set it.
 *
 * --steps, --memory and --seconds of the command line, else the usual figures. The rest (bytes of a
 * recipe, a job and a result) are the engine's own: see lemel.h.
 */
#ifndef LML_WORKER_LIMITS_H
#define LML_WORKER_LIMITS_H

#include "lemel.h"
#include "terminal/argument.h"

typedef struct lml_worker_limits {
    uint64_t steps;     /* of the box's budget; 0: the engine's usual */
    unsigned processor; /* seconds of processor time; 0: 10 */
    long patience;      /* milliseconds until the worker is killed; 0: 10,000 */
    size_t memory;      /* bytes the engine may hold; 0: 128 MiB */
    size_t answer;      /* bytes of the answer; 0: 8 MiB */
} lml_worker_limits;

/* The same with the usual figures in place of each 0. */
lml_worker_limits lml_limits_full(lml_worker_limits limits);
/* What the command line says. LML_USAGE. */
lml_status lml_limits_read(const lml_arguments *arguments, lml_worker_limits *out, lml_error *err);
/* What an engine in a worker gets. Its Lua state has an eighth less memory than the worker: a
 * recipe that goes on taking it comes upon that limit first, which can say where it is. */
lml_limits lml_limits_of_engine(const lml_worker_limits *limits);
/* A whole number between `least` and `most` that is the value of an option. LML_USAGE. */
lml_status lml_limits_whole(const lml_arguments *arguments, lml_option option, uint64_t least,
                            uint64_t most, uint64_t *out, lml_error *err);

#endif
