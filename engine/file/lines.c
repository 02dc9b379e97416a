#include "file/lines.h"

#include <stdint.h>
#include <string.h>

enum { TABLE_MOST = 64 << 20 }; /* bytes of the table that pairs lines */

lml_status lml_lines_cut(const lml_alloc *alloc, lml_span text, lml_lines *out, lml_error *err)
{
    size_t count = 0;
    *out = (lml_lines){.alloc = alloc};
    if (text.length == 0)
        return LML_OK;
    const char *end = text.at + text.length;
    for (const char *at = text.at; at < end; count++) {
        const char *feed = memchr(at, '\n', (size_t)(end - at));
        at = feed ? feed + 1 : end;
    }
    if (count > LML_LINES_MOST)
        return lml_fail(err, LML_LIMIT, "a text of more than %d lines cannot be compared",
                        (int)LML_LINES_MOST);
    out->line = lml_alloc_get(alloc, count * sizeof *out->line);
    if (!out->line)
        return lml_fail(err, LML_NO_MEMORY, "out of memory while comparing two texts");
    for (const char *at = text.at; at < end; out->count++) {
        const char *feed = memchr(at, '\n', (size_t)(end - at));
        out->line[out->count] = lml_span_between(at, feed ? feed + 1 : end);
        at = feed ? feed + 1 : end;
    }
    return LML_OK;
}

void lml_lines_free(lml_lines *lines)
{
    if (lines->line)
        lml_alloc_free(lines->alloc, lines->line, lines->count * sizeof *lines->line);
    *lines = (lml_lines){.alloc = lines->alloc};
}

lml_span lml_lines_shown(const lml_lines *lines, size_t index)
{
    lml_span line = lines->line[index];
    while (line.length > 0 &&
           (line.at[line.length - 1] == '\n' || line.at[line.length - 1] == '\r'))
        line.length--;
    return line;
}

static bool same(const lml_lines *a, size_t i, const lml_lines *b, size_t k)
{
    return lml_span_equal(a->line[i], b->line[k]);
}

/* The part of both that differs: what comes before and after it is the same. */
typedef struct middle {
    size_t a, b, a_end, b_end;
} middle;

/* length[i * row + k]: how many lines can be paired from line a + i and b + k on. */
static void fill(const lml_lines *a, const lml_lines *b, const middle *m, uint16_t *length)
{
    size_t rows = m->a_end - m->a, row = m->b_end - m->b + 1;
    for (size_t i = rows; i-- > 0;)
        for (size_t k = row - 1; k-- > 0;) {
            uint16_t down = length[(i + 1) * row + k], right = length[i * row + k + 1];
            uint16_t more = down > right ? down : right;
            if (same(a, m->a + i, b, m->b + k))
                more = (uint16_t)(length[(i + 1) * row + k + 1] + 1);
            length[i * row + k] = more;
        }
}

static void pair_middle(const lml_lines *a, const lml_lines *b, const middle *m,
                        const uint16_t *length, size_t *to)
{
    size_t row = m->b_end - m->b + 1, i = m->a, k = m->b;
    while (i < m->a_end && k < m->b_end) {
        const uint16_t *at = length + (i - m->a) * row + (k - m->b);
        if (same(a, i, b, k))
            to[i++] = k++;
        else if (at[row] >= at[1])
            i++;
        else
            k++;
    }
}

lml_status lml_lines_pair(const lml_alloc *alloc, const lml_lines *a, const lml_lines *b,
                          size_t *to, lml_error *err)
{
    middle m = {0, 0, a->count, b->count};
    for (size_t i = 0; i < a->count; i++)
        to[i] = LML_LINES_ALONE;
    for (; m.a < m.a_end && m.b < m.b_end && same(a, m.a, b, m.b); m.a++)
        to[m.a] = m.b++;
    for (; m.a < m.a_end && m.b < m.b_end && same(a, m.a_end - 1, b, m.b_end - 1);)
        to[--m.a_end] = --m.b_end;
    if (m.a == m.a_end || m.b == m.b_end)
        return LML_OK;
    size_t size = (m.a_end - m.a + 1) * (m.b_end - m.b + 1) * sizeof(uint16_t);
    if (size > TABLE_MOST)
        return lml_fail(err, LML_LIMIT, "too many lines differ to compare");
    uint16_t *length = lml_alloc_get(alloc, size);
    if (!length)
        return lml_fail(err, LML_NO_MEMORY, "out of memory while comparing two texts");
    memset(length, 0, size);
    fill(a, b, &m, length);
    pair_middle(a, b, &m, length, to);
    lml_alloc_free(alloc, length, size);
    return LML_OK;
}

/* Whole lines are compared, whatever their line ending. */
static void put(lml_builder *out, const char *before, char mark, lml_span line)
{
    lml_builder_add_format(out, "%s%c ", before, mark);
    lml_builder_add_span(out, line);
    lml_builder_add_char(out, '\n');
}

lml_status lml_lines_changes(const lml_alloc *alloc, const lml_lines *was, const lml_lines *is,
                             const char *before, size_t most, lml_builder *out, lml_error *err)
{
    size_t size = (was->count + 1) * sizeof(size_t), told = 0, k = 0;
    size_t *to = lml_alloc_get(alloc, size);
    if (!to)
        return lml_fail(err, LML_NO_MEMORY, "out of memory while comparing two texts");
    lml_status status = lml_lines_pair(alloc, was, is, to, err);
    for (size_t i = 0; status == LML_OK && i <= was->count; i++) {
        size_t partner = i < was->count ? to[i] : is->count;
        if (partner == LML_LINES_ALONE && told++ < most)
            put(out, before, '-', lml_lines_shown(was, i));
        for (; partner != LML_LINES_ALONE && k < partner; k++)
            if (told++ < most)
                put(out, before, '+', lml_lines_shown(is, k));
        k += partner != LML_LINES_ALONE;
    }
    if (told > most)
        lml_builder_add_format(out, "%sand %zu more lines\n", before, told - most);
    lml_alloc_free(alloc, to, size);
    return status;
}
