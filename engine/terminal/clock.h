/* Clock: the one place that reads the computer's clock, when a person wrote `--at now` or records
 * what is of a moment still to come. LEMEL_NOW in the environment replaces it.
 *
 * No recipe and no result depends on it: its time is written down as if the person had typed it.
 */
#ifndef LML_TERMINAL_CLOCK_H
#define LML_TERMINAL_CLOCK_H

#include "base/status.h"

enum { LML_CLOCK_TEXT = 24 };

/* Local date and time to the minute, as a moment is written. LML_FAULT; LML_BAD_VALUE when
 * LEMEL_NOW is no moment. */
lml_status lml_clock_now(char out[LML_CLOCK_TEXT], lml_error *err);

#endif
