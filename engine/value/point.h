/* Arithmetic of points on a scale: temperatures, moments and times of day.
 *
 * A point less a point is a difference, a point and a difference are a point; nothing else. A time
 * is rounded to the nearest second; a time of day wraps at midnight. A temperature below absolute
 * zero and a moment outside the years 1 to 9999 are LML_BAD_VALUE.
 */
#ifndef LML_VALUE_POINT_H
#define LML_VALUE_POINT_H

#include "unit/amount.h"
#include "value/refusal.h"

/* Kelvin, beyond which an amount and the offset of its unit are not written together. */
#define LML_HOTTEST 1e100

bool lml_point_kind(const lml_value *v);
/* At least one operand is a point. operation: LML_ADD or LML_SUB. */
lml_status lml_point_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                         lml_value *out, lml_error *err);
/* An amount in SI without what lies beyond 11 decimals of its unit: the noise that is left when two
 * points far from zero are taken from each other. */
double lml_point_clean(double amount, lml_rational factor);
/* A temperature of `kelvin` that prints in `unit`, a point unit, cleaned in the same way, so
 * that 960 °C - 75 Δ°C is 885 °C. */
lml_status lml_point_temperature(double kelvin, lml_unit unit, lml_value *out, lml_error *err);
/* The same, of an exact decimal in `unit`. */
lml_status lml_point_temperature_of(const lml_decimal *amount, lml_unit unit, lml_value *out,
                                    lml_error *err);
/* A moment of so many seconds since 1970. */
lml_status lml_point_moment(lml_i128 seconds, lml_value *out, lml_error *err);

#endif
