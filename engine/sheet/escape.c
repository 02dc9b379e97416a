#include "sheet/escape.h"

#include "base/letter.h"
#include "file/json.h"

static const char *entity_of(char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    case '\t':
    case '\n':
    case '\r':
        return " ";
    default:
        return NULL;
    }
}

/* U+FFFE and U+FFFF, and their like on every plane, are characters of no document. */
static bool is_no_character(uint32_t code)
{
    return (code & 0xfffe) == 0xfffe || (code >= 0xfdd0 && code <= 0xfdef);
}

void lml_escape_put(lml_builder *out, lml_span text)
{
    while (text.length > 0) {
        uint32_t code;
        size_t bytes = lml_utf8_next(text, &code);
        const char *entity = bytes == 1 ? entity_of(text.at[0]) : NULL;
        if (entity)
            lml_builder_add_text(out, entity);
        else if (bytes == 0 || lml_letter_hides(code) || is_no_character(code))
            lml_builder_add_char(out, '?');
        else
            lml_builder_add(out, text.at, bytes);
        if (bytes == 0)
            bytes = 1;
        text = (lml_span){text.at + bytes, text.length - bytes};
    }
}

void lml_escape_put_member(lml_builder *out, const lml_json *record, const char *name)
{
    lml_escape_put(out, lml_json_text(lml_json_member(record, name)));
}
