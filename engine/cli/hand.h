/* Hand: the inside of a worker process.
 *
 * It gives up what the command holds (see jail.h), makes an engine of each kit it is asked for, and
 * works: one request that it inherited, or every job that comes over the pipe until there are no
 * more. Each job gets a Lua state of its own; the engine, with the recipes it has compiled, stays.
 *
 * The allocator never returns NULL: over the limit it says so on the pipe and ends the process, so
 * that no path for want of memory runs inside Lua.
 */
#ifndef LML_CLI_HAND_H
#define LML_CLI_HAND_H

#include "cli/frame.h"
#include "cli/kit.h"

/* Runs in the worker. On LML_OK, and on LML_STOPPED when a rule stopped something, `out` holds the
 * answer, else `err` the error. */
typedef lml_status (*lml_work)(lml_engine *engine, const void *request, lml_text *out,
                               lml_error *err);

/* A job and how messages name it; NUL-ended both. */
typedef struct lml_job {
    lml_span text;
    const char *shown;
} lml_job;

enum { LML_HAND_KITS = 2 };

typedef struct lml_hand {
    const lml_kit *kit[LML_HAND_KITS]; /* the second may be NULL */
    lml_work work;
    const void *request; /* what is worked, with the first kit; */
    bool many;           /* or every job that comes: `work` gets each as an lml_job */
    lml_worker_limits limits;
} lml_hand;

/* A new process with a hand at work in it, and the command's end of its pipe. LML_FAULT when none
 * could be had. */
lml_status lml_hand_start(const lml_hand *hand, long *process, int *pipe, lml_error *err);
/* End the process, which has answered or never will, and say in `error` (which holds a
 * worker's own error at LML_FRAMES_ERROR) what `end` means:
 * LML_OK, LML_STOPPED or the error's status. LML_LIMIT when it used up time or memory; LML_FAULT
 * when it died. */
lml_status lml_hand_end(const lml_hand *hand, long process, lml_frame_end end, lml_error *error);

#endif
