/* What the operator tables do not show: units, exactness, words, powers, means. */
#include <criterion/criterion.h>

#include "value/arithmetic.h"
#include "value/random.h"
#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"
#include "value/power.h"
#include "value/compare.h"
#include "value/mean.h"
#include "value/fineness.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static lml_value value_of(const char *text)
{
    lml_value v;
    lml_error err;
    cr_assert_eq(lml_read_value(lml_span_of(text), LML_WANT_ANYTHING, LML_NO_METAL, &v, &err),
                 LML_OK, "\"%s\" is not read: %s (%s)", text, err.message, err.hint);
    return v;
}

static void expect_text(const lml_value *v, const char *expected)
{
    char text[LML_VALUE_TEXT];
    lml_write_text(v, text);
    cr_expect_str_eq(text, expected, "%s where %s is needed", text, expected);
}

typedef lml_status operation(const lml_value *a, const lml_value *b, lml_value *out,
                             lml_error *err);

static void expect_result(operation *run, const char *first, const char *second,
                          const char *expected)
{
    lml_value a = value_of(first), b = value_of(second), out;
    lml_error err;
    cr_assert_eq(run(&a, &b, &out, &err), LML_OK, "%s, %s: %s", first, second, err.message);
    expect_text(&out, expected);
}

Test(arithmetic, results_print_in_the_first_unit)
{
    expect_result(lml_arithmetic_add, "1 ozt", "1 dwt", "1.05 ozt");
    expect_result(lml_arithmetic_sub, "1 h", "15 min", "0.75 h");
    expect_result(lml_arithmetic_mul, "3", "2.5 in", "7.5 in");
    expect_result(lml_arithmetic_mul, "2.5 in", "3", "7.5 in");
    expect_result(lml_arithmetic_mul, "5 %", "40 g", "2 g");
    expect_result(lml_arithmetic_div, "45 min", "3", "15 min");
    expect_result(lml_arithmetic_div, "1 ozt", "1 dwt", "20");
    expect_result(lml_arithmetic_sub, "1", "5 %", "0.95");
    expect_result(lml_arithmetic_mul, "2", "90 kPa abs", "180 kPa abs");
    expect_result(lml_arithmetic_mul, "98.50 USD/g", "2 g", "197.00 USD");
    expect_result(lml_arithmetic_div, "60 g", "20 g/cm3", "3 cm3");
}

Test(arithmetic, one_unit_is_exactly_so_many_of_another)
{
    /* Weights and Measures Act (Canada), Schedule II: 480 grains to the troy ounce, 7000 to the
     * pound, 12 inches to the foot. */
    const char *const pairs[][2] = {{"36 in", "3 ft"},      {"480 grain", "1 ozt"},
                                    {"7000 grain", "1 lb"}, {"20 dwt", "1 ozt"},
                                    {"5 ct", "1 g"},        {"1 d", "1440 min"}};
    for (int i = 0; i < 6; i++) {
        lml_value a = value_of(pairs[i][0]), b = value_of(pairs[i][1]);
        bool equal = false;
        cr_assert_eq(lml_compare_equal(&a, &b, &equal, NULL), LML_OK);
        cr_expect(equal, "%s is not %s", pairs[i][0], pairs[i][1]);
    }
}

Test(arithmetic, sums_come_back_within_one_rounding)
{
    chance c = {1};
    for (int i = 0; i < 10000; i++) {
        lml_value a = value_of("1 g"), b = a, sum, back;
        a.amount = chance_between(&c, -1, 1) * pow(10, chance_between(&c, -6, 2));
        b.amount = chance_between(&c, -1, 1) * pow(10, chance_between(&c, -6, 2));
        cr_assert_eq(lml_arithmetic_add(&a, &b, &sum, NULL), LML_OK);
        cr_assert_eq(lml_arithmetic_sub(&sum, &b, &back, NULL), LML_OK);
        double bound = DBL_EPSILON * fmax(fabs(a.amount), fabs(sum.amount));
        cr_assert_float_eq(back.amount, a.amount, bound);
        cr_assert_eq(lml_arithmetic_sub(&a, &a, &sum, NULL), LML_OK);
        cr_assert(lml_compare_is_zero(&sum));
    }
}

Test(arithmetic, temperatures_come_out_clean)
{
    /* ITS-90 Table 1, freezing points: silver 961.78 °C, gold 1064.18 °C, copper 1084.62 °C. */
    expect_result(lml_arithmetic_sub, "1084.62 °C", "1064.18 °C", "20.44 Δ°C");
    expect_result(lml_arithmetic_add, "1064.18 °C", "20.44 Δ°C", "1084.62 °C");
    expect_result(lml_arithmetic_sub, "1064.18 °C", "961.78 °C", "102.4 Δ°C");
    expect_result(lml_arithmetic_sub, "1947.524 °F", "1064.18 °C", "0 Δ°F");
    expect_result(lml_arithmetic_sub, "1760 °F", "135 Δ°F", "1625 °F");
    expect_result(lml_arithmetic_add, "20 °C", "9 Δ°F", "25 °C");
    for (int i = 0; i < 20000; i++) {
        char high[40], low[40], difference[40];
        snprintf(high, sizeof high, "%d.%d °F", 1000 + i / 10, i % 10);
        snprintf(low, sizeof low, "1000 °F");
        snprintf(difference, sizeof difference, i % 10 ? "%d.%d Δ°F" : "%d Δ°F", i / 10, i % 10);
        lml_value a = value_of(high), b = value_of(low), d = value_of(difference), out;
        cr_assert_eq(lml_arithmetic_sub(&a, &b, &out, NULL), LML_OK);
        cr_assert_eq(out.amount, d.amount, "%s - %s", high, low);
        cr_assert_eq(lml_arithmetic_add(&b, &d, &out, NULL), LML_OK);
        cr_assert_eq(out.amount, a.amount, "%s + %s", low, difference);
    }
}

Test(arithmetic, clocks)
{
    expect_result(lml_arithmetic_add, "2026-11-24T14:20", "45 min", "2026-11-24T15:05");
    expect_result(lml_arithmetic_sub, "2026-11-24", "1 d", "2026-11-23");
    expect_result(lml_arithmetic_add, "2026-02-28", "1 d", "2026-03-01");
    expect_result(lml_arithmetic_add, "2028-02-28", "1 d", "2028-02-29");
    expect_result(lml_arithmetic_add, "2026-11-24", "90 min", "2026-11-24T01:30");
    expect_result(lml_arithmetic_add, "22:00", "9 h", "07:00");
    expect_result(lml_arithmetic_sub, "06:30", "7 h", "23:30");
    expect_result(lml_arithmetic_sub, "06:30", "22:00", "-930 min");
    lml_value moment = value_of("9999-12-31"), day = value_of("1 d"), age = value_of("1e30 d"), out;
    cr_expect_eq(lml_arithmetic_add(&moment, &day, &out, NULL), LML_BAD_VALUE);
    lml_value first = value_of("0001-01-01"), early = value_of("06:30"), shift = value_of("7 h");
    cr_expect_eq(lml_arithmetic_sub(&first, &day, &out, NULL), LML_BAD_VALUE);
    cr_assert_eq(lml_arithmetic_sub(&early, &shift, &out, NULL), LML_OK);
    cr_expect_eq(out.exact, 84600, "seconds of a day are counted from midnight");
    cr_expect_eq(lml_arithmetic_add(&moment, &age, &out, NULL), LML_OVERFLOW);
}

Test(arithmetic, fine_metal_goes_round)
{
    lml_error err;
    lml_value fineness = value_of("750 ‰ Au"), mass = value_of("12.5 g"), fine, back;
    cr_assert_eq(lml_arithmetic_mul(&mass, &fineness, &fine, &err), LML_OK);
    cr_expect_float_eq(fine.amount, 0.009375, DBL_EPSILON * 0.01);
    cr_assert_eq(lml_fineness_mass(&fine, &fineness, &back, &err), LML_OK);
    cr_expect_float_eq(back.amount, 0.0125, DBL_EPSILON * 0.02);
    cr_assert_eq(lml_fineness_of(&fine, &mass, &back, &err), LML_OK);
    expect_text(&back, "750 ‰ Au");
    cr_expect_eq(lml_fineness_mass(&fine, &mass, &back, &err), LML_MISMATCH);
    cr_expect_eq(lml_fineness_mass(&mass, &fineness, &back, &err), LML_MISMATCH);
    cr_expect_eq(lml_fineness_of(&mass, &mass, &back, &err), LML_MISMATCH);
    expect_result(lml_arithmetic_sub, "750 ‰ Au", "585 ‰ Au", "165 Δ‰ Au");
    expect_result(lml_arithmetic_add, "585 ‰ Au", "165 Δ‰ Au", "750 ‰ Au");
    expect_result(lml_arithmetic_sub, "18 kt", "125 Δ‰ Au", "15 kt");
    expect_result(lml_arithmetic_div, "9 g Au", "12 g", "750 ‰ Au");
    /* Mass that fine metal turns from 585 to 750 per mille: 0.165 of it is fine gold. */
    expect_result(lml_arithmetic_div, "1.65 g Au", "165 Δ‰ Au", "10 g");
    lml_value silver = value_of("925 ‰ Ag"), none = value_of("0 ‰ Au"), nothing = value_of("0 g");
    cr_expect_eq(lml_fineness_mass(&fine, &silver, &back, &err), LML_MISMATCH);
    cr_expect_eq(lml_fineness_mass(&fine, &none, &back, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_fineness_of(&fine, &nothing, &back, &err), LML_BAD_VALUE);
    /* 14 parts of 24, 16 CFR 23.3: not the mark 585. */
    lml_value karat = value_of("14 kt"), mark = value_of("585 ‰ Au");
    int order = 0;
    cr_assert_eq(lml_compare(&karat, &mark, &order, &err), LML_OK);
    cr_expect_eq(order, -1);
}

Test(arithmetic, refusals_say_what_clashes_and_how_to_mend_it)
{
    const struct {
        operation *run;
        const char *first, *second, *message, *hint;
    } rows[] = {
        {lml_arithmetic_add, "12.5 g", "3.1 mL",
         "a mass (12.5 g) and a volume (3.1 mL) cannot be added",
         "a density turns one into the other: 3.1 mL * density"},
        {lml_arithmetic_sub, "12.5 g", "3.1 mL",
         "a volume (3.1 mL) cannot be taken from a mass (12.5 g)", "3.1 mL * density"},
        {lml_arithmetic_add, "12.5 g", "3", "a mass (12.5 g) and a number (3) cannot be added",
         "3 g"},
        {lml_arithmetic_add, "12.5 g", "5 %", "a ratio (5 %)", "5 % * 12.5 g"},
        {lml_arithmetic_add, "7.5 g Au", "12.5 g",
         "a fine mass of gold (7.5 g Au) and a mass (12.5 g)", "12.5 g * fineness"},
        {lml_arithmetic_add, "7.5 g Au", "1 g Ag", "silver", "gold and silver are kept separate"},
        {lml_arithmetic_add, "42.00 USD", "8.00 CAD", "USD", "no exchange rate is guessed"},
        {lml_arithmetic_add, "42.00 USD", "98.50 USD/g", "98.5 USD/g",
         "multiplied by what it is per"},
        {lml_arithmetic_add, "960 °C", "20 °C", "960 °C", "mean"},
        {lml_arithmetic_mul, "960 °C", "2", "960 °C", "subtract another first"},
        {lml_arithmetic_mul, "750 ‰ Au", "2", "750 ‰ Au", "multiply a fineness by a mass"},
        {lml_arithmetic_add, "750 ‰ Au", "5 ‰", "750 ‰ Au", "fineness difference"},
        {lml_arithmetic_add, "90 kPa abs", "10 kPa vac", "90 kPa abs", "the remaining pressure"},
        {lml_arithmetic_add, "22:00", "06:30", "22:00", "the time between"},
        {lml_arithmetic_add, "Monday", "1 d", "Monday", "weekday"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        lml_value a = value_of(rows[i].first), b = value_of(rows[i].second), out;
        lml_error err;
        cr_expect_eq(rows[i].run(&a, &b, &out, &err), LML_MISMATCH);
        cr_expect(strstr(err.message, rows[i].message), "\"%s\" lacks \"%s\"", err.message,
                  rows[i].message);
        cr_expect(strstr(err.hint, rows[i].hint), "\"%s\" lacks \"%s\"", err.hint, rows[i].hint);
    }
}

Test(arithmetic, zero_divisors_and_overflows)
{
    const struct {
        operation *run;
        const char *first, *second;
        lml_status status;
    } rows[] = {
        {lml_arithmetic_div, "12.5 g", "0 g", LML_BAD_VALUE},
        {lml_arithmetic_div, "12.5 g", "0", LML_BAD_VALUE},
        {lml_arithmetic_div, "12.5 g", "0 mL", LML_BAD_VALUE},
        {lml_arithmetic_div, "7.5 g Au", "0 g", LML_BAD_VALUE},
        {lml_arithmetic_div, "7.5 g Au", "0 g Au", LML_BAD_VALUE},
        {lml_arithmetic_div, "42.00 USD", "0.00 USD", LML_BAD_VALUE},
        {lml_arithmetic_div, "42.00 USD", "0 g", LML_BAD_VALUE},
        {lml_power, "0 g", "-1", LML_BAD_VALUE},
        {lml_arithmetic_add, "1.7e308 kg", "1.7e308 kg", LML_OVERFLOW},
        {lml_arithmetic_mul, "1e300 kg", "1e300 m", LML_OVERFLOW},
        {lml_arithmetic_mul, "1e300 kg", "1e300", LML_OVERFLOW},
        {lml_arithmetic_mul, "1e300", "1e300", LML_OVERFLOW},
        {lml_arithmetic_div, "1e300 kg", "1e-300 m", LML_OVERFLOW},
        {lml_arithmetic_mul, "1e300 kg Au", "1e300", LML_OVERFLOW},
        {lml_power, "1e300 kg", "2", LML_OVERFLOW},
        {lml_power, "2 m3", "4", LML_OVERFLOW}, /* length^12 */
        {lml_power, "2 g", "1.5", LML_BAD_VALUE},
        {lml_power, "2 g", "10", LML_BAD_VALUE},
        {lml_power, "2 g", "2 g", LML_MISMATCH},
        {lml_power, "20 °C", "2", LML_MISMATCH},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        lml_value a = value_of(rows[i].first), b = value_of(rows[i].second), out;
        lml_error err;
        cr_expect_eq(rows[i].run(&a, &b, &out, &err), rows[i].status, "%s, %s", rows[i].first,
                     rows[i].second);
        cr_expect(strlen(err.message) > 10 && strlen(err.hint) > 10, "%s, %s: %s", rows[i].first,
                  rows[i].second, err.message);
        cr_expect_eq(rows[i].run(&a, &b, &out, NULL), rows[i].status);
    }
}

Test(arithmetic, powers_and_roots_go_there_and_back)
{
    expect_result(lml_power, "3 mm", "2", "9 mm2");
    expect_result(lml_power, "3 mm", "0", "1");
    expect_result(lml_power, "2", "-3", "0.125");
    expect_result(lml_power, "5 g", "1", "5 g");
    lml_error err;
    lml_value area = value_of("9 mm2"), out;
    cr_assert_eq(lml_power_root(&area, 2, &out, &err), LML_OK);
    expect_text(&out, "3 mm");
    cr_expect_eq(lml_power_root(&area, 3, &out, &err), LML_MISMATCH);
    cr_expect_eq(lml_power_root(&area, 0, &out, &err), LML_BAD_VALUE);
    lml_value negative = value_of("-9 mm2"), cube = value_of("-8 m3");
    cr_expect_eq(lml_power_root(&negative, 2, &out, &err), LML_BAD_VALUE);
    cr_assert_eq(lml_power_root(&cube, 3, &out, &err), LML_OK);
    expect_text(&out, "-2 m");
    lml_value point = value_of("960 °C");
    cr_expect_eq(lml_power_root(&point, 2, &out, &err), LML_MISMATCH);
}

/* 2, taken as often as the degree, is 4, 8, 16 and so on: arithmetic. */
Test(arithmetic, roots_of_every_degree)
{
    for (int degree = 1; degree <= 9; degree++) {
        char text[20];
        lml_value out;
        snprintf(text, sizeof text, "%d", 1 << degree);
        lml_value power = value_of(text);
        cr_assert_eq(lml_power_root(&power, degree, &out, NULL), LML_OK, "degree %d", degree);
        cr_expect_float_eq(out.amount, 2.0, 1e-15, "degree %d: %.17g", degree, out.amount);
        snprintf(text, sizeof text, "-%d", 1 << degree);
        power = value_of(text);
        cr_expect_eq(lml_power_root(&power, degree, &out, NULL),
                     degree % 2 ? LML_OK : LML_BAD_VALUE, "degree %d", degree);
        cr_expect(degree % 2 == 0 || fabs(out.amount + 2.0) < 1e-15, "degree %d", degree);
    }
    lml_value one = value_of("1"), out;
    cr_expect_eq(lml_power_root(&one, 10, &out, NULL), LML_BAD_VALUE);
}

Test(arithmetic, signs)
{
    const struct {
        const char *value, *negative;
    } rows[] = {{"12.5 g", "-12.5 g"},
                {"3", "-3"},
                {"5 %", "-5 %"},
                {"7.5 g Au", "-7.5 g Au"},
                {"42.00 USD", "-42.00 USD"},
                {"18 Δ‰ Au", "-18 Δ‰ Au"}};
    lml_value v, out;
    for (int i = 0; i < 6; i++) {
        v = value_of(rows[i].value);
        cr_assert_eq(lml_arithmetic_negate(&v, &out, NULL), LML_OK);
        expect_text(&out, rows[i].negative);
        cr_assert_eq(lml_arithmetic_absolute(&out, &out, NULL), LML_OK);
        expect_text(&out, rows[i].value);
    }
    const char *const unsigned_kinds[] = {"960 °C",     "585 ‰ Au", "90 kPa abs",
                                          "2026-11-24", "22:00",    "Monday"};
    for (int i = 0; i < 6; i++) {
        lml_error err;
        v = value_of(unsigned_kinds[i]);
        cr_expect_eq(lml_arithmetic_negate(&v, &out, &err), LML_MISMATCH);
        cr_expect_eq(lml_arithmetic_absolute(&v, &out, &err), LML_MISMATCH);
    }
}

Test(arithmetic, the_mean_of_any_one_kind)
{
    const struct {
        const char *values[3], *mean;
    } rows[] = {
        {{"20 °C", "21 °C", "22 °C"}, "21 °C"},
        {{"12 g", "13 g", "14 g"}, "13 g"},
        {{"0.00 USD", "0.00 USD", "0.01 USD"}, "0.003333 USD"},
        {{"750 ‰ Au", "748 ‰ Au", "752 ‰ Au"}, "750 ‰ Au"},
        {{"2026-11-24T14:00", "2026-11-24T15:00", "2026-11-24T16:00"}, "2026-11-24T15:00"},
        {{"1e100 kg", "1 kg", "-1e100 kg"}, "0.3333333333333333 kg"},
    };
    lml_error err;
    lml_value v[3], out;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        for (int k = 0; k < 3; k++)
            v[k] = value_of(rows[i].values[k]);
        cr_assert_eq(lml_mean(v, 3, &out, &err), LML_OK, "%s", err.message);
        expect_text(&out, rows[i].mean);
    }
    v[0] = value_of("12 g");
    v[1] = value_of("12 mL");
    cr_expect_eq(lml_mean(v, 2, &out, &err), LML_MISMATCH);
    v[0] = v[1] = value_of("22:00");
    cr_expect_eq(lml_mean(v, 2, &out, &err), LML_MISMATCH);
    cr_expect_eq(lml_mean(v, 0, &out, &err), LML_BAD_VALUE);
}

Test(arithmetic, results_may_overwrite_an_operand)
{
    lml_value a = value_of("10 g"), b = value_of("2.5 g");
    cr_assert_eq(lml_arithmetic_add(&a, &b, &a, NULL), LML_OK);
    expect_text(&a, "12.5 g");
    cr_assert_eq(lml_arithmetic_div(&a, &b, &b, NULL), LML_OK);
    expect_text(&b, "5");
    lml_value t = value_of("960 °C"), u = value_of("885 °C");
    cr_assert_eq(lml_arithmetic_sub(&t, &u, &t, NULL), LML_OK);
    expect_text(&t, "75 Δ°C");
    lml_value m = value_of("42.00 USD"), three = value_of("3");
    cr_assert_eq(lml_arithmetic_mul(&m, &three, &m, NULL), LML_OK);
    expect_text(&m, "126.00 USD");
}

Test(arithmetic, spread_and_origin_are_dropped)
{
    lml_value a = value_of("12.5 kg ± 0.1 kg"), b = value_of("1 kg"), out;
    a.origin = LML_WEIGHED;
    cr_assert_eq(lml_arithmetic_add(&a, &b, &out, NULL), LML_OK);
    expect_text(&out, "13.5 kg");
    cr_expect_eq(out.origin, LML_UNSTATED);
    cr_assert_eq(lml_arithmetic_negate(&a, &out, NULL), LML_OK);
    expect_text(&out, "-12.5 kg");
    cr_expect_eq(out.origin, LML_UNSTATED);
}
