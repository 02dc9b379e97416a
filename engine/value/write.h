/* Writing a value: text that the reader returns to the same value.
 *
 *     lml_write_value(&v, &builder);               "19.84 g"
 *     lml_value_write_as(&v, unit, 4, &builder);   in another unit, to so many significant digits
 */
#ifndef LML_VALUE_WRITE_H
#define LML_VALUE_WRITE_H

#include "value/value.h"

/* In the unit it was written in; with its `decimals` when set, else the shortest text that
 * lml_read_value (LML_WANT_ANYTHING) returns to the same value. Spread included. Two texts need
 * their context to be read as what they are: a ratio without a unit ("0.5", elsewhere a number) and
 * the water of a ratio ask ("40 mL/(100 g)", elsewhere a volume per mass; LML_WANT_RATIO). */
void lml_write_value(const lml_value *v, lml_builder *b);
/* The same into a fixed buffer, for messages; NUL-ended. Returns the length. */
enum { LML_VALUE_TEXT = 256 };
size_t lml_write_text(const lml_value *v, char out[LML_VALUE_TEXT]);
/* The same without unit and spread: "19.84", "1149.00" for money in its minor unit or more places
 * when it has more. */
void lml_write_amount(const lml_value *v, lml_builder *b);
/* The unit alone: "g", "USD", "‰ Au", "inHg vac". */
void lml_write_unit(const lml_value *v, lml_builder *b);
/* The amount in its unit as a double ("value" of a result); for money use the text. */
double lml_write_in_unit(const lml_value *v);
/* The same in another unit: lml_write_as, then lml_write_in_unit. */
lml_status lml_write_number_in(const lml_value *v, lml_span unit, double *out, lml_error *err);
/* The shortest text of that double, which must be finite. Returns the length. */
size_t lml_write_number(const lml_value *v, char out[LML_VALUE_TEXT]);
/* What is read from that text again, in SI: mostly the same. For kinds that have an amount. */
double lml_write_read_number(const lml_value *v);
/* The spread in that unit: LML_DEVIATION sets *low to one standard deviation, LML_BETWEEN sets *low
 * and *high to the ends; without a spread neither is touched. */
void lml_write_spread_in_unit(const lml_value *v, double *low, double *high);
/* The same value printed in another unit. Kind and dimension must fit (LML_MISMATCH); a temperature
 * point takes only point units, a fineness ‰, %, kt. Drops `decimals` when the unit changes. */
lml_status lml_write_as(const lml_value *v, lml_span unit, lml_value *out, lml_error *err);

#endif
