/* Code line: the numbers and the names of constants that a line of a recipe or script has.
 *
 *     lml_code_line_names(lml_span_of("local DECAYS = 900"))      "DECAYS"
 */
#ifndef LML_CELL_CODE_LINE_H
#define LML_CELL_CODE_LINE_H

#include "base/span.h"

/* The next number of the line from *at on, as written: there is none in "x62". False when there is
 * no more. */
bool lml_code_line_next(lml_span line, size_t *at, double *number);
/* The names of a line such as "local QUARTER, HALF = 15, 30", which begin with a capital; empty for
 * any other. */
lml_span lml_code_line_names(lml_span line);

#endif
