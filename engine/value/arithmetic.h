/* Arithmetic of values: the operator table of docs/values.md.
 *
 * One function an operator, one error convention. What does not mix is LML_MISMATCH and says in the
 * user's words what clashes and the likely mend ("a density turns one into the other"). A result
 * that is not finite is LML_OVERFLOW; division by zero LML_BAD_VALUE.
 */
#ifndef LML_VALUE_ARITHMETIC_H
#define LML_VALUE_ARITHMETIC_H

#include "value/value.h"

lml_status lml_arithmetic_add(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err);
lml_status lml_arithmetic_sub(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err);
lml_status lml_arithmetic_mul(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err);
lml_status lml_arithmetic_div(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err);
/* Whole quotient and remainder of equal dimensions; a value within 1e-9 of a step is on it. */
lml_status lml_whole_div(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err);
lml_status lml_remainder(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err);
/* b must be a whole number, -9..9. */
lml_status lml_power(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err);
lml_status lml_negate(const lml_value *a, lml_value *out, lml_error *err);
lml_status lml_absolute(const lml_value *a, lml_value *out, lml_error *err);
lml_status lml_root(const lml_value *a, int degree, lml_value *out, lml_error *err);
/* *order is -1, 0 or 1. For kinds that are never equal (mass and volume) LML_MISMATCH. */
lml_status lml_compare(const lml_value *a, const lml_value *b, int *order, lml_error *err);
/* Equality for ==. LML_MISMATCH as for an order, but for two weekdays, which have none and can be
 * equal. */
lml_status lml_equal(const lml_value *a, const lml_value *b, bool *equal, lml_error *err);
bool lml_is_zero(const lml_value *a);
/* Of one kind, dimension, currency, metal and mode, so that the two can be compared; numbers and
 * ratios are alike. */
bool lml_alike(const lml_value *a, const lml_value *b);
/* The mean of temperature points (or of any one kind). count >= 1. */
lml_status lml_mean(const lml_value *a, size_t count, lml_value *out, lml_error *err);
/* fine mass / fineness of the same metal: the mass that holds it. */
lml_status lml_metal_in(const lml_value *fine, const lml_value *fineness, lml_value *out,
                        lml_error *err);
/* fineness of `metal` that `fine` in `mass` is. LML_BAD_VALUE when above 1000 ‰. */
lml_status lml_fineness_of(const lml_value *fine, const lml_value *mass, lml_value *out,
                           lml_error *err);

typedef enum lml_direction { LML_TO_NEAREST, LML_TO_UP, LML_TO_DOWN } lml_direction;
/* To a step of the same kind and dimension, towards plus or minus infinity or to the nearest (half
 * away from zero). A value within 1e-9 (relative) of a step is on it and does not move. The result
 * prints with the step's decimals in the step's unit. Money by exact arithmetic. step > 0. A
 * fineness takes a ratio or fineness, a fine mass a mass, a temperature a temperature difference, a
 * moment or time of day a time that divides the day evenly (steps count from midnight).
 * LML_MISMATCH, LML_BAD_VALUE, LML_OVERFLOW. */
lml_status lml_to_step(const lml_value *a, const lml_value *step, lml_direction direction,
                       lml_value *out, lml_error *err);

#endif
