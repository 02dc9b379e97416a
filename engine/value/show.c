#include "value/show.h"

#include "base/decimal.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 6 };

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

/* How many decimals leave six significant digits of x, or -1 when its shortest text has no more. */
static int decimals_for(double x)
{
    char text[LML_NUMBER_TEXT];
    size_t length = lml_write_double(x, text);
    int digits = 0;
    bool seen = false;
    for (size_t i = 0; i < length && text[i] != 'e'; i++) {
        seen = seen || (text[i] >= '1' && text[i] <= '9');
        digits += seen && text[i] >= '0' && text[i] <= '9';
    }
    if (digits <= DIGITS)
        return -1;
    int decimals = DIGITS - 1 - (int)floor(log10(fabs(x)));
    return decimals < 0 ? 0 : decimals > 15 ? 15 : decimals;
}

void lml_value_show(const lml_value *v, lml_builder *b)
{
    if (v->kind == LML_MONEY) {
        show_money(v, b);
        return;
    }
    bool has_amount = v->kind <= LML_FINE_MASS;
    double x = has_amount ? lml_value_in_unit(v) : 0.0;
    int decimals = has_amount && v->decimals == LML_SHORTEST && v->spread == LML_NO_SPREAD &&
                           isfinite(x) && x != 0.0
                       ? decimals_for(x)
                       : -1;
    if (decimals < 0) {
        lml_value_write(v, b);
        return;
    }
    char text[LML_NUMBER_TEXT];
    size_t length = lml_write_fixed(x, (lml_rational){1, 1}, decimals,
                                    v->kind == LML_FINENESS ? LML_FLOOR : LML_HALF_EVEN, text);
    lml_append(b, text, length);
    size_t before = b->length;
    lml_append_char(b, ' ');
    lml_value_write_unit(v, b);
    if (!b->status && b->length == before + 1)
        b->at[--b->length] = 0; /* a plain number has no unit */
}
