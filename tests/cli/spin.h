/* A worker's task that never ends, for tests of who ends it. */
#ifndef LML_TESTS_CLI_SPIN_H
#define LML_TESTS_CLI_SPIN_H

#include "lemel.h"

static inline lml_status spin(lml_engine *engine, const void *request, lml_text *out,
                              lml_error *err)
{
    (void)engine;
    (void)request;
    (void)out;
    (void)err;
    for (volatile unsigned i = 0;; i++)
        continue;
    return LML_OK;
}

#endif
