#include "unit/unit_sign.h"

#include <string.h>

lml_status lml_unit_sign_check(lml_span whole, lml_span word, lml_error *err)
{
    static const struct {
        const char *sign, *code;
    } signs[] = {{"$", "USD"}, {"£", "GBP"}, {"€", "EUR"}, {"¥", "JPY"}, {"₹", "INR"}};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        if (!lml_span_starts(word, signs[i].sign))
            continue;
        lml_fail(err, LML_BAD_VALUE, "%s is a currency sign that several currencies share",
                 signs[i].sign);
        lml_error_hint(err, "write the three-letter currency code after the amount: 45.00 %s",
                       signs[i].code);
        lml_error_label_part(err, whole, (lml_span){word.at, strlen(signs[i].sign)},
                             "which currency");
        return LML_BAD_VALUE;
    }
    return LML_OK;
}
