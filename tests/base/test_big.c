#include "base/big.h"
#include "base/random.h"

#include <criterion/criterion.h>
#include <math.h>

static lml_big random_big(random_source *r, int limbs)
{
    lml_big n = lml_big_of(random_i64(r));
    for (int i = random_below(r, limbs); i > 0; i--) {
        lml_big low = lml_big_of_u128(random_next(r));
        if (random_below(r, 4) == 0) /* runs of ones and zeros find the carries */
            low = lml_big_of_u128(random_next(r) & 1 ? UINT64_MAX : 0);
        cr_assert_eq(lml_big_shift(&n, 64, &n, NULL), LML_OK);
        cr_assert_eq(lml_big_add(&n, &low, &n, NULL), LML_OK);
    }
    return n;
}

static lml_i128 to_i128(const lml_big *n)
{
    lml_u128 m = 0;
    for (int i = n->length - 1; i >= 0; i--)
        m = m << 64 | n->limb[i];
    return n->sign < 0 ? -(lml_i128)m : (lml_i128)m;
}

/* Outside check: the 128-bit integers of the compiler. */
Test(big, agrees_with_128_bits)
{
    random_source r = {3};
    for (int i = 0; i < 20000; i++) {
        int64_t x = random_i64(&r), y = random_i64(&r), z = random_i64(&r);
        lml_big a = lml_big_of(x), b = lml_big_of(y), c = lml_big_of(z), out, rest;
        cr_assert_eq(lml_big_compare(&a, &b), (x > y) - (x < y));
        cr_assert_eq(lml_big_add(&a, &b, &out, NULL), LML_OK);
        cr_assert(to_i128(&out) == (lml_i128)x + y);
        cr_assert_eq(lml_big_sub(&a, &b, &out, NULL), LML_OK);
        cr_assert(to_i128(&out) == (lml_i128)x - y);
        cr_assert_eq(lml_big_mul(&a, &b, &out, NULL), LML_OK);
        lml_i128 product = (lml_i128)x * y;
        cr_assert(to_i128(&out) == product);
        if (z == 0)
            continue;
        cr_assert_eq(lml_big_divide(&out, &c, &out, &rest, NULL), LML_OK);
        cr_assert(to_i128(&out) == product / z && to_i128(&rest) == product % z);

        int64_t rounded;
        if (lml_exact_mul_div(x, y, z, LML_DOWN, &rounded, NULL) == LML_OK)
            cr_assert(to_i128(&out) == rounded);
        else
            cr_assert(product / z != (int64_t)(product / z));
    }
}

/* a = q*b + r, |r| < |b|, r with the sign of a. */
Test(big, division_undoes_multiplication)
{
    random_source r = {4};
    for (int i = 0; i < 20000; i++) {
        lml_big a = random_big(&r, 24), b = random_big(&r, 24), q, rest, back;
        if (b.sign == 0) {
            cr_assert_eq(lml_big_divide(&a, &b, &q, NULL, NULL), LML_BAD_VALUE);
            continue;
        }
        cr_assert_eq(lml_big_divide(&a, &b, &q, &rest, NULL), LML_OK);
        cr_assert(rest.sign == 0 || rest.sign == a.sign);
        lml_big rest_size = rest, b_size = b;
        rest_size.sign = rest.sign != 0;
        b_size.sign = 1;
        cr_assert_eq(lml_big_compare(&rest_size, &b_size), -1);
        cr_assert_eq(lml_big_mul(&q, &b, &back, NULL), LML_OK);
        cr_assert_eq(lml_big_add(&back, &rest, &back, NULL), LML_OK);
        cr_assert_eq(lml_big_compare(&back, &a), 0);
    }
}

/* 2^191 + 3 = 3 * (2^189 + 1) + 2^189. The leading limbs let the school division guess 4, which it
 * must take back after the subtraction: a case that random numbers hardly ever meet. */
Test(big, division_takes_a_wrong_guess_back)
{
    lml_big one = lml_big_of(1), three = lml_big_of(3), a, b, power, q, rest;
    lml_big_shift(&one, 191, &a, NULL);
    lml_big_add(&a, &three, &a, NULL);
    lml_big_shift(&one, 189, &power, NULL);
    lml_big_add(&power, &one, &b, NULL);
    cr_expect_eq(lml_big_divide(&a, &b, &q, &rest, NULL), LML_OK);
    cr_expect_eq(lml_big_compare(&q, &three), 0);
    cr_expect_eq(lml_big_compare(&rest, &power), 0);
}

Test(big, an_out_may_be_an_argument)
{
    random_source r = {5};
    for (int i = 0; i < 2000; i++) {
        lml_big a = random_big(&r, 12), b = random_big(&r, 11), out, same;
        lml_big_sub(&a, &b, &out, NULL);
        same = b;
        lml_big_sub(&a, &same, &same, NULL);
        cr_assert_eq(lml_big_compare(&out, &same), 0);
        lml_big_mul(&a, &b, &out, NULL);
        same = a;
        lml_big_mul(&same, &b, &same, NULL);
        cr_assert_eq(lml_big_compare(&out, &same), 0);
        if (b.sign == 0)
            continue;
        lml_big quotient, rest, c = a, d = b;
        lml_big_divide(&a, &b, &quotient, &rest, NULL);
        lml_big_divide(&c, &d, &d, &c, NULL);
        cr_assert_eq(lml_big_compare(&quotient, &d), 0);
        cr_assert_eq(lml_big_compare(&rest, &c), 0);
    }
}

/* Euclid's algorithm with the division tested above. */
static lml_big euclid(lml_big a, lml_big b)
{
    while (b.sign != 0) {
        lml_big rest;
        lml_big_divide(&a, &b, NULL, &rest, NULL);
        a = b;
        b = rest;
    }
    a.sign = a.length > 0;
    return a;
}

Test(big, common_divisors)
{
    random_source r = {6};
    for (int i = 0; i < 5000; i++) {
        lml_big a = random_big(&r, 10), b = random_big(&r, 10), c = random_big(&r, 6);
        lml_big_mul(&a, &c, &a, NULL);
        lml_big_mul(&b, &c, &b, NULL);
        lml_big ours = lml_big_gcd(&a, &b), theirs = euclid(a, b);
        cr_assert_eq(lml_big_compare(&ours, &theirs), 0);
    }
    /* Lame, 1844: neighbours in Fibonacci's sequence are the slowest pair, and have no divisor. */
    lml_big one = lml_big_of(1), last = one, now = one;
    for (int i = 0; i < 2000; i++) {
        lml_big next;
        lml_big_add(&last, &now, &next, NULL);
        last = now;
        now = next;
    }
    lml_big divisor = lml_big_gcd(&last, &now);
    cr_expect_eq(lml_big_compare(&divisor, &one), 0);
    lml_big zero = lml_big_of(0);
    divisor = lml_big_gcd(&zero, &now);
    cr_expect_eq(lml_big_compare(&divisor, &now), 0);
}

Test(big, shifts_are_powers_of_two)
{
    random_source r = {7};
    for (int i = 0; i < 5000; i++) {
        lml_big a = random_big(&r, 10), two = lml_big_of(2), slow = a, fast;
        int bits = random_below(&r, 200);
        cr_assert_eq(lml_big_shift(&a, bits, &fast, NULL), LML_OK);
        for (int j = 0; j < bits; j++)
            lml_big_mul(&slow, &two, &slow, NULL);
        cr_assert_eq(lml_big_compare(&slow, &fast), 0);
        cr_assert_eq(lml_big_bits(&fast), a.sign ? lml_big_bits(&a) + bits : 0);
        lml_big_shift(&fast, -bits, &fast, NULL);
        cr_assert_eq(lml_big_compare(&a, &fast), 0);
    }
    lml_big seven = lml_big_of(7), out;
    lml_big_shift(&seven, -1, &out, NULL);
    cr_expect(to_i128(&out) == 3);
    lml_big_shift(&seven, INT32_MIN, &out, NULL);
    cr_expect_eq(out.sign, 0);
}

Test(big, the_capacity_is_1536_bits)
{
    lml_big one = lml_big_of(1), most, out = lml_big_of(7);
    cr_expect_eq(lml_big_shift(&one, 1535, &most, NULL), LML_OK);
    cr_expect_eq(lml_big_bits(&most), 1536);
    cr_expect_eq(lml_big_shift(&one, 1536, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_big_shift(&one, INT32_MAX, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_big_add(&most, &most, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_big_mul(&most, &most, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_big_ten_to(463, &out, NULL), LML_OVERFLOW); /* log2(10^463) = 1538.1 */
    cr_expect_eq(lml_big_ten_to(INT32_MAX, &out, NULL), LML_OVERFLOW);
    cr_expect(to_i128(&out) == 7, "out is written on success only");
    cr_expect_eq(lml_big_sub(&most, &one, &out, NULL), LML_OK);
    cr_expect_eq(lml_big_bits(&out), 1535);
    cr_expect_eq(lml_big_mul(&most, &one, &out, NULL), LML_OK);
    cr_expect_eq(lml_big_ten_to(462, &out, NULL), LML_OK);
    for (int i = 0; i < 462; i++) {
        lml_big ten = lml_big_of(10), rest;
        lml_big_divide(&out, &ten, &out, &rest, NULL);
        cr_assert_eq(rest.sign, 0);
    }
    cr_expect_eq(lml_big_compare(&out, &one), 0);
}

/* Outside check: the division of the processor, which IEEE 754 section 5.4.1 rounds correctly. */
Test(big, ratios_round_as_the_processor_divides)
{
    random_source r = {8};
    for (int i = 0; i < 50000; i++) {
        double x = random_double(&r), y = random_double(&r);
        lml_big xt, xb, yt, yb, top, bottom;
        if (y == 0)
            continue;
        cr_assert_eq(lml_big_from_double(x, &xt, &xb, NULL), LML_OK);
        cr_assert_eq(lml_big_from_double(y, &yt, &yb, NULL), LML_OK);
        cr_assert_eq(lml_big_ratio(&xt, &xb), x);
        if (lml_big_mul(&xt, &yb, &top, NULL) != LML_OK ||
            lml_big_mul(&xb, &yt, &bottom, NULL) != LML_OK)
            continue;
        cr_assert_eq(lml_big_ratio(&top, &bottom), x / y, "%a / %a", x, y);
    }
    lml_big most, one = lml_big_of(1), minus = lml_big_of(-3);
    lml_big_shift(&one, 1535, &most, NULL);
    cr_expect_eq(lml_big_ratio(&most, &one), HUGE_VAL);
    cr_expect_eq(lml_big_ratio(&one, &most), 0);
    cr_expect_eq(lml_big_ratio(&most, &most), 1);
    cr_expect_eq(lml_big_ratio(&one, &minus), -1.0 / 3);
}

Test(big, a_double_is_a_fraction)
{
    lml_big top, bottom;
    cr_expect_eq(lml_big_from_double(-0.375, &top, &bottom, NULL), LML_OK);
    cr_expect(to_i128(&top) == -3 && to_i128(&bottom) == 8);
    cr_expect_eq(lml_big_from_double(0, &top, &bottom, NULL), LML_OK);
    cr_expect(to_i128(&top) == 0 && to_i128(&bottom) == 1);
    cr_expect_eq(lml_big_from_double(NAN, &top, &bottom, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_big_from_double(HUGE_VAL, &top, &bottom, NULL), LML_BAD_VALUE);
}
