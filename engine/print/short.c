#include "print/short.h"

#include "base/ascii.h"
#include "base/decimal.h"
#include "base/real.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 8 };

/* The length of a number with decimals, without the zeros at its end. */
static size_t without_zeros(const char *number)
{
    size_t length = strlen(number);
    while (strchr(number, '.') && number[length - 1] == '0')
        length--;
    return length - (number[length - 1] == '.');
}

void lml_short_add(lml_builder *line, lml_span text)
{
    while (text.length > 0) {
        lml_decimal d;
        size_t used = lml_ascii_is_digit(text.at[0]) ? lml_decimal_read(text, &d) : 0;
        if (used > DIGITS + 1 && d.decimals > 0) {
            double x = lml_decimal_scale(&d, (lml_rational){1, 1});
            double before = x >= 1 ? floor(lml_real_log10(x)) + 1 : 0;
            char number[LML_NUMBER_TEXT];
            lml_decimal_write_fixed(x, (lml_rational){1, 1},
                                    before < DIGITS ? (int)(DIGITS - before) : 0, LML_HALF_EVEN,
                                    number);
            lml_builder_add(line, number, without_zeros(number));
        } else {
            used = used > 0 ? used : 1;
            lml_builder_add(line, text.at, used);
        }
        text = (lml_span){text.at + used, text.length - used};
    }
}
