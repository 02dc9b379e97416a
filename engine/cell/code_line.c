#include "cell/code_line.h"

#include "base/decimal.h"

bool lml_code_line_next(lml_span line, size_t *at, double *number)
{
    for (size_t i = *at; i < line.length; i++) {
        lml_decimal d;
        bool within = i > 0 && (lml_ascii_is_name(line.at[i - 1]) || line.at[i - 1] == '.');
        if (within || !lml_ascii_is_digit(line.at[i]) ||
            lml_decimal_read((lml_span){line.at + i, line.length - i}, &d) == 0)
            continue;
        *number = lml_decimal_scale(&d, (lml_rational){1, 1});
        *at = i + 1;
        return true;
    }
    return false;
}

lml_span lml_code_line_names(lml_span line)
{
    static const char local[] = "local ";
    const size_t from = sizeof local - 1;
    bool constant = lml_span_starts(line, local) && line.length > from && line.at[from] >= 'A' &&
                    line.at[from] <= 'Z';
    const char *equals = constant ? memchr(line.at, '=', line.length) : NULL;
    return equals ? lml_span_trim(lml_span_between(line.at + from, equals)) : (lml_span){"", 0};
}
