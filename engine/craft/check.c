#include "craft/check.h"

#include <math.h>

const char *lml_check_text(double x, char out[LML_NUMBER_TEXT])
{
    if (isfinite(x)) {
        lml_decimal_write_double(x, out);
        return out;
    }
    return isnan(x) ? "not a number" : "infinite";
}

static lml_status refuse(double x, const char *what, const char *range, lml_error *err)
{
    char text[LML_NUMBER_TEXT];
    return lml_fail(err, LML_BAD_VALUE, "%s must be %s, but is %s", what, range,
                    lml_check_text(x, text));
}

lml_status lml_check_positive(double x, const char *what, lml_error *err)
{
    return x > 0 && isfinite(x) ? LML_OK : refuse(x, what, "more than 0", err);
}

lml_status lml_check_not_negative(double x, const char *what, lml_error *err)
{
    return x >= 0 && isfinite(x) ? LML_OK : refuse(x, what, "0 or more", err);
}

lml_status lml_check_between(double x, double low, double high, const char *what, lml_error *err)
{
    if (x >= low && x <= high)
        return LML_OK;
    char from[LML_NUMBER_TEXT], to[LML_NUMBER_TEXT], text[LML_NUMBER_TEXT];
    return lml_fail(err, LML_BAD_VALUE, "%s must be from %s to %s, but is %s", what,
                    lml_check_text(low, from), lml_check_text(high, to), lml_check_text(x, text));
}

lml_status lml_check_part(double x, const char *what, lml_error *err)
{
    return x >= 0 && x < 1 ? LML_OK : refuse(x, what, "0 or more and less than 1 (100 %)", err);
}

lml_status lml_check_result(double x, const char *what, double *out, lml_error *err)
{
    if (!isfinite(x))
        return lml_fail(err, LML_OVERFLOW, "%s is too large to calculate", what);
    *out = x;
    return LML_OK;
}
