#include <criterion/criterion.h>

#include "unit/currency.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Minor units: ISO 4217 list of 2024-06-25 (package currency-codes 2.2.0, and CLDR where it has the
 * code); CLF and UYW, which have four digits, are units of account and not in circulation. */
Test(currency, minor_units)
{
    static const struct {
        const char *code;
        int minor;
    } published[] = {{"CAD", 2}, {"USD", 2}, {"EUR", 2}, {"GBP", 2}, {"CHF", 2},
                     {"AUD", 2}, {"NZD", 2}, {"SEK", 2}, {"NOK", 2}, {"DKK", 2},
                     {"JPY", 0}, {"KWD", 3}, {"INR", 2}};
    for (size_t i = 0; i < sizeof published / sizeof *published; i++) {
        uint16_t index = lml_currency_by_code(lml_span_of(published[i].code));
        cr_assert(index, "%s", published[i].code);
        cr_expect_eq(lml_currency_at(index)->minor, published[i].minor, "%s", published[i].code);
    }
}

Test(currency, codes_are_exact)
{
    cr_expect_eq(lml_currency_by_code(lml_span_of("usd")), 0);
    cr_expect_eq(lml_currency_by_code(lml_span_of("US")), 0);
    cr_expect_eq(lml_currency_by_code(lml_span_of("")), 0);
    cr_expect_eq(lml_currency_by_code(lml_span_of("XAU")), 0, "gold is no currency here");
    cr_expect_str_eq(lml_currency_at(0)->code, "");
    cr_expect_str_eq(lml_currency_at(60000)->code, "");
    for (uint16_t i = 1; i < lml_currency_count(); i++)
        cr_expect_eq(lml_currency_by_code(lml_span_of(lml_currency_at(i)->code)), i,
                     "%s stands twice", lml_currency_at(i)->code);
}

/* What the package's list has beyond money in circulation: funds and units of account, and codes
 * that were withdrawn after it was made (CUC 2021, HRK 2023, SLL 2024, ZWL 2024). */
static const char beyond[] = "BOV CHE CHW CLF COU MXV USN UYI UYW CUC HRK SLL ZWL";
/* ISO 4217 gives X and two more letters to what no single country issues. Of these only the money
 * of several countries circulates; the others are metals, funds, tests and the want of a currency.
 */
static const char shared[] = "XAF XCD XCG XOF XPF";
/* What was added after it was made. */
static const char later[] = "XCG ZWG";

Test(currency, codes_agree_with_the_debian_package_iso_codes)
{
    FILE *file = fopen("/usr/share/iso-codes/json/iso_4217.json", "rb");
    if (!file)
        cr_skip_test("the package iso-codes is not installed: nothing was compared with it");
    static char text[200000];
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    static const char key[] = "\"alpha_3\": \"";
    int seen = 0;
    for (char *at = strstr(text, key); at; at = strstr(at, key)) {
        at += sizeof key - 1;
        char code[4] = {at[0], at[1], at[2], '\0'};
        bool ours = lml_currency_by_code(lml_span_of(code)) != 0;
        bool circulates =
            code[0] == 'X' ? strstr(shared, code) != NULL : strstr(beyond, code) == NULL;
        cr_expect_eq(ours, circulates, "%s", code);
        seen++;
    }
    cr_expect(seen > 150, "the list was not understood");
    for (uint16_t i = 1; i < lml_currency_count(); i++) {
        char quoted[40];
        snprintf(quoted, sizeof quoted, "%s%s\"", key, lml_currency_at(i)->code);
        cr_expect(strstr(text, quoted) || strstr(later, lml_currency_at(i)->code), "%s",
                  lml_currency_at(i)->code);
    }
}

Test(currency, a_place_has_that_of_its_country)
{
    static const struct {
        const char *place, *code;
    } cases[] = {{"AU", "AUD"},     {"AU-VIC", "AUD"}, {"NO", "NOK"}, {"DE", ""}, /* the euro */
                 {"VE", ""},                                                      /* VED and VES */
                 {"Australia", ""}, {"", ""},          {"A", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        cr_expect_str_eq(lml_currency_at(lml_currency_of_place(lml_span_of(cases[i].place)))->code,
                         cases[i].code, "%s", cases[i].place);
}
