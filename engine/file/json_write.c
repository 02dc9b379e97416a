#include "file/json_write.h"
#include "base/decimal.h"
#include "base/letter.h"
#include <inttypes.h>
#include <math.h>

lml_json_writer lml_json_writer_on(lml_builder *to, bool indented)
{
    return (lml_json_writer){.to = to, .indented = indented};
}

static void spoil(lml_json_writer *w, lml_status status, const char *fault)
{
    if (w->status)
        return;
    w->status = status;
    w->fault = fault;
}

static uint64_t bit(const lml_json_writer *w)
{
    return (uint64_t)1 << w->depth;
}

static void new_line(lml_json_writer *w)
{
    if (!w->indented)
        return;
    lml_builder_add_char(w->to, '\n');
    lml_builder_add_repeat(w->to, ' ', (size_t)w->depth * 2);
}

/* The comma and the line before a member or an item. */
static void separate(lml_json_writer *w)
{
    if (w->filled & bit(w))
        lml_builder_add_char(w->to, ',');
    w->filled |= bit(w);
    new_line(w);
}

/* Whether a value may be here; writes what goes before it. */
static bool ready(lml_json_writer *w)
{
    if (!w->status && w->done)
        spoil(w, LML_FAULT, "a second value after the end");
    if (!w->status && w->depth && (w->record & bit(w)) && !w->named)
        spoil(w, LML_FAULT, "a value without a name in a record");
    if (w->status)
        return false;
    if (w->depth && !(w->record & bit(w)))
        separate(w);
    w->named = false;
    w->done = w->depth == 0;
    return true;
}

static void open(lml_json_writer *w, bool record)
{
    if (!ready(w))
        return;
    if (w->depth == LML_JSON_WRITE_DEPTH) {
        spoil(w, LML_FAULT, "too many levels");
        return;
    }
    lml_builder_add_char(w->to, record ? '{' : '[');
    w->depth++;
    w->done = false;
    w->filled &= ~bit(w);
    w->record = record ? w->record | bit(w) : w->record & ~bit(w);
}

void lml_json_write_open_record(lml_json_writer *w)
{
    open(w, true);
}

void lml_json_write_open_list(lml_json_writer *w)
{
    open(w, false);
}

void lml_json_write_close(lml_json_writer *w)
{
    if (!w->status && (!w->depth || w->named))
        spoil(w, LML_FAULT, w->depth ? "a name without a value" : "nothing is open");
    if (w->status)
        return;
    bool record = w->record & bit(w), filled = w->filled & bit(w);
    w->depth--;
    if (filled)
        new_line(w);
    lml_builder_add_char(w->to, record ? '}' : ']');
    w->done = w->depth == 0;
}

/* Control characters, the two line ends that JavaScript takes for real ones, and what would end the
 * text. */
static void put_character(lml_json_writer *w, uint32_t code, const char *at, size_t bytes)
{
    if (code == '"' || code == '\\') {
        lml_builder_add_char(w->to, '\\');
        lml_builder_add_char(w->to, (char)code);
    } else if (code == '\n') {
        lml_builder_add_text(w->to, "\\n");
    } else if (code == '\t') {
        lml_builder_add_text(w->to, "\\t");
    } else if (code < 0x20 || (code >= 0x7F && code <= 0x9F) || code == 0x2028 || code == 0x2029) {
        lml_builder_add_format(w->to, "\\u%04X", (unsigned)code);
    } else {
        lml_builder_add(w->to, at, bytes);
    }
}

/* What is plain throughout is written at once: most is. */
static bool quoted_plain(lml_builder *to, lml_span text)
{
    if (lml_letter_plain_to(text, '"', '\\') < text.length ||
        !lml_builder_room(to, text.length + 2))
        return false;
    char *at = to->at + to->length;
    at[0] = '"';
    if (text.length > 0)
        memcpy(at + 1, text.at, text.length);
    memcpy(at + 1 + text.length, "\"", 2);
    to->length += text.length + 2;
    return true;
}

static void quoted(lml_json_writer *w, lml_span text)
{
    if (quoted_plain(w->to, text))
        return;
    lml_builder_add_char(w->to, '"');
    while (text.length) {
        size_t bytes = lml_letter_plain_to(text, '"', '\\');
        if (bytes) {
            lml_builder_add(w->to, text.at, bytes);
        } else {
            uint32_t code;
            bytes = lml_utf8_next(text, &code);
            if (!bytes || code == 0) {
                spoil(w, LML_BAD_DATA, bytes ? "a text holds U+0000" : "a text is not UTF-8");
                return;
            }
            put_character(w, code, text.at, bytes);
        }
        text.at += bytes;
        text.length -= bytes;
    }
    lml_builder_add_char(w->to, '"');
}

/* A plain name on one line: comma, quotes and colon at once. */
static bool named_plain(lml_json_writer *w, lml_span name)
{
    lml_builder *to = w->to;
    if (w->indented || !lml_builder_room(to, name.length + 4))
        return false;
    char *at = to->at + to->length;
    if (w->filled & bit(w))
        *at++ = ',';
    *at++ = '"';
    memcpy(at, name.at, name.length);
    at += name.length;
    memcpy(at, "\":", 3);
    to->length = (size_t)(at + 2 - to->at);
    w->filled |= bit(w);
    return true;
}

static void write_name(lml_json_writer *w, lml_span name, bool is_plain)
{
    if (!w->status && (!w->depth || !(w->record & bit(w)) || w->named))
        spoil(w, LML_FAULT, "a name where none is expected");
    if (w->status)
        return;
    if (!is_plain || !named_plain(w, name)) {
        separate(w);
        quoted(w, name);
        lml_builder_add_text(w->to, w->indented ? ": " : ":");
    }
    w->named = true;
}

void lml_json_write_name(lml_json_writer *w, lml_span name)
{
    write_name(w, name, name.length > 0 && lml_letter_plain_to(name, '"', '\\') == name.length);
}

void lml_json_write_word(lml_json_writer *w, const char *name)
{
    write_name(w, lml_span_of(name), true);
}

void lml_json_write_text(lml_json_writer *w, lml_span text)
{
    if (ready(w))
        quoted(w, text);
}

void lml_json_write_number(lml_json_writer *w, double x)
{
    if (!isfinite(x))
        spoil(w, LML_BAD_VALUE, "a number that is not finite");
    char text[LML_NUMBER_TEXT];
    if (ready(w))
        lml_builder_add(w->to, text, lml_decimal_write_double(x, text));
}

void lml_json_write_whole(lml_json_writer *w, int64_t n)
{
    if (ready(w))
        lml_builder_add_format(w->to, "%" PRId64, n);
}

void lml_json_write_yes_no(lml_json_writer *w, bool yes)
{
    if (ready(w))
        lml_builder_add_text(w->to, yes ? "true" : "false");
}

void lml_json_write_null(lml_json_writer *w)
{
    if (ready(w))
        lml_builder_add_text(w->to, "null");
}

void lml_json_write_raw(lml_json_writer *w, lml_span json)
{
    if (ready(w))
        lml_builder_add_span(w->to, json);
}

size_t lml_json_write_place(const lml_json_writer *w)
{
    return w->to->length + ((w->filled & bit(w)) != 0);
}

void lml_json_write_again(lml_json_writer *w, size_t place, size_t length)
{
    if (!w->status && (!w->depth || !(w->record & bit(w)) || w->named || w->indented))
        spoil(w, LML_FAULT, "members where none are expected");
    if (w->status)
        return;
    separate(w);
    if (lml_builder_room(w->to, length)) /* after it they may have moved */
        lml_builder_add(w->to, w->to->at + place, length);
}

void lml_json_write_member(lml_json_writer *w, const char *name, const char *text)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_text(w, lml_span_of(text));
}

lml_status lml_json_writer_end(const lml_json_writer *w, lml_error *err)
{
    if (w->status)
        return lml_fail(err, w->status, "cannot write JSON: %s", w->fault);
    lml_status status = lml_builder_status(w->to, err);
    if (status)
        return status;
    if (!w->done)
        return lml_fail(err, LML_FAULT, "cannot write JSON: it is not closed");
    return LML_OK;
}
