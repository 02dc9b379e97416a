/* Each function: its special arguments, then the result with twice the digits, rounded once. */
#include "base/real.h"
#include "base/real_two.h"

#include <math.h>
#include <stdbool.h>

double lml_real_exp(double x)
{
    if (isnan(x))
        return x;
    if (x > 710)
        return HUGE_VAL;
    if (x < -746)
        return 0;
    int n;
    lml_two power = lml_two_exp((lml_two){x, 0}, &n);
    return lml_two_shift(power, n);
}

double lml_real_expm1(double x)
{
    if (x > 60 || isnan(x)) /* 1 is far below the last place */
        return lml_real_exp(x);
    if (x < -40)
        return -1;
    if (fabs(x) < 0x1p-60)
        return x;
    if (fabs(x) < 0x1.62e4p-8) /* ln 2 / 128 */
        return x + lml_two_beyond_linear(x);
    int n;
    lml_two power = lml_two_exp((lml_two){x, 0}, &n);
    double size = lml_two_power(n);
    lml_two less = lml_two_sum(power.high * size, -1);
    return less.high + (less.low + power.low * size);
}

/* Whether x has no finite logarithm, and then its value. */
static bool is_special(double x, double *out)
{
    if (x > 0 && x <= DBL_MAX)
        return false;
    *out = x == 0 ? -HUGE_VAL : x > 0 || isnan(x) ? x : NAN;
    return true;
}

double lml_real_log(double x)
{
    double special;
    if (is_special(x, &special))
        return special;
    lml_two log = lml_two_log(x);
    return log.high + log.low;
}

double lml_real_log10(double x)
{
    const lml_two per_ln = {0x1.bcb7b1526e50ep-2, 0x1.95355baaafad3p-57}; /* 1 / ln 10 */
    double special;
    if (is_special(x, &special))
        return special;
    lml_two log = lml_two_times(lml_two_log(x), per_ln);
    return log.high + log.low;
}

/* Whether a finite y is whole, and then whether it is odd. */
static bool is_whole(double y, bool *odd)
{
    double size = fabs(y);
    *odd = size < 0x1p53 && floor(size) == size && ((uint64_t)size & 1) != 0;
    return size >= 0x1p53 || floor(size) == size;
}

/* x^y where x or y is 0, infinite or NaN. */
static double special_power(double x, double y)
{
    bool odd;
    if (y == 0 || x == 1)
        return 1;
    if (isnan(x) || isnan(y))
        return x + y;
    if (isinf(y)) {
        double size = fabs(x);
        return size == 1 ? 1 : (size > 1) == (y > 0) ? HUGE_VAL : 0;
    }
    is_whole(y, &odd);
    double size = (x == 0) == (y > 0) ? 0 : HUGE_VAL;
    return odd ? copysign(size, x) : size;
}

/* e^x to a double. */
static double power_of_e(lml_two x)
{
    if (x.high > 710)
        return HUGE_VAL;
    if (x.high < -746)
        return 0;
    int n;
    lml_two power = lml_two_exp(x, &n);
    return lml_two_shift(power, n);
}

double lml_real_pow(double x, double y)
{
    double size = fabs(x);
    if (!(size > 0 && size <= DBL_MAX && y != 0 && fabs(y) <= DBL_MAX))
        return special_power(x, y);
    bool odd, whole = is_whole(y, &odd);
    if (x < 0 && !whole)
        return NAN;
    double sign = x < 0 && odd ? -1 : 1;
    if (size == 1)
        return sign;
    /* No logarithm of a double but 1 is nearer to 0 than 2^-53, and none is further than 746. */
    if (fabs(y) > 0x1p64)
        return sign * ((size > 1) == (y > 0) ? HUGE_VAL : 0);
    if (fabs(y) < 0x1p-65)
        return sign;
    return sign * power_of_e(lml_two_scale(lml_two_log(size), y));
}

double lml_real_root(double x, int n)
{
    if (!(x > 0 && x <= DBL_MAX))
        return x < 0 ? NAN : x;
    return power_of_e(lml_two_over(lml_two_log(x), (lml_two){n, 0}));
}

double lml_real_hypot(double x, double y)
{
    double a = fmax(fabs(x), fabs(y)), b = fmin(fabs(x), fabs(y));
    if (isinf(x) || isinf(y))
        return HUGE_VAL;
    if (isnan(x) || isnan(y))
        return x + y;
    if (b <= a * 0x1p-60)
        return a;
    /* Brought near 1, where no square is lost; a subnormal one in two steps. */
    int scaled = a < 0x1p-900 ? 200 : 0;
    if (scaled) {
        a *= 0x1p200;
        b *= 0x1p200;
    }
    int n = lml_two_exponent(a), half = n / 2;
    a *= lml_two_power(-half) * lml_two_power(half - n);
    b *= lml_two_power(-half) * lml_two_power(half - n);
    lml_two square = lml_two_plus(lml_two_product(a, a), lml_two_product(b, b));
    double root = sqrt(square.high);
    lml_two back = lml_two_product(root, root);
    double rest = (square.high - back.high) - back.low + square.low;
    return lml_two_shift(lml_two_ordered(root, rest / (2 * root)), n - scaled);
}
