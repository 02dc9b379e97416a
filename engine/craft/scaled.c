#include "craft/scaled.h"

#include "base/decimal.h"

#include <math.h>

static lml_status too_long(lml_error *err)
{
    lml_fail(err, LML_OVERFLOW, "a figure needs more digits than an exact calculation holds (38)");
    lml_error_hint(err, "write it with fewer decimals");
    return LML_OVERFLOW;
}

static lml_status shift(lml_i128 count, int places, lml_i128 *out, lml_error *err)
{
    if (count == 0)
        places = 0;
    for (; places > 0; places--)
        if (__builtin_mul_overflow(count, (lml_i128)10, &count))
            return too_long(err);
    *out = count;
    return LML_OK;
}

/* Trailing zeros dropped, so that the places are those the decimal needs. */
static lml_scaled lowest(lml_scaled a)
{
    while (a.places > 0) {
        lml_i128 tenth = lml_wide_quotient(a.count, 10);
        if (tenth * 10 != a.count)
            break;
        a.count = tenth;
        a.places--;
    }
    return a;
}

/* The quick way for what people write: up to 15 digits. A whole number below 2^53 over a power of
 * ten up to 10^22 is the nearest double to that decimal, because both are doubles and division
 * rounds once; so when it gives x back, the decimal is x's shortest. */
static bool short_decimal(double x, lml_scaled *out)
{
    double ten = 1;
    for (int places = 0; places <= 22; places++, ten *= 10) {
        double count = nearbyint(x * ten);
        if (fabs(count) >= 1e15)
            return false;
        if (count / ten == x) {
            *out = (lml_scaled){(int64_t)count, places};
            return true;
        }
    }
    return false;
}

lml_status lml_scaled_of(double x, lml_scaled *out, lml_error *err)
{
    if (!isfinite(x))
        return lml_fail(err, LML_BAD_VALUE, "a figure is not a finite number");
    if (short_decimal(x, out))
        return LML_OK;
    char text[LML_NUMBER_TEXT];
    size_t length = lml_decimal_write_double(x, text);
    lml_decimal d;
    if (lml_decimal_read((lml_span){text, length}, &d) != length || d.inexact)
        return lml_fail(err, LML_FAULT, "a number written as \"%s\" did not read back", text);
    lml_scaled result = {d.negative ? -(lml_i128)d.digits : (lml_i128)d.digits, 0};
    if (d.exponent < 0)
        result.places = -d.exponent;
    else {
        lml_status s = shift(result.count, d.exponent, &result.count, err);
        if (s != LML_OK)
            return s;
    }
    *out = lowest(result);
    return LML_OK;
}

lml_status lml_scaled_add(lml_scaled a, lml_scaled b, lml_scaled *out, lml_error *err)
{
    int places = a.places > b.places ? a.places : b.places;
    lml_i128 left, right, sum;
    lml_status s = lml_scaled_at(a, places, &left, err);
    if (s == LML_OK)
        s = lml_scaled_at(b, places, &right, err);
    if (s != LML_OK)
        return s;
    if (__builtin_add_overflow(left, right, &sum))
        return too_long(err);
    *out = lowest((lml_scaled){sum, places});
    return LML_OK;
}

lml_status lml_scaled_sub(lml_scaled a, lml_scaled b, lml_scaled *out, lml_error *err)
{
    return lml_scaled_add(a, (lml_scaled){-b.count, b.places}, out, err);
}

lml_status lml_scaled_mul(lml_scaled a, lml_scaled b, lml_scaled *out, lml_error *err)
{
    lml_i128 product;
    if (__builtin_mul_overflow(a.count, b.count, &product))
        return too_long(err);
    *out = lowest((lml_scaled){product, a.places + b.places});
    return LML_OK;
}

lml_status lml_scaled_at(lml_scaled a, int places, lml_i128 *out, lml_error *err)
{
    if (places < a.places)
        return lml_fail(err, LML_BAD_VALUE, "a number with %d decimal places does not fit in %d",
                        a.places, places);
    return shift(a.count, places - a.places, out, err);
}

lml_big lml_scaled_big(lml_i128 count)
{
    lml_big big = lml_big_of_u128(count < 0 ? -(lml_u128)count : (lml_u128)count);
    if (count < 0)
        big.sign = -1;
    return big;
}
