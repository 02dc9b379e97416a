/* Reading a value: the one grammar of job files, command line and recipes.
 *
 *     value   = amount unit [ "±" amount unit ]  |  amount ".." amount unit
 *     amount  = [sign] decimal [exponent]  |  [sign] [whole] fraction
 *     unit    = factors joined by * or ·, at most one /, powers with ^ or ² ³; a denominator of
 * several factors in parentheses
 *
 * The whole text is consumed or it is refused. Nothing is guessed: what could mean two things is
 * refused with both meanings. "+-" is read as "±". Besides: "585 ‰ Au" and "14 kt" are finenesses,
 * "7.5 g Au" a fine mass, "12.50 USD" and "USD 12.50" money, ISO 8601 texts moments, "22:00" a time
 * of day, English weekday names weekdays.
 *
 *     lml_value v;
 *     lml_status s = lml_read_value(lml_span_of("2 1/2 dwt"), LML_WANT_MASS, LML_Au, &v, err);
 */
#ifndef LML_READ_READ_H
#define LML_READ_READ_H

#include "value/wanted.h"

enum { LML_VALUE_TEXT_MOST = 200 }; /* longer texts are refused */

/* `metal` is the metal a bare fineness ("585 ‰", "14K") or fine mass is of, LML_NO_METAL to demand
 * that it be named; used only where `wanted` is FINENESS or FINE_MASS. LML_WANT_ANYTHING reads
 * every kind. LML_BAD_VALUE, LML_OVERFLOW; each refusal labels the span that is wrong and carries a
 * hint. */
lml_status lml_read_value(lml_span text, lml_wanted wanted, lml_metal metal, lml_value *out,
                          lml_error *err);
/* A part of the reader, for it alone: false for what is not a plain value of the kind that is
 * expected.
 */
bool lml_read_value_plain(lml_span text, lml_wanted wanted, lml_value *out);

#endif
