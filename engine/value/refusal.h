/* Refusals of arithmetic, in the words of the person who wrote the sum.
 *
 * Each names both values with what they are, and hints at the likely fix. No text is built if `err`
 * is NULL, so a caller that only checks whether two values mix pays nothing.
 *
 *     lml_refusal_mismatch(LML_ADD, &mass, &volume, err);
 *     -> "a mass (12.0 g) and a volume (3.1 mL) cannot be added"
 *        "a density turns one into the other: 3.1 mL * density"
 */
#ifndef LML_VALUE_REFUSAL_H
#define LML_VALUE_REFUSAL_H

#include "value/value.h"

typedef enum lml_operator {
    LML_ADD,
    LML_SUB,
    LML_MUL,
    LML_DIV,
    LML_WHOLE,
    LML_REMAINDER,
    LML_COMPARE,
    LML_MEAN,
    LML_STEP
} lml_operator;

/* Two values that do not mix: LML_MISMATCH. */
lml_status lml_refusal_mismatch(lml_operator operation, const lml_value *a, const lml_value *b,
                                lml_error *err);
/* The result of two values is not finite: LML_OVERFLOW. */
lml_status lml_refusal_overflow(const lml_value *a, const lml_value *b, lml_error *err);
/* Division of `a` by zero: LML_BAD_VALUE. */
lml_status lml_refusal_zero(const lml_value *a, lml_error *err);
/* One value that an operation does not take: "<what> (<text>) <words>", and the hint. */
lml_status lml_refusal_alone(lml_status status, const lml_value *a, const char *words,
                             const char *hint, lml_error *err);

#endif
