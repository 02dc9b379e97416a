#include "read/read.h"
#include "unit/currency.h"
#include "value/moment.h"
#include "read/term.h"
#include "unit/unit_table.h"
#include <stdio.h>
#include <string.h>

static lml_span after(lml_span text, size_t bytes)
{
    return lml_span_trim((lml_span){text.at + bytes, text.length - bytes});
}

static bool digits(lml_span text, size_t from, size_t count)
{
    for (size_t i = from; i < from + count; i++)
        if (i >= text.length || text.at[i] < '0' || text.at[i] > '9')
            return false;
    return true;
}

static bool stands(lml_span text, size_t at, char c)
{
    return at < text.length && text.at[at] == c;
}

/* ---- the calendar ---- */

typedef lml_status calendar_reader(lml_span, lml_value *, lml_error *);

/* The reader of the calendar kind that `text` looks like or that is expected, or NULL. */
static calendar_reader *calendar(lml_span text, lml_wanted wanted)
{
    if (digits(text, 0, 4) && stands(text, 4, '-'))
        return lml_moment_read;
    if (digits(text, 0, 1) && (stands(text, 1, ':') || stands(text, 2, ':')))
        return lml_moment_read_time_of_day;
    for (int day = 1; day <= 7; day++)
        if (lml_span_is(text, lml_moment_weekday_name(day)))
            return lml_moment_read_weekday;
    switch (wanted) {
    case LML_WANT_MOMENT:
        return lml_moment_read;
    case LML_WANT_TIME_OF_DAY:
        return lml_moment_read_time_of_day;
    case LML_WANT_WEEKDAY:
        return lml_moment_read_weekday;
    default:
        return NULL;
    }
}

/* "40:100", where a ratio is expected. */
static lml_status refuse_proportion(lml_span text, lml_error *err)
{
    lml_fail(err, LML_BAD_VALUE, "a ratio is needed, but \"%.*s\" is a proportion",
             (int)text.length, text.at);
    lml_error_hint(err, "write the first as a share of the second: 40:100 is 40 %%");
    lml_error_label_part(err, text, text, "a ratio");
    return LML_BAD_VALUE;
}

/* ---- amounts and units ---- */

/* The index of a currency whose code comes first with an amount behind it, or 0. */
static uint16_t leading_currency(lml_span text)
{
    uint16_t currency = text.length < 4 ? 0 : lml_currency_by_code((lml_span){text.at, 3});
    if (currency && !strchr(" \t+-0123456789", text.at[3]) && (text.at[3] & 0x80) == 0)
        return 0; /* a longer word */
    return currency;
}

/* "USD 12.50" */
static lml_status read_code_first(const lml_reading *r, lml_span text, uint16_t currency,
                                  lml_value *out)
{
    lml_span rest = after(text, 3);
    lml_amount a;
    size_t used;
    lml_value v = {.kind = LML_MONEY,
                   .decimals = LML_SHORTEST,
                   .dimension = {.money = 1, .currency = currency},
                   .unit = lml_unit_one(LML_UNIT_MONEY, 1)};
    lml_status s = lml_amount_read(r->whole, rest, &a, &used, r->err);
    if (s == LML_OK && used != rest.length)
        s = lml_reading_refuse(r, after(rest, used), "not understood",
                               "only an amount may follow a leading currency",
                               "write the currency after the number: 12.50 USD");
    s = s ? s : lml_term_money(r, &a, &v.exact);
    if (s == LML_OK)
        *out = v;
    return s;
}

/* The first ± in `text`, in any of its spellings: its bytes (0 when there is none), and *at. */
static size_t find_plus_minus(lml_span text, size_t *at)
{
    static const char *const signs[] = {"±", "+-", "+/-"};
    for (*at = 0; *at < text.length; ++*at)
        for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
            if (lml_span_starts((lml_span){text.at + *at, text.length - *at}, signs[i]))
                return strlen(signs[i]);
    return 0;
}

static bool has_digit(lml_span text)
{
    size_t i = 0;
    while (i < text.length && !lml_span_digit_at(text, i))
        i++;
    return i < text.length;
}

/* amount unit [ "±" amount unit ]  |  amount ".." amount unit */
static lml_status read_terms(const lml_reading *r, lml_span text, lml_value *v)
{
    lml_term first = {0}, second = {0};
    size_t used, at = 0;
    lml_status s = lml_amount_read(r->whole, text, &first.amount, &used, r->err);
    const char *like = lml_wanted_example(r->wanted);
    if (s != LML_OK && r->wanted != LML_WANT_ANYTHING && !has_digit(text) &&
        has_digit(lml_span_of(like))) /* a word, where a figure is due */
        lml_error_hint(r->err, "write it like %s", like);
    if (s != LML_OK)
        return s;
    lml_span rest = after(text, used);
    bool range = lml_span_starts(rest, "..");
    size_t sign = range ? 2 : find_plus_minus(rest, &at);
    if (!range) {
        s = lml_term_read_unit(r, (lml_span){rest.at, at}, &first);
        s = s ? s : lml_term_classify(r, &first, v);
        if (s == LML_OK && sign == 0)
            return lml_term_single(r, &first, v);
    }
    if (s != LML_OK)
        return s;

    second.spreads_karats =
        !range && v->kind == LML_FINENESS && lml_unit_sort_of(first.unit) == LML_UNIT_KARAT;
    lml_span tail = after(rest, at + sign);
    s = lml_amount_read(r->whole, tail, &second.amount, &used, r->err);
    s = s ? s : lml_term_read_unit(r, after(tail, used), &second);
    if (s != LML_OK)
        return s;
    if (!range)
        return lml_term_deviation(r, &first, &second, v);
    lml_amount low = first.amount;
    first = second;
    first.amount = low;
    s = lml_term_classify(r, &first, v);
    return s ? s : lml_term_between(r, &first, &second, v);
}

/* "1 h 30 min", of whole numbers except the last: written as so many of the last unit, "90 min".
 * False when it is no such text. */
static bool join_times(lml_span text, char *out, size_t size)
{
    static const struct {
        const char *name;
        int most, in_next; /* of the next larger one; how many of the next smaller it has */
    } units[] = {{"d", 9999, 24}, {"h", 23, 60}, {"min", 59, 60}, {"s", 59, 1}};
    enum { UNITS = sizeof units / sizeof *units };
    long total = 0;
    int unit = -1, terms = 0;
    while (text.length) {
        long whole = 0;
        size_t n = 0;
        for (; digits(text, n, 1) && n < 5; n++)
            whole = whole * 10 + (text.at[n] - '0');
        lml_span fraction = {text.at + n, 0};
        if (stands(text, n, '.'))
            for (fraction.length = 1; digits(text, n + fraction.length, 1);)
                fraction.length++;
        lml_span rest = after(text, n + fraction.length);
        size_t letters = 0;
        while (letters < rest.length && rest.at[letters] != ' ' && rest.at[letters] != '\t')
            letters++;
        int next = 0;
        while (next < UNITS && !lml_span_is((lml_span){rest.at, letters}, units[next].name))
            next++;
        if (n == 0 || next == UNITS || next <= unit || (terms && whole > units[next].most))
            return false;
        for (int i = unit; terms && i < next; i++)
            total *= units[i].in_next;
        total += whole;
        unit = next;
        terms++;
        text = after(rest, letters);
        if (text.length && (fraction.length || total > 9999))
            return false;
        if (!text.length && terms > 1)
            return (size_t)snprintf(out, size, "%ld%.*s %s", total, (int)fraction.length,
                                    fraction.at, units[unit].name) < size;
    }
    return false;
}

static lml_status check_text(lml_span text, lml_wanted wanted, lml_error *err)
{
    if (text.length == 0) {
        lml_fail(err, LML_BAD_VALUE, "a value is needed, but the text is empty");
        lml_error_hint(err, "write it like %s", lml_wanted_example(wanted));
        return LML_BAD_VALUE;
    }
    if (text.length > LML_VALUE_TEXT_MOST) {
        lml_fail(err, LML_BAD_VALUE, "a text of %zu bytes is too long for a value", text.length);
        lml_error_hint(err, "a value has at most %d bytes", LML_VALUE_TEXT_MOST);
        return LML_BAD_VALUE;
    }
    if (lml_text_check_utf8(text, err) != LML_OK) {
        lml_fail(err, LML_BAD_VALUE, "a value must be valid UTF-8 text");
        lml_error_hint(err, "save the file as UTF-8");
        return LML_BAD_VALUE;
    }
    for (size_t i = 0; i < text.length; i++)
        if ((unsigned char)text.at[i] < ' ' && text.at[i] != '\t') {
            lml_fail(err, LML_BAD_VALUE, "a value contains a control character");
            lml_error_hint(err, "write the value on one line");
            return LML_BAD_VALUE;
        }
    return LML_OK;
}

lml_status lml_read_value(lml_span text, lml_wanted wanted, lml_metal metal, lml_value *out,
                          lml_error *err)
{
    lml_span trimmed = lml_span_trim(text);
    if (lml_read_value_plain(trimmed, wanted, out))
        return LML_OK;
    lml_status s = check_text(trimmed, wanted, err);
    if (s != LML_OK)
        return s;
    if (wanted == LML_WANT_RATIO && memchr(trimmed.at, ':', trimmed.length))
        return refuse_proportion(trimmed, err);
    char joined[80];
    if ((wanted == LML_WANT_TIME || wanted == LML_WANT_ANYTHING) &&
        join_times(trimmed, joined, sizeof joined))
        return lml_read_value(lml_span_of(joined), wanted, metal, out, err);
    lml_reading r = {trimmed, wanted, metal, err};
    lml_value v;
    calendar_reader *read_calendar = calendar(trimmed, wanted);
    uint16_t currency = leading_currency(trimmed);
    if (read_calendar)
        s = read_calendar(trimmed, &v, err);
    else if (currency)
        s = read_code_first(&r, trimmed, currency, &v);
    else
        s = read_terms(&r, trimmed, &v);
    if (s != LML_OK)
        return s;
    s = lml_wanted_check(wanted, &v, err);
    if (s != LML_OK) {
        lml_error_label_part(err, trimmed, trimmed, lml_wanted_words(wanted));
        return s;
    }
    *out = v;
    return LML_OK;
}
