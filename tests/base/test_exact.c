#include "base/exact.h"
#include "base/random.h"

#include <criterion/criterion.h>
#include <string.h>

/* General Decimal Arithmetic Testcases (M. Cowlishaw, IBM), rounding.decTest version 2.59: sums
 * rounded to five digits. The operand here is the sum times 100,000. */
static const struct {
    const char *id;
    lml_rounding mode;
    int64_t value, rounded;
} published[] = {
    {"radx100", LML_DOWN, 1234490000, 12344},
    {"radx113", LML_DOWN, 1234510000, 12345},
    {"radx115", LML_DOWN, 1234649999, 12346},
    {"radx116", LML_DOWN, 1234650000, 12346},
    {"radx117", LML_DOWN, 1234650001, 12346},
    {"radx123", LML_DOWN, 1234549999, 12345},
    {"radx124", LML_DOWN, 1234550000, 12345},
    {"radx125", LML_DOWN, 1234550001, 12345},
    {"radx140", LML_HALF_DOWN, 1234490000, 12345},
    {"radx153", LML_HALF_DOWN, 1234510000, 12345},
    {"radx155", LML_HALF_DOWN, 1234649999, 12346},
    {"radx156", LML_HALF_DOWN, 1234650000, 12346},
    {"radx157", LML_HALF_DOWN, 1234650001, 12347},
    {"radx163", LML_HALF_DOWN, 1234549999, 12345},
    {"radx164", LML_HALF_DOWN, 1234550000, 12345},
    {"radx165", LML_HALF_DOWN, 1234550001, 12346},
    {"radx170", LML_HALF_EVEN, 1234490000, 12345},
    {"radx183", LML_HALF_EVEN, 1234510000, 12345},
    {"radx185", LML_HALF_EVEN, 1234649999, 12346},
    {"radx186", LML_HALF_EVEN, 1234650000, 12346},
    {"radx187", LML_HALF_EVEN, 1234650001, 12347},
    {"radx193", LML_HALF_EVEN, 1234549999, 12345},
    {"radx194", LML_HALF_EVEN, 1234550000, 12346},
    {"radx195", LML_HALF_EVEN, 1234550001, 12346},
    {"radx200", LML_HALF_UP, 1234490000, 12345},
    {"radx213", LML_HALF_UP, 1234510000, 12345},
    {"radx215", LML_HALF_UP, 1234649999, 12346},
    {"radx216", LML_HALF_UP, 1234650000, 12347},
    {"radx217", LML_HALF_UP, 1234650001, 12347},
    {"radx223", LML_HALF_UP, 1234549999, 12345},
    {"radx224", LML_HALF_UP, 1234550000, 12346},
    {"radx225", LML_HALF_UP, 1234550001, 12346},
    {"radx230", LML_UP, 1234490000, 12345},
    {"radx243", LML_UP, 1234510000, 12346},
    {"radx245", LML_UP, 1234649999, 12347},
    {"radx246", LML_UP, 1234650000, 12347},
    {"radx247", LML_UP, 1234650001, 12347},
    {"radx253", LML_UP, 1234549999, 12346},
    {"radx254", LML_UP, 1234550000, 12346},
    {"radx255", LML_UP, 1234550001, 12346},
    {"radx300", LML_FLOOR, 1234490000, 12344},
    {"radx313", LML_FLOOR, 1234510000, 12345},
    {"radx315", LML_FLOOR, 1234649999, 12346},
    {"radx316", LML_FLOOR, 1234650000, 12346},
    {"radx317", LML_FLOOR, 1234650001, 12346},
    {"radx323", LML_FLOOR, 1234549999, 12345},
    {"radx324", LML_FLOOR, 1234550000, 12345},
    {"radx325", LML_FLOOR, 1234550001, 12345},
    {"radx330", LML_CEILING, 1234490000, 12345},
    {"radx343", LML_CEILING, 1234510000, 12346},
    {"radx345", LML_CEILING, 1234649999, 12347},
    {"radx346", LML_CEILING, 1234650000, 12347},
    {"radx347", LML_CEILING, 1234650001, 12347},
    {"radx353", LML_CEILING, 1234549999, 12346},
    {"radx354", LML_CEILING, 1234550000, 12346},
    {"radx355", LML_CEILING, 1234550001, 12346},
    {"rsux100", LML_DOWN, -1234510000, -12345},
    {"rsux113", LML_DOWN, -1234490000, -12344},
    {"rsux115", LML_DOWN, -1234550001, -12345},
    {"rsux116", LML_DOWN, -1234550000, -12345},
    {"rsux117", LML_DOWN, -1234549999, -12345},
    {"rsux123", LML_DOWN, -1234450001, -12344},
    {"rsux124", LML_DOWN, -1234450000, -12344},
    {"rsux125", LML_DOWN, -1234449999, -12344},
    {"rsux140", LML_HALF_DOWN, -1234510000, -12345},
    {"rsux153", LML_HALF_DOWN, -1234490000, -12345},
    {"rsux155", LML_HALF_DOWN, -1234550001, -12346},
    {"rsux156", LML_HALF_DOWN, -1234550000, -12345},
    {"rsux157", LML_HALF_DOWN, -1234549999, -12345},
    {"rsux163", LML_HALF_DOWN, -1234450001, -12345},
    {"rsux164", LML_HALF_DOWN, -1234450000, -12344},
    {"rsux165", LML_HALF_DOWN, -1234449999, -12344},
    {"rsux170", LML_HALF_EVEN, -1234510000, -12345},
    {"rsux183", LML_HALF_EVEN, -1234490000, -12345},
    {"rsux185", LML_HALF_EVEN, -1234550001, -12346},
    {"rsux186", LML_HALF_EVEN, -1234550000, -12346},
    {"rsux187", LML_HALF_EVEN, -1234549999, -12345},
    {"rsux193", LML_HALF_EVEN, -1234450001, -12345},
    {"rsux194", LML_HALF_EVEN, -1234450000, -12344},
    {"rsux195", LML_HALF_EVEN, -1234449999, -12344},
    {"rsux200", LML_HALF_UP, -1234510000, -12345},
    {"rsux213", LML_HALF_UP, -1234490000, -12345},
    {"rsux215", LML_HALF_UP, -1234550001, -12346},
    {"rsux216", LML_HALF_UP, -1234550000, -12346},
    {"rsux217", LML_HALF_UP, -1234549999, -12345},
    {"rsux223", LML_HALF_UP, -1234450001, -12345},
    {"rsux224", LML_HALF_UP, -1234450000, -12345},
    {"rsux225", LML_HALF_UP, -1234449999, -12344},
    {"rsux230", LML_UP, -1234510000, -12346},
    {"rsux243", LML_UP, -1234490000, -12345},
    {"rsux245", LML_UP, -1234550001, -12346},
    {"rsux246", LML_UP, -1234550000, -12346},
    {"rsux247", LML_UP, -1234549999, -12346},
    {"rsux253", LML_UP, -1234450001, -12345},
    {"rsux254", LML_UP, -1234450000, -12345},
    {"rsux255", LML_UP, -1234449999, -12345},
    {"rsux300", LML_FLOOR, -1234510000, -12346},
    {"rsux313", LML_FLOOR, -1234490000, -12345},
    {"rsux315", LML_FLOOR, -1234550001, -12346},
    {"rsux316", LML_FLOOR, -1234550000, -12346},
    {"rsux317", LML_FLOOR, -1234549999, -12346},
    {"rsux323", LML_FLOOR, -1234450001, -12345},
    {"rsux324", LML_FLOOR, -1234450000, -12345},
    {"rsux325", LML_FLOOR, -1234449999, -12345},
    {"rsux330", LML_CEILING, -1234510000, -12345},
    {"rsux343", LML_CEILING, -1234490000, -12344},
    {"rsux345", LML_CEILING, -1234550001, -12345},
    {"rsux346", LML_CEILING, -1234550000, -12345},
    {"rsux347", LML_CEILING, -1234549999, -12345},
    {"rsux353", LML_CEILING, -1234450001, -12344},
    {"rsux354", LML_CEILING, -1234450000, -12344},
    {"rsux355", LML_CEILING, -1234449999, -12344},
};

Test(exact, the_roundings_are_the_published_ones)
{
    for (size_t i = 0; i < sizeof published / sizeof *published; i++) {
        int64_t rounded = 0;
        lml_status status =
            lml_exact_divide_i128(published[i].value, 100000, published[i].mode, &rounded, NULL);
        cr_expect_eq(status, LML_OK);
        cr_expect_eq(rounded, published[i].rounded, "%s", published[i].id);
        /* Both signs turned: the same value. */
        lml_exact_divide_i128(-(lml_i128)published[i].value, -100000, published[i].mode, &rounded,
                              NULL);
        cr_expect_eq(rounded, published[i].rounded, "%s", published[i].id);
    }
}

Test(exact, roundings_have_names)
{
    for (int i = LML_HALF_EVEN; i <= LML_CEILING; i++) {
        lml_rounding mode;
        cr_expect_eq(lml_rounding_named(lml_rounding_name((lml_rounding)i), &mode, NULL), LML_OK);
        cr_expect_eq((int)mode, i);
    }
    lml_error err;
    lml_rounding mode = LML_UP;
    cr_expect_eq(lml_rounding_named("banker", &mode, &err), LML_NOT_FOUND);
    cr_expect_eq(mode, LML_UP, "out is written on success only");
    cr_expect_str_eq(err.hint,
                     "rounding rules: half even, half up, half down, down, up, floor, ceiling");
}

Test(exact, sums_and_products_never_wrap)
{
    int64_t out = 7;
    cr_expect_eq(lml_exact_add_i64(INT64_MAX, 1, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_exact_sub_i64(INT64_MIN, 1, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_exact_mul_i64(INT64_MIN, -1, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_exact_mul_div(INT64_MAX, 3, 2, LML_HALF_EVEN, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_exact_mul_div(INT64_MIN, -1, 1, LML_HALF_EVEN, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_exact_mul_div(1, 1, 0, LML_HALF_EVEN, &out, NULL), LML_BAD_VALUE);
    cr_expect_eq(out, 7, "out is written on success only");
    cr_expect_eq(lml_exact_mul_div(INT64_MIN, 1, 1, LML_HALF_EVEN, &out, NULL), LML_OK);
    cr_expect_eq(out, INT64_MIN);
    cr_expect_eq(lml_exact_mul_div(1999, 85, 100, LML_HALF_UP, &out, NULL), LML_OK);
    cr_expect_eq(out, 1699);
    lml_i128 most = (lml_i128)INT64_MAX * 2 + 1; /* half of it rounds up beyond the range */
    cr_expect_eq(lml_exact_divide_i128(most, 2, LML_HALF_UP, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_exact_divide_i128(most, 2, LML_HALF_DOWN, &out, NULL), LML_OK);
    cr_expect_eq(lml_exact_divide_i128(-most, 2, LML_HALF_UP, &out, NULL), LML_OK);
    cr_expect_eq(out, INT64_MIN);
}

/* The rest of a rounded division is less than the divisor, less than half of it for the half
 * modes, and lies on the side that the mode says. */
Test(exact, a_rounded_quotient_is_near_the_true_one)
{
    random_source r = {1};
    for (int i = 0; i < 20000; i++) {
        int64_t a = random_i64(&r), b = random_i64(&r), c = random_i64(&r), out;
        lml_rounding mode = (lml_rounding)random_below(&r, 7);
        if (c == 0 || lml_exact_mul_div(a, b, c, mode, &out, NULL) != LML_OK)
            continue;
        lml_i128 rest = (lml_i128)a * b - (lml_i128)out * c, size = c;
        if (size < 0) {
            size = -size;
            rest = -rest;
        }
        bool half = mode <= LML_HALF_DOWN;
        cr_assert(rest < size && -rest < size);
        cr_assert(!half || (2 * rest <= size && -2 * rest <= size));
        cr_assert(mode != LML_FLOOR || rest >= 0);
        cr_assert(mode != LML_CEILING || rest <= 0);
        bool negative = (a < 0) != (b < 0);
        if (mode == LML_DOWN && rest != 0)
            cr_assert_eq(rest < 0, negative != (c < 0) ? 1 : 0);
    }
}

/* Euclid, Elements, book VII, proposition 2: by plain remainders. */
static uint64_t euclid(uint64_t a, uint64_t b)
{
    return b == 0 ? a : euclid(b, a % b);
}

Test(exact, common_divisors)
{
    random_source r = {2};
    cr_expect_eq(lml_exact_gcd(0, 0), 0);
    cr_expect_eq(lml_exact_gcd(0, 9), 9);
    cr_expect_eq(lml_exact_gcd(UINT64_MAX, 0), UINT64_MAX);
    for (int i = 0; i < 5000; i++) {
        uint64_t a = (uint64_t)random_i64(&r), b = (uint64_t)random_i64(&r);
        cr_assert_eq(lml_exact_gcd(a, b), euclid(a, b));
    }
}

static void expect_rational(lml_status status, lml_rational got, int64_t top, int64_t bottom)
{
    cr_expect_eq(status, LML_OK);
    cr_expect_eq(got.top, top);
    cr_expect_eq(got.bottom, bottom);
}

Test(exact, rationals_stay_in_lowest_terms)
{
    lml_rational a, b, c = {0, 1};
    expect_rational(lml_rational_of(-6, -8, &a, NULL), a, 3, 4);
    expect_rational(lml_rational_of(10, -4, &b, NULL), b, -5, 2);
    expect_rational(lml_rational_of(0, -7, &c, NULL), c, 0, 1);
    expect_rational(lml_rational_mul(a, b, &c, NULL), c, -15, 8);
    expect_rational(lml_rational_div(a, b, &c, NULL), c, -3, 10);
    expect_rational(lml_rational_power(b, 3, &c, NULL), c, -125, 8);
    expect_rational(lml_rational_power(b, -3, &c, NULL), c, -8, 125);
    expect_rational(lml_rational_power(b, 0, &c, NULL), c, 1, 1);
    cr_expect_eq(lml_rational_compare(a, b), 1);
    cr_expect_eq(lml_rational_compare(b, a), -1);
    cr_expect_eq(lml_rational_compare(a, a), 0);
}

/* NIST Special Publication 811 (2008), appendix B.8: 1 in is 25.4 mm, 1 ft is 0.3048 m exactly. */
Test(exact, unit_factors_meet_exactly)
{
    lml_rational inch, foot, ratio, cubic;
    lml_rational_of(254, 10000, &inch, NULL);
    lml_rational_of(3048, 10000, &foot, NULL);
    expect_rational(lml_rational_div(foot, inch, &ratio, NULL), ratio, 12, 1);
    expect_rational(lml_rational_power(ratio, 3, &cubic, NULL), cubic, 1728, 1);
}

Test(exact, rationals_refuse_what_does_not_fit)
{
    lml_rational out = {7, 1}, big = {INT64_MAX, 2}, zero = {0, 1};
    cr_expect_eq(lml_rational_of(1, 0, &out, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_rational_of(INT64_MIN, 1, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_rational_mul(big, big, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(lml_rational_div(big, zero, &out, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_rational_power(zero, -1, &out, NULL), LML_BAD_VALUE);
    cr_expect_eq(lml_rational_power(big, 3, &out, NULL), LML_OVERFLOW);
    cr_expect_eq(out.top, 7, "out is written on success only");
    expect_rational(lml_rational_of(INT64_MIN, 2, &out, NULL), out, INT64_MIN / 2, 1);
    expect_rational(lml_rational_power((lml_rational){10, 1}, 18, &out, NULL), out,
                    1000000000000000000, 1);
    lml_rational upside = {2, INT64_MAX};
    expect_rational(lml_rational_mul(big, upside, &out, NULL), out, 1, 1);
}
