/* The values that most values are: digits, and one unit of the table or a currency. What is
 * anything else, or is not what is expected, is left to the reader of the whole grammar, which says
 * the same of these and refuses in words. */
#include "base/decimal.h"
#include "unit/currency.h"
#include "value/money.h"
#include "value/wanted.h"
#include "read/read.h"
#include "unit/unit_table.h"

enum { DIGITS_MOST = 15 };

/* digits [ "." digits ], none of it in doubt; its bytes, or 0. */
static size_t take_amount(lml_span text, lml_decimal *d)
{
    size_t at = 0, point = 0;
    uint64_t digits = 0;
    for (;; at++) {
        if (lml_span_digit_at(text, at))
            digits = digits * 10 + (uint64_t)(text.at[at] - '0');
        else if (at > 0 && point == 0 && at < text.length && text.at[at] == '.' &&
                 lml_span_digit_at(text, at + 1))
            point = at;
        else
            break;
        if (at > DIGITS_MOST)
            return 0;
    }
    int decimals = point ? (int)(at - point) - 1 : 0;
    *d = (lml_decimal){.digits = digits, .exponent = -decimals, .decimals = decimals};
    return at;
}

static bool put_money(const lml_decimal *d, uint16_t currency, lml_value *v)
{
    v->kind = LML_MONEY;
    v->dimension = (lml_dimension){.money = 1, .currency = currency};
    v->unit = lml_unit_one(LML_UNIT_MONEY, 1);
    return lml_decimal_fixed(d, LML_MONEY_PLACES, &v->exact, NULL) == LML_OK;
}

static bool put_quantity(const lml_decimal *d, unsigned id, lml_value *v)
{
    const lml_unit_row *row = lml_unit_at(id);
    bool plain = row->sort == LML_UNIT_PLAIN || row->sort == LML_UNIT_RATIO;
    if (!plain || id == LML_U_K || id == LML_U_DELTA_PER_MILLE)
        return false;
    v->kind = LML_QUANTITY;
    v->dimension = row->dimension;
    v->unit = lml_unit_one(id, 1);
    v->amount = lml_decimal_scale(d, row->factor);
    return true;
}

bool lml_read_value_plain(lml_span text, lml_wanted wanted, lml_value *out)
{
    lml_decimal d;
    size_t at = take_amount(text, &d);
    if (at == 0 || wanted == LML_WANT_FINENESS || wanted == LML_WANT_FINE_MASS)
        return false;
    lml_value v = {.decimals = LML_SHORTEST};
    lml_span word = {text.at + at, text.length - at};
    while (word.length > 0 && word.at[0] == ' ') {
        word.at++;
        word.length--;
    }
    bool read;
    if (at == text.length) {
        v.kind = LML_NUMBER;
        v.amount = lml_decimal_scale(&d, (lml_rational){1, 1});
        read = true;
    } else {
        unsigned id = lml_unit_table_find(word);
        uint16_t currency = id < LML_U_COUNT ? 0 : lml_currency_by_code(word);
        read =
            currency ? put_money(&d, currency, &v) : id < LML_U_COUNT && put_quantity(&d, id, &v);
    }
    if (!read || lml_wanted_check(wanted, &v, NULL) != LML_OK)
        return false;
    *out = v;
    return true;
}
