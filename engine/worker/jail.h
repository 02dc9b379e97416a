/* Jail: what a worker gives up before it touches a stranger's recipe.
 *
 * After lml_jail_enter the process holds one descriptor, the pipe; it cannot open, write or start
 * anything, and processor time and memory are bounded by the system. Where the system has a filter
 * of system calls (see filter.h), all that remains is the pipe, memory and leaving. On Linux it
 * dies with the command, however that ends; elsewhere when it next uses the pipe, at the latest
 * when its processor time is spent.
 */
#ifndef LML_WORKER_JAIL_H
#define LML_WORKER_JAIL_H

#include <stdbool.h>
#include <stddef.h>

typedef struct lml_jail {
    unsigned seconds; /* of processor time */
    size_t memory;    /* bytes of address space beyond the program's own */
    long command;     /* the process that the worker was started by, and must not outlive */
} lml_jail;

enum { LML_JAIL_PIPE = 0 }; /* the descriptor that `pipe` is moved to */

/* False when the system refuses a part: then the worker must not go on. */
bool lml_jail_enter(const lml_jail *jail, int pipe);

#endif
