#include "base/text.h"
#include "base/letter.h"

#include <stdio.h>
#include <string.h>

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

lml_span lml_span_trim(lml_span span)
{
    while (span.length && is_blank(span.at[0])) {
        span.at++;
        span.length--;
    }
    while (span.length && is_blank(span.at[span.length - 1]))
        span.length--;
    return span;
}

char *lml_span_copy(const lml_alloc *alloc, lml_span span)
{
    char *copy = lml_get(alloc, span.length + 1);
    if (copy) {
        if (span.length > 0)
            memcpy(copy, span.at, span.length);
        copy[span.length] = '\0';
    }
    return copy;
}

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

lml_builder lml_builder_on(const lml_alloc *alloc, size_t most)
{
    return (lml_builder){.alloc = alloc, .most = most};
}

void lml_builder_free(lml_builder *b)
{
    lml_free(b->alloc, b->at, b->capacity);
    *b = lml_builder_on(b->alloc, b->most);
}

bool lml_builder_grow(lml_builder *b, size_t more)
{
    if (b->status != LML_OK)
        return false;
    size_t most = b->most && b->most < SIZE_MAX ? b->most : SIZE_MAX - 1;
    if (more > most - b->length) {
        b->status = LML_LIMIT;
        return false;
    }
    size_t needed = b->length + more + 1;
    size_t capacity = b->capacity <= most / 2 ? b->capacity * 2 : most + 1;
    if (capacity < 64)
        capacity = most < 63 ? most + 1 : 64;
    if (capacity < needed)
        capacity = needed;
    char *at = lml_resize(b->alloc, b->at, b->capacity, capacity);
    if (!at) {
        b->status = LML_NO_MEMORY;
        return false;
    }
    b->at = at;
    b->capacity = capacity;
    return true;
}

void lml_append_repeat(lml_builder *b, char c, size_t times)
{
    if (times == 0 || !lml_builder_room(b, times))
        return;
    memset(b->at + b->length, c, times);
    b->length += times;
    b->at[b->length] = '\0';
}

void lml_append_format(lml_builder *b, const char *format, ...)
{
    if (b->status != LML_OK)
        return;
    char small[256];
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int length = vsnprintf(small, sizeof small, format, args);
    if (length < 0) {
        b->status = LML_FAULT;
    } else if ((size_t)length < sizeof small) {
        lml_append(b, small, (size_t)length);
    } else if (lml_builder_room(b, (size_t)length)) {
        vsnprintf(b->at + b->length, (size_t)length + 1, format, again);
        b->length += (size_t)length;
    }
    va_end(again);
    va_end(args);
}

lml_status lml_builder_status(const lml_builder *b, lml_error *err)
{
    switch (b->status) {
    case LML_OK:
        return LML_OK;
    case LML_NO_MEMORY:
        return lml_fail(err, LML_NO_MEMORY, "no memory is left for a text of %zu bytes", b->length);
    case LML_LIMIT:
        return lml_fail(err, LML_LIMIT, "a text grew beyond the %zu bytes that it may have",
                        b->most);
    default:
        return lml_fail(err, b->status, "a text could not be put together");
    }
}

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

/* The bytes at the start that are ASCII, but for up to seven at their end: most of most texts. */
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

lml_status lml_utf8_check(lml_span span, lml_error *err)
{
    for (size_t at = 0; (at += ascii_run((lml_span){span.at + at, span.length - at})) < span.length;) {
        uint32_t code;
        size_t length = lml_utf8_next((lml_span){span.at + at, span.length - at}, &code);
        if (length == 0) {
            lml_fail(err, LML_BAD_DATA, "the byte at offset %zu (0x%02X) is not valid UTF-8", at,
                     (unsigned)(unsigned char)span.at[at]);
            lml_error_hint(err, "save the text as UTF-8");
            return LML_BAD_DATA;
        }
        at += length;
    }
    return LML_OK;
}

lml_status lml_utf8_refuse_mark(lml_span text, const char *source, lml_error *err)
{
    bool wide = lml_span_starts(text, "\xFF\xFE") || lml_span_starts(text, "\xFE\xFF");
    if (!wide && !lml_span_starts(text, "\xEF\xBB\xBF"))
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%s:1: the file starts with a byte order mark%s", source,
             wide ? " of UTF-16" : "");
    if (err)
        lml_error_hint(err, "save it as UTF-8 without a mark (\"UTF-8\", not \"UTF-8 with BOM\")");
    return LML_BAD_DATA;
}

size_t lml_utf8_columns(lml_span span)
{
    size_t columns = 0;
    while (span.length) {
        uint32_t code = 0;
        size_t length = lml_utf8_next(span, &code);
        columns += length ? lml_letter_columns(code) : 1;
        span.at += length ? length : 1;
        span.length -= length ? length : 1;
    }
    return columns;
}

enum { NAME_LETTERS = 96 };

/* The letters of a name with ASCII in lower case; NAME_LETTERS + 1 when there are more. */
static size_t letters_of(lml_span name, uint32_t letter[NAME_LETTERS])
{
    size_t count = 0;
    while (name.length) {
        if (count == NAME_LETTERS)
            return NAME_LETTERS + 1;
        uint32_t code;
        size_t length = lml_utf8_next(name, &code);
        if (length == 0) {
            code = (unsigned char)name.at[0];
            length = 1;
        }
        letter[count++] = code >= 'A' && code <= 'Z' ? code + ('a' - 'A') : code;
        name.at += length;
        name.length -= length;
    }
    return count;
}

static size_t least_of(size_t a, size_t b)
{
    return a < b ? a : b;
}

size_t lml_edit_distance(lml_span a, lml_span b, size_t most)
{
    uint32_t p[NAME_LETTERS], q[NAME_LETTERS];
    size_t m = letters_of(a, p), n = letters_of(b, q);
    if (m > NAME_LETTERS || n > NAME_LETTERS)
        return lml_span_equal(a, b) ? 0 : most + 1;
    if ((m > n ? m - n : n - m) > most)
        return most + 1;

    /* Three rows of the table: a swap looks two rows back. */
    size_t rows[3][NAME_LETTERS + 1];
    size_t *before = rows[0], *last = rows[1], *row = rows[2];
    for (size_t j = 0; j <= n; j++)
        last[j] = j;
    for (size_t i = 1; i <= m; i++) {
        size_t nearest = row[0] = i;
        for (size_t j = 1; j <= n; j++) {
            size_t cost = least_of(last[j], row[j - 1]) + 1;
            cost = least_of(cost, last[j - 1] + (p[i - 1] != q[j - 1]));
            if (i > 1 && j > 1 && p[i - 1] == q[j - 2] && p[i - 2] == q[j - 1])
                cost = least_of(cost, before[j - 2] + 1);
            row[j] = cost;
            nearest = least_of(nearest, cost);
        }
        if (nearest > most) /* no later row can be below it, not even by a swap */
            return most + 1;
        size_t *free_row = before;
        before = last;
        last = row;
        row = free_row;
    }
    return least_of(last[n], most + 1);
}

lml_nearest lml_nearest_to(lml_span wanted)
{
    uint32_t letter[NAME_LETTERS];
    size_t letters = letters_of(wanted, letter);
    size_t most = letters <= 4 ? 1 : letters <= 8 ? 2 : 3;
    return (lml_nearest){.wanted = wanted, .best = {NULL, 0}, .distance = most + 1};
}

/* Whether both hold the same figures in the same order. */
static bool same_figures(lml_span a, lml_span b)
{
    size_t i = 0, j = 0;
    for (;;) {
        while (i < a.length && (a.at[i] < '0' || a.at[i] > '9'))
            i++;
        while (j < b.length && (b.at[j] < '0' || b.at[j] > '9'))
            j++;
        if (i == a.length || j == b.length)
            return i == a.length && j == b.length;
        if (a.at[i++] != b.at[j++])
            return false;
    }
}

/* The bytes at the start that both share, capitals or not: slips are rarely in the first letter. */
static size_t alike_at_start(lml_span a, lml_span b)
{
    size_t i = 0;
    while (i < a.length && i < b.length && (a.at[i] | 0x20) == (b.at[i] | 0x20))
        i++;
    return i;
}

void lml_nearest_offer(lml_nearest *n, lml_span name)
{
    if (n->distance == 0 || !same_figures(n->wanted, name))
        return;
    size_t distance = lml_edit_distance(n->wanted, name, n->distance), alike = alike_at_start(n->wanted, name);
    if (distance < n->distance || (n->best.at && distance == n->distance && alike > n->alike)) {
        n->distance = distance;
        n->alike = alike;
        n->best = name;
    }
}

bool lml_nearest_found(const lml_nearest *n)
{
    return n->best.at != NULL;
}
