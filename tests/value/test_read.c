/* What the reader takes: the grammar, and the short forms of an ask. */
#include <criterion/criterion.h>

#include "read/read.h"
#include "unit/unit_table.h"
#include "value/wanted.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

static lml_value read_as(const char *text, lml_wanted wanted, lml_metal metal)
{
    lml_value v = {0};
    lml_error err = {0};
    cr_assert_eq(lml_read_value(lml_span_of(text), wanted, metal, &v, &err), LML_OK, "%s: %s: %s",
                 text, err.message, err.hint);
    return v;
}

static lml_value read_any(const char *text)
{
    return read_as(text, LML_WANT_ANYTHING, LML_NO_METAL);
}

static void expect_amount(const char *text, lml_kind kind, double si)
{
    lml_value v = read_any(text);
    cr_expect_eq(v.kind, kind, "%s is %s", text, lml_kind_name((lml_kind)v.kind));
    cr_expect_eq(v.amount, si, "%s: %.17g, not %.17g", text, v.amount, si);
}

/* The literals at the right are rounded once by the compiler, from the exact decimal (sizes of
 * units as in tests/reference/units.tsv): the reader must agree to the last bit. */
Test(read, converts_with_one_rounding)
{
    expect_amount("12.5 g", LML_QUANTITY, 0.0125);
    expect_amount("19.84 g", LML_QUANTITY, 0.01984);
    expect_amount("1 ozt", LML_QUANTITY, 0.0311034768);
    expect_amount("3.30 tola", LML_QUANTITY, 0.03849055254);
    expect_amount("0.1 dwt", LML_QUANTITY, 0.000155517384);
    expect_amount("36 in", LML_QUANTITY, 0.9144);
    expect_amount("3 ft", LML_QUANTITY, 0.9144);
    expect_amount("0.7 mmHg", LML_QUANTITY, 93.3256711905);
    expect_amount("1.1e-3 kg", LML_QUANTITY, 0.0011);
    expect_amount("1.1E+3 mg", LML_QUANTITY, 0.0011);
    expect_amount("-5 mm", LML_QUANTITY, -0.005);
    expect_amount("−5 mm", LML_QUANTITY, -0.005);
    expect_amount("+5 mm", LML_QUANTITY, 0.005);
    expect_amount("12.5g", LML_QUANTITY, 0.0125);
    expect_amount("  12.5   g  ", LML_QUANTITY, 0.0125);
    expect_amount("8.96 g/cm3", LML_QUANTITY, 8960);
    expect_amount("0.93", LML_NUMBER, 0.93);
    expect_amount("63 %", LML_QUANTITY, 0.63);
    expect_amount("585 ‰", LML_QUANTITY, 0.585);
    expect_amount("250 ppm", LML_QUANTITY, 0.00025);
    expect_amount("14 ct", LML_QUANTITY, 0.0028);
    expect_amount("25 point", LML_QUANTITY, 0.00005);
}

/* Gold point 1064.18 °C = 1337.33 K = 1947.524 °F, ITS-90; absolute zero -459.67 °F and the ice
 * point 32 °F, NIST SP 811 (2008), B.9. */
Test(read, temperatures_are_points)
{
    expect_amount("1064.18 °C", LML_TEMPERATURE, 1337.33);
    expect_amount("1947.524 °F", LML_TEMPERATURE, 1337.33);
    expect_amount("1337.33 kelvin", LML_TEMPERATURE, 1337.33);
    expect_amount("-459.67 degF", LML_TEMPERATURE, 0);
    expect_amount("-273.15 C", LML_TEMPERATURE, 0);
    expect_amount("32 F", LML_TEMPERATURE, 273.15);
    expect_amount("75 Δ°C", LML_QUANTITY, 75);
    expect_amount("9 Δ°F", LML_QUANTITY, 5);
    expect_amount("1e-399 °C", LML_TEMPERATURE, 273.15);
}

Test(read, fractions)
{
    static const struct {
        const char *text;
        double inches;
    } cases[] = {{"2 1/2", 2.5},  {"2½", 2.5},      {"2 ½", 2.5},      {"1/4", 0.25},
                 {"¼", 0.25},     {"-2 1/2", -2.5}, {"-½", -0.5},      {"5/16", 0.3125},
                 {"12⅝", 12.625}, {"¾", 0.75},      {"⅛", 0.125},      {"⅜", 0.375},
                 {"⅞", 0.875},    {"⅓", 1.0 / 3},   {"⅔", 2.0 / 3},    {"⅕", 0.2},
                 {"⅖", 0.4},      {"⅗", 0.6},       {"⅘", 0.8},        {"⅙", 1.0 / 6},
                 {"⅚", 5.0 / 6},  {"⅐", 1.0 / 7},   {"⅑", 1.0 / 9},    {"⅒", 0.1},
                 {"7/2", 3.5},    {"0 1/2", 0.5},   {"1 1/3", 4.0 / 3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        lml_value v = read_any(cases[i].text);
        cr_expect_eq(v.kind, LML_NUMBER);
        cr_expect_eq(v.amount, cases[i].inches, "%s", cases[i].text);
    }
    expect_amount("2 1/2 in", LML_QUANTITY, 0.0635);
    expect_amount("2½in", LML_QUANTITY, 0.0635);
    expect_amount("½ °C", LML_TEMPERATURE, 273.65);
    expect_amount("5 1/K", LML_QUANTITY, 5);
}

Test(read, keeps_the_unit_as_written)
{
    lml_value v = read_any("2.5 dwt");
    cr_expect_eq(v.unit.id[0], LML_U_DWT);
    cr_expect_eq(v.decimals, LML_SHORTEST);
    cr_expect_eq(lml_write_in_unit(&v), 2.5);
    cr_expect(lml_dimension_equal(v.dimension, (lml_dimension){.mass = 1}));
}

static void expect_spread(const char *text, lml_spread spread, double middle, double low,
                          double high)
{
    lml_value v = read_any(text);
    cr_expect_eq(v.spread, spread, "%s", text);
    cr_expect_eq(v.amount, middle, "%s: middle %.17g", text, v.amount);
    cr_expect_eq(v.low, low, "%s: low %.17g", text, v.low);
    if (spread == LML_BETWEEN)
        cr_expect_eq(v.high, high, "%s: high %.17g", text, v.high);
}

Test(read, spreads)
{
    expect_spread("12.4 g ± 0.1 g", LML_DEVIATION, 0.0124, 0.0001, 0);
    expect_spread("12.4 g +- 100 mg", LML_DEVIATION, 0.0124, 0.0001, 0);
    expect_spread("12.4 g +/- 0.1 g", LML_DEVIATION, 0.0124, 0.0001, 0);
    expect_spread("12.4g±0.1g", LML_DEVIATION, 0.0124, 0.0001, 0);
    expect_spread("12.3..12.5 g", LML_BETWEEN, 0.0124, 0.0123, 0.0125);
    expect_spread("12.3 .. 12.5 g", LML_BETWEEN, 0.0124, 0.0123, 0.0125);
    expect_spread("1..2 g", LML_BETWEEN, 0.0015, 0.001, 0.002);
    expect_spread("-2..1", LML_BETWEEN, -0.5, -2, 1);
    expect_spread("1..1e30", LML_BETWEEN, 5e29, 1, 1e30);
    expect_spread("960 °C ± 5 Δ°C", LML_DEVIATION, 1233.15, 5, 0);
    expect_spread("960 °C ± 5 °C", LML_DEVIATION, 1233.15, 5, 0);
    expect_spread("1760 °F ± 9 Δ°F", LML_DEVIATION, 1233.15, 5, 0);
    expect_spread("950..970 °C", LML_BETWEEN, 1233.15, 1223.15, 1243.15);
    expect_spread("585 ‰ Au ± 3 ‰", LML_DEVIATION, 0.585, 0.003, 0);
    expect_spread("14 kt ± 0.12 kt", LML_DEVIATION, 14.0 / 24, 0.005, 0);
    expect_spread("7.5 g Au ± 0.1 g", LML_DEVIATION, 0.0075, 0.0001, 0);
    expect_spread("21.5 inHg vac ± 1 inHg", LML_DEVIATION, 72807.3557673315, 3386.388640341, 0);
    expect_spread("0.93 ± 0.01", LML_DEVIATION, 0.93, 0.01, 0);
    lml_value v = read_any("40..50.01 USD");
    cr_expect_eq(v.exact, 45005000);
    cr_expect_eq(v.low, 40);
    cr_expect_eq(v.high, 50.01);
}

Test(read, fineness_and_fine_mass)
{
    static const struct {
        const char *text;
        lml_wanted wanted;
        lml_metal given;
        lml_kind kind;
        lml_metal metal;
        double amount;
    } cases[] = {
        {"585 ‰ Au", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINENESS, LML_Au, 0.585},
        {"58.5 % Au", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINENESS, LML_Au, 0.585},
        {"14 kt", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINENESS, LML_Au, 14.0 / 24},
        {"14 kt Au", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINENESS, LML_Au, 14.0 / 24},
        {"925 ‰ Ag", LML_WANT_FINENESS, LML_NO_METAL, LML_FINENESS, LML_Ag, 0.925},
        {"925 ‰", LML_WANT_FINENESS, LML_Ag, LML_FINENESS, LML_Ag, 0.925},
        {"585 ‰", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 0.585},
        {"585 ‰ Au", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 0.585},
        {"14K", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 14.0 / 24},
        {"9ct", LML_WANT_FINENESS, LML_NO_METAL, LML_FINENESS, LML_Au, 9.0 / 24},
        {"18 carat", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 18.0 / 24},
        {"14 K", LML_WANT_FINENESS, LML_NO_METAL, LML_FINENESS, LML_Au, 14.0 / 24},
        {"14kt", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 14.0 / 24},
        {"24 kt", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 1},
        {"0 ‰", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 0},
        {"1000 ‰", LML_WANT_FINENESS, LML_Au, LML_FINENESS, LML_Au, 1},
        {"3 Δ‰ Au", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINENESS_DIFFERENCE, LML_Au, 0.003},
        {"7.5 g Au", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINE_MASS, LML_Au, 0.0075},
        {"7.5 g", LML_WANT_FINE_MASS, LML_Au, LML_FINE_MASS, LML_Au, 0.0075},
        {"2 g W", LML_WANT_ANYTHING, LML_NO_METAL, LML_FINE_MASS, LML_W, 0.002},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        lml_value v = read_as(cases[i].text, cases[i].wanted, cases[i].given);
        cr_expect(v.kind == cases[i].kind && v.metal == cases[i].metal, "%s", cases[i].text);
        cr_expect_eq(v.amount, cases[i].amount, "%s: %.17g", cases[i].text, v.amount);
    }
    /* The mark is not the karat: 585 ‰ and 14/24 differ (C.R.C., c. 1303, s. 6(4)(a)). */
    cr_expect(read_any("585 ‰ Au").amount > read_any("14 kt").amount);
}

Test(read, a_watt_is_no_tungsten)
{
    cr_expect_eq(read_any("1500 W").kind, LML_QUANTITY);
    cr_expect_eq(read_any("2 V · A").kind, LML_QUANTITY);
    cr_expect(lml_dimension_equal(read_any("2 V*A").dimension, read_any("2 W").dimension));
}

Test(read, ratios_of_an_ask)
{
    lml_value water = read_as("40 mL/(100 g)", LML_WANT_RATIO, LML_NO_METAL);
    cr_expect_eq(water.amount, 0.4);
    cr_expect(lml_dimension_none(water.dimension));
    cr_expect_eq(read_as("40 %", LML_WANT_RATIO, LML_NO_METAL).amount, 0.4);
    lml_value volume = read_any("40 mL/(100 g)");
    cr_expect_eq(volume.amount, 0.0004, "a volume per mass where no ratio is asked");
    cr_expect_eq(volume.dimension.length, 3);
}

Test(read, pressures_say_how_they_count)
{
    cr_expect_eq(read_any("21.5 inHg vac").mode, LML_VACUUM);
    cr_expect_eq(read_any("75.7 kPa abs").mode, LML_ABSOLUTE);
    cr_expect_eq(read_any("75.7 kPa").mode, LML_NO_MODE);
    /* A point has no rate, so that in a compound °C and °F can only be differences. */
    cr_expect_eq(read_any("5 °C/min").amount, read_any("5 Δ°C/min").amount);
    cr_expect_eq(read_any("9 °F/h").amount, read_any("5 Δ°C/h").amount);
    cr_expect_eq(read_any("0.129 J/(g·°C)").amount, read_any("0.129 J/(g·K)").amount);
    cr_expect_eq(read_as("21.5 inHg vac", LML_WANT_VACUUM, LML_NO_METAL).mode, LML_VACUUM);
    cr_expect_eq(read_as("75.7 kPa abs", LML_WANT_PRESSURE, LML_NO_METAL).mode, LML_ABSOLUTE);
}

static void expect_money(const char *text, int64_t millionths)
{
    lml_value v = read_any(text);
    cr_expect_eq(v.kind, LML_MONEY, "%s", text);
    cr_expect_eq(v.exact, millionths, "%s: %lld", text, (long long)v.exact);
}

Test(read, money_is_exact)
{
    expect_money("12.50 USD", 12500000);
    expect_money("USD 12.50", 12500000);
    expect_money("USD12.50", 12500000);
    expect_money("USD −12.50", -12500000);
    expect_money("0.1 EUR", 100000);
    expect_money("1200 JPY", 1200000000);
    expect_money("0.000001 KWD", 1);
    expect_money("9223372036854.775807 USD", INT64_MAX);
    expect_money("1/4 USD", 250000);
    expect_money("-2 1/2 USD", -2500000);
    expect_money("1.5e3 CAD", 1500000000);
    cr_expect_eq(read_any("98.50 USD/g").kind, LML_QUANTITY);
}

Test(read, the_calendar)
{
    cr_expect_eq(read_any("2026-11-24").kind, LML_MOMENT);
    cr_expect_eq(read_any("2026-11-24T14:20").kind, LML_MOMENT);
    cr_expect_eq(read_any("22:00").kind, LML_TIME_OF_DAY);
    cr_expect_eq(read_any("7:30").exact, 27000);
    cr_expect_eq(read_any("Saturday").exact, 6);
}

/* 24 karats are pure gold, and a tenth of a karat 1/240 of it, as they are written in Britain too.
 * A ct behind anything else is the gem's. */
Test(read, karats_spread_in_karats)
{
    static const char *const same[] = {"9 ct ± 0.1 ct", "9ct +- 0.1ct", "9 carat ± 0.1 carat",
                                       "9 kt ± 0.1 ct", "9K ± 0.1K",    "9 ct ± 0.1 kt"};
    static const char *const refused[] = {"375 ‰ ± 0.1 ct", "9 ± 0.1 ct", "0.9 ct ± 0.1 ct",
                                          "9 ct ± 0.1 g"};
    lml_value v;
    for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
        v = read_as(same[i], LML_WANT_FINENESS, LML_Au);
        cr_expect(v.kind == LML_FINENESS && v.spread == LML_DEVIATION, "%s", same[i]);
        cr_expect_float_eq(v.amount, 9.0 / 24, 1e-15, "%s", same[i]);
        cr_expect_float_eq(v.low, 1.0 / 240, 1e-15, "%s", same[i]);
    }
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        cr_expect_neq(lml_read_value(lml_span_of(refused[i]), LML_WANT_FINENESS, LML_Au, &v, NULL),
                      LML_OK, "%s", refused[i]);
    cr_expect_eq(read_any("9 ct ± 0.1 ct").dimension.mass, 1); /* nobody asked for a fineness */
}

/* Every kind that is a value reads the example that its own line of the list gives. */
Test(wanted, examples_are_of_their_kind)
{
    for (unsigned w = 0; w < LML_WANTED_COUNT; w++) {
        lml_wanted wanted = (lml_wanted)w;
        cr_expect_eq(lml_wanted_by_name(lml_span_of(lml_wanted_name(wanted))), wanted);
        cr_expect(*lml_wanted_words(wanted));
        lml_value v, number = lml_value_number(1);
        bool shape = (w >= LML_WANT_TEXT && w <= LML_WANT_YES_NO) || w >= LML_WANT_ALLOY;
        if (shape) {
            cr_expect_eq(lml_wanted_check(wanted, &number, NULL), LML_BAD_VALUE, "%s",
                         lml_wanted_name(wanted));
            continue;
        }
        lml_error err = {0};
        cr_expect_eq(
            lml_read_value(lml_span_of(lml_wanted_example(wanted)), wanted, LML_Au, &v, &err),
            LML_OK, "%s: %s", lml_wanted_name(wanted), err.message);
    }
    cr_expect_eq(lml_wanted_by_name(lml_span_of("weight")), LML_WANTED_COUNT);
}

/* 60 s to a minute, 60 min to an hour, 24 h to a day: SI Brochure (9th ed.), table 8. */
Test(read, times_in_parts)
{
    static const struct {
        const char *text;
        double seconds;
    } rows[] = {{"1 h 30 min", 5400}, {"90 min", 5400},   {"1h 30min", 5400},
                {"2 d 4 h", 187200},  {"1 h 30 s", 3630}, {"1 d 1 h 1 min 1.5 s", 90061.5}};
    static const char *const refused[] = {"1 h 60 min",  "30 min 1 h", "1.5 h 30 min", "1 h 30",
                                          "1 h 30 mins", "1 h 30 g",   "-1 h 30 min"};
    lml_value v;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cr_assert_eq(
            lml_read_value(lml_span_of(rows[i].text), LML_WANT_TIME, LML_NO_METAL, &v, NULL),
            LML_OK, "%s", rows[i].text);
        cr_expect_eq(v.amount, rows[i].seconds, "%s", rows[i].text);
    }
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        cr_expect_neq(
            lml_read_value(lml_span_of(refused[i]), LML_WANT_TIME, LML_NO_METAL, &v, NULL), LML_OK,
            "%s", refused[i]);
}
