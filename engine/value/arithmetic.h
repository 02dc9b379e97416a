/* Arithmetic of values: the operator table of docs/values.md.
 *
 * One function per operator, one error convention. Kinds that do not mix give LML_MISMATCH, which
 * says in the user's words what clashes and the likely fix ("a density turns one into the other").
 * A result that is not finite is LML_OVERFLOW; division by zero LML_BAD_VALUE.
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
lml_status lml_arithmetic_negate(const lml_value *a, lml_value *out, lml_error *err);
lml_status lml_arithmetic_absolute(const lml_value *a, lml_value *out, lml_error *err);

#endif
