/* What a schema's pattern takes of a value is what the reader takes, unit by unit. */
#include "file/shape_pattern.h"

#include "unit/unit.h"

#include <criterion/criterion.h>
#include <regex.h>
#include <stdio.h>
#include <string.h>

enum { UNITS_MOST = 150, NAME = 16 };
static char units[UNITS_MOST][NAME];
static int unit_count;

static void add_unit(const char *at, size_t length)
{
    cr_assert_lt(length, (size_t)NAME);
    cr_assert_lt(unit_count, (int)UNITS_MOST);
    snprintf(units[unit_count++], NAME, "%.*s", (int)length, at);
}

static void list_units(void)
{
    unit_count = 0;
    for (size_t i = 1; i < lml_unit_count(); i++) {
        const lml_unit_row *row = lml_unit_at(i);
        if (strchr(row->name, ' '))
            continue;
        add_unit(row->name, strlen(row->name));
        for (const char *at = row->spellings; *at;) {
            size_t length = strcspn(at, " ");
            add_unit(at, length);
            at += length + (at[length] == ' ');
        }
    }
    add_unit("CAD", 3);
    cr_assert_gt(unit_count, 80);
}

static void compile(const lml_shape *s, regex_t *out)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_shape_pattern_append(s, &b);
    cr_assert_eq(regcomp(out, b.at, REG_EXTENDED | REG_NOSUB), 0, "%s", b.at);
    lml_builder_free(&b);
}

static bool matches(const regex_t *pattern, const char *text)
{
    return regexec(pattern, text, 0, NULL, 0) == 0;
}

static bool is_read(const lml_shape *s, const char *text)
{
    lml_value v;
    return lml_shape_value_text(s, lml_span_of(text), NULL, &v, NULL) == LML_OK &&
           lml_shape_check_per(s, &v, NULL) == LML_OK;
}

/* Shapes of every kind that is written with a unit, and of those that say more than the kind. */
static const lml_shape shapes[] = {
    {.wanted = LML_WANT_MASS},
    {.wanted = LML_WANT_FINE_MASS},
    {.wanted = LML_WANT_FINE_MASS, .metal = LML_Ag},
    {.wanted = LML_WANT_LENGTH},
    {.wanted = LML_WANT_AREA},
    {.wanted = LML_WANT_VOLUME},
    {.wanted = LML_WANT_TIME},
    {.wanted = LML_WANT_TEMPERATURE},
    {.wanted = LML_WANT_TEMPERATURE_DIFFERENCE},
    {.wanted = LML_WANT_RATE},
    {.wanted = LML_WANT_RATIO},
    {.wanted = LML_WANT_FINENESS},
    {.wanted = LML_WANT_FINENESS, .metal = LML_Au, .any_metal = true},
    {.wanted = LML_WANT_DENSITY},
    {.wanted = LML_WANT_PRESSURE},
    {.wanted = LML_WANT_VACUUM},
    {.wanted = LML_WANT_GAUGE},
    {.wanted = LML_WANT_ENERGY},
    {.wanted = LML_WANT_POWER},
    {.wanted = LML_WANT_CURRENT},
    {.wanted = LML_WANT_MONEY},
    {.wanted = LML_WANT_PRICE},
    {.wanted = LML_WANT_PRICE, .per = "h"},
};
enum { SHAPES = sizeof shapes / sizeof *shapes };

/* Karats are gold's alone, and from 8 to 24 where they are written ct, which the pattern does not
 * know. */
static bool is_known_to_differ(const lml_shape *s, const char *unit)
{
    return s->wanted == LML_WANT_FINENESS &&
           (strcmp(unit, "kt") == 0 || strcmp(unit, "K") == 0 || strcmp(unit, "ct") == 0);
}

/* The form with the unit in the place of each @. */
static void put_unit(const char *form, const char *unit, char *out, size_t size)
{
    size_t at = 0;
    for (; *form; form++) {
        size_t length = *form == '@' ? strlen(unit) : 1;
        cr_assert_lt(at + length, size);
        memcpy(out + at, *form == '@' ? unit : form, length);
        at += length;
    }
    out[at] = '\0';
}

Test(shape_pattern, takes_the_units_that_the_reader_takes)
{
    static const char *const forms[] = {"1 @",    "12.5@",         "2 1/2 @", "2½ @",    "1..2 @",
                                        "1e-3 @", "0.5 @ ± 0.1 @", "1 @ vac", "1 @ abs", "1 @ Au",
                                        "1 @ Ag", "1 @ Xy",        "1,5 @",   "1 @^2",   "1 @²",
                                        "1 @^3",  "1 @³",          "@",       "1 1 @",   "1. @",
                                        ".5 @",   "1 @ and more"};
    list_units();
    size_t read = 0;
    for (size_t i = 0; i < SHAPES; i++) {
        const lml_shape *s = &shapes[i];
        regex_t pattern;
        compile(s, &pattern);
        for (int u = 0; u < unit_count; u++)
            for (size_t f = 0; f < sizeof forms / sizeof *forms; f++) {
                char text[80];
                put_unit(forms[f], units[u], text, sizeof text);
                bool due = is_read(s, text);
                if (!due && is_known_to_differ(s, units[u]))
                    continue;
                /* Behind a spread, and in powers of what has factors, it takes more. */
                if (!due && (strstr(text, "±") || strpbrk(text, "^") || strstr(text, "²") ||
                             strstr(text, "³")))
                    continue;
                read += due;
                cr_expect_eq(matches(&pattern, text), due, "%s: \"%s\" is %s",
                             lml_wanted_name(s->wanted), text, due ? "read" : "not read");
            }
        regfree(&pattern);
    }
    cr_expect_gt(read, 800u, "only %zu were read", read);
}

/* Of one unit by another it takes all that is read, and of those kinds that have no such unit
 * nothing. */
Test(shape_pattern, takes_quotients_where_a_kind_has_them)
{
    list_units();
    size_t read = 0;
    for (size_t i = 0; i < SHAPES; i++) {
        const lml_shape *s = &shapes[i];
        bool has = s->wanted == LML_WANT_RATE || s->wanted == LML_WANT_RATIO ||
                   s->wanted == LML_WANT_DENSITY || s->wanted == LML_WANT_PRICE ||
                   s->wanted == LML_WANT_POWER || s->wanted == LML_WANT_CURRENT;
        regex_t pattern;
        compile(s, &pattern);
        for (int u = 0; u < unit_count; u++)
            for (int v = 0; v < unit_count; v++) {
                char text[80];
                snprintf(text, sizeof text, "3 %.15s/%.15s", units[u], units[v]);
                if (has && is_read(s, text)) {
                    cr_expect(matches(&pattern, text), "%s: \"%s\"", lml_wanted_name(s->wanted),
                              text);
                    read++;
                } else if (!has) {
                    cr_expect_not(matches(&pattern, text), "%s: \"%s\"", lml_wanted_name(s->wanted),
                                  text);
                }
            }
        regfree(&pattern);
    }
    cr_expect_gt(read, 500u, "only %zu were read", read);
}

Test(shape_pattern, takes_what_the_guides_write)
{
    static const struct {
        lml_wanted wanted;
        const char *text;
        bool taken;
    } cases[] = {
        {LML_WANT_TIME, "1 h 30 min", true},
        {LML_WANT_TIME, "1 h 30", false},
        {LML_WANT_TEMPERATURE, "580 °C ± 5 Δ°C", true},
        {LML_WANT_TEMPERATURE, "580", false},
        {LML_WANT_RATIO, "40 mL/(100 g)", true},
        {LML_WANT_RATIO, "40:100", false},
        {LML_WANT_MONEY, "USD 12.50", true},
        {LML_WANT_MONEY, "$12.50", false},
        {LML_WANT_MONEY, "12,50 USD", false},
        {LML_WANT_MASS, "1.2 oz", false},
        {LML_WANT_MOMENT, "2026-11-24T14:20", true},
        {LML_WANT_MOMENT, "24.11.2026", false},
        {LML_WANT_TIME_OF_DAY, "7:30", true},
        {LML_WANT_TIME_OF_DAY, "10 pm", false},
        {LML_WANT_WEEKDAY, "Saturday", true},
        {LML_WANT_WEEKDAY, "Sat", false},
        {LML_WANT_RING_SIZE, "US 6 1/4", true},
        {LML_WANT_RING_SIZE, "6 1/4", true},
        {LML_WANT_RING_SIZE, "size 7", false},
        {LML_WANT_DENSITY, "0.96 g/cm^3", true},
        {LML_WANT_DENSITY, "0.96 g / cm³", true},
        {LML_WANT_ENERGY, "2 W·h", true},
        {LML_WANT_RATE, "3 g/(cm2·min)", true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const lml_shape s = {.wanted = cases[i].wanted};
        regex_t pattern;
        compile(&s, &pattern);
        cr_expect_eq(matches(&pattern, cases[i].text), cases[i].taken, "%s", cases[i].text);
        if (s.wanted != LML_WANT_RING_SIZE) /* which is read otherwise */
            cr_expect_eq(is_read(&s, cases[i].text), cases[i].taken, "%s", cases[i].text);
        regfree(&pattern);
    }
    cr_expect_not(lml_shape_pattern_has(LML_WANT_TEXT));
    cr_expect_not(lml_shape_pattern_has(LML_WANT_NUMBER));
    cr_expect(lml_shape_pattern_has(LML_WANT_MASS));
}
