#include "sheet/layout.h"

#include "base/letter.h"
#include "base/shell.h"

#include <string.h>

static bool blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Bytes of the character at the start, one for a byte that is not UTF-8. */
static size_t character(lml_span text, uint32_t *code)
{
    size_t bytes = lml_utf8_next(text, code);
    if (bytes == 0) {
        *code = '?';
        return 1;
    }
    return bytes;
}

static lml_span drop(lml_span text, size_t bytes)
{
    return (lml_span){text.at + bytes, text.length - bytes};
}

void lml_layout_put(lml_builder *out, lml_span text)
{
    while (text.length > 0) {
        size_t plain = lml_letter_plain(text);
        lml_builder_add(out, text.at, plain);
        text = drop(text, plain);
        if (text.length == 0)
            break;
        uint32_t code;
        size_t bytes = character(text, &code);
        if (code == '\t' || code == 0xa0)
            lml_builder_add_char(out, ' ');
        else if (lml_letter_hides(code) || (bytes == 1 && code == '?'))
            lml_builder_add_char(out, '?');
        else
            lml_builder_add(out, text.at, bytes);
        text = drop(text, bytes);
    }
}

void lml_layout_put_word(lml_builder *out, lml_span word)
{
    lml_builder quoted = lml_builder_on(out->alloc, 0);
    lml_shell_add_word(&quoted, word);
    if (lml_builder_status(&quoted, NULL) != LML_OK)
        out->status = quoted.status;
    lml_layout_put(out, lml_builder_span(&quoted));
    lml_builder_free(&quoted);
}

static void end_line(lml_builder *out)
{
    if (out->at)
        while (out->length > 0 && out->at[out->length - 1] == ' ')
            out->at[--out->length] = '\0';
    lml_builder_add_char(out, '\n');
}

/* Whether the word that ends just before `end` is a bare number, whose unit follows. */
static bool after_number(const char *start, const char *end)
{
    bool any = false;
    while (end > start && !blank(end[-1])) {
        char c = *--end;
        if (!digit(c) && c != '.' && c != ',' && c != '-' && c != '+')
            return false;
        any = any || digit(c);
    }
    return any;
}

lml_span lml_layout_take_line(lml_span *rest, size_t columns)
{
    if (rest->length == 0)
        return lml_span_of(NULL);
    while (rest->length > 0 && blank(rest->at[0]))
        *rest = drop(*rest, 1);
    const char *start = rest->at;
    const char *good = NULL,
               *poor = NULL; /* blanks at which the line may end, and may at a pinch */
    lml_span ahead = *rest;
    size_t used = 0;
    while (ahead.length > 0 && ahead.at[0] != '\n') {
        uint32_t code;
        size_t bytes = character(ahead, &code);
        if (blank(ahead.at[0])) {
            poor = ahead.at;
            if (!after_number(start, ahead.at))
                good = ahead.at;
        }
        size_t wide = code < 0x7f ? 1 : lml_letter_columns_of((lml_span){ahead.at, bytes});
        if (used + wide > columns && ahead.at > start)
            break;
        used += wide;
        ahead = drop(ahead, bytes);
    }
    const char *end = ahead.at;
    if (ahead.length > 0 && ahead.at[0] != '\n') {
        if (good)
            end = good;
        else if (poor)
            end = poor;
    }
    lml_span line = lml_span_between(start, end);
    *rest = drop(*rest, line.length);
    while (rest->length > 0 && blank(rest->at[0]))
        *rest = drop(*rest, 1);
    if (rest->length > 0 && rest->at[0] == '\n')
        *rest = drop(*rest, 1);
    while (line.length > 0 && blank(line.at[line.length - 1]))
        line.length--;
    return line;
}

void lml_layout_row(lml_layout *layout, const lml_cell *cells, size_t count)
{
    lml_span rest[LML_LAYOUT_CELLS];
    if (count > LML_LAYOUT_CELLS)
        count = LML_LAYOUT_CELLS;
    for (size_t i = 0; i < count; i++)
        rest[i] = cells[i].text;
    bool more = true;
    while (more && lml_builder_status(layout->out, NULL) == LML_OK) {
        size_t column = 0;
        more = false;
        for (size_t i = 0; i < count; i++) {
            lml_span line = lml_layout_take_line(&rest[i], cells[i].width);
            more = more || rest[i].length > 0;
            if (line.length == 0)
                continue;
            if (cells[i].at > column)
                lml_builder_add_repeat(layout->out, ' ', cells[i].at - column);
            bool bold = cells[i].bold && layout->bold;
            if (bold)
                lml_builder_add_text(layout->out, "\033[1m");
            lml_layout_put(layout->out, line);
            if (bold)
                lml_builder_add_text(layout->out, "\033[0m");
            column = (cells[i].at > column ? cells[i].at : column) + lml_letter_columns_of(line);
        }
        end_line(layout->out);
    }
}

void lml_layout_text(lml_layout *layout, size_t at, lml_span text)
{
    lml_layout_row(layout, &(lml_cell){text, at, layout->width - at, false}, 1);
}

void lml_layout_rule(lml_layout *layout, size_t at, size_t columns, char mark)
{
    lml_builder_add_repeat(layout->out, ' ', at);
    lml_builder_add_repeat(layout->out, mark, columns);
    end_line(layout->out);
}

void lml_layout_gap(lml_layout *layout)
{
    const lml_builder *out = layout->out;
    if (out->length == 0 || (out->length >= 2 && out->at[out->length - 2] == '\n'))
        return;
    lml_builder_add_char(layout->out, '\n');
}

void lml_layout_add_unbroken(lml_builder *out, lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (text.at[i] == ' ')
            lml_builder_add_text(out, LML_NO_BREAK);
        else
            lml_builder_add_char(out, text.at[i]);
}

lml_builder lml_layout_scratch(const lml_layout *layout)
{
    return lml_builder_on(layout->out->alloc, 0);
}

void lml_layout_scrap(lml_layout *layout, lml_builder *scratch)
{
    lml_status status = lml_builder_status(scratch, NULL);
    if (status != LML_OK && layout->out->status == LML_OK)
        layout->out->status = status;
    lml_builder_free(scratch);
}

lml_figure lml_figure_cut(lml_span text)
{
    const char *at = text.at, *end = text.at + text.length;
    if (at < end && (*at == '-' || *at == '+'))
        at++;
    const char *digits = at;
    while (at < end && (digit(*at) || (*at == ',' && at > digits)))
        at++;
    const char *point = at;
    if (at > digits && end - at >= 2 && at[0] == '.' && digit(at[1]))
        for (at++; at < end && digit(*at);)
            at++;
    /* "2026-11-24", "22:00", "14K" and "12.3..12.5 g" are read as a whole and do not line up. */
    size_t columns = lml_letter_columns_of(text);
    if (at == digits || (at < end && !blank(*at)))
        return (lml_figure){text, columns, 0, true};
    size_t whole = lml_letter_columns_of(lml_span_between(text.at, point));
    return (lml_figure){text, whole, columns - whole, false};
}

static void widen(size_t *most, size_t columns)
{
    if (columns > *most)
        *most = columns;
}

void lml_align_add(lml_align *align, const lml_figure *figure)
{
    if (figure->words) {
        widen(&align->words, figure->whole);
        return;
    }
    widen(&align->whole, figure->whole);
    widen(&align->rest, figure->rest);
}

size_t lml_align_width(const lml_align *align)
{
    size_t figures = align->whole + align->rest;
    return figures > align->words ? figures : align->words;
}

lml_cell lml_align_place(const lml_align *align, const lml_figure *figure, size_t at, bool bold)
{
    if (figure->words)
        return (lml_cell){figure->text, at, lml_align_width(align), bold};
    return (lml_cell){figure->text, at + align->whole - figure->whole, figure->whole + figure->rest,
                      bold};
}
