/* A value as a person reads it on a sheet: the figure as it was rounded, or at most six significant
 * digits of one that was not; money with its thousands apart, a price with the decimals of its
 * money.
 *
 * Not meant to be read back: a figure cut to six digits has lost the rest. A fineness is cut
 * downwards, since no paper may show more than there is.
 *
 *     lml_show_value(&v, &builder);   "16.1042", "1,149.00 USD", "94.30 EUR/g", "58.0 g"
 */
#ifndef LML_VALUE_SHOW_H
#define LML_VALUE_SHOW_H

#include "value/write.h"

void lml_show_value(const lml_value *v, lml_builder *b);
/* The same into a fixed buffer; NUL-ended. Returns the length. */
size_t lml_show_shown(const lml_value *v, char out[LML_VALUE_TEXT]);
/* The same value to be shown in another unit, as lml_write_as. What was rounded to a step shows as
 * fine a step there, of at most 2.6 times the size: 28.24 inHg is 956.3 mbar, 28.56 g is 18.36 dwt.
 * What was rounded up or down is rounded up or down there too: 28.56 g is 18.37 dwt. What somebody
 * wrote shows one digit more than they did, and at least four: 29 g is 18.65 dwt. */
lml_status lml_show_value_in(const lml_value *v, lml_span unit, lml_value *out, lml_error *err);

#endif
