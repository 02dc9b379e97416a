/* Error: what is added to one that lml_fail has started. `err` may be NULL everywhere.
 */
#ifndef LML_BASE_ERROR_H
#define LML_BASE_ERROR_H

#include "base/fail.h"
#include "base/span.h"

#include <stdarg.h>

/* What lml_fail does. */
void lml_error_start(lml_error *err, lml_status status, const char *format, va_list args);
/* How a context begins that names the line of lemel's own recipes which said the message: the
 * command shows it with --verbose alone. */
#define LML_SAID_IN "said in "
/* How a context begins that says where in a job or a house the figure stands that the message is
 * about, step by step with a mark between two; it is taken out before anybody reads it. */
#define LML_SAID_OF "said of "
enum { LML_SAID_STEP = '\x1f' };

/* Set the hint. */
void lml_error_hint(lml_error *err, const char *format, ...) LML_PRINTF(2, 3);
/* Add a labelled span; silently dropped when four are there. */
void lml_error_label(lml_error *err, const char *text, size_t text_length, size_t offset,
                     size_t length, const char *note);
/* The same for `part`, which lies in `whole`. */
void lml_error_label_part(lml_error *err, lml_span whole, lml_span part, const char *note);
/* If `status` is not LML_OK add a context line; returns `status` in either case. */
lml_status lml_error_context(lml_error *err, lml_status status, const char *format, ...)
    LML_PRINTF(3, 4);

#endif
