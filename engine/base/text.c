#include "base/text.h"

void lml_text_join(char *out, size_t size, const char *a, const char *b, const char *c)
{
    const char *const parts[] = {a, b, c};
    size_t used = 0;
    for (int i = 0; i < 3; i++) {
        size_t length = strlen(parts[i]);
        if (length > size - 1 - used)
            length = size - 1 - used;
        memcpy(out + used, parts[i], length);
        used += length;
    }
    out[used] = '\0';
}

void lml_text_place(char *out, size_t size, const char *list, int index)
{
    char room[] = "[2147483647]", *digits = room + sizeof room - 2;
    do {
        *--digits = (char)('0' + index % 10);
        index /= 10;
    } while (index > 0);
    *--digits = '[';
    room[sizeof room - 2] = ']';
    lml_text_join(out, size, list, digits, "");
}

/* The bytes at the start that are ASCII, except up to seven at their end: most of most texts. */
static size_t ascii_run(lml_span span)
{
    uint64_t eight;
    size_t at = 0;
    for (; at + sizeof eight <= span.length; at += sizeof eight) {
        memcpy(&eight, span.at + at, sizeof eight);
        if (eight & 0x8080808080808080)
            break;
    }
    return at;
}

lml_status lml_text_check_utf8(lml_span span, lml_error *err)
{
    for (size_t at = 0;
         (at += ascii_run((lml_span){span.at + at, span.length - at})) < span.length;) {
        uint32_t code;
        size_t length = lml_utf8_next((lml_span){span.at + at, span.length - at}, &code);
        if (length == 0) {
            lml_fail(err, LML_BAD_DATA, "the byte at offset %zu (0x%02X) is not valid UTF-8", at,
                     (unsigned)(unsigned char)span.at[at]);
            int line = 1;
            for (size_t i = 0; i < at; i++)
                line += span.at[i] == '\n';
            lml_error_hint(err, "save the text as UTF-8: the byte is on line %d", line);
            return LML_BAD_DATA;
        }
        at += length;
    }
    return LML_OK;
}

lml_status lml_text_refuse_mark(lml_span text, const char *source, lml_error *err)
{
    bool wide = lml_span_starts(text, "\xFF\xFE") || lml_span_starts(text, "\xFE\xFF");
    if (!wide && !lml_span_starts(text, "\xEF\xBB\xBF"))
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%s:1: the file starts with a byte order mark%s", source,
             wide ? " of UTF-16" : "");
    lml_error_hint(err, "save it as UTF-8 without a mark (\"UTF-8\", not \"UTF-8 with BOM\")");
    return LML_BAD_DATA;
}

bool lml_text_is_version(const char *text)
{
    int numbers = 0, digits = 0;
    for (const char *c = text;; c++) {
        if (*c >= '0' && *c <= '9') {
            digits++;
        } else if ((*c == '.' || *c == '\0') && digits > 0 && digits < 7) {
            numbers++;
            digits = 0;
        } else {
            return false;
        }
        if (*c == '\0')
            return numbers == 3;
    }
}
