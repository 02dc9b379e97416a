/* Units: the table against what is published, the table against GNU units, reading and writing. */
#include "reference.h"

#include "unit/currency.h"
#include "unit/unit.h"
#include "unit/unit_table.h"

static lml_unit read_unit(const char *text, lml_dimension *d)
{
    lml_unit u = {0};
    lml_error err = {0};
    cr_assert_eq(lml_unit_read(lml_span_of(text), &u, d, &err), LML_OK, "%s: %s", text,
                 err.message);
    return u;
}

static lml_rational factor_of(const char *text)
{
    lml_dimension d;
    lml_rational f = {0, 1};
    cr_assert_eq(lml_unit_factor(read_unit(text, &d), &f, NULL), LML_OK);
    return f;
}

Test(unit, is_exactly_what_is_published)
{
    ref_table *t = ref_open("units.tsv");
    for (size_t i = 0; i < t->count; i++) {
        const ref_row *row = &t->row[i];
        const char *unit = ref_cell(row, "unit");
        long long top, bottom;
        cr_assert_eq(sscanf(ref_cell(row, "exact"), "%lld/%lld", &top, &bottom), 2);
        lml_rational ours;
        cr_assert_eq(
            lml_rational_div(factor_of(unit), factor_of(ref_cell(row, "measure")), &ours, NULL),
            LML_OK);
        cr_expect(ours.top == top && ours.bottom == bottom, "%s: %lld/%lld", ref_where(row),
                  (long long)ours.top, (long long)ours.bottom);
        const char *printed = ref_cell(row, "printed");
        if (*printed) {
            lml_rational f = factor_of(unit);
            double si = (double)f.top / (double)f.bottom;
            double half_digit = ref_number(row, "printed") * 0.5e-6 * 1.3;
            cr_expect(fabs(si - ref_number(row, "printed")) <= half_digit, "%s: %.9g",
                      ref_where(row), si);
        }
    }
}

/* Fahrenheit: t/°C = (t/°F - 32)/1.8 and T/K = t/°C + 273.15, NIST SP 811 (2008), B.9. */
Test(unit, points_have_their_zero)
{
    const lml_unit_row *c = lml_unit_at(LML_U_DEGC), *f = lml_unit_at(LML_U_DEGF);
    cr_expect(c->offset.top * 100 == 27315 * c->offset.bottom);
    /* 32 °F is 0 °C: 32 * 5/9 + offset = 273.15, in 1/900 of a kelvin */
    cr_expect(32 * 500 + f->offset.top * (900 / f->offset.bottom) == 27315 * 9);
    cr_expect(f->factor.top == 5 && f->factor.bottom == 9);
}

static const char *gnu_name(unsigned id)
{
    /* Ours and theirs where the two differ. The rest has one name in both. */
    static const struct {
        unsigned id;
        const char *name;
    } names[] = {
        {LML_U_UG, "microgram"},
        {LML_U_OZT, "troyounce"},
        {LML_U_DWT, "pennyweight"},
        {LML_U_OZ_AV, "ounce"},
        {LML_U_CT, "carat"},
        {LML_U_POINT, "0.01 carat"},
        {LML_U_UM, "micrometer"},
        {LML_U_THOU, "mil"},
        {LML_U_UIN, "microinch"},
        {LML_U_M2, "m^2"},
        {LML_U_DM2, "dm^2"},
        {LML_U_CM2, "cm^2"},
        {LML_U_MM2, "mm^2"},
        {LML_U_IN2, "in^2"},
        {LML_U_M3, "m^3"},
        {LML_U_DM3, "dm^3"},
        {LML_U_CM3, "cm^3"},
        {LML_U_MM3, "mm^3"},
        {LML_U_IN3, "in^3"},
        {LML_U_FLOZ_US, "usfloz"},
        {LML_U_FLOZ_IMP, "brfloz"},
        {LML_U_H, "hour"},
        {LML_U_D, "day"},
        {LML_U_DELTA_C, "degC"},
        {LML_U_DELTA_F, "degF"},
        {LML_U_MBAR, "millibar"},
        {LML_U_WH, "watt hour"},
        {LML_U_KWH, "kilowatt hour"},
        {LML_U_BTU_IT, "btu_IT"},
        {LML_U_PERCENT, "percent"},
        {LML_U_PER_MILLE, "1|1000"},
        {LML_U_DELTA_PER_MILLE, "1|1000"},
        {LML_U_KT, "1|24"},
        {LML_U_ONE, "1"},
    };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (names[i].id == id)
            return names[i].name;
    return lml_unit_at(id)->name;
}

/* What GNU units makes of `from` in `to`; fails when it does not know. */
static double ask_gnu(const char *from, const char *to)
{
    char command[200], answer[100] = "";
    snprintf(command, sizeof command, "LC_ALL=C.UTF-8 units -t -o %%.15g '%s' '%s' 2>&1", from, to);
    FILE *pipe = popen(command, "r");
    cr_assert(pipe && fgets(answer, sizeof answer, pipe), "%s gives no answer", command);
    pclose(pipe);
    char *end;
    double x = strtod(answer, &end);
    cr_assert(end != answer, "%s answers %s", command, answer);
    return x;
}

static void need_gnu_units(void)
{
    if (system("command -v units >/dev/null 2>&1") != 0)
        cr_skip_test("GNU units is not installed: nothing was compared with it");
}

Test(unit, agrees_with_gnu_units)
{
    need_gnu_units();
    for (unsigned id = 0; id < LML_U_COUNT; id++) {
        const lml_unit_row *row = lml_unit_at(id);
        if (row->sort == LML_UNIT_POINT)
            continue;
        char si[LML_UNIT_TEXT];
        static const char *const bases[] = {"kg", "m", "s", "K", "A"};
        const int powers[] = {row->dimension.mass, row->dimension.length, row->dimension.time,
                              row->dimension.temperature, row->dimension.current};
        size_t used = (size_t)snprintf(si, sizeof si, "1");
        for (int i = 0; i < 5; i++)
            used += (size_t)snprintf(si + used, sizeof si - used, " %s^%d", bases[i], powers[i]);
        double theirs = ask_gnu(gnu_name(id), si);
        double ours = (double)row->factor.top / (double)row->factor.bottom;
        cr_expect(fabs(ours / theirs - 1) < 1e-10, "%s: ours %.12g, GNU units %.12g", row->name,
                  ours, theirs);
    }
}

Test(unit, points_agree_with_gnu_units)
{
    need_gnu_units();
    static const double at[] = {-40, 0, 32, 212, 1947.524};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++)
        for (unsigned id = LML_U_DEGC; id <= LML_U_DEGF; id++) {
            char from[60];
            snprintf(from, sizeof from, "temp%c(%.15g)", id == LML_U_DEGC ? 'C' : 'F', at[i]);
            const lml_unit_row *row = lml_unit_at(id);
            double ours = at[i] * (double)row->factor.top / (double)row->factor.bottom +
                          (double)row->offset.top / (double)row->offset.bottom;
            cr_expect(fabs(ours - ask_gnu(from, "K")) < 1e-9, "%s", from);
        }
}

Test(unit, every_row_reads_as_itself_and_names_its_source)
{
    for (unsigned id = 1; id < lml_unit_count(); id++) {
        const lml_unit_row *row = lml_unit_at(id);
        cr_expect(*row->source && *row->exact && *row->words, "%s", row->name);
        if (id == LML_U_HUNDRED_G || id == LML_U_K)
            continue;
        lml_dimension d;
        lml_unit u = read_unit(row->name, &d);
        cr_expect(u.id[0] == id && u.power[0] == 1 && u.id[1] == 0, "%s", row->name);
        cr_expect(lml_dimension_equal(d, row->dimension), "%s", row->name);
    }
}

Test(unit, every_name_and_spelling_is_found)
{
    for (unsigned id = 1; id < LML_U_COUNT; id++) {
        const lml_unit_row *row = lml_unit_at(id);
        if (id == LML_U_HUNDRED_G)
            continue;
        cr_expect_eq(lml_unit_table_find(lml_span_of(row->name)), id, "%s", row->name);
        for (const char *at = row->spellings; *at;) {
            size_t length = strcspn(at, " ");
            cr_expect_eq(lml_unit_table_find((lml_span){at, length}), id, "%s: %s", row->name, at);
            at += length + (at[length] == ' ');
        }
    }
    cr_expect_eq(lml_unit_table_find(lml_span_of("USD")), LML_U_COUNT);
    cr_expect_eq(lml_unit_table_find(lml_span_of("floz_imperial")), LML_U_COUNT);
    cr_expect_eq(lml_unit_table_find(lml_span_of("")), LML_U_COUNT);
}

Test(unit, other_spellings_are_the_same_unit)
{
    static const char *const pairs[][2] = {{"µg", "μg"},
                                           {"µg", "ug"},
                                           {"µm", "μm"},
                                           {"µin", "μin"},
                                           {"Δ°C", "∆°C"},
                                           {"Δ°C", "deltaC"},
                                           {"Δ°F", "∆°F"},
                                           {"Δ°F", "deltaF"},
                                           {"L", "l"},
                                           {"mL", "ml"},
                                           {"mL", "cc"},
                                           {"°C", "degC"},
                                           {"°C", "C"},
                                           {"°F", "degF"},
                                           {"°F", "F"},
                                           {"cm3", "cm^3"},
                                           {"cm3", "cm³"},
                                           {"in2", "in²"},
                                           {"J/(g·K)", "J/(g*K)"},
                                           {"J/(g·K)", "J / ( g ⋅ K )"},
                                           {"g/cm3", "g/cm^3"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        lml_dimension d;
        cr_expect(lml_unit_equal(read_unit(pairs[i][0], &d), read_unit(pairs[i][1], &d)), "%s, %s",
                  pairs[i][0], pairs[i][1]);
    }
}

/* millilitre is not cubic centimetre as written, only in size; neither is torr mmHg in either. */
Test(unit, sizes_that_are_and_are_not_equal)
{
    lml_rational a = factor_of("mL"), b = factor_of("cm3");
    cr_expect(lml_rational_compare(a, b) == 0);
    cr_expect(lml_rational_compare(factor_of("torr"), factor_of("mmHg")) < 0);
    lml_rational yard;
    lml_rational_mul(factor_of("in"), (lml_rational){36, 1}, &yard, NULL);
    lml_rational three_feet;
    lml_rational_mul(factor_of("ft"), (lml_rational){3, 1}, &three_feet, NULL);
    cr_expect(lml_rational_compare(yard, three_feet) == 0);
}

Test(unit, compounds_write_as_they_read)
{
    static const char *const texts[] = {"g/cm3",      "A/dm2",      "Δ°F/h", "CAD/ozt", "J/(g·K)",
                                        "mL/(100 g)", "1/K",        "A·h",   "s^2",     "g·mm/s^2",
                                        "USD/(g·h)",  "kg/(m·s^2)", "ppm/h"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        lml_dimension d;
        char out[LML_UNIT_TEXT];
        lml_unit u = read_unit(texts[i], &d);
        cr_expect_eq(lml_unit_write(u, d.currency, out), strlen(texts[i]));
        cr_expect_str_eq(out, texts[i]);
    }
}

Test(unit, currency_stands_in_the_dimension)
{
    lml_dimension d;
    lml_unit u = read_unit("CAD/ozt", &d);
    cr_expect_eq(u.id[0], LML_UNIT_MONEY);
    cr_expect_eq(d.money, 1);
    cr_expect_eq(d.mass, -1);
    cr_expect_str_eq(lml_currency_at(d.currency)->code, "CAD");
    cr_expect_eq(lml_unit_sort_of(read_unit("CAD", &d)), LML_UNIT_CURRENCY);
    cr_expect_eq(lml_unit_sort_of(u), LML_UNIT_PLAIN);
}

static void expect_combined(const char *a, const char *b, bool divide, const char *result)
{
    lml_dimension da = {0}, db = {0}, d;
    lml_unit ua = *a ? read_unit(a, &da) : (lml_unit){0};
    lml_unit ub = *b ? read_unit(b, &db) : (lml_unit){0};
    cr_assert_eq((divide ? lml_dimension_div : lml_dimension_mul)(da, db, &d, NULL), LML_OK);
    char out[LML_UNIT_TEXT];
    lml_unit_write(lml_unit_combine(ua, ub, divide, d), d.currency, out);
    cr_expect_str_eq(out, result, "%s %c %s gives %s, not %s", a, divide ? '/' : '*', b, out,
                     result);
}

Test(unit, products_print_in_a_unit_that_a_person_would_write)
{
    expect_combined("g", "cm3", true, "g/cm3");
    expect_combined("dwt", "in3", true, "dwt/in3");
    expect_combined("g/cm3", "cm3", false, "g");
    expect_combined("g/cm3", "mL", false, "g");
    expect_combined("g", "g/cm3", true, "cm3");
    expect_combined("mm", "mm", false, "mm2");
    expect_combined("in", "in2", false, "in3");
    expect_combined("cm3", "cm", true, "cm2");
    expect_combined("mm", "in", false, "cm2");
    expect_combined("W", "min", false, "kJ");
    expect_combined("g", "%", false, "g");
    expect_combined("%", "g", false, "g");
    expect_combined("%", "", false, "%");
    expect_combined("", "%", false, "%");
    expect_combined("g", "dwt", true, "");
    expect_combined("CAD/ozt", "%", false, "CAD/ozt");
    expect_combined("J/(g·K)", "g", false, "J/K");
    expect_combined("J/K", "J", true, "1/K");
    expect_combined("J", "J/K", true, "Δ°C");
    expect_combined("A/dm2", "dm2", false, "A");
}

/* Whatever it is divided by and multiplied with again, a unit of a factor alone comes back. */
Test(unit, what_stands_above_and_below_falls_away)
{
    for (unsigned a = 0; a < LML_U_COUNT; a++) {
        for (unsigned b = 0; b < LML_U_COUNT; b++) {
            lml_unit one = lml_unit_one(a, 1), other = lml_unit_one(b, 1);
            lml_dimension da = lml_unit_at(a)->dimension, db = lml_unit_at(b)->dimension;
            if (lml_unit_sort_of(one) != LML_UNIT_PLAIN ||
                lml_unit_sort_of(other) != LML_UNIT_PLAIN || lml_dimension_none(da) ||
                lml_dimension_none(db) || a == LML_U_K)
                continue;
            lml_unit quotient = {{(uint8_t)a, (uint8_t)b}, {1, -1}};
            lml_unit product = lml_unit_combine(quotient, other, false, da);
            lml_unit turned = lml_unit_combine(other, quotient, false, da);
            lml_unit divisor = lml_unit_combine(one, quotient, true, db);
            cr_expect(lml_unit_equal(product, one), "%s / %s * %s", lml_unit_at(a)->name,
                      lml_unit_at(b)->name, lml_unit_at(b)->name);
            cr_expect(lml_unit_equal(turned, product), "%s * (%s / %s)", lml_unit_at(b)->name,
                      lml_unit_at(a)->name, lml_unit_at(b)->name);
            cr_expect(b == LML_U_K || lml_unit_equal(divisor, other), "%s / (%s / %s)",
                      lml_unit_at(a)->name, lml_unit_at(a)->name, lml_unit_at(b)->name);
        }
    }
}

Test(unit, usual_units_have_the_dimension_that_they_are_for)
{
    for (int mass = -1; mass <= 1; mass++)
        for (int length = -3; length <= 3; length++)
            for (int time = -3; time <= 1; time++)
                for (int temperature = -1; temperature <= 1; temperature++)
                    for (int money = 0; money <= 1; money++) {
                        lml_dimension d = {.mass = (int8_t)mass,
                                           .length = (int8_t)length,
                                           .time = (int8_t)time,
                                           .temperature = (int8_t)temperature,
                                           .money = (int8_t)money,
                                           .currency = money ? 1 : 0};
                        lml_unit u = lml_unit_usual(d);
                        lml_dimension got = {0};
                        lml_unit_dimension(u, 1, &got, NULL);
                        int bases =
                            (mass != 0) + (length != 0) + (time != 0) + (temperature != 0) + money;
                        cr_expect(lml_dimension_equal(got, d) || (bases == 5 && lml_unit_none(u)));
                    }
}
