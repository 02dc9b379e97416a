/* What the reader refuses, in which words, and with which mend. */
#include <criterion/criterion.h>

#include "read/read.h"
#include "value/wanted.h"

#include <string.h>

enum { WORDS = 5 };

typedef struct refusal {
    const char *text;
    lml_wanted wanted;
    lml_metal metal;
    const char *message[WORDS], *hint[WORDS];
} refusal;

#define ANY LML_WANT_ANYTHING, LML_NO_METAL
#define DUE(kind) LML_WANT_##kind, LML_NO_METAL
#define GOLD LML_WANT_FINENESS, LML_Au

/* The sizes in the refusals of ambiguous units are those of tests/reference/units.tsv, times three.
 */
static const refusal refusals[] = {
    /* numbers */
    {"11,2 g", ANY, {"11,2 g", "comma"}, {"write 11.2 g"}},
    {"-11,2 g", ANY, {"comma"}, {"write -11.2 g"}},
    {"1,234 g", ANY, {"comma"}, {"two things", "1.234 g", "1234 g"}},
    {"0,234 g", ANY, {"comma"}, {"write 0.234 g"}},
    {"1,234.5 g", ANY, {"comma"}, {"write 1234.5 g"}},
    {"1.234,5 g", ANY, {"comma"}, {"write 1234.5 g"}},
    {"1,234,567 g", ANY, {"comma"}, {"write 1234567 g"}},
    {"USD 1,149.00", ANY, {"comma"}, {"1149.00"}},
    {"1 234 g", ANY, {"number follows a number"}, {"1234 g"}},
    {"inf g", ANY, {"inf"}, {"number that was meant"}},
    {"-Infinity g", ANY, {"inf"}, {"number that was meant"}},
    {"NaN", ANY, {"nan"}, {"number that was meant"}},
    {"0x10 g", ANY, {"hexadecimal"}, {"decimal"}},
    {".5 g", ANY, {"start with a point"}, {"0.5 g"}},
    {"5. g", ANY, {"end in a point"}, {"1.0"}},
    {".", ANY, {"has no number where one is needed"}, {"12.5 g"}},
    {".g", ANY, {"has no number where one is needed"}, {"12.5 g"}},
    {"12 g..", ANY, {"range has its unit once"}, {"12.3..12.5 g"}},
    {"12.3 g..12.5 g", ANY, {"range has its unit once"}, {"12.3..12.5 g"}},
    {"12 .g", ANY, {"\".g\" is not a known unit"}, {"kg"}},
    {"12 g.", ANY, {"\"g.\" is not a known unit"}, {"mean g"}},
    {"12 g.cm", ANY, {"\"g.cm\" is not a known unit"}, {"lemel units"}},
    {"1.2.3 g", ANY, {"one decimal point"}, {"1234.5"}},
    {"2 3/2 in", ANY, {"fraction"}, {"2 1/2"}},
    {"1/0 in", ANY, {"fraction"}, {"2 1/2"}},
    {"g", ANY, {"no number"}, {"12.5 g"}},
    {"about 12 g", ANY, {"no number"}, {"12.5 g"}},
    {"", ANY, {"the text is empty"}, {"12.5 g"}},
    {"12 g\n13 g", ANY, {"control character"}, {"one line"}},
    {"12 \xff", ANY, {"UTF-8"}, {"UTF-8"}},
    /* units that could be two */
    {"3 oz", ANY, {"3 ozt", "93.3104304 g", "3 oz_av", "85.048569375 g"}, {"ozt", "oz_av"}},
    {"1/2 oz", ANY, {"1/2 ozt", "15.5517384 g", "14.1747615625 g"}, {"ozt", "oz_av"}},
    {"3 gr", ANY, {"3 grain", "0.19439673 g", "3 g (gram"}, {"grain or g"}},
    {"3 floz", ANY, {"floz_us", "88.7205886875 mL", "floz_imp", "85.2391875 mL"}, {"floz_us"}},
    {"3 cal", ANY, {"cal_th", "12.552 J", "cal_IT", "12.5604 J"}, {"cal_th or cal_IT"}},
    {"3 Btu", ANY, {"Btu_IT", "3165.16755786 J", "Btu_th", "3163.05079346666"}, {"Btu_IT"}},
    {"3 tael", ANY, {"Hong Kong", "112.287 g", "Taiwan", "112.5 g"}, {"in g"}},
    {"3 carat", ANY, {"3 ct", "0.6 g", "3 kt", "125 ‰"}, {"ct or kt"}},
    {"12 CAD/oz", ANY, {"ozt", "oz_av"}, {"ozt or oz_av"}},
    {"14 K", ANY, {"14 karat", "14 kelvin"}, {"14 kt", "14 Δ°C", "14 kelvin"}},
    {"14K", DUE(MASS), {"14 karat", "14 kelvin"}, {"14 kt"}},
    {"200 K", ANY, {"difference", "temperature"}, {"200 Δ°C", "200 kelvin"}},
    /* units that are none */
    {"12 g junk", ANY, {"after the unit"}, {"one value"}},
    {"12 g)", ANY, {"after the unit"}, {"one value"}},
    {"5 J/g/K", ANY, {"one slash"}, {"J/(g·K)"}},
    {"5 J/g·K", ANY, {"J/(g·K)", "J·K/g"}, {"parentheses", "J/(g·K)"}},
    {"5 J/g*K", ANY, {"J/(g·K)", "J·K/g"}, {"J/(g·K)"}},
    {"40 mL/100 g", ANY, {"a number inside"}, {"40 mL/(100 g)"}},
    {"40 100 g/mL", ANY, {"number follows"}, {"1234 g"}},
    {"5 g/", ANY, {"unit is missing"}, {"g/cm3"}},
    {"5 g·", ANY, {"unit is missing"}, {"g/cm3"}},
    {"5 g/(cm3", ANY, {"not closed"}, {"J/(g·K)"}},
    {"5 g/(cm3/s)", ANY, {"not closed"}, {"no slash inside"}},
    {"5 cm^", ANY, {"power"}, {"cm^3"}},
    {"5 cm^10", ANY, {"from 1 to 9"}, {"cm^3"}},
    {"5 cm^0", ANY, {"from 1 to 9"}, {"cm^3"}},
    {"5 g·g·g·g·g", ANY, {"four factors"}, {"combine"}},
    {"5 grs", ANY, {"grain", "gram"}, {"grain", "g"}},
    {"1 fl oz", ANY, {"floz_us", "floz_imp"}, {"floz_us", "floz_imp"}},
    {"3 kt/h", ANY, {"fineness", "compound"}, {"fine mass"}},
    {"5 mdwt", ANY, {"mdwt", "dwt takes no such prefix"}, {"in dwt"}},
    {"5 kozt", ANY, {"ozt takes no such prefix"}, {"in ozt"}},
    {"5 grams", ANY, {"grams"}, {"write g"}},
    {"5 troy ounces", ANY, {"not a known unit"}, {"write ozt"}},
    {"5 Kg", ANY, {"Kg"}, {"did you mean kg"}},
    {"5 dwtt", ANY, {"dwtt"}, {"did you mean dwt"}},
    {"5 usd", ANY, {"usd"}, {"did you mean USD"}},
    {"5 xyzzy", ANY, {"xyzzy"}, {"lemel units"}},
    {"5 CAD/USD", ANY, {"two currencies"}, {"one currency"}},
    {"USD 12 g", ANY, {"only an amount"}, {"12.50 USD"}},
    /* out of range */
    {"-300 °C", ANY, {"absolute zero"}, {"-273.15 °C", "Δ"}},
    {"-460 °F", ANY, {"absolute zero"}, {"-273.15 °C"}},
    {"-1 kelvin", ANY, {"absolute zero"}, {"-273.15 °C"}},
    {"-300..20 °C", ANY, {"absolute zero"}, {"-273.15 °C"}},
    {"0.1234567 USD", ANY, {"six decimals"}, {"round"}},
    {"0.1234567..1 USD", ANY, {"six decimals"}, {"round"}},
    {"1/3 USD", ANY, {"six decimals"}, {"round"}},
    /* spreads */
    {"12.4 g ± -0.1 g", ANY, {"negative"}, {"without a sign"}},
    {"12.4 ± 0.1 g", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"12.4 g ± 0.1", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"12.4 g ± 1 %", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"12.4 g ± 0.1 mL", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"20 Δ°C ± 5 °C", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"12.4 USD ± 1 CAD", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"585 ‰ Au ± 3 ‰ Ag", ANY, {"same kind"}, {"12.4 g ± 0.1 g"}},
    {"12.4 g ±", ANY, {"no number"}, {"12.5 g"}},
    {"12.5..12.3 g", ANY, {"wrong way round", "12.5", "12.3"}, {"12.3..12.5 g"}},
    {"12.3 g..12.5 g", ANY, {"unit once"}, {"12.3..12.5 g"}},
    {"12.3..12.5 g ± 1 g", ANY, {"after the unit"}, {"one value"}},
    /* metals */
    {"7.5 g gold", ANY, {"symbol", "gold"}, {"write Au"}},
    {"7.5 mL Au", ANY, {"mass", "ratio"}, {"7.5 g Au"}},
    {"14 kt Pt", ANY, {"gold"}, {"‰"}},
    {"3 Δ‰", ANY, {"metal is not named"}, {"Δ‰ Au"}},
    {"1001 ‰ Au", ANY, {"0 ‰ and 1000 ‰"}, {"24 kt"}},
    {"25 kt", ANY, {"0 ‰ and 1000 ‰"}, {"24 kt"}},
    {"-1 ‰ Au", ANY, {"0 ‰ and 1000 ‰"}, {"never negative"}},
    /* what is due */
    {"3.1 mL", DUE(MASS), {"a mass is needed", "3.1 mL is a volume"}, {"12.5 g"}},
    {"12.5", DUE(MASS), {"a mass is needed", "12.5 is a number"}, {"unit"}},
    {"12.5 g Au", DUE(MASS), {"a mass is needed", "fine mass of gold"}, {"metal's name"}},
    {"22:00", DUE(MASS), {"a mass is needed", "22:00 is a time of day"}, {"12.5 g"}},
    {"7.5 g", DUE(FINE_MASS), {"a fine mass is needed", "a mass"}, {"7.5 g Au"}},
    {"0.5", DUE(RATIO), {"a ratio is needed", "0.5"}, {"0.5 %", "50 %"}},
    {"0.4 mL/g", DUE(RATIO), {"a ratio is needed", "volume per mass"}, {"0.5 %"}},
    {"2 %", DUE(NUMBER), {"a number is needed", "ratio"}, {"0.93"}},
    {"2.5", DUE(WHOLE), {"whole number is needed", "2.5"}, {"2"}},
    {"20 Δ°C", DUE(TEMPERATURE), {"a temperature is needed", "difference"}, {"Δ", "°C"}},
    {"20 °C", DUE(TEMPERATURE_DIFFERENCE), {"difference is needed"}, {"20 Δ°C"}},
    {"68 °F", DUE(TEMPERATURE_DIFFERENCE), {"difference is needed"}, {"68 Δ°F"}},
    {"20 K", DUE(TEMPERATURE_DIFFERENCE), {"20 kelvin"}, {"20 Δ°C"}},
    {"21.5 inHg",
     DUE(VACUUM),
     {"a vacuum is needed", "pressure"},
     {"21.5 inHg vac", "21.5 inHg abs"}},
    {"21.5 inHg abs",
     DUE(VACUUM),
     {"a vacuum is needed", "absolute"},
     {"below the surrounding air"}},
    {"21.5 inHg vac", DUE(PRESSURE), {"a pressure is needed", "a vacuum"}, {"air pressure", "abs"}},
    {"5 g vac", ANY, {"pressure only"}, {"leave"}},
    {"5 Pa/s abs", ANY, {"pressure only"}, {"leave"}},
    {"12 USD", DUE(PRICE), {"a price", "is needed", "amount of USD"}, {"98.50 USD/g"}},
    {"12 USD/g", DUE(MONEY), {"amount of money is needed", "price"}, {"42.00 USD"}},
    {"1.6 ct", GOLD, {"carat for gems"}, {"1.6 kt"}}, /* a stone: 333 is the lowest gold */
    {"25 carat", GOLD, {"weight of gems"}, {"25 kt"}},
    {"14 ct", LML_WANT_FINENESS, LML_Ag, {"of silver is needed"}, {"karats are for gold"}},
    {"14k", GOLD, {"karat"}, {"14 kt"}},
    {"58.5 %", GOLD, {"ratio"}, {"585 ‰"}},
    {"585", GOLD, {"a fineness is needed"}, {"585 ‰"}},
    {"14", GOLD, {"a fineness is needed"}, {"14 kt", "14 ‰"}},
    {"585 ‰", DUE(FINENESS), {"metal is not named"}, {"585 ‰ Au"}},
    {"1001 ‰", GOLD, {"1000 ‰"}, {"1000 ‰"}},
    {"925 ‰ Ag", GOLD, {"of gold is needed", "of silver"}, {"metal"}},
    {"14 kt",
     LML_WANT_FINENESS,
     LML_Ag,
     {"of silver is needed", "of gold"},
     {"karats are for gold"}},
    {"7.5 g Au", LML_WANT_FINE_MASS, LML_Ag, {"of silver is needed", "of gold"}, {"metal"}},
    /* the calendar */
    {"2026-02-30", ANY, {"does not exist"}, {"28 days"}},
    {"24:00", ANY, {"not a time of day"}, {"0:00"}},
    {"12 g", DUE(MOMENT), {"not a date"}, {"2026-11-24"}},
    {"sat", DUE(WEEKDAY), {"not a weekday"}, {"Saturday"}},
    /* never a value with a unit */
    {"cuff links", DUE(TEXT), {"no number"}, {"12.5 g"}},
};

static void expect_words(const refusal *r, const char *what, const char *said,
                         const char *const *words)
{
    for (int i = 0; i < WORDS && words[i]; i++)
        cr_expect(strstr(said, words[i]), "%s: the %s \"%s\" does not say \"%s\"", r->text, what,
                  said, words[i]);
}

Test(refusal, says_what_clashes_and_how_to_mend_it)
{
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        const refusal *r = &refusals[i];
        lml_error err = {0};
        lml_value v = lml_value_number(77);
        lml_status s = lml_read_value(lml_span_of(r->text), r->wanted, r->metal, &v, &err);
        cr_expect_eq(s, LML_BAD_VALUE, "\"%s\" gives %s", r->text, lml_status_name(s));
        cr_expect_eq(err.status, LML_BAD_VALUE);
        cr_expect_eq(v.amount, 77, "out is written on success only");
        expect_words(r, "message", err.message, r->message);
        expect_words(r, "hint", err.hint, r->hint);
        cr_expect_eq(lml_read_value(lml_span_of(r->text), r->wanted, r->metal, &v, NULL),
                     LML_BAD_VALUE, "\"%s\" without an error block", r->text);
    }
}

Test(refusal, labels_what_is_wrong)
{
    static const struct {
        const char *text, *part;
        lml_wanted wanted;
    } cases[] = {
        {"11,2 g", ",", LML_WANT_ANYTHING},       {"3 oz", "oz", LML_WANT_ANYTHING},
        {" 3 oz ", "oz", LML_WANT_ANYTHING},      {"14 K", "K", LML_WANT_ANYTHING},
        {"12 g junk", "junk", LML_WANT_ANYTHING}, {"5 J/g/K", "/", LML_WANT_ANYTHING},
        {"5 J/g·K", "·K", LML_WANT_ANYTHING},     {"5 g/dwtt", "dwtt", LML_WANT_ANYTHING},
        {"-300 °C", "-300", LML_WANT_ANYTHING},   {"1.6 ct", "ct", LML_WANT_FINENESS},
        {"585 ‰", "‰", LML_WANT_FINENESS},        {"925 ‰ Ag", "Ag", LML_WANT_FINENESS},
        {"12 g ± 1 %", "1 %", LML_WANT_ANYTHING}, {"12.5..12.3 g", "12.5", LML_WANT_ANYTHING},
        {"3.1 mL", "3.1 mL", LML_WANT_MASS},      {"1e400 g", "1e400", LML_WANT_ANYTHING},
        {"5 g vac", "vac", LML_WANT_ANYTHING},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        lml_error err = {0};
        lml_value v;
        lml_metal metal = strcmp(cases[i].part, "Ag") == 0 ? LML_Au : LML_NO_METAL;
        lml_read_value(lml_span_of(cases[i].text), cases[i].wanted, metal, &v, &err);
        cr_assert_eq(err.labels, 1, "%s has %d labels", cases[i].text, err.labels);
        const lml_label *l = &err.label[0];
        cr_expect(strlen(cases[i].part) == l->length &&
                      memcmp(l->text + l->offset, cases[i].part, l->length) == 0,
                  "%s labels %.*s", cases[i].text, l->length, l->text + l->offset);
    }
}

Test(refusal, overflow_has_its_own_status)
{
    static const char *const texts[] = {"5 m^9·m^9",
                                        "1e400 g",
                                        "-1e400 g",
                                        "1e9999 °F",
                                        "1e-400 g",
                                        "1e400 USD",
                                        "9223372036854.775808 USD",
                                        "1 g ± 1e400 g",
                                        "1..1e400 g"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        lml_error err = {0};
        lml_value v;
        cr_expect_eq(
            lml_read_value(lml_span_of(texts[i]), LML_WANT_ANYTHING, LML_NO_METAL, &v, &err),
            LML_OVERFLOW, "%s: %s", texts[i], err.message);
        cr_expect(*err.message && *err.hint, "%s", texts[i]);
    }
}

Test(refusal, a_text_that_is_too_long)
{
    char text[LML_VALUE_TEXT_MOST + 2];
    lml_error err = {0};
    lml_value v;
    memset(text, '1', sizeof text);
    lml_span span = {text, LML_VALUE_TEXT_MOST + 1};
    cr_expect_eq(lml_read_value(span, LML_WANT_NUMBER, LML_NO_METAL, &v, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "too long"));
    span.length--;
    cr_expect_eq(lml_read_value(span, LML_WANT_NUMBER, LML_NO_METAL, &v, &err), LML_OK);
}

/* No short text of the grammar's own alphabet brings the reader down, and each refusal says both
 * what is wrong and what to do. */
Test(refusal, survives_every_short_text)
{
    static const char *const letters[] = {
        "1", "0", ".", ",", "-", "+", "e", "g", "K", "/", "(", ")", "*",   "·", "^",    "²",
        "%", "‰", "½", "±", " ", ":", "A", "u", "°", "C", "Δ", "k", "USD", "T", "\xe2", "x"};
    enum { LETTERS = sizeof letters / sizeof *letters, TEXTS = LETTERS * LETTERS * LETTERS };
    static const char *const starts[] = {"", "1", "2 g"};
    int read = 0;
    for (int n = 0; n < 3 * TEXTS; n++) {
        char text[40];
        strcpy(text, starts[n / TEXTS]);
        for (int rest = n % TEXTS, i = 0; i < 3; i++, rest /= LETTERS)
            strcat(text, letters[rest % LETTERS]);
        lml_error err = {0};
        lml_value v;
        lml_wanted wanted = n % 2 ? LML_WANT_FINENESS : LML_WANT_ANYTHING;
        lml_status s = lml_read_value(lml_span_of(text), wanted, LML_Au, &v, &err);
        if (s == LML_OK)
            read++;
        else if (!*err.message || !*err.hint)
            cr_expect(false, "\"%s\" is refused without a message or a hint", text);
    }
    cr_expect(read > 100 && read < TEXTS, "%d texts were read", read);
}
