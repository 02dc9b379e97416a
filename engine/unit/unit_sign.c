/* Signs of currencies, which are refused with the letters that are due. */
#include "unit/unit_table.h"

void lml_label_part(lml_error *err, lml_span whole, lml_span part, const char *note)
{
    lml_error_label(err, whole.at, whole.length, (size_t)(part.at - whole.at), part.length, note);
}

lml_status lml_unit_check_sign(lml_span whole, lml_span word, lml_error *err)
{
    static const struct {
        const char *sign, *code;
    } signs[] = {{"$", "USD"}, {"£", "GBP"}, {"€", "EUR"}, {"¥", "JPY"}, {"₹", "INR"}};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        if (!lml_span_starts(word, signs[i].sign))
            continue;
        lml_fail(err, LML_BAD_VALUE,
                 "%s is the sign of a currency, and some currencies share signs", signs[i].sign);
        lml_error_hint(err, "write the three letters of the currency behind the amount: 45.00 %s",
                       signs[i].code);
        lml_label_part(err, whole, (lml_span){word.at, strlen(signs[i].sign)}, "which currency");
        return LML_BAD_VALUE;
    }
    return LML_OK;
}
