/* Filter: which system calls a worker may still make, enforced by the kernel.
 *
 * The last thing given up: after it only the pipe it holds can be read and written, memory be had
 * without the right to execute it, and the process be left. All else is refused with EPERM, and a
 * call in another machine's convention ends the process. Only on Linux, on the machines that
 * filter.c knows; elsewhere, and under the address sanitizer, there is none.
 */
#ifndef LML_WORKER_FILTER_H
#define LML_WORKER_FILTER_H

#include <stdbool.h>

/* Whether this program and this system have one. */
bool lml_filter_there(void);
/* False when there is one and it could not be set. Wants PR_SET_NO_NEW_PRIVS. */
bool lml_filter_set(void);

#endif
