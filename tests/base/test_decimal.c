#include "base/big.h"
#include "base/decimal.h"
#include "base/random.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const lml_rational unity = {1, 1};

static double read_as(const char *text, lml_rational factor)
{
    lml_decimal d;
    size_t used = lml_decimal_read(lml_span_of(text), &d);
    cr_assert_eq(used, strlen(text), "\"%s\" was read to %zu", text, used);
    return lml_decimal_scale(&d, factor);
}

Test(decimal, reads_as_much_as_is_a_decimal)
{
    static const struct {
        const char *text;
        size_t used;
        uint64_t digits;
        int exponent, decimals;
    } cases[] = {
        {"12.50 g", 5, 1250, -2, 2},
        {"0", 1, 0, 0, 0},
        {"-0.003", 6, 3, -3, 3},
        {"+7e3", 4, 7, 3, 0},
        {"7E-3kg", 4, 7, -3, 0},
        {"7e", 1, 7, 0, 0},
        {"7e+", 1, 7, 0, 0},
        {"7 e3", 1, 7, 0, 0},
        {"12..13 g", 2, 12, 0, 0},
        {"1.5..2", 3, 15, -1, 1},
        {"007", 3, 7, 0, 0},
        {"0x10", 1, 0, 0, 0},
        {"1,5", 1, 1, 0, 0},
        {"1e99999999999999999999", 22, 1, 9999, 0},
        {"1e-99999999999999999999", 23, 1, -9999, 0},
        {"1.5.2", 3, 15, -1, 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        lml_decimal d;
        cr_expect_eq(lml_decimal_read(lml_span_of(cases[i].text), &d), cases[i].used, "%s",
                     cases[i].text);
        cr_expect(d.digits == cases[i].digits, "%s", cases[i].text);
        cr_expect_eq(d.exponent, cases[i].exponent, "%s", cases[i].text);
        cr_expect_eq(d.decimals, cases[i].decimals, "%s", cases[i].text);
        cr_expect_eq(d.negative, cases[i].text[0] == '-');
        cr_expect_not(d.inexact);
    }
    static const char *const refused[] = {"",    "-",   ".5", "1.", "1. g", "-.5",     "inf",
                                          "nan", "+-1", " 1", "g",  "1.e5", "\xc2\xbd"};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        lml_decimal d;
        cr_expect_eq(lml_decimal_read(lml_span_of(refused[i]), &d), 0, "%s", refused[i]);
    }
}

Test(decimal, more_than_38_digits_are_cut_and_said)
{
    lml_decimal d;
    const char *text = "12345678901234567890123456789012345678000.000";
    cr_expect_eq(lml_decimal_read(lml_span_of(text), &d), strlen(text));
    cr_expect_not(d.inexact, "only zeros were cut");
    cr_expect_eq(d.exponent, 3);
    text = "0.000123456789012345678901234567890123456781";
    cr_expect_eq(lml_decimal_read(lml_span_of(text), &d), strlen(text));
    cr_expect(d.inexact);
    cr_expect_eq(d.exponent, -41);
    /* 2^60 + 128 is halfway between two doubles; a digit far behind decides. */
    cr_expect_eq(read_as("1152921504606847104.00000000000000000000000000000", unity), 0x1p60);
    cr_expect_eq(read_as("1152921504606847104.00000000000000000000000000001", unity), 0x1p60 + 256);
    const lml_rational large = {(int64_t)1 << 40, 1}; /* leaves no room in 128 bits */
    cr_expect_eq(read_as("1152921504606847104.00000000000000000000000000000", large), 0x1p100);
    cr_expect_eq(read_as("1152921504606847104.00000000000000000000000000001", large),
                 0x1p100 + 0x1p48);
    cr_expect_eq(read_as("1152921504606847104e-300", unity),
                 strtod("1152921504606847104e-300", NULL));
}

static void expect_as_strtod(const char *text)
{
    cr_assert_eq(read_as(text, unity), strtod(text, NULL), "%s: %a, the C library says %a", text,
                 read_as(text, unity), strtod(text, NULL));
}

/* Outside check of this and the next tests: strtod of the C library, which rounds correctly. */
Test(decimal, known_hard_texts_read_as_the_c_library_does)
{
    static const char *const texts[] = {
        "0.1",
        "1e23",
        "8.5e22",
        "9007199254740993",
        "9007199254740992.5",
        "5e-324",
        "2.4e-324",
        "2.5e-324",
        "2.47032822920623272e-324",
        "2.2250738585072011e-308",
        "2.2250738585072012e-308",
        "2.2250738585072014e-308",
        "1.7976931348623157e308",
        "1.7976931348623158e308",
        "1.7976931348623159e308",
        "1e308",
        "1e309",
        "1e-400",
        "1e9999",
        "-1e9999",
        "1e-9999",
        "0e9999",
        "-0",
        "179769313486231580793728971405303415e273",
        "17976931348623157580e289",
        "6.929001713869936e236",
        "4.9406564584124654e-324",
        "99999999999999999999999999999999999999",
        "123456789012345678901234567890123456789",
        "1.00000000000000000000000000000000000000000001",
        "3.4028234663852886e38",
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        expect_as_strtod(texts[i]);
}

Test(decimal, random_texts_read_as_the_c_library_does)
{
    random_source r = {10};
    for (int i = 0; i < 100000; i++) {
        char text[80];
        size_t used = 0;
        int whole = 1 + random_below(&r, 12), decimals = random_below(&r, 20);
        if (random_next(&r) & 1)
            text[used++] = '-';
        for (int j = 0; j < whole; j++)
            text[used++] = (char)('0' + random_below(&r, 10));
        if (decimals > 0)
            text[used++] = '.';
        for (int j = 0; j < decimals; j++)
            text[used++] = (char)('0' + random_below(&r, 10));
        int spread = i % 3 == 0 ? 20 : 340;
        snprintf(text + used, sizeof text - used, "e%d", random_below(&r, 2 * spread) - spread);
        expect_as_strtod(text);
    }
}

static const char *digits_of(lml_u128 n, char text[50])
{
    int at = 49;
    text[at] = '\0';
    do {
        text[--at] = (char)('0' + (int)(n % 10));
        n /= 10;
    } while (n != 0);
    return text + at;
}

/* An odd number of 54 bits is the exact middle between two doubles, and so is its product with a
 * power of two: times 2^-k it is odd * 5^k * 10^-k. */
Test(decimal, halfway_texts_read_as_the_c_library_does)
{
    random_source r = {11};
    for (int i = 0; i < 20000; i++) {
        uint64_t odd = random_next(&r) >> 10 | (uint64_t)1 << 53 | 1;
        lml_u128 middle = odd;
        int power = random_below(&r, 100) - 30;
        for (int k = 0; k < -power; k++)
            middle *= 5;
        if (power > 0)
            middle <<= power;
        for (int step = 0; step < 3; step++) {
            char digits[50], text[80];
            const char *start = digits_of(middle - 1 + (unsigned)step, digits);
            snprintf(text, sizeof text, "%se%d", start, power < 0 ? power : 0);
            expect_as_strtod(text);
            snprintf(text, sizeof text, "%s.0000000001e%d", start, power < 0 ? power : 0);
            expect_as_strtod(text);
        }
    }
}

Test(decimal, random_doubles_read_back_from_17_digits)
{
    random_source r = {12};
    for (int i = 0; i < 100000; i++) {
        char text[60];
        snprintf(text, sizeof text, "%.*e", 14 + random_below(&r, 6), random_double(&r));
        expect_as_strtod(text);
    }
}

/* digits * 10^exponent * factor as a fraction of big integers: between the neighbours of the answer
 * no double may be nearer. */
static void expect_nearest(lml_decimal d, lml_rational factor)
{
    double x = lml_decimal_scale(&d, factor);
    lml_big top = lml_big_of_u128(d.digits), bottom = lml_big_of(factor.bottom), power,
            numerator = lml_big_of(factor.top);
    lml_big_ten_to(abs(d.exponent), &power, NULL);
    lml_big_mul(&top, &numerator, &top, NULL);
    lml_big *side = d.exponent < 0 ? &bottom : &top;
    lml_big_mul(side, &power, side, NULL);
    if (d.negative)
        top.sign = -top.sign;
    cr_assert_eq(x, lml_big_ratio(&top, &bottom), "%a", x);
}

Test(decimal, a_factor_costs_no_second_rounding)
{
    random_source r = {13};
    for (int i = 0; i < 50000; i++) {
        lml_rational factor;
        int64_t top = random_i64(&r), bottom = random_i64(&r);
        if (top == 0 || bottom == 0 || lml_rational_of(top, bottom, &factor, NULL) != LML_OK)
            continue;
        lml_decimal d = {.negative = random_next(&r) & 1,
                         .digits = (lml_u128)random_next(&r) >> random_below(&r, 64),
                         .exponent = random_below(&r, 80) - 50};
        if (random_below(&r, 4) == 0)
            d.digits *= random_next(&r) >> 3;
        expect_nearest(d, factor);

        double x = random_double(&r);
        lml_big xt, xb, a = lml_big_of(factor.top), b = lml_big_of(factor.bottom);
        lml_big_from_double(x, &xt, &xb, NULL);
        lml_big_mul(&xt, &a, &xt, NULL);
        lml_big_mul(&xb, &b, &xb, NULL);
        cr_assert_eq(lml_decimal_scale_double(x, factor), lml_big_ratio(&xt, &xb), "%a", x);
    }
    cr_expect_eq(lml_decimal_scale_double(HUGE_VAL, (lml_rational){-1, 3}), -HUGE_VAL);
    cr_expect(isnan(lml_decimal_scale_double(NAN, unity)));
}

/* NIST Special Publication 811 (2008), appendix B.8, and Weights and Measures Act (Canada), R.S.C.
 * 1985, c. W-6, schedule II: 1 in = 25.4 mm, 1 ft = 12 in, 480 grains of 64.798 91 mg to the troy
 * ounce. */
Test(decimal, units_meet)
{
    const lml_rational inch = {127, 5000}, foot = {381, 1250}, troy = {19439673, 625000000};
    cr_expect_eq(read_as("36", inch), read_as("3", foot));
    cr_expect_eq(read_as("1", troy), 0.0311034768);
    char text[LML_NUMBER_TEXT];
    lml_decimal_write_scaled(0.0311034768, (lml_rational){1, 1000}, text);
    cr_expect_str_eq(text, "31.1034768");
    lml_decimal_write_scaled(read_as("3", foot), inch, text);
    cr_expect_str_eq(text, "36");
}

Test(decimal, counts_are_exact)
{
    static const struct {
        const char *text;
        int places;
        lml_status status;
        int64_t count;
    } cases[] = {
        {"1149", 2, LML_OK, 114900},
        {"-0.07", 2, LML_OK, -7},
        {"1.10", 1, LML_OK, 11},
        {"1.11", 1, LML_BAD_VALUE, 0},
        {"1e3", 0, LML_OK, 1000},
        {"1e-3", 2, LML_BAD_VALUE, 0},
        {"1e-9999", 2, LML_BAD_VALUE, 0},
        {"1e9999", 2, LML_OVERFLOW, 0},
        {"0e9999", 2, LML_OK, 0},
        {"0e-9999", 2, LML_OK, 0},
        {"9223372036854775807", 0, LML_OK, INT64_MAX},
        {"9223372036854775808", 0, LML_OVERFLOW, 0},
        {"-9223372036854775808", 0, LML_OK, INT64_MIN},
        {"9223372036854775807", 1, LML_OVERFLOW, 0},
        {"123456789012345678901234567890123456789.5", 0, LML_OVERFLOW, 0},
        {"0.1234567890123456789012345678901234567891", 6, LML_BAD_VALUE, 0},
        {"92233720368547758070000000000", -10, LML_OK, INT64_MAX},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        lml_decimal d;
        int64_t count = 0;
        lml_decimal_read(lml_span_of(cases[i].text), &d);
        cr_expect_eq(lml_decimal_fixed(&d, cases[i].places, &count, NULL), cases[i].status, "%s",
                     cases[i].text);
        cr_expect_eq(count, cases[i].count, "%s", cases[i].text);
    }
}

static const char *written(double x)
{
    static char text[LML_NUMBER_TEXT];
    cr_assert_eq(lml_decimal_write_double(x, text), strlen(text));
    return text;
}

Test(decimal, doubles_are_written_plainly)
{
    cr_expect_str_eq(written(0), "0");
    cr_expect_str_eq(written(-0.0), "0");
    cr_expect_str_eq(written(3.0), "3");
    cr_expect_str_eq(written(19.84), "19.84");
    cr_expect_str_eq(written(-0.1), "-0.1");
    cr_expect_str_eq(written(0.1 + 0.2), "0.30000000000000004");
    cr_expect_str_eq(written(1e-6), "0.000001");
    cr_expect_str_eq(written(9.5e-7), "9.5e-7");
    cr_expect_str_eq(written(1.2345e-6), "0.0000012345");
    cr_expect_str_eq(written(1e14), "100000000000000");
    cr_expect_str_eq(written(999999999999999), "999999999999999");
    cr_expect_str_eq(written(1e15), "1e15");
    cr_expect_str_eq(written(-1.5e300), "-1.5e300");
    cr_expect_str_eq(written(5e-324), "5e-324");
    cr_expect_str_eq(written(1.7976931348623157e308), "1.7976931348623157e308");
    cr_expect_str_eq(written(0x1p-1022), "2.2250738585072014e-308");
    cr_expect_str_eq(written(1.0 / 3), "0.3333333333333333");
    /* Below a power of two the neighbour is nearer, and the shortest text need not be the nearest
     * of its length: as CPython 3.11 prints them (after D. M. Gay's dtoa.c). */
    cr_expect_str_eq(written(0x1p-1017), "7.120236347223045e-307");
    cr_expect_str_eq(written(0x1p-1007), "7.291122019556398e-304");
    cr_expect_str_eq(written(0x1p-957), "8.209073602596753e-289");
    cr_expect_str_eq(written(9007199254740992), "9.007199254740992e15");
}

static int significant_digits(const char *text)
{
    int digits = 0, zeros = 0;
    for (; *text && *text != 'e'; text++) {
        if (*text < '0' || *text > '9')
            continue;
        if (*text != '0') {
            digits += zeros + 1;
            zeros = 0;
        } else if (digits > 0) {
            zeros++;
        }
    }
    return digits;
}

/* Outside check: the C library finds no shorter text that reads back. */
static void expect_shortest(double x)
{
    const char *text = written(x);
    cr_assert_eq(strtod(text, NULL), x, "%s is not %a", text, x);
    cr_assert_lt(strlen(text), LML_NUMBER_TEXT);
    char theirs[40];
    int digits = 1;
    for (; digits < 18; digits++) {
        snprintf(theirs, sizeof theirs, "%.*e", digits - 1, x);
        if (strtod(theirs, NULL) == x)
            break;
    }
    cr_assert_leq(significant_digits(text), digits, "%s, the C library: %s", text, theirs);
}

Test(decimal, the_shortest_text_of_a_double)
{
    random_source r = {14};
    for (int power = -1074; power < 1024; power++) {
        double x = ldexp(1, power);
        expect_shortest(x);
        expect_shortest(nextafter(x, 0));
        expect_shortest(nextafter(x, INFINITY));
    }
    for (int i = 0; i < 50000; i++) {
        expect_shortest(random_double(&r));
        expect_shortest((double)random_below(&r, 1000000) / pow(10, random_below(&r, 8)));
        expect_shortest((double)random_below(&r, 1000000) / (1 + random_below(&r, 1000)));
    }
}

/* What a person typed with up to 15 digits comes back as typed, in every unit. */
Test(decimal, a_typed_value_comes_back)
{
    static const lml_rational factors[] = {
        {1, 1},
        {1, 1000},
        {1, 1000000},
        {19439673, 625000000},
        {6479891, 100000000000},
        {127, 5000},
        {5, 9},
        {101325, 1},
        {20265, 152},
        {8896443230521, 1290320000},
        {1, 1000000000},
        {3600, 1},
        {1000, 1},
        {454609, 16000000000},
        {INT64_MAX, 7},
    };
    random_source r = {15};
    for (int i = 0; i < 100000; i++) {
        lml_rational factor = factors[random_below(&r, sizeof factors / sizeof *factors)];
        char typed[40], back[LML_NUMBER_TEXT];
        int places = random_below(&r, 7);
        uint64_t most = i % 2 ? 1000000 : 100000000000000;
        uint64_t count = random_next(&r) % most;
        lml_decimal_write_count((int64_t)count, places, typed);
        double x = read_as(typed, factor);
        size_t length = lml_decimal_write_scaled(x, factor, back);
        cr_assert_eq(length, strlen(back));
        cr_assert_eq(read_as(back, factor), x);
        if (strchr(typed, '.')) {
            char *end = typed + strlen(typed);
            while (end[-1] == '0')
                *--end = '\0';
            if (end[-1] == '.')
                *--end = '\0';
        }
        cr_assert_str_eq(back, typed);
    }
}

Test(decimal, any_double_comes_back_in_any_unit)
{
    random_source r = {16};
    for (int i = 0; i < 50000; i++) {
        lml_rational factor;
        int64_t top = random_i64(&r), bottom = random_i64(&r);
        if (top == 0 || bottom == 0 || lml_rational_of(top, bottom, &factor, NULL) != LML_OK)
            continue;
        double x = random_double(&r);
        char text[LML_NUMBER_TEXT];
        size_t length = lml_decimal_write_scaled(x, factor, text);
        cr_assert_eq(length, strlen(text));
        cr_assert_lt(length, LML_NUMBER_TEXT);
        cr_assert_eq(read_as(text, factor), x, "%s * %ld/%ld is not %a", text, (long)factor.top,
                     (long)factor.bottom, x);
    }
}

/* Whether a decimal of fewer digits than `d`, next to it, reads back as x. */
static bool has_shorter(const lml_decimal *d, lml_rational factor, double x)
{
    lml_decimal low = *d;
    low.negative = false;
    low.digits /= 10;
    low.exponent++;
    lml_decimal high = low;
    high.digits++;
    return lml_decimal_scale(&low, factor) == fabs(x) ||
           lml_decimal_scale(&high, factor) == fabs(x);
}

/* With few digits or many, in the units of the trade and in none of them. */
Test(decimal, none_is_shorter_in_any_unit)
{
    static const lml_rational factors[] = {
        {1, 1},      {1, 1000},      {19439673, 625000000}, {6479891, 100000000000},
        {127, 5000}, {101325, 1},    {20265, 152},          {8896443230521, 1290320000},
        {3600, 1},   {INT64_MAX, 7}, {7, INT64_MAX},        {473176473, 16000000000000},
    };
    random_source r = {17};
    for (int i = 0; i < 200000; i++) {
        const lml_rational factor = factors[random_below(&r, sizeof factors / sizeof *factors)];
        const lml_decimal typed = {.digits = random_next(&r) % lml_exact_tens[1 + i % 17],
                                   .exponent = random_below(&r, 20) - 17};
        double x = i % 4 ? lml_decimal_scale(&typed, factor) : fabs(random_double(&r));
        lml_decimal d;
        if (x == 0)
            continue;
        cr_assert(lml_decimal_shortest(x, factor, &d));
        cr_assert_eq(lml_decimal_scale(&d, factor), x);
        cr_assert(d.digits % 10 != 0 && (d.digits < 10 || !has_shorter(&d, factor, x)), "%a", x);
    }
}

static const char *fixed(double x, int decimals, lml_rounding mode)
{
    static char text[LML_NUMBER_TEXT];
    cr_assert_eq(lml_decimal_write_fixed(x, unity, decimals, mode, text), strlen(text));
    return text;
}

Test(decimal, a_fixed_text_is_rounded_from_the_double_itself)
{
    cr_expect_str_eq(fixed(12.5, 0, LML_HALF_EVEN), "12");
    cr_expect_str_eq(fixed(12.5, 0, LML_HALF_UP), "13");
    cr_expect_str_eq(fixed(-12.5, 0, LML_HALF_DOWN), "-12");
    cr_expect_str_eq(fixed(2, 3, LML_DOWN), "2.000");
    /* The double of 1.005 is 1.00499999999999989...; that of 1.1 is above 1.1. */
    cr_expect_str_eq(fixed(1.005, 2, LML_HALF_UP), "1.00");
    cr_expect_str_eq(fixed(1.1, 1, LML_CEILING), "1.2");
    cr_expect_str_eq(fixed(1.1, 1, LML_FLOOR), "1.1");
    cr_expect_str_eq(fixed(-1.1, 1, LML_FLOOR), "-1.2");
    cr_expect_str_eq(fixed(-0.004, 2, LML_HALF_EVEN), "0.00");
    cr_expect_str_eq(fixed(-0.004, 2, LML_FLOOR), "-0.01");
    cr_expect_str_eq(fixed(0, 2, LML_UP), "0.00");
    cr_expect_str_eq(fixed(5e-324, 2, LML_UP), "0.01");
    cr_expect_str_eq(fixed(1e300, 2, LML_HALF_EVEN), "1e300");
    cr_expect_str_eq(fixed(-9.9e34, 2, LML_HALF_EVEN), "-99000000000000000953016143054897152.00");
    cr_expect_str_eq(fixed(-9.9e35, 2, LML_HALF_EVEN), "-9.9e35"); /* 38 digits do not fit */
    cr_expect_str_eq(fixed(0.5, 99, LML_HALF_EVEN), "0.500000000000000000000000000000000000");
    char text[LML_NUMBER_TEXT];
    lml_decimal_write_fixed(0.0311034768, (lml_rational){1, 1000}, 2, LML_HALF_EVEN, text);
    cr_expect_str_eq(text, "31.10");
}

/* Outside check: printf of the C library rounds half to even from the exact binary value. */
Test(decimal, a_fixed_text_is_that_of_the_c_library)
{
    random_source r = {17};
    for (int i = 0; i < 50000; i++) {
        double x = (double)random_i64(&r) / (double)(1 << random_below(&r, 20));
        int decimals = random_below(&r, 12);
        char theirs[80];
        snprintf(theirs, sizeof theirs, "%.*f", decimals, x);
        cr_assert_str_eq(fixed(x, decimals, LML_HALF_EVEN),
                         strtod(theirs, NULL) == 0 && theirs[0] == '-' ? theirs + 1 : theirs);
    }
}

/* With a factor: text * factor against x, both exact, so that down never lands above. */
Test(decimal, a_directed_text_lies_on_its_side)
{
    random_source r = {18};
    for (int i = 0; i < 20000; i++) {
        lml_rational factor;
        if (lml_rational_of(1 + random_below(&r, 1 << 30), 1 + random_below(&r, 1 << 30), &factor,
                            NULL) != LML_OK)
            continue;
        double x = (double)random_i64(&r) / (double)(1 + random_below(&r, 1 << 30));
        int decimals = random_below(&r, 6);
        lml_rounding mode = (lml_rounding)random_below(&r, 7);
        char text[LML_NUMBER_TEXT];
        lml_decimal_write_fixed(x, factor, decimals, mode, text);
        lml_decimal d;
        cr_assert_eq(lml_decimal_read(lml_span_of(text), &d), strlen(text));
        cr_assert(d.decimals == decimals && !d.inexact);

        /* gap = digits/10^decimals*factor - x, over one common bottom; step = 10^-decimals*factor
         */
        lml_big digits = lml_big_of_u128(d.digits), xt, xb, scale, ft = lml_big_of(factor.top),
                fb = lml_big_of(factor.bottom);
        digits.sign = d.negative ? -digits.sign : digits.sign;
        lml_big_ten_to(decimals, &scale, NULL);
        lml_big_from_double(x, &xt, &xb, NULL);
        lml_big step, gap, right;
        lml_big_mul(&ft, &xb, &step, NULL);
        lml_big_mul(&digits, &step, &gap, NULL);
        lml_big_mul(&xt, &fb, &right, NULL);
        lml_big_mul(&right, &scale, &right, NULL);
        lml_big_sub(&gap, &right, &gap, NULL);
        lml_big size = gap;
        size.sign = gap.sign != 0;
        cr_assert_eq(lml_big_compare(&size, &step), -1, "%s", text);
        int side = x < 0 ? -gap.sign : gap.sign;
        switch (mode) {
        case LML_DOWN:
            cr_assert_leq(side, 0);
            break;
        case LML_UP:
            cr_assert_geq(side, 0);
            break;
        case LML_FLOOR:
            cr_assert_leq(gap.sign, 0);
            break;
        case LML_CEILING:
            cr_assert_geq(gap.sign, 0);
            break;
        default:
            lml_big_add(&size, &size, &size, NULL);
            cr_assert_leq(lml_big_compare(&size, &step), 0, "%s", text);
        }
    }
}

Test(decimal, counts_are_written_with_all_places)
{
    static const struct {
        int64_t count;
        int places;
        const char *text;
    } cases[] = {
        {114900, 2, "1149.00"},
        {-7, 2, "-0.07"},
        {0, 0, "0"},
        {0, 3, "0.000"},
        {-120, 0, "-120"},
        {INT64_MIN, 6, "-9223372036854.775808"},
        {INT64_MAX, 0, "9223372036854775807"},
        {INT64_MIN, 36, "-0.000000000000000009223372036854775808"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[LML_NUMBER_TEXT];
        cr_expect_eq(lml_decimal_write_count(cases[i].count, cases[i].places, text), strlen(text));
        cr_expect_str_eq(text, cases[i].text);
    }
}
