/* Pattern: the regular expression for a kind of value, for JSON Schemas.
 *
 * The reader itself is asked, unit by unit, which units belong to a kind, so that the two cannot
 * differ. A pattern accepts everything that the reader accepts, except compound units that cancel
 * ("g·h/h"), which nobody writes. It accepts more than the reader: it does not check bounds, dates
 * that do not exist, or what follows a ±.
 *
 *     lml_shape_pattern_append(&(lml_shape){.wanted = LML_WANT_MASS}, b);
 */
#ifndef LML_FILE_SHAPE_PATTERN_H
#define LML_FILE_SHAPE_PATTERN_H

#include "file/shape.h"

/* Whether that kind has a pattern. */
bool lml_shape_pattern_has(lml_wanted wanted);
/* The pattern, in the common subset of ECMA 262 and POSIX extended expressions. */
void lml_shape_pattern_append(const lml_shape *shape, lml_builder *b);

#endif
