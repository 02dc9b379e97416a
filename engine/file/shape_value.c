/* A single value of a file, compared with its shape. */
#include "file/shape.h"

#include "read/memo.h"
#include "unit/currency.h"
#include "value/value.h"
#include "value/compare.h"
#include "value/write.h"

#include <stdio.h>
#include <string.h>
#include <math.h>

static lml_status with_hint(lml_error *err, lml_status status, const char *format, const char *a)
{
    lml_error_hint(err, format, a);
    return status;
}

/* Kinds with a unit, and those with a calendar: one text each in the value grammar. */
static bool has_unit(lml_wanted w)
{
    return w > LML_WANT_ANYTHING && w < LML_WANT_NUMBER;
}

static bool has_date(lml_wanted w)
{
    return w == LML_WANT_MOMENT || w == LML_WANT_TIME_OF_DAY || w == LML_WANT_WEEKDAY;
}

/* "write 585 ‰ if it is a fraction of one" as it is written in a file. */
static lml_status hint_quoted(lml_error *err, const char *hint)
{
    static const char WRITE[] = "write ";
    const char *value = hint + (strncmp(hint, WRITE, strlen(WRITE)) == 0 ? strlen(WRITE) : 0);
    const char * or = strstr(value, " or"), *alone = strstr(value, " if");
    const char *end = or &&(!alone || or < alone) ? or : alone ? alone : value + strlen(value);
    char example[LML_EXAMPLE_TEXT];
    snprintf(example, sizeof example, "\"%.*s\"%s", (int)(end - value), value, end);
    return with_hint(err, LML_BAD_DATA, "write it with its unit, in quotes, such as %s", example);
}

lml_status lml_shape_wrong_kind(const lml_shape *s, const lml_json *node, lml_error *err)
{
    char example[LML_EXAMPLE_TEXT];
    const char *due = lml_wanted_words(s->wanted);
    lml_span raw = lml_json_raw(node);
    if (!err)
        return LML_BAD_DATA;
    lml_shape_example_json(s, lml_json_house(node), example, sizeof example);
    switch (lml_json_kind_of(node)) {
    case LML_JSON_NULL:
        lml_json_fail(node, err, LML_BAD_DATA, "null is not a value");
        return with_hint(err, LML_BAD_DATA, "leave out the name, or write %s", example);
    case LML_JSON_NUMBER:
        lml_json_fail(node, err, LML_BAD_DATA, "%.*s is a bare number where %s is needed",
                      (int)raw.length, raw.at, due);
        if (s->wanted == LML_WANT_FINENESS || s->wanted == LML_WANT_RATIO) {
            lml_value number = lml_value_number(lml_json_number(node));
            lml_error meant;
            (void)lml_wanted_check(s->wanted, &number, &meant);
            return hint_quoted(err, meant.hint);
        }
        return with_hint(err, LML_BAD_DATA,
                         has_unit(s->wanted) ? "write it with its unit, in quotes, such as %s"
                                             : "write something like %s",
                         example);
    case LML_JSON_TEXT:
        lml_json_fail(node, err, LML_BAD_DATA, "a text (%.*s) where %s is needed",
                      raw.length > 60 ? 60 : (int)raw.length, raw.at, due);
        return with_hint(err, LML_BAD_DATA, "write something like %s, without quotes around it",
                         example);
    default:
        lml_json_fail(node, err, LML_BAD_DATA, "%s where %s is needed",
                      lml_json_kind_words(lml_json_kind_of(node)), due);
        return with_hint(err, LML_BAD_DATA, "write something like %s", example);
    }
}

/* ---- values ---- */

enum { LEAST, MOST };

static lml_status outside(const lml_json *node, lml_error *err, int which, const char *bound)
{
    lml_span raw = lml_json_raw(node);
    return lml_json_fail(node, err, LML_BAD_VALUE, "%.*s is %s %s: check the figure and its unit",
                         (int)raw.length, raw.at,
                         which == LEAST ? "below the minimum of" : "above the maximum of", bound);
}

/* One bound against the value, and against both ends of a range. */
static lml_status check_bound(const lml_shape *s, const lml_json *node, const lml_value *value,
                              int which, lml_error *err)
{
    const char *text = which == LEAST ? s->from : s->to;
    lml_value bound, end = *value;
    int order;
    if (!text)
        return LML_OK;
    lml_status status =
        lml_memo_read(lml_json_memo(node), lml_span_of(text), s->wanted, s->metal, &bound, err);
    if (!status && value->spread == LML_BETWEEN)
        end.amount = which == LEAST ? value->low : value->high;
    if (!status)
        status = lml_compare(&end, &bound, &order, err);
    if (status)
        return lml_json_place(node, status, err);
    if (which == LEAST ? order < 0 : order > 0)
        return outside(node, err, which, text);
    return LML_OK;
}

static lml_status read_number(const lml_shape *s, const lml_json *node, lml_value *out,
                              lml_error *err)
{
    if (lml_json_kind_of(node) != LML_JSON_NUMBER)
        return lml_shape_wrong_kind(s, node, err);
    double x = lml_json_number(node);
    lml_span raw = lml_json_raw(node);
    if (s->wanted == LML_WANT_WHOLE && (x != floor(x) || fabs(x) > 9007199254740992.0))
        return lml_json_fail(node, err, LML_BAD_VALUE, "%.*s is %s", (int)raw.length, raw.at,
                             x != floor(x) ? "not a whole number" : "too large for a whole number");
    *out = lml_value_number(x);
    return LML_OK;
}

lml_status lml_shape_value_text(const lml_shape *s, lml_span text, struct lml_memo *memo,
                                lml_value *out, lml_error *err)
{
    if (s->any_metal && (!lml_memo_read(memo, text, s->wanted, s->metal, out, NULL) ||
                         !lml_memo_read(memo, text, s->wanted, LML_NO_METAL, out, NULL)))
        return LML_OK;
    return lml_memo_read(memo, text, s->wanted, s->metal, out, err);
}

static lml_status read_text_value(const lml_shape *s, const lml_json *node, lml_value *out,
                                  lml_error *err)
{
    if (lml_json_kind_of(node) != LML_JSON_TEXT)
        return lml_shape_wrong_kind(s, node, err);
    lml_status status = lml_shape_value_text(s, lml_json_text(node), lml_json_memo(node), out, err);
    return lml_json_place(node, status, err);
}

lml_status lml_shape_check_per(const lml_shape *s, const lml_value *value, lml_error *err)
{
    lml_unit unit;
    lml_dimension per, money, due;
    if (!s->per || value->kind != LML_QUANTITY)
        return LML_OK;
    lml_status status = lml_unit_read(lml_span_of(s->per), &unit, &per, err);
    money = (lml_dimension){.money = 1, .currency = value->dimension.currency};
    if (!status)
        status = lml_dimension_div(money, per, &due, err);
    if (status || lml_dimension_equal(due, value->dimension))
        return status;
    char text[LML_VALUE_TEXT];
    lml_write_text(value, text);
    lml_fail(err, LML_MISMATCH, "a price per %s is needed, but %s is not one", s->per, text);
    if (money.currency)
        lml_error_hint(err, "such as 98.50 %s/%s", lml_currency_at(money.currency)->code, s->per);
    return LML_MISMATCH;
}

lml_status lml_shape_value(const lml_shape *s, const lml_json *node, lml_value *out, lml_error *err)
{
    lml_value value;
    lml_status status;
    if (s->wanted == LML_WANT_NUMBER || s->wanted == LML_WANT_WHOLE)
        status = read_number(s, node, &value, err);
    else if (has_unit(s->wanted) || has_date(s->wanted))
        status = read_text_value(s, node, &value, err);
    else
        status = lml_fail(err, LML_FAULT, "%s is not a single value", lml_wanted_words(s->wanted));
    if (!status)
        status = check_bound(s, node, &value, LEAST, err);
    if (!status)
        status = check_bound(s, node, &value, MOST, err);
    if (!status)
        status = lml_json_place(node, lml_shape_check_per(s, &value, err), err);
    if (!status)
        *out = value;
    return status;
}
