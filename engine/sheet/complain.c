#include "sheet/complain.h"
#include "base/letter.h"
#include "lemel.h"
#include "sheet/layout.h"

#include <string.h>

static void put_line(lml_builder *out, const char *indent, const char *text)
{
    if (text[0] == '\0')
        return;
    lml_builder_add_text(out, indent);
    lml_layout_put(out, lml_span_of(text));
    lml_builder_add_char(out, '\n');
}

static void put_label(lml_builder *out, const lml_label *label)
{
    size_t length = strlen(label->text);
    size_t offset = label->offset < length ? label->offset : length;
    size_t marked = label->length < length - offset ? label->length : length - offset;
    bool whole = offset == 0 && marked == length;
    if (length == 0 || (whole && label->note[0] == '\0'))
        return; /* underlining all of it says nothing */
    put_line(out, "  ", label->text);
    size_t columns = lml_letter_columns_of((lml_span){label->text + offset, marked});
    lml_builder_add_text(out, "  ");
    lml_builder_add_repeat(out, ' ', lml_letter_columns_of((lml_span){label->text, offset}));
    lml_builder_add_repeat(out, '^', columns > 0 ? columns : 1);
    if (label->note[0] != '\0') {
        lml_builder_add_char(out, ' ');
        lml_layout_put(out, lml_span_of(label->note));
    }
    lml_builder_add_char(out, '\n');
}

void lml_complain_write(const lml_error *error, lml_builder *out)
{
    put_line(out, "", error->message[0] ? error->message : lml_status_sentence(error->status));
    for (int i = 0; i < error->labels; i++)
        put_label(out, &error->label[i]);
    put_line(out, "  ", error->hint);
    for (int i = 0; i < error->contexts; i++)
        put_line(out, "  ", error->context[i]);
}

/* ---- the public face ---- */

/* An allocator with one block, on the stack: an error can be printed when memory is exhausted. */
static void *take_block(void *self, void *block, size_t old_size, size_t new_size)
{
    (void)block;
    (void)old_size;
    return new_size > 0 && new_size <= LML_ERROR_TEXT ? self : NULL;
}

/* As much of the text as `room` bytes hold, in whole lines. */
static size_t whole_lines(const char *text, size_t length, size_t room)
{
    if (length <= room)
        return length;
    while (room > 0 && text[room - 1] != '\n')
        room--;
    return room;
}

size_t lml_error_text(const lml_error *error, char *out, size_t size)
{
    char block[LML_ERROR_TEXT] = "";
    lml_alloc alloc = {take_block, block};
    lml_builder text = lml_builder_on(&alloc, LML_ERROR_TEXT - 1);
    lml_complain_write(error, &text);
    if (size > 0) {
        size_t written = whole_lines(block, text.length, size - 1);
        memcpy(out, block, written);
        out[written] = '\0';
    }
    return text.length;
}
