/* Arithmetic of finenesses, their differences and fine masses: parts by mass of one named metal.
 *
 * fineness * mass = fine mass; fine mass / mass = fineness; fine mass / fineness = mass; a fineness
 * moves by a fineness difference and stays within 0 .. 1000 per mille. Metals never mix. What the
 * table of docs/values.md does not have is LML_MISMATCH; a fineness out of range LML_BAD_VALUE.
 * At least one operand must be a fineness, a fineness difference or a fine mass.
 */
#ifndef LML_VALUE_FINENESS_H
#define LML_VALUE_FINENESS_H

#include "value/refusal.h"

bool lml_fineness_family(const lml_value *v); /* fineness, fineness difference or fine mass */
/* operation: LML_ADD or LML_SUB */
lml_status lml_fineness_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                            lml_value *out, lml_error *err);
lml_status lml_fineness_product(const lml_value *a, const lml_value *b, lml_value *out,
                                lml_error *err);
lml_status lml_fineness_quotient(const lml_value *a, const lml_value *b, lml_value *out,
                                 lml_error *err);
/* fine mass / fineness of the same metal: the mass that holds it. */
lml_status lml_fineness_mass(const lml_value *fine, const lml_value *fineness, lml_value *out,
                             lml_error *err);
/* fineness of `metal` that `fine` in `mass` is. LML_BAD_VALUE when above 1000 ‰. */
lml_status lml_fineness_of(const lml_value *fine, const lml_value *mass, lml_value *out,
                           lml_error *err);

#endif
