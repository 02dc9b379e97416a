/* Most values are read the short way, which must come to what the reader of the whole grammar says:
 * a sign, which the short way does not take, sends the same value the long way round. */
#include "unit/currency.h"
#include "read/read.h"
#include "unit/unit.h"
#include "value/wanted.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

static void expect_alike(const char *amount, const char *unit, lml_wanted wanted)
{
    char text[80], signed_text[sizeof text + 1];
    snprintf(text, sizeof text, "%s%s%s", amount, unit[0] ? " " : "", unit);
    snprintf(signed_text, sizeof signed_text, "+%s", text);
    lml_value a, b;
    memset(&a, 0, sizeof a);
    memset(&b, 0, sizeof b);
    lml_status s = lml_read_value(lml_span_of(text), wanted, LML_NO_METAL, &a, NULL);
    lml_status t = lml_read_value(lml_span_of(signed_text), wanted, LML_NO_METAL, &b, NULL);
    cr_expect_eq(s, t, "%s as %s: %d and %d", text, lml_wanted_name(wanted), s, t);
    if (s || t)
        return;
    cr_expect(a.kind == b.kind && a.mode == b.mode && a.spread == b.spread && a.metal == b.metal &&
                  a.decimals == b.decimals && a.origin == b.origin && a.exact == b.exact &&
                  lml_dimension_equal(a.dimension, b.dimension) && lml_unit_equal(a.unit, b.unit),
              "%s as %s", text, lml_wanted_name(wanted));
}

static const char *const amounts[] = {"0",
                                      "7",
                                      "12.5",
                                      "0.395",
                                      "100.47",
                                      "007",
                                      "9.62",
                                      "0.000001",
                                      "1200",
                                      "3.14159265358979",
                                      "999999999999999",
                                      "0.1234567890123",
                                      "2 1/2",
                                      "1e3",
                                      "1..2",
                                      "5.",
                                      "1,5",
                                      "8.314462618"};
enum { AMOUNTS = sizeof amounts / sizeof amounts[0] };

static const lml_wanted wants[] = {
    LML_WANT_ANYTHING,  LML_WANT_MASS,     LML_WANT_LENGTH,      LML_WANT_VOLUME,
    LML_WANT_TIME,      LML_WANT_RATIO,    LML_WANT_TEMPERATURE, LML_WANT_FINENESS,
    LML_WANT_FINE_MASS, LML_WANT_PRESSURE, LML_WANT_VACUUM,      LML_WANT_MONEY,
    LML_WANT_PRICE,     LML_WANT_NUMBER,   LML_WANT_WHOLE,       LML_WANT_ENERGY};
enum { WANTS = sizeof wants / sizeof wants[0] };

Test(read_plain, comes_to_what_the_whole_grammar_says)
{
    static const char *const others[] = {"",   "USD",      "JPY",  "usd", "g/cm3", "K",
                                         "oz", "inHg vac", "‰ Au", "c",   "gg",    "μm"};
    for (int w = 0; w < WANTS; w++)
        for (int i = 0; i < AMOUNTS; i++) {
            for (size_t u = 0; u < lml_unit_count(); u++)
                expect_alike(amounts[i], lml_unit_at(u)->name, wants[w]);
            for (size_t o = 0; o < sizeof others / sizeof others[0]; o++)
                expect_alike(amounts[i], others[o], wants[w]);
        }
}

/* A fineness and a fine mass name their metal, which the short way does not read; and a unit alone
 * is no amount. */
Test(read_plain, leaves_what_names_a_metal_to_the_whole_grammar)
{
    lml_value v;
    cr_expect(lml_read_value_plain(lml_span_of("5 g"), LML_WANT_MASS, &v));
    cr_expect_not(lml_read_value_plain(lml_span_of("5 g"), LML_WANT_FINE_MASS, &v));
    cr_expect(lml_read_value_plain(lml_span_of("585 ‰"), LML_WANT_RATIO, &v));
    cr_expect_not(lml_read_value_plain(lml_span_of("585 ‰"), LML_WANT_FINENESS, &v));
    cr_expect_not(lml_read_value_plain(lml_span_of("g"), LML_WANT_MASS, &v));
    cr_expect_not(lml_read_value_plain(lml_span_of(""), LML_WANT_NUMBER, &v));
}
