/* A worker's task that never ends, for tests of who ends it. */
#ifndef LML_TESTS_CLI_SPIN_H
#define LML_TESTS_CLI_SPIN_H

#include "lemel.h"

#include <stdatomic.h>

/* Where it is not NULL, how many workers have come to spin: memory that processes share. */
static atomic_size_t *spinning;

static inline lml_status spin(lml_engine *engine, const void *request, lml_text *out,
                              lml_error *err)
{
    (void)engine;
    (void)request;
    (void)out;
    (void)err;
    if (spinning)
        atomic_fetch_add(spinning, 1);
    for (volatile unsigned i = 0;; i++)
        continue;
    return LML_OK;
}

#endif
