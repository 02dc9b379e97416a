#include "base/double.h"
#include "base/random.h"

#include <criterion/criterion.h>
#include <math.h>

/* Outside check: conversions and ldexp of the C library. */
Test(double, a_double_is_joined_with_one_rounding)
{
    random_source r = {9};
    for (int i = 0; i < 50000; i++) {
        uint64_t n = (uint64_t)random_i64(&r);
        lml_u128 wide = (lml_u128)n << 64 | random_next(&r);
        cr_assert_eq(lml_double_join(n, false, 0), (double)n);
        cr_assert_eq(lml_double_join(wide, false, 0), (double)wide);
        cr_assert_eq(lml_exact_bits_u128(n), n ? 64 - __builtin_clzll(n) : 0);
        uint64_t exact = n >> 11; /* 53 bits, so that ldexp is the one rounding */
        int exponent = random_below(&r, 2400) - 1200;
        cr_assert_eq(lml_double_join(exact, false, exponent), ldexp((double)exact, exponent));
        double x = random_double(&r);
        uint64_t mantissa;
        lml_double_split(x, &mantissa, &exponent);
        cr_assert_eq(lml_double_join(mantissa, false, exponent), fabs(x));
    }
    /* Halfway goes to even, and a trace more goes up. */
    lml_u128 half = ((lml_u128)1 << 60) + 128; /* a last place is 256 here */
    cr_expect_eq(lml_double_join(half, false, 0), 0x1p60);
    cr_expect_eq(lml_double_join(half, true, 0), 0x1p60 + 256);
    cr_expect_eq(lml_double_join((lml_u128)1 << 60, false, -1135), 0);
    cr_expect_eq(lml_double_join((lml_u128)1 << 60, true, -1135), 0x1p-1074);
}
