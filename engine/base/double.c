#include "base/double.h"

#include <float.h>
#include <math.h>
#include <string.h>

_Static_assert(DBL_MANT_DIG == 53 && sizeof(double) == 8, "a double must be IEEE 754 binary64");

void lml_double_split(double x, uint64_t *mantissa, int *exponent)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    uint64_t fraction = bits & (((uint64_t)1 << 52) - 1);
    int biased = (int)(bits >> 52 & 0x7ff);
    if (biased != 0)
        fraction |= (uint64_t)1 << 52;
    int zeros = fraction ? __builtin_ctzll(fraction) : 0;
    *mantissa = fraction >> zeros;
    *exponent = fraction ? (biased ? biased : 1) - 1075 + zeros : 0;
}

double lml_double_join(lml_u128 mantissa, bool more, int exponent)
{
    int bits = lml_exact_bits_u128(mantissa);
    if (bits == 0)
        return 0;
    if (bits > 64) {
        int extra = bits - 64;
        more = more || (mantissa & (((lml_u128)1 << extra) - 1)) != 0;
        mantissa >>= extra;
        exponent += extra;
        bits = 64;
    }
    int leading = bits - 1 + exponent; /* the weight of the first bit */
    if (leading > 1023)
        return HUGE_VAL;
    if (leading < -1075)
        return 0;
    int kept_bits = leading >= -1022 ? 53 : leading + 1075; /* fewer for a subnormal */
    int drop = bits - kept_bits;
    uint64_t kept;
    if (drop <= 0) {
        kept = (uint64_t)mantissa << -drop;
    } else {
        lml_u128 unit = (lml_u128)1 << drop, rest = mantissa & (unit - 1);
        kept = (uint64_t)(mantissa >> drop);
        kept += rest > unit / 2 || (rest == unit / 2 && (more || (kept & 1)));
    }
    /* A carry out of `kept` moves into the exponent by itself, up to infinity. */
    uint64_t image = kept;
    if (leading >= -1022)
        image += ((uint64_t)(leading + 1023) << 52) - ((uint64_t)1 << 52);
    double x;
    memcpy(&x, &image, sizeof x);
    return x;
}
