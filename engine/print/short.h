/* Short: numbers for people. One with more digits than anybody reads is cut to eight; JSON has them
 * all.
 *
 *     lml_short_add(&line, lml_span_of("2.2499999999999985 g"));      2.25 g
 */
#ifndef LML_PRINT_SHORT_H
#define LML_PRINT_SHORT_H

#include "base/text.h"

void lml_short_add(lml_builder *line, lml_span text);

#endif
