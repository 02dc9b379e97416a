/* Status and error: how everything below the command says that it failed.
 *
 * Every function that can fail returns an lml_status and takes, last, an lml_error pointer that
 * may be NULL. `out` parameters are written only on LML_OK. What an lml_error holds stands in
 * types.h.
 *
 *     if (!fits)
 *         return lml_fail(err, LML_BAD_VALUE, "a mass (%s) is due, and %s was given", a, b);
 *     return lml_error_context(err, inner_call(..., err), "in %s", name);
 */
#ifndef LML_BASE_STATUS_H
#define LML_BASE_STATUS_H

#include "base/types.h"
#include <stdarg.h>

#if defined(__GNUC__)
#define LML_PRINTF(at, first) __attribute__((format(printf, at, first)))
#else
#define LML_PRINTF(at, first)
#endif

/* The name of a status ("BAD_VALUE") and its sentence; never NULL. */
LML_API const char *lml_status_name(lml_status status);
LML_API const char *lml_status_sentence(lml_status status);

/* Start an error anew: status and message; hint, labels and context are emptied. Control
 * characters of the arguments become '?'; what does not fit is cut at a whole character and ends
 * in "...". Returns `status`, so that a refusal is one line. `err` may be NULL. */
lml_status lml_fail(lml_error *err, lml_status status, const char *format, ...) LML_PRINTF(3, 4);
/* Set the hint of an error that lml_fail has started. `err` may be NULL. */
void lml_error_hint(lml_error *err, const char *format, ...) LML_PRINTF(2, 3);
/* Add a labelled span; silently dropped when four are there. */
void lml_error_label(lml_error *err, const char *text, size_t text_length, size_t offset,
                     size_t length, const char *note);
/* If `status` is not LML_OK add a context line; returns `status` in either case. */
lml_status lml_error_context(lml_error *err, lml_status status, const char *format, ...)
    LML_PRINTF(3, 4);

#endif
