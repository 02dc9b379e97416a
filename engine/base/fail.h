/* Fail: the start of an error.
 */
#ifndef LML_BASE_FAIL_H
#define LML_BASE_FAIL_H

#include "base/types.h"

#if defined(__GNUC__)
#define LML_PRINTF(at, first) __attribute__((format(printf, at, first)))
#else
#define LML_PRINTF(at, first)
#endif

/* Start a new error: status and message; hint, labels and context are emptied. Control characters
 * of the arguments become '?'; what does not fit is cut at a whole character and ends in "...".
 * Returns `status`, so a refusal is one line. `err` may be NULL. */
lml_status lml_fail(lml_error *err, lml_status status, const char *format, ...) LML_PRINTF(3, 4);

#endif
