/* Pattern: the regular expression of what is written for a kind of value, for JSON Schemas.
 *
 * Which units belong to a kind is asked of the reader itself, unit by unit, so that the two cannot
 * differ. A pattern takes all that the reader takes, except units that are put together so that
 * they cancel ("g·h/h"), which nobody writes. It takes more than the reader does: bounds, dates
 * that do not exist and what is behind a ± are not looked at.
 *
 *     lml_shape_pattern_append(&(lml_shape){.wanted = LML_WANT_MASS}, b);
 */
#ifndef LML_FILE_SHAPE_PATTERN_H
#define LML_FILE_SHAPE_PATTERN_H

#include "file/shape.h"

/* Whether values of that kind have a pattern. */
bool lml_shape_pattern_has(lml_wanted wanted);
/* The pattern, in what ECMA 262 and POSIX extended expressions have in common. */
void lml_shape_pattern_append(const lml_shape *shape, lml_builder *b);

#endif
