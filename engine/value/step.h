/* Steps: a value moved to a whole number of them, or counted in them.
 */
#ifndef LML_VALUE_STEP_H
#define LML_VALUE_STEP_H

#include "value/value.h"

typedef enum lml_direction { LML_TO_NEAREST, LML_TO_UP, LML_TO_DOWN } lml_direction;
/* To a step of the same kind and dimension, towards plus or minus infinity or to the nearest (half
 * away from zero). A value within 1e-9 (relative) of a step is on it and does not move. The result
 * prints with the step's decimals in the step's unit. Money by exact arithmetic. step > 0. A
 * fineness takes a ratio or fineness, a fine mass a mass, a temperature a temperature difference, a
 * moment or time of day a time that divides the day evenly (steps count from midnight).
 * LML_MISMATCH, LML_BAD_VALUE, LML_OVERFLOW. */
lml_status lml_step_round(const lml_value *a, const lml_value *step, lml_direction direction,
                          lml_value *out, lml_error *err);

/* To the last decimal that it shows in its unit: for a value with `decimals`, of a kind with an
 * amount other than a fineness. */
lml_status lml_step_to_decimals(const lml_value *v, lml_direction direction, lml_value *out,
                                lml_error *err);

/* Whole quotient and remainder of equal dimensions; a value within 1e-9 of a step is on it. */
lml_status lml_step_divide(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err);
lml_status lml_step_remainder(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err);

#endif
