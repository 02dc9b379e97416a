/* Values as a sheet shows them: six digits of what was reckoned, all of what was rounded. */
#include <criterion/criterion.h>

#include "value/arithmetic.h"
#include "read/read.h"
#include "value/show.h"
#include "value/wanted.h"
#include "value/step.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static lml_value value_of(const char *text)
{
    lml_value v;
    lml_error err;
    cr_assert_eq(lml_read_value(lml_span_of(text), LML_WANT_ANYTHING, LML_NO_METAL, &v, &err),
                 LML_OK, "\"%s\" is not read: %s", text, err.message);
    return v;
}

static void expect_shown(const lml_value *v, const char *expected, const char *what)
{
    char shown[LML_VALUE_TEXT];
    size_t length = lml_show_shown(v, shown);
    cr_expect_str_eq(shown, expected, "%s", what);
    cr_expect_eq(length, strlen(shown));
}

Test(show, six_digits_of_what_was_reckoned_and_thousands_apart)
{
    static const char *const cases[][2] = {
        {"33.460000004 g", "33.4600 g"},
        {"387.7777777777778 °C", "387.778 °C"},
        {"29 g", "29 g"},
        {"583.3333333333333 ‰ Au", "583.333 ‰ Au"},
        {"587.9999999 ‰ Au", "587.999 ‰ Au"},
        {"1149.00 USD", "1,149.00 USD"},
        {"-1234567.5 EUR", "-1,234,567.50 EUR"},
        {"999.99 CAD", "999.99 CAD"},
        {"12.4 g ± 0.1 g", "12.4 g ± 0.1 g"},
        {"373.555 ‰ Au ± 3.956070618647715 ‰", "373.555 ‰ Au ± 4.0 ‰"},
        {"10 g ± 0.0123456789 g", "10 g ± 0.013 g"},
        {"10 g ± 0.12345 g", "10 g ± 0.12345 g"},
        {"2026-11-24T10:00", "2026-11-24T10:00"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        lml_value v = value_of(cases[i][0]);
        expect_shown(&v, cases[i][1], cases[i][0]);
    }
}

/* Every difference of two weighings to 0.1 g and 0.01 g is a decimal of two places, worked in whole
 * hundredths; a sum of percents, of hours and minutes alike. */
Test(show, a_sum_of_short_decimals_is_a_short_decimal)
{
    for (int tenths = 1; tenths <= 300; tenths++) {
        for (int hundredths = 1; hundredths < 300; hundredths += 7) {
            char text[40], want[40];
            snprintf(text, sizeof text, "%d.%d g", tenths / 10, tenths % 10);
            lml_value a = value_of(text), sum;
            snprintf(text, sizeof text, "%d.%02d g", hundredths / 100, hundredths % 100);
            lml_value b = value_of(text);
            cr_assert_eq(lml_arithmetic_sub(&a, &b, &sum, NULL), LML_OK);
            int left = 10 * tenths - hundredths, whole = abs(left) / 100, part = abs(left) % 100;
            snprintf(want, sizeof want,
                     part == 0   ? "%s%d g"
                     : part % 10 ? "%s%d.%02d g"
                                 : "%s%d.%d g",
                     left < 0 ? "-" : "", whole, part % 10 ? part : part / 10);
            expect_shown(&sum, want, text);
        }
    }
}

Test(show, digits_that_tell_nothing_are_not_shown)
{
    static const char *const sums[][3] = {
        {"95.95 %", "100 %", "-4.05 %"},   {"9 h", "86 min", "7 h 34 min"},
        {"8 h", "0.1 h", "7.9 h"},         {"8 h", "100.5 min", "6.325 h"},
        {"-6 h", "86 min", "-7 h 26 min"}, {"10 g", "0.0000001 g", "10.0000 g"}};
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
        lml_value a = value_of(sums[i][0]), b = value_of(sums[i][1]), v;
        cr_assert_eq(lml_arithmetic_sub(&a, &b, &v, NULL), LML_OK);
        expect_shown(&v, sums[i][2], sums[i][0]);
    }
    /* A tenth of a pennyweight is 0.155517384 g (SP 811: 1 dwt = 1.55517384 g). */
    lml_value v = value_of("38.257276464 g"), step = value_of("0.155517384 g"), rounded, shown;
    cr_assert_eq(lml_step_round(&v, &step, LML_TO_NEAREST, &rounded, NULL), LML_OK);
    cr_assert_eq(lml_show_value_in(&rounded, lml_span_of("dwt"), &shown, NULL), LML_OK);
    expect_shown(&shown, "24.6 dwt", "24.6 dwt");
    v = value_of("1350 °F");
    cr_assert_eq(lml_write_as(&v, lml_span_of("°C"), &shown, NULL), LML_OK);
    expect_shown(&shown, "732.222 °C", "1350 °F");
}

/* ISO 4217: two places for EUR and USD, none for JPY, three for BHD. */
Test(show, a_price_has_at_least_the_places_of_its_money)
{
    static const char *const cases[][2] = {{"94.3 EUR/g", "94.30 EUR/g"},
                                           {"68 USD/h", "68.00 USD/h"},
                                           {"95.545 USD/g", "95.545 USD/g"},
                                           {"63482.759999 EUR/kg", "63482.76 EUR/kg"},
                                           {"1234567.5 EUR/kg", "1234567.50 EUR/kg"},
                                           {"14500 JPY/g", "14500 JPY/g"},
                                           {"35.5 BHD/g", "35.500 BHD/g"},
                                           {"-0.5 EUR/g", "-0.50 EUR/g"},
                                           {"60..70 EUR/h", "60..70 EUR/h"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        lml_value v = value_of(cases[i][0]);
        expect_shown(&v, cases[i][1], cases[i][0]);
    }
}

/* The other unit shows no finer steps than the decimals that tell the first one's apart: 0.01 inHg
 * is 0.3386 mbar, so tenths; 1 °C is 1.8 °F, so whole degrees. A step is up
 * to 2.6 times as large there: a scale for 0.01 g shows 0.01 dwt (0.0156 g), a caliper for 0.01 mm
 * shows 0.001 in (0.0254 mm). What was rounded up or down is not printed below or above it. */
Test(show, what_was_rounded_keeps_its_step_in_another_unit)
{
    static const struct {
        const char *value, *step, *unit, *shown;
        lml_direction direction;
    } cases[] = {
        {"28.24 inHg vac", "0.01 inHg", "mbar", "956.3 mbar vac", LML_TO_NEAREST},
        {"950 °C", "1 Δ°C", "°F", "1742 °F", LML_TO_NEAREST},
        {"22 °C", "0.1 Δ°C", "°F", "71.6 °F", LML_TO_NEAREST},
        {"71 °F", "1 Δ°F", "°C", "22 °C", LML_TO_NEAREST}, /* 21.67 */
        {"71 °F", "1 Δ°F", "°C", "21 °C", LML_TO_DOWN},
        {"28.56 g", "0.01 g", "dwt", "18.36 dwt", LML_TO_NEAREST}, /* 18.3645 */
        {"28.56 g", "0.01 g", "dwt", "18.37 dwt", LML_TO_UP},
        {"28.57 g", "0.01 g", "dwt", "18.37 dwt", LML_TO_DOWN}, /* 18.3709 */
        {"29 g", "0.1 g", "dwt", "18.7 dwt", LML_TO_UP},        /* 18.6474 */
        {"29 g", "0.1 g", "dwt", "18.6 dwt", LML_TO_DOWN},
        {"15.5517384 g", "0.0000001 g", "dwt", "10.0000000 dwt", LML_TO_UP}, /* by definition */
        {"3.11 g", "0.01 g", "ozt", "0.1000 ozt", LML_TO_NEAREST},           /* 0.09999 */
        {"0.44 g", "0.01 g", "ct", "2.2 ct", LML_TO_NEAREST},                /* a point is 2 mg */
        {"20.271 mm", "0.001 mm", "in", "0.7981 in", LML_TO_NEAREST},
        {"13.77 mm", "0.01 mm", "in", "0.543 in", LML_TO_UP}, /* 0.54213 */
        {"270 g", "10 g", "oz_av", "9.52 oz_av", LML_TO_NEAREST},
        {"58.0 g", "0.1 g", "g", "58.0 g", LML_TO_NEAREST},
        {"6.5 g Au", "0.1 g", "dwt", "4.1 dwt Au", LML_TO_DOWN}, /* 4.1796 */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        lml_value v = value_of(cases[i].value), step = value_of(cases[i].step), rounded, shown;
        cr_assert_eq(lml_step_round(&v, &step, cases[i].direction, &rounded, NULL), LML_OK, "%s",
                     cases[i].value);
        cr_assert_eq(lml_show_value_in(&rounded, lml_span_of(cases[i].unit), &shown, NULL), LML_OK);
        expect_shown(&shown, cases[i].shown, cases[i].value);
    }
}

Test(show, a_unit_of_another_kind_is_refused)
{
    lml_value v = value_of("29 g"), out;
    lml_error err;
    cr_expect_eq(lml_show_value_in(&v, lml_span_of("mm"), &out, &err), LML_MISMATCH);
}
