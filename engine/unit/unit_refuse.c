/* Words that are no unit, or could be two: refused with what was probably meant. */
#include "unit/currency.h"
#include "unit/unit_table.h"
#include "unit/unit_sign.h"
#include "unit/unit_refuse.h"
#include <stdio.h>
#include <string.h>

/* One meaning of an ambiguous word: a row of the table, or a size that has no row because nobody
 * may write it. It is shown in `measure`. */
typedef struct meaning {
    uint8_t id, measure;
    const char *name, *words;
    lml_rational size; /* in SI */
} meaning;

/* Sizes without a row: Btu_th, NIST SP 811 (2008), Appendix B.8; tael of Taiwan (10 momme), GNU
 * units 2.22; tael of Hong Kong's gold market, from memory, unverified. */
static const struct {
    const char *word;
    meaning meanings[2];
    const char *mend; /* NULL: write either */
} ambiguous[] = {
    {"oz", {{.id = LML_U_OZT, .measure = LML_U_G}, {.id = LML_U_OZ_AV, .measure = LML_U_G}}, NULL},
    {"gr", {{.id = LML_U_GRAIN, .measure = LML_U_G}, {.id = LML_U_G, .measure = LML_U_G}}, NULL},
    {"grs", {{.id = LML_U_GRAIN, .measure = LML_U_G}, {.id = LML_U_G, .measure = LML_U_G}}, NULL},
    {"fl",
     {{.id = LML_U_FLOZ_US, .measure = LML_U_ML}, {.id = LML_U_FLOZ_IMP, .measure = LML_U_ML}},
     NULL},
    {"floz",
     {{.id = LML_U_FLOZ_US, .measure = LML_U_ML}, {.id = LML_U_FLOZ_IMP, .measure = LML_U_ML}},
     NULL},
    {"cal",
     {{.id = LML_U_CAL_TH, .measure = LML_U_J}, {.id = LML_U_CAL_IT, .measure = LML_U_J}},
     NULL},
    {"carat",
     {{.id = LML_U_CT, .measure = LML_U_G}, {.id = LML_U_KT, .measure = LML_U_PER_MILLE}},
     NULL},
    {"Btu",
     {{.id = LML_U_BTU_IT, .measure = LML_U_J},
      {0, LML_U_J, "Btu_th", "thermochemical, not accepted here", {23722880951, 22500000}}},
     "write Btu_IT, or the energy in J"},
    {"tael",
     {{0, LML_U_G, "tael", "Hong Kong gold market", {37429, 1000000}},
      {0, LML_U_G, "tael", "Taiwan", {3, 80}}},
     "a tael differs from place to place: write the mass in g"},
};
enum { AMBIGUOUS = sizeof ambiguous / sizeof *ambiguous };

/* "3 ozt (troy ounce, 93.3104304 g)" */
static void describe(const meaning *m, const lml_amount *amount, char *out, size_t size)
{
    const lml_unit_row *row = lml_unit_at(m->id), *measure = lml_unit_at(m->measure);
    lml_rational factor = {1, 1};
    /* Factors of the table over a decimal measure stay far inside 64 bits. */
    lml_rational_div(m->id ? row->factor : m->size, measure->factor, &factor, NULL);
    char number[LML_NUMBER_TEXT] = "out of range";
    double x = lml_amount_scale(amount, factor, (lml_rational){0, 1});
    if (x < 1e300 && x > -1e300)
        lml_decimal_write_double(x, number);
    snprintf(out, size, "%.*s %s (%s, %s %s)", LML_SPAN_SHOWN(amount->text),
             m->id ? row->name : m->name, m->id ? row->words : m->words, number, measure->name);
}

lml_status lml_unit_refuse_ambiguous(lml_span whole, lml_span word, const lml_amount *amount,
                                     lml_error *err)
{
    const lml_amount one = {.decimal = {.digits = 1}, .bottom = 1, .text = lml_span_of("1")};
    for (size_t i = 0; i < AMBIGUOUS; i++) {
        if (!lml_span_is(word, ambiguous[i].word))
            continue;
        const meaning *both = ambiguous[i].meanings;
        char first[120], second[120];
        describe(&both[0], amount ? amount : &one, first, sizeof first);
        describe(&both[1], amount ? amount : &one, second, sizeof second);
        lml_fail(err, LML_BAD_VALUE, "%.*s could be %s or %s", LML_SPAN_SHOWN(word), first, second);
        if (ambiguous[i].mend)
            lml_error_hint(err, "%s", ambiguous[i].mend);
        else
            lml_error_hint(err, "write %s or %s", lml_unit_at(both[0].id)->name,
                           lml_unit_at(both[1].id)->name);
        lml_error_label_part(err, whole, word, "two meanings");
        return LML_BAD_VALUE;
    }
    return LML_OK;
}

lml_status lml_unit_refuse_kelvin(lml_span whole, lml_span word, const lml_amount *amount,
                                  lml_error *err)
{
    lml_span n = amount ? amount->text : lml_span_of("20");
    double karats =
        amount ? lml_amount_scale(amount, (lml_rational){1, 1}, (lml_rational){0, 1}) : 0;
    if (karats > 0 && karats <= 24) {
        lml_fail(err, LML_BAD_VALUE, "%.*s K could be %.*s karat or %.*s kelvin", LML_SPAN_SHOWN(n),
                 LML_SPAN_SHOWN(n), LML_SPAN_SHOWN(n));
        lml_error_hint(err,
                       "write %.*s kt for gold, %.*s Δ°C for a temperature difference, %.*s "
                       "kelvin for a temperature",
                       LML_SPAN_SHOWN(n), LML_SPAN_SHOWN(n), LML_SPAN_SHOWN(n));
    } else {
        lml_fail(err, LML_BAD_VALUE, "K alone could be a temperature difference or a temperature");
        lml_error_hint(err, "write %.*s Δ°C for a difference or %.*s kelvin for a temperature",
                       LML_SPAN_SHOWN(n), LML_SPAN_SHOWN(n));
    }
    lml_error_label_part(err, whole, word, "two meanings");
    return LML_BAD_VALUE;
}

/* The row that `word` says in full words ("grams", "troy ounce") or by a mark, or LML_U_COUNT. */
static unsigned find_by_words(lml_span word)
{
    static const struct {
        const char *mark;
        unsigned id;
    } marks[] = {{"\"", LML_U_IN},
                 {"″", LML_U_IN},
                 {"''", LML_U_IN},
                 {"'", LML_U_FT},
                 {"′", LML_U_FT},
                 {"gramm", LML_U_G},
                 {"gramme", LML_U_G},
                 {"grammes", LML_U_G},
                 {"Gramm", LML_U_G},
                 {"percent", LML_U_PERCENT},
                 {"per cent", LML_U_PERCENT}};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (lml_span_is(word, marks[i].mark))
            return marks[i].id;
    bool plural = word.length > 1 && word.at[word.length - 1] == 's';
    lml_span singular = {word.at, word.length - plural};
    for (unsigned id = 1; id < LML_U_COUNT; id++) {
        lml_span row = {lml_unit_at(id)->words, strcspn(lml_unit_at(id)->words, ",")};
        if (lml_span_equal(word, row) || lml_span_equal(singular, row))
            return id;
    }
    return LML_U_COUNT;
}

/* The unit after a metric prefix, when `word` is a prefix glued to a unit that does not take it. */
static unsigned find_after_prefix(lml_span word)
{
    static const char *const prefixes[] = {"k", "m", "µ", "μ", "u", "c", "d", "h", "n", "M", "G"};
    for (size_t i = 0; i < sizeof prefixes / sizeof *prefixes; i++) {
        size_t n = strlen(prefixes[i]);
        if (!lml_span_starts(word, prefixes[i]) || word.length == n)
            continue;
        unsigned id = lml_unit_table_find((lml_span){word.at + n, word.length - n});
        if (id < LML_U_COUNT)
            return id;
    }
    return LML_U_COUNT;
}

/* What people write of money, and the codes of ISO 4217 that it may mean: common practice, no
 * source. */
static const char *codes_of(lml_span word)
{
    static const struct {
        const char *word, *codes;
    } rows[] = {{"kr", "SEK, NOK, DKK or ISK"},
                {"kr.", "SEK, NOK, DKK or ISK"},
                {"Kr", "SEK, NOK, DKK or ISK"},
                {"krona", "SEK or ISK"},
                {"kronor", "SEK"},
                {"kroner", "NOK or DKK"},
                {"euro", "EUR"},
                {"euros", "EUR"},
                {"Euro", "EUR"},
                {"dollar", "USD, CAD, AUD or NZD"},
                {"dollars", "USD, CAD, AUD or NZD"},
                {"quid", "GBP"},
                {"franc", "CHF"},
                {"francs", "CHF"},
                {"Fr.", "CHF"},
                {"SFr.", "CHF"},
                {"zl", "PLN"},
                {"zł", "PLN"},
                {"Kč", "CZK"},
                {"Ft", "HUF"},
                {"yen", "JPY"},
                {"Rs", "INR"},
                {"Rs.", "INR"},
                {"rupees", "INR"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (lml_span_is(word, rows[i].word))
            return rows[i].codes;
    return NULL;
}

lml_status lml_unit_refuse_unknown(lml_span whole, lml_span part, lml_span word, lml_error *err)
{
    if (!err) /* to look for what was meant costs far more than to read, and nobody sees it */
        return LML_BAD_VALUE;
    if (lml_unit_sign_check(whole, word, err))
        return LML_BAD_VALUE;
    lml_nearest near = lml_nearest_to(word);
    for (unsigned id = 1; id < LML_U_COUNT; id++)
        if (id != LML_U_HUNDRED_G)
            lml_nearest_offer(&near, lml_span_of(lml_unit_at(id)->name));
    if (word.length == 3)
        for (uint16_t i = 1; i < lml_currency_count(); i++)
            lml_nearest_offer(&near, lml_span_of(lml_currency_at(i)->code));
    bool other_case = lml_nearest_found(&near) && near.distance == 0;

    const char *codes = codes_of(word);
    if (codes) {
        lml_fail(err, LML_BAD_VALUE, "\"%.*s\" is not how money is written here",
                 LML_SPAN_SHOWN(word));
        lml_error_hint(err, "write the three-letter code of the currency: %s", codes);
        lml_error_label_part(err, whole, word, "which currency");
        return LML_BAD_VALUE;
    }
    unsigned spoken = find_by_words(part), prefixed = find_after_prefix(word);
    if (prefixed < LML_U_COUNT && spoken == LML_U_COUNT && !other_case) {
        const char *name = lml_unit_at(prefixed)->name;
        lml_fail(err, LML_BAD_VALUE, "\"%.*s\" is not a unit: %s takes no such prefix",
                 LML_SPAN_SHOWN(word), name);
        lml_error_hint(err, "write the value in %s", name);
    } else {
        lml_fail(err, LML_BAD_VALUE, "\"%.*s\" is not a known unit", LML_SPAN_SHOWN(word));
        if (lml_span_is(word, "°") || lml_span_starts(word, "degree") || lml_span_is(word, "deg"))
            lml_error_hint(err, "write °C or °F, with Δ before it for a difference");
        else if (lml_span_is(word, "ounce") || lml_span_is(word, "ounces"))
            lml_error_hint(err, "write ozt or oz_av");
        else if (spoken < LML_U_COUNT)
            lml_error_hint(err, "write %s", lml_unit_at(spoken)->name);
        /* Unit names are short: another unit is two letters away, and all are near one letter. */
        else if (lml_nearest_found(&near) && near.distance <= 1 && (word.length > 1 || other_case))
            lml_error_hint(err, "did you mean %.*s?", LML_SPAN_SHOWN(near.best));
        else
            lml_error_hint(err, "lemel units lists the known units");
    }
    lml_error_label_part(err, whole, word, "unknown unit");
    return LML_BAD_VALUE;
}
