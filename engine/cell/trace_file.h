/* Trace, the files: which numbers the lines of a recipe or script have.
 */
#ifndef LML_CELL_TRACE_FILE_H
#define LML_CELL_TRACE_FILE_H

#include "cell/trace_list.h"

/* Whether the number is written in that line of the file, counted from 1, or as a constant of the
 * file: "local QUARTER = 15". */
bool lml_trace_file_has(lml_trace *t, const char *file, unsigned line, double x);
/* Whether that text, which begins with a number, is there in double quotes: "0.5 g". */
bool lml_trace_file_has_text(lml_trace *t, const char *file, unsigned line, lml_span words);

#endif
