/* Powers and roots of values.
 */
#ifndef LML_VALUE_POWER_H
#define LML_VALUE_POWER_H

#include "value/value.h"

/* b must be a whole number, -9..9. */
lml_status lml_power(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err);
lml_status lml_power_root(const lml_value *a, int degree, lml_value *out, lml_error *err);

#endif
