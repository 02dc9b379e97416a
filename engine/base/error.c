#include "base/error.h"
#include "base/letter.h"

#include <stdio.h>
#include <string.h>

/* Copies the first character of `rest`, or '?' for what cannot be printed, when `room` bytes hold
 * it. Returns the bytes written; *taken gets those read. */
static size_t put_char(char *out, size_t room, lml_span rest, size_t *taken)
{
    uint32_t code;
    size_t length = lml_utf8_next(rest, &code);
    *taken = length ? length : 1;
    bool printable = length && !lml_letter_hides(code);
    size_t wanted = printable ? length : 1;
    if (wanted > room)
        return 0;
    if (printable)
        memcpy(out, rest.at, length);
    else
        *out = '?';
    return wanted;
}

/* Dots only where room was kept for them: a text that just fits has none left. */
static void end_text(char *out, bool cut)
{
    if (cut)
        memcpy(out, "...", sizeof "...");
    else
        *out = '\0';
}

/* `cut` says that `text` is only the start of what there was to say. */
static void put_text(char *out, size_t size, const char *text, size_t length, bool cut)
{
    size_t limit = cut ? size - sizeof "..." : size - 1, used = 0, at = 0;
    while (at < length) {
        lml_span rest = {text + at, length - at};
        uint32_t code;
        if (cut && rest.length < 4 && !lml_utf8_next(rest, &code))
            break; /* the cut went through this character */
        size_t taken, put = put_char(out + used, limit - used, rest, &taken);
        if (!put)
            break;
        used += put;
        at += taken;
    }
    end_text(out + used, cut);
}

/* Formats into a place of its own first: an argument may be a part of the error itself. */
static void put_format(char *out, size_t size, const char *format, va_list args)
{
    union {
        char message[sizeof((lml_error *)0)->message];
        char hint[sizeof((lml_error *)0)->hint];
        char context[sizeof((lml_error *)0)->context[0]];
    } longest;
    char *raw = (char *)&longest;
    int wanted = vsnprintf(raw, size, format, args);
    if (wanted < 0)
        wanted = snprintf(raw, size, "(a message that could not be written: %s)", format);
    bool cut = (size_t)wanted >= size;
    put_text(out, size, raw, cut ? size - 1 : (size_t)wanted, cut);
}

/* Characters in a text that cannot be seen; the message and a label often show the same. */
static void tell_look_alike(lml_error *err, const char *text)
{
    uint32_t code, like;
    if (err->contexts == 0 && lml_letter_find_mixed(lml_span_of(text), &code, &like))
        lml_error_context(err, err->status, "U+%04X in it only looks like %c: retype that letter",
                          (unsigned)code, (int)like);
}

void lml_error_start(lml_error *err, lml_status status, const char *format, va_list args)
{
    if (!err)
        return;
    put_format(err->message, sizeof err->message, format, args);
    err->status = status;
    err->hint[0] = '\0';
    err->labels = err->contexts = 0;
    tell_look_alike(err, err->message);
}

void lml_error_hint(lml_error *err, const char *format, ...)
{
    if (!err)
        return;
    va_list args;
    va_start(args, format);
    put_format(err->hint, sizeof err->hint, format, args);
    va_end(args);
}

/* Where to begin copying so that the stretch is seen when the text is too long for its place. */
static size_t label_start(const char *text, size_t text_length, size_t offset, size_t length)
{
    const size_t room = sizeof((lml_label *)0)->text - sizeof "...", before = 40;
    if (text_length < sizeof((lml_label *)0)->text || offset + length <= room || offset <= before)
        return 0;
    size_t start = offset - before;
    while (start < offset && ((unsigned char)text[start] & 0xc0) == 0x80)
        start++;
    return start;
}

void lml_error_label(lml_error *err, const char *text, size_t text_length, size_t offset,
                     size_t length, const char *note)
{
    if (!err || err->labels == LML_ERROR_LABELS)
        return;
    if (offset > text_length)
        offset = text_length;
    if (length > text_length - offset)
        length = text_length - offset;

    lml_label *label = &err->label[err->labels++];
    size_t at = label_start(text, text_length, offset, length), used = 0;
    if (at > 0) {
        memcpy(label->text, "...", 3);
        used = 3;
    }
    bool cut = text_length - at + used >= sizeof label->text;
    size_t limit = sizeof label->text - (cut ? sizeof "..." : 1);
    size_t from = used, to = used;
    while (at < text_length) {
        lml_span rest = {text + at, text_length - at};
        size_t taken, put = put_char(label->text + used, limit - used, rest, &taken);
        if (!put)
            break;
        if (at <= offset)
            from = used;
        used += put;
        if (at < offset + length)
            to = used;
        at += taken;
    }
    if (at <= offset)
        from = used;
    end_text(label->text + used, cut);
    label->offset = (unsigned short)from;
    label->length = (unsigned short)(length && to > from ? to - from : 0);
    size_t note_length = strlen(note);
    put_text(label->note, sizeof label->note, note, note_length, note_length >= sizeof label->note);
    tell_look_alike(err, label->text);
}

void lml_error_label_part(lml_error *err, lml_span whole, lml_span part, const char *note)
{
    lml_error_label(err, whole.at, whole.length, (size_t)(part.at - whole.at), part.length, note);
}

lml_status lml_error_context(lml_error *err, lml_status status, const char *format, ...)
{
    if (status == LML_OK || !err)
        return status;
    if (err->contexts == LML_ERROR_CONTEXTS) {
        enum { MIDDLE = LML_ERROR_CONTEXTS / 2 };
        memmove(err->context[MIDDLE], err->context[MIDDLE + 1],
                (LML_ERROR_CONTEXTS - MIDDLE - 1) * sizeof err->context[0]);
        err->contexts--;
    }
    va_list args;
    va_start(args, format);
    put_format(err->context[err->contexts++], sizeof err->context[0], format, args);
    va_end(args);
    return status;
}
