/* The mean of values.
 */
#ifndef LML_VALUE_MEAN_H
#define LML_VALUE_MEAN_H

#include "value/value.h"

/* The mean of temperature points (or of any one kind). count >= 1. */
lml_status lml_mean(const lml_value *a, size_t count, lml_value *out, lml_error *err);

#endif
