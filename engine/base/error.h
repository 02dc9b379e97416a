/* Error: what is added to one that lml_fail has started. `err` may be NULL everywhere.
 */
#ifndef LML_BASE_ERROR_H
#define LML_BASE_ERROR_H

#include "base/fail.h"
#include "base/span.h"

#include <stdarg.h>

/* Starts an error; lml_fail calls it. */
void lml_error_start(lml_error *err, lml_status status, const char *format, va_list args);
/* Prefix of a context that names the line of lemel's own recipes that raised the message: the
 * command shows it only with --verbose. */
#define LML_SAID_IN "said in "
/* Prefix of a context with the place, in a job or a house, of the figure that the message is about:
 * names with a mark between them. It is removed before the error is shown. */
#define LML_SAID_OF "said of "
enum { LML_SAID_STEP = '\x1f' };

/* Set the hint. */
void lml_error_hint(lml_error *err, const char *format, ...) LML_PRINTF(2, 3);
/* Add a labelled span; dropped if there are four already. */
void lml_error_label(lml_error *err, const char *text, size_t text_length, size_t offset,
                     size_t length, const char *note);
/* The same for `part`, which lies in `whole`. */
void lml_error_label_part(lml_error *err, lml_span whole, lml_span part, const char *note);
/* If `status` is not LML_OK add a context line; returns `status` in either case. */
lml_status lml_error_context(lml_error *err, lml_status status, const char *format, ...)
    LML_PRINTF(3, 4);

#endif
