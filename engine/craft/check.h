/* Refusals shared by all formulas of the craft floor.
 *
 * A formula states the range that each of its inputs may have; a value outside it, not a number or
 * infinite, is LML_BAD_VALUE with the name of the input. `what` carries the unit: "the density of
 * the wax (kg/m3)".
 *
 *     if (lml_check_positive(density, "the density of the wax (kg/m3)", err))
 *         return LML_BAD_VALUE;
 */
#ifndef LML_CRAFT_CHECK_H
#define LML_CRAFT_CHECK_H

#include "base/decimal.h"

/* x as text for a message, "not a number" and "infinite" included. Returns `out`. */
const char *lml_check_text(double x, char out[LML_NUMBER_TEXT]);

lml_status lml_check_positive(double x, const char *what, lml_error *err);
lml_status lml_check_not_negative(double x, const char *what, lml_error *err);
/* low <= x <= high */
lml_status lml_check_between(double x, double low, double high, const char *what, lml_error *err);
/* A part less than the whole: 0 <= x < 1. */
lml_status lml_check_part(double x, const char *what, lml_error *err);

/* Write x to *out, or refuse with LML_OVERFLOW when it is not finite. */
lml_status lml_check_result(double x, const char *what, double *out, lml_error *err);

#endif
