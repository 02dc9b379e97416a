/* Trace: a command run with one fault in it. The system calls of the command and of its workers are
 * counted, each process by itself, so that the same number means the same call in every run. The
 * command's count begins with its own first call, which looks whether descriptor 0 is open: what
 * comes before it is the loader's.
 *
 *     ended e = trace_run(words, folder, out, err, &(fault){FAULT_FAIL, .process = 0, .call = 12,
 * .code = EIO});
 */
#ifndef LML_TESTS_FAULTS_TRACE_H
#define LML_TESTS_FAULTS_TRACE_H

#include "counts.h"

#include <stdbool.h>

typedef enum fault_kind { FAULT_NONE, FAULT_FAIL, FAULT_KILL, FAULT_ALLOC } fault_kind;

/* What happens at call number `call`, counted from 1, of a process: 0 is the command. */
typedef struct fault {
    fault_kind kind;
    int process;
    long call;
    int code; /* of FAULT_FAIL */
} fault;

typedef struct ended {
    int status, signal; /* of the command; signal 0 when it ended by itself */
    int crashed;        /* a signal of a crash in any of its processes */
    bool reached, hung;
    long number, descriptor; /* of the call at the fault: which it was, and its first argument */
    int processes;
    long calls[FAULT_PROCESSES];
} ended;

/* Why nothing can be traced here, NULL when it can. */
const char *trace_missing(void);
/* `words` ends in NULL. `preload` NULL, or the allocator that fails, with `counts` the file between
 * them. */
ended trace_run(char *const *words, const char *folder, const char *out, const char *err,
                const fault *f, const char *preload, const char *counts);

#endif
