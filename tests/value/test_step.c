#include <criterion/criterion.h>

#include "value/value.h"
#include "value/random.h"
#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"
#include "value/step.h"

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

/* Member by member: between the members lies what nobody set. */
static bool same(const lml_value *a, const lml_value *b)
{
    return a->kind == b->kind && a->exact == b->exact && a->decimals == b->decimals &&
           lml_unit_equal(a->unit, b->unit);
}

static void expect_step(const char *text, const char *step_text, lml_direction direction,
                        const char *expected)
{
    lml_value v = value_of(text), step = value_of(step_text), out, again;
    lml_error err;
    char printed[LML_VALUE_TEXT];
    lml_status status = lml_step_round(&v, &step, direction, &out, &err);
    cr_assert_eq(status, LML_OK, "%s to %s: %s", text, step_text, err.message);
    lml_write_text(&out, printed);
    cr_expect_str_eq(printed, expected, "%s to %s is %s and not %s", text, step_text, printed,
                     expected);
    lml_value read = value_of(printed);
    cr_expect(memcmp(&read.amount, &out.amount, sizeof read.amount) == 0,
              "%s is not what the reader makes of it", printed);
    cr_assert_eq(lml_step_round(&out, &step, direction, &again, &err), LML_OK);
    cr_expect(same(&again, &out), "%s moves again", printed);
}

Test(step, quantities_go_to_their_step)
{
    expect_step("57.93 g", "0.1 g", LML_TO_UP, "58.0 g");
    expect_step("58 g", "0.1 g", LML_TO_UP, "58.0 g");
    expect_step("57.93 g", "0.1 g", LML_TO_DOWN, "57.9 g");
    expect_step("57.93 g", "0.1 g", LML_TO_NEAREST, "57.9 g");
    expect_step("57.93 g", "0.25 g", LML_TO_UP, "58.00 g");
    expect_step("57.93 g", "5 g", LML_TO_UP, "60 g");
    expect_step("1 ozt", "0.1 g", LML_TO_DOWN, "31.1 g");
    expect_step("31.1034768 g", "1 ozt", LML_TO_UP, "1 ozt");
    expect_step("-57.93 g", "0.1 g", LML_TO_UP, "-57.9 g");
    expect_step("-57.93 g", "0.1 g", LML_TO_DOWN, "-58.0 g");
    expect_step("0 g", "0.1 g", LML_TO_UP, "0.0 g");
    expect_step("0.01 g", "0.1 g", LML_TO_UP, "0.1 g");
    expect_step("-0.01 g", "0.1 g", LML_TO_UP, "0.0 g");
    expect_step("12.34 %", "0.5 %", LML_TO_UP, "12.5 %");
    expect_step("2.5 in", "1 mm", LML_TO_NEAREST, "64 mm");
    expect_step("75.66 kPa abs", "0.1 kPa", LML_TO_DOWN, "75.6 kPa abs");
    expect_step("21.46 inHg vac", "0.1 inHg vac", LML_TO_UP, "21.5 inHg vac");
    expect_step("98.4321 USD/g", "0.01 USD/g", LML_TO_UP, "98.44 USD/g");
}

Test(step, a_half_goes_away_from_zero)
{
    /* None of these halves is a double; in binary 2.25 g / 0.1 g may come out below 22.5. */
    expect_step("2.25 g", "0.1 g", LML_TO_NEAREST, "2.3 g");
    expect_step("-2.25 g", "0.1 g", LML_TO_NEAREST, "-2.3 g");
    expect_step("0.35 g", "0.1 g", LML_TO_NEAREST, "0.4 g");
    expect_step("1.005 mm", "0.01 mm", LML_TO_NEAREST, "1.01 mm");
    for (int i = 0; i < 2000; i++) {
        char text[40], expected[40];
        snprintf(text, sizeof text, "%d.%d5 g", i / 10, i % 10);
        snprintf(expected, sizeof expected, "%d.%d g", (i + 1) / 10, (i + 1) % 10);
        expect_step(text, "0.1 g", LML_TO_NEAREST, expected);
    }
}

Test(step, a_fineness_goes_to_parts_per_thousand)
{
    /* 14 parts of 24 are 583.33 per mille. */
    expect_step("14 kt", "1 ‰", LML_TO_DOWN, "583 ‰ Au");
    expect_step("14 kt", "1 ‰", LML_TO_UP, "584 ‰ Au");
    expect_step("14 kt", "0.1 ‰ Au", LML_TO_NEAREST, "583.3 ‰ Au");
    expect_step("925.4 ‰ Ag", "5 ‰", LML_TO_DOWN, "925 ‰ Ag");
    expect_step("7.4567 g Au", "0.01 g", LML_TO_DOWN, "7.45 g Au");
    expect_step("7.4567 g Au", "0.01 g Au", LML_TO_UP, "7.46 g Au");
    expect_step("18.4 Δ‰ Au", "1 ‰", LML_TO_DOWN, "18 Δ‰ Au");
    lml_error err;
    lml_value v = value_of("999.9 ‰ Au"), seven = value_of("7 ‰"), out;
    cr_expect_eq(lml_step_round(&v, &seven, LML_TO_UP, &out, &err), LML_BAD_VALUE);
}

Test(step, temperatures_step_in_their_own_scale)
{
    expect_step("961.7 °C", "5 Δ°C", LML_TO_UP, "965 °C");
    expect_step("961.7 °C", "5 Δ°C", LML_TO_DOWN, "960 °C");
    expect_step("1763 °F", "5 Δ°F", LML_TO_DOWN, "1760 °F");
    expect_step("1760 °F", "5 Δ°F", LML_TO_UP, "1760 °F");
    expect_step("-3 °C", "5 Δ°C", LML_TO_DOWN, "-5 °C");
    /* Freezing point of gold, ITS-90 Table 1: 1064.18 °C; a printed page has 1947.52 °F. */
    expect_step("1064.18 °C", "0.01 Δ°F", LML_TO_NEAREST, "1947.52 °F");
    for (int i = -200; i < 1500; i++) {
        char text[40];
        snprintf(text, sizeof text, "%d °F", i);
        expect_step(text, "1 Δ°F", LML_TO_UP, text);
        expect_step(text, "1 Δ°F", LML_TO_DOWN, text);
        snprintf(text, sizeof text, "%d.%d °C", i, i < 0 ? -i % 10 : i % 10);
        expect_step(text, "0.1 Δ°C", LML_TO_UP, text);
        expect_step(text, "0.1 Δ°C", LML_TO_DOWN, text);
    }
}

Test(step, clocks_step_from_midnight)
{
    expect_step("2026-11-24T14:20", "15 min", LML_TO_UP, "2026-11-24T14:30");
    expect_step("2026-11-24T14:20", "15 min", LML_TO_DOWN, "2026-11-24T14:15");
    expect_step("2026-11-24T23:50", "1 h", LML_TO_UP, "2026-11-25T00:00");
    expect_step("22:07", "5 min", LML_TO_NEAREST, "22:05");
    expect_step("23:58", "5 min", LML_TO_UP, "00:00");
    expect_step("2026-11-24", "1 d", LML_TO_UP, "2026-11-24");
    lml_error err;
    lml_value moment = value_of("2026-11-24T14:20"), out;
    const char *const odd[] = {"7 h", "2 d", "0.5 s", "1.5 s", "1e300 d"};
    for (int i = 0; i < 5; i++) {
        lml_value step = value_of(odd[i]);
        cr_expect_eq(lml_step_round(&moment, &step, LML_TO_UP, &out, &err), LML_BAD_VALUE, "%s",
                     odd[i]);
    }
}

Test(step, money_steps_exactly)
{
    expect_step("20.42 USD", "0.05 USD", LML_TO_NEAREST, "20.40 USD");
    expect_step("20.41 USD", "0.05 USD", LML_TO_UP, "20.45 USD");
    expect_step("-20.41 USD", "0.05 USD", LML_TO_UP, "-20.40 USD");
    expect_step("0.025 USD", "0.05 USD", LML_TO_NEAREST, "0.05 USD");
    expect_step("-0.025 USD", "0.05 USD", LML_TO_NEAREST, "-0.05 USD");
}

Test(step, what_is_no_step_is_refused)
{
    const struct {
        const char *value, *step;
        lml_status status;
    } rows[] = {
        {"12.5 g", "0 g", LML_BAD_VALUE},        {"12.5 g", "-1 g", LML_BAD_VALUE},
        {"12.5 g", "1 mL", LML_MISMATCH},        {"12.5 g", "1", LML_MISMATCH},
        {"12.5 g", "1 ‰", LML_MISMATCH},         {"585 ‰ Au", "1 ‰ Ag", LML_MISMATCH},
        {"7.5 g Au", "0.1 g Ag", LML_MISMATCH},  {"960 °C", "5 °C", LML_MISMATCH},
        {"42.00 USD", "0.05 CAD", LML_MISMATCH}, {"42.00 USD", "1 g", LML_MISMATCH},
        {"22:00", "5 g", LML_MISMATCH},          {"Monday", "1 d", LML_MISMATCH},
        {"75 kPa", "1 kPa abs", LML_MISMATCH},   {"75 kPa vac", "1 kPa abs", LML_MISMATCH},
        {"1e20 g", "1 g", LML_OVERFLOW},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        lml_error err;
        lml_value v = value_of(rows[i].value), step = value_of(rows[i].step), out;
        cr_expect_eq(lml_step_round(&v, &step, LML_TO_UP, &out, &err), rows[i].status, "%s to %s",
                     rows[i].value, rows[i].step);
        cr_expect(strlen(err.message) > 10 && strlen(err.hint) > 10);
        cr_expect_eq(lml_step_round(&v, &step, LML_TO_UP, &out, NULL), rows[i].status);
    }
}

static const char *const steps[] = {"0.1 g",    "0.01 g", "0.25 g", "1 dwt",
                                    "0.05 ozt", "1 mg",   "3 grain"};

Test(step, is_never_on_the_unsafe_side)
{
    chance c = {3};
    for (int i = 0; i < 10000; i++) {
        lml_value step = value_of(steps[i % 7]), up, down, near, again;
        lml_value v = step;
        v.amount = chance_between(&c, -2.0, 2.0) * pow(10, chance_between(&c, -4, 0));
        double slack = 1e-9 * fmax(fabs(v.amount), step.amount);
        cr_assert_eq(lml_step_round(&v, &step, LML_TO_UP, &up, NULL), LML_OK);
        cr_assert_eq(lml_step_round(&v, &step, LML_TO_DOWN, &down, NULL), LML_OK);
        cr_assert_eq(lml_step_round(&v, &step, LML_TO_NEAREST, &near, NULL), LML_OK);
        cr_assert(up.amount >= v.amount - slack, "%.17g went up to %.17g", v.amount, up.amount);
        cr_assert(down.amount <= v.amount + slack, "%.17g went down to %.17g", v.amount,
                  down.amount);
        cr_assert(up.amount - v.amount < step.amount + slack);
        cr_assert(v.amount - down.amount < step.amount + slack);
        cr_assert(fabs(near.amount - v.amount) <= step.amount / 2 + slack);
        cr_assert_eq(lml_step_round(&up, &step, LML_TO_UP, &again, NULL), LML_OK);
        cr_assert(same(&again, &up), "up moves again");
        cr_assert_eq(lml_step_round(&down, &step, LML_TO_DOWN, &again, NULL), LML_OK);
        cr_assert(same(&again, &down), "down moves again");
    }
}

Test(step, what_is_on_a_step_or_near_it_does_not_move)
{
    chance c = {5};
    for (int i = 0; i < 10000; i++) {
        lml_value step = value_of(steps[i % 7]), up, down, v = step;
        double count = (double)chance_whole(&c, 1, 100000);
        /* Noise of working: a few parts in 10^10 and less. */
        v.amount = step.amount * count * (1 + chance_between(&c, -5e-10, 5e-10));
        cr_assert_eq(lml_step_round(&v, &step, LML_TO_UP, &up, NULL), LML_OK);
        cr_assert_eq(lml_step_round(&v, &step, LML_TO_DOWN, &down, NULL), LML_OK);
        cr_assert(same(&up, &down), "%.0f steps of %s", count, steps[i % 7]);
        cr_assert_float_eq(up.amount, step.amount * count, up.amount * 1e-15);
        /* And beyond it does. */
        v.amount = step.amount * count * (1 + 3e-9);
        cr_assert_eq(lml_step_round(&v, &step, LML_TO_UP, &up, NULL), LML_OK);
        cr_assert(up.amount > v.amount);
    }
}

Test(step, whole_quotients_and_remainders_put_the_value_together)
{
    chance c = {9};
    lml_error err;
    for (int i = 0; i < 10000; i++) {
        lml_value b = value_of(steps[i % 7]), a = b, quotient, rest;
        a.amount = chance_between(&c, -1.0, 1.0);
        if (i % 2)
            b.amount = -b.amount;
        cr_assert_eq(lml_step_divide(&a, &b, &quotient, &err), LML_OK);
        cr_assert_eq(lml_step_remainder(&a, &b, &rest, &err), LML_OK);
        cr_assert_eq(quotient.amount, floor(quotient.amount));
        cr_assert_float_eq(quotient.amount * b.amount + rest.amount, a.amount,
                           1e-9 * fabs(a.amount) + 1e-9 * fabs(b.amount));
        cr_assert(rest.amount * b.amount >= 0 && fabs(rest.amount) < fabs(b.amount));
    }
    const struct {
        const char *a, *b, *quotient, *rest;
    } rows[] = {
        {"40 g", "2.5 g", "16", "0 g"},
        {"0.3 g", "0.1 g", "3", "0 g"},
        {"-1 g", "3 g", "-1", "2 g"},
        {"7.00 USD", "2.50 USD", "2", "2.00 USD"},
        {"-7.00 USD", "2.50 USD", "-3", "0.50 USD"},
        {"1 ozt", "1 dwt", "20", "0 ozt"},
        {"1 ft", "1 in", "12", "0 ft"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[LML_VALUE_TEXT];
        lml_value a = value_of(rows[i].a), b = value_of(rows[i].b), out;
        cr_assert_eq(lml_step_divide(&a, &b, &out, &err), LML_OK);
        lml_write_text(&out, text);
        cr_expect_str_eq(text, rows[i].quotient);
        cr_assert_eq(lml_step_remainder(&a, &b, &out, &err), LML_OK);
        lml_write_text(&out, text);
        cr_expect_str_eq(text, rows[i].rest);
    }
    lml_value a = value_of("1 g"), none = value_of("0 g"), out;
    cr_expect_eq(lml_step_divide(&a, &none, &out, &err), LML_BAD_VALUE);
    cr_expect_eq(lml_step_remainder(&a, &none, &out, &err), LML_BAD_VALUE);
}
