/* The amount of a value: a decimal, or a whole number with a fraction.
 *
 * It is kept as written, so that the conversion to SI rounds once. Part of the reader; other floors
 * read whole values.
 *
 *     lml_amount a;
 *     size_t used;
 *     lml_amount_read(text, text, &a, &used, err);        "2 1/2 dwt": 5/2, used 5
 *     double kg = lml_amount_scale(&a, factor, offset);
 */
#ifndef LML_UNIT_AMOUNT_H
#define LML_UNIT_AMOUNT_H

#include "base/decimal.h"

/* decimal / bottom; `text` is how it was written. */
typedef struct lml_amount {
    lml_decimal decimal;
    int64_t bottom;
    lml_span text;
} lml_amount;

/* Read an amount at the start of `rest`, a part of `whole` (which the labels of a refusal show). No
 * blank after the amount is consumed. LML_BAD_VALUE: no number, a comma, inf, nan, hex. */
lml_status lml_amount_read(lml_span whole, lml_span rest, lml_amount *out, size_t *used,
                           lml_error *err);
/* The double nearest to amount * factor + offset: one rounding. +-HUGE_VAL beyond the range. */
double lml_amount_scale(const lml_amount *a, lml_rational factor, lml_rational offset);
/* Shortest decimal d with nearest(d * factor + offset) == si; without an offset as
 * lml_decimal_shortest. */
bool lml_amount_shortest(double si, lml_rational factor, lml_rational offset, lml_decimal *out);
/* The same, written to `out`. */
size_t lml_amount_write(double si, lml_rational factor, lml_rational offset,
                        char out[LML_NUMBER_TEXT]);

#endif
