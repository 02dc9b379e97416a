/* Decimal text in and out, without a locale.
 *
 * The reader takes [sign] digits [. digits] [e [sign] digits], nothing else: no hex, no inf, no
 * nan, no separators. The writer gives the shortest text that reads back to the same double, in
 * plain form between 1e-6 and 1e15 and with an exponent outside.
 *
 *     lml_decimal d;
 *     size_t used = lml_decimal_read(text, &d);
 *     double kg = lml_decimal_scale(&d, factor);    rounds once
 */
#ifndef LML_BASE_DECIMAL_H
#define LML_BASE_DECIMAL_H

#include "base/exact.h"
#include "base/text.h"

/* digits * 10^exponent, exactly as written as long as there are at most 38 significant digits;
 * beyond that `inexact` is set and the value is the text cut (sticky) after 38. */
typedef struct lml_decimal {
    bool negative, inexact;
    int exponent;
    lml_u128 digits;
    int decimals; /* digits after the point */
} lml_decimal;

/* Bytes consumed from the start of `text`, 0 when there is no decimal. A number that ends in a
 * point ("1.") or starts with one (".5") is not a decimal; of "1..2" only the "1" is read.
 * Exponents are clamped at +-9999. */
size_t lml_decimal_read(lml_span text, lml_decimal *out);
/* Below, factor.bottom > 0 and factor.top is not 0. */

/* The double nearest to the decimal times `factor` (one rounding); HUGE_VAL on overflow. */
double lml_decimal_scale(const lml_decimal *d, lml_rational factor);
/* The double nearest to x * factor, one rounding. */
double lml_decimal_scale_double(double x, lml_rational factor);
/* As an exact count of 10^-places; LML_OVERFLOW, or LML_BAD_VALUE when digits would be lost. */
lml_status lml_decimal_fixed(const lml_decimal *d, int places, int64_t *out, lml_error *err);

enum { LML_NUMBER_TEXT = 40 };
/* Shortest decimal that reads back as x. x must be finite. Returns the length. */
size_t lml_decimal_write_double(double x, char out[LML_NUMBER_TEXT]);
/* Shortest decimal d such that lml_decimal_scale(d, factor) == x: a stored SI double written in its
 * unit. */
size_t lml_decimal_write_scaled(double x, lml_rational factor, char out[LML_NUMBER_TEXT]);
/* That decimal itself; false for 0, infinities and NaN. */
bool lml_decimal_shortest(double x, lml_rational factor, lml_decimal *out);
/* Such a decimal as text. Returns the length. */
size_t lml_decimal_write(const lml_decimal *shortest, char out[LML_NUMBER_TEXT]);
/* The decimal of exactly `decimals` places (0 to 36) nearest to (or by `mode` from) x / factor:
 * from the double as it is, so that 12.4 g kept as 0.0124 kg may lie a hair below 12.4. Never
 * "-0.0". What has more than 36 digits is written as lml_decimal_write_scaled does. */
size_t lml_decimal_write_fixed(double x, lml_rational factor, int decimals, lml_rounding mode,
                               char out[LML_NUMBER_TEXT]);
/* count * 10^-places as text with all `places` ("1149.00"). */
size_t lml_decimal_write_count(int64_t count, int places, char out[LML_NUMBER_TEXT]);

#endif
