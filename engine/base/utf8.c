#include "base/utf8.h"

static bool is_continuation(lml_span span, size_t i)
{
    return i < span.length && ((unsigned char)span.at[i] & 0xc0) == 0x80;
}

size_t lml_utf8_next(lml_span span, uint32_t *code)
{
    if (span.length == 0)
        return 0;
    unsigned char lead = (unsigned char)span.at[0];
    if (lead < 0x80) {
        *code = lead;
        return 1;
    }
    /* The least code of a length refuses the overlong forms. */
    size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
    uint32_t least = length == 4 ? 0x10000 : length == 3 ? 0x800 : 0x80;
    uint32_t value = lead & (0x7fu >> length);
    if (lead < 0xc2 || lead > 0xf4)
        return 0;
    for (size_t i = 1; i < length; i++) {
        if (!is_continuation(span, i))
            return 0;
        value = value << 6 | ((unsigned char)span.at[i] & 0x3f);
    }
    if (value < least || value > 0x10ffff || (value >= 0xd800 && value <= 0xdfff))
        return 0;
    *code = value;
    return length;
}
