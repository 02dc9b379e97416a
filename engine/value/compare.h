/* Whether values are equal, and which is the larger.
 */
#ifndef LML_VALUE_COMPARE_H
#define LML_VALUE_COMPARE_H

#include "value/value.h"

/* *order is -1, 0 or 1. For kinds that are never equal (mass and volume) LML_MISMATCH. */
lml_status lml_compare(const lml_value *a, const lml_value *b, int *order, lml_error *err);
/* Equality for ==. LML_MISMATCH as for an order, except for two weekdays, which have none and can
 * be equal. */
lml_status lml_compare_equal(const lml_value *a, const lml_value *b, bool *equal, lml_error *err);
bool lml_compare_is_zero(const lml_value *a);
/* Of one kind, dimension, currency, metal and mode, so that the two can be compared; numbers and
 * ratios are alike. */
bool lml_compare_alike(const lml_value *a, const lml_value *b);

#endif
