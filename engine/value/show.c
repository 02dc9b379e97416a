#include "value/show.h"

#include "base/decimal.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

enum {
    DIGITS = 6,
    SURE = 15 /* a decimal of so many digits is the shortest text of its double */
};

/* "1149.00 USD" with commas between the thousands of its whole part. */
static void show_money(const lml_value *v, lml_builder *b)
{
    size_t from = b->length;
    lml_value_write_amount(v, b);
    if (b->status)
        return;
    size_t at = from + (b->at[from] == '-'), end = at;
    while (end < b->length && b->at[end] >= '0' && b->at[end] <= '9')
        end++;
    for (size_t place = end; place > at + 3; place -= 3) {
        lml_append_char(b, ',');
        if (b->status)
            return;
        memmove(b->at + place - 2, b->at + place - 3, b->length - (place - 2));
        b->at[place - 3] = ',';
    }
    lml_append_char(b, ' ');
    lml_value_write_unit(v, b);
}

/* The significant digits of a number as it is written. */
static int digits_of(lml_span text)
{
    int digits = 0;
    for (size_t i = 0; i < text.length && text.at[i] != 'e'; i++)
        digits += (digits > 0 || text.at[i] != '0') && text.at[i] >= '0' && text.at[i] <= '9';
    return digits;
}

/* The amount cut to six significant digits; false when it has no more, and stands as it is. */
static bool cut(const lml_value *v, lml_span amount, char out[LML_NUMBER_TEXT])
{
    int digits = digits_of(amount);
    if (digits <= DIGITS)
        return false;
    double x = lml_value_in_unit(v);
    if (digits > SURE && digits_of((lml_span){out, lml_write_double(x, out)}) <= DIGITS)
        return false;
    int decimals = DIGITS - 1 - (int)floor(log10(fabs(x)));
    lml_write_fixed(x, (lml_rational){1, 1}, decimals < 0 ? 0 : decimals > 15 ? 15 : decimals,
                    v->kind == LML_FINENESS ? LML_FLOOR : LML_HALF_EVEN, out);
    return true;
}

void lml_value_show(const lml_value *v, lml_builder *b)
{
    if (v->kind == LML_MONEY) {
        show_money(v, b);
        return;
    }
    char text[LML_VALUE_TEXT], shorter[LML_NUMBER_TEXT];
    size_t length = lml_value_text(v, text), amount = strcspn(text, " ");
    bool as_reckoned = v->kind <= LML_FINE_MASS && v->decimals == LML_SHORTEST && v->spread == LML_NO_SPREAD;
    if (as_reckoned && cut(v, (lml_span){text, amount}, shorter)) {
        lml_append_text(b, shorter);
        lml_append(b, text + amount, length - amount);
    } else {
        lml_append(b, text, length);
    }
}
