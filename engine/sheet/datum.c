#include "sheet/datum.h"

#include <string.h>

static void write_many(const lml_json *value, bool named, lml_builder *out)
{
    for (const lml_json *item = lml_json_first(value); item; item = lml_json_next(item)) {
        if (item != lml_json_first(value))
            lml_builder_add_text(out, ", ");
        if (named) {
            lml_builder_add_span(out, lml_json_name(item));
            lml_builder_add_char(out, ' ');
        }
        lml_datum_write(item, out);
    }
}

void lml_datum_write(const lml_json *datum, lml_builder *out)
{
    const lml_json *text = lml_json_member(datum, "text");
    const lml_json *value = lml_json_member(datum, "value");
    if (lml_json_kind_of(text) == LML_JSON_TEXT) {
        lml_builder_add_span(out, lml_json_text(text));
        return;
    }
    switch (lml_json_kind_of(value)) {
    case LML_JSON_TEXT:
        lml_builder_add_span(out, lml_json_text(value));
        break;
    case LML_JSON_NUMBER:
        lml_builder_add_span(out, lml_json_raw(value));
        break;
    case LML_JSON_YES_NO:
        lml_builder_add_text(out, lml_json_yes(value) ? "yes" : "no");
        break;
    case LML_JSON_LIST:
        write_many(value, false, out);
        break;
    case LML_JSON_RECORD:
        write_many(value, true, out);
        break;
    case LML_JSON_ABSENT:
    case LML_JSON_NULL:
        break;
    }
}

size_t lml_datum_mark_at(lml_span text, size_t at)
{
    static const char mark[] = "\316\224"; /* U+0394 */
    bool there = at + 2 < text.length && memcmp(text.at + at, mark, 2) == 0;
    bool behind = at > 1 && text.at[at - 1] == ' ' && lml_span_digit_at(text, at - 2);
    return there && (at == 0 || behind) ? 2 : 0;
}

void lml_datum_put(const lml_json *datum, lml_builder *out)
{
    lml_builder words = lml_builder_on(out->alloc, 0);
    lml_datum_write(datum, &words);
    lml_span text = {words.at, words.at ? words.length : 0};
    if (lml_builder_status(&words, NULL) != LML_OK)
        out->status = words.status;
    for (size_t i = 0; i < text.length; i++) {
        i += lml_datum_mark_at(text, i);
        lml_builder_add_char(out, text.at[i]);
    }
    lml_builder_free(&words);
}
