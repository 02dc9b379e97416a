#include "papers/price_held.h"

#include "base/decimal.h"
#include "base/text.h"
#include "read/read.h"
#include "value/arithmetic.h"
#include "value/compare.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* A price that trebles, or falls to a third, between two entries of a list that is kept up is a
 * slip of the unit sooner than news: an ounce for a gram is 31.1, a kilogram for a gram 1000.
 * Common practice, no source. What comes near again in another unit is meant so: no two of these
 * units are as close as that. */
static const double FAR = 3, NEAR = 1.5;
static const char *const traded[] = {"g", "ozt", "kg"};

/* What was typed, by another unit; false when that is no price. */
static bool by_another(const lml_price_quoted *q, const char *unit, char text[LML_VALUE_TEXT],
                       lml_value *out)
{
    const char *slash = strchr(q->price, '/');
    if (!slash || (size_t)(slash - q->price) + 8 > LML_VALUE_TEXT)
        return false;
    snprintf(text, LML_VALUE_TEXT, "%.*s/%s", (int)(slash - q->price), q->price, unit);
    return lml_read_value(lml_span_of(text), LML_WANT_PRICE, LML_NO_METAL, out, NULL) == LML_OK;
}

static lml_status refuse_far(const lml_json *stood, const lml_price_quoted *q,
                             const lml_value *price, double times, lml_error *err)
{
    char count[LML_NUMBER_TEXT], text[LML_VALUE_TEXT];
    double much = times > 1 ? times : 1 / times;
    lml_decimal_write_double(much < 100 ? round(much * 10) / 10 : round(much), count);
    lml_json_fail(stood, err, LML_BAD_VALUE, "%s is listed at %.*s, but %s is %s times as %s",
                  lml_metal_name(q->metal), (int)text_of(stood, "price").length,
                  text_of(stood, "price").at, q->price, count, times > 1 ? "much" : "little");
    for (size_t i = 0; i < sizeof traded / sizeof traded[0]; i++) {
        lml_value meant, ratio;
        if (by_another(q, traded[i], text, &meant) &&
            lml_arithmetic_div(&meant, price, &ratio, NULL) == LML_OK && ratio.amount < NEAR &&
            ratio.amount > 1 / NEAR) {
            lml_error_hint(err, "if it is per %s, write \"%s\"; if it is right, add --anyway",
                           traded[i], text);
            return LML_BAD_VALUE;
        }
    }
    lml_error_hint(err, "check the figure and its unit; if it is right, add --anyway");
    return LML_BAD_VALUE;
}

/* A list that is kept up has no gap of more than a year: a date further off is more likely a wrong
 * year than news, and would have every later price refused. Common practice, no source. */
static const int64_t LONG = 366 * 86400;

static lml_status refuse_late(const lml_json *stood, const lml_price_quoted *q, lml_error *err)
{
    const lml_span at = text_of(stood, "at");
    lml_json_fail(stood, err, LML_BAD_VALUE,
                  "the current price is of %.*s, but %s is more than a year later", (int)at.length,
                  at.at, q->at);
    lml_error_hint(err, "check the year; if it is right, add --anyway");
    return LML_BAD_VALUE;
}

bool lml_price_held_corrects(const lml_json *stood, const lml_price_quoted *q)
{
    lml_value at;
    int order = 1;
    bool same =
        lml_read_value(text_of(stood, "at"), LML_WANT_MOMENT, LML_NO_METAL, &at, NULL) == LML_OK &&
        lml_compare(&q->moment, &at, &order, NULL) == LML_OK && order == 0;
    return same && !(lml_span_is(text_of(stood, "price"), q->price) &&
                     lml_span_is(text_of(stood, "from"), q->from));
}

/* Times as much as that price: 0 where it is in another currency. */
static lml_status compare(const lml_json *with, const lml_price_quoted *q, lml_value *price,
                          double *times, lml_error *err)
{
    lml_value ratio;
    lml_status status =
        lml_read_value(text_of(with, "price"), LML_WANT_PRICE, LML_NO_METAL, price, err);
    *times = 0;
    if (status != LML_OK)
        return lml_json_place(with, status, err);
    if (!lml_dimension_equal(price->dimension, q->value.dimension))
        return LML_OK;
    status = lml_arithmetic_div(&q->value, price, &ratio, err);
    if (status == LML_OK)
        *times = ratio.amount;
    return status;
}

static bool is_far(double times)
{
    return times > FAR || times < 1 / FAR;
}

static lml_status check_order(const lml_json *stood, const lml_price_quoted *q, bool anyway,
                              lml_error *err)
{
    lml_value at;
    int order = 0;
    lml_status status =
        lml_read_value(text_of(stood, "at"), LML_WANT_MOMENT, LML_NO_METAL, &at, err);
    if (status == LML_OK)
        status = lml_compare(&q->moment, &at, &order, err);
    if (status != LML_OK)
        return lml_json_place(stood, status, err);
    if (order == 0)
        return lml_json_fail(stood, err, LML_BAD_VALUE, "the list has that price already, of %s",
                             q->at);
    if (order < 0) {
        lml_json_fail(stood, err, LML_BAD_VALUE, "the current price is of %.*s, but %s is earlier",
                      (int)text_of(stood, "at").length, text_of(stood, "at").at, q->at);
        lml_error_hint(
            err,
            "prices can only be added in order; to correct that one, give its moment, --at %.*s",
            (int)text_of(stood, "at").length, text_of(stood, "at").at);
        return LML_BAD_VALUE;
    }
    return q->moment.exact - at.exact > LONG && !anyway ? refuse_late(stood, q, err) : LML_OK;
}

lml_status lml_price_held(const lml_json *stood, const lml_json *wrong, const lml_price_quoted *q,
                          bool anyway, double *change, lml_error *err)
{
    lml_value price = {0}, replaced = {0};
    double times = 0, times_wrong = 0;
    lml_status status = stood ? check_order(stood, q, anyway, err) : LML_OK;
    if (status == LML_OK && stood)
        status = compare(stood, q, &price, &times, err);
    if (status == LML_OK && stood && times == 0) {
        lml_json_fail(stood, err, LML_MISMATCH,
                      "the list is in %.*s, but %s is in another currency",
                      (int)text_of(stood, "price").length, text_of(stood, "price").at, q->price);
        lml_error_hint(err, "no exchange rate is guessed: quote it in the list's currency");
        return LML_MISMATCH;
    }
    if (status == LML_OK && wrong)
        status = compare(wrong, q, &replaced, &times_wrong, err);
    if (status != LML_OK)
        return status;
    *change = times - 1;
    /* A slip is as likely in the one that is replaced: it is enough to be near one of the two. */
    bool near = anyway || (stood && !is_far(times)) || (times_wrong > 0 && !is_far(times_wrong));
    if (near || (!stood && times_wrong == 0))
        return LML_OK;
    return stood ? refuse_far(stood, q, &price, times, err)
                 : refuse_far(wrong, q, &replaced, times_wrong, err);
}

void lml_price_held_by_others(const lml_price_quoted *q, char out[2][LML_VALUE_TEXT])
{
    const char *slash = strchr(q->price, '/'), *code = slash;
    while (code && code > q->price && code[-1] >= 'A' && code[-1] <= 'Z')
        code--;
    for (size_t i = 0; i < 2; i++) {
        char unit[LML_VALUE_TEXT], figure[LML_NUMBER_TEXT];
        lml_value same;
        out[i][0] = '\0';
        if (!slash || strcmp(slash + 1, traded[i]) == 0)
            continue;
        snprintf(unit, sizeof unit, "%.*s/%s", (int)(slash - code), code, traded[i]);
        if (lml_write_as(&q->value, lml_span_of(unit), &same, NULL) == LML_OK) {
            lml_decimal_write_double(round(lml_write_in_unit(&same) * 100) / 100, figure);
            lml_text_join(out[i], LML_VALUE_TEXT, figure, " ", unit);
        }
    }
}
