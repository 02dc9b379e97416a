#include "base/nearest.h"

#include "base/utf8.h"

#include <stdint.h>

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

size_t lml_nearest_distance(lml_span a, lml_span b, size_t most)
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
    size_t distance = lml_nearest_distance(n->wanted, name, n->distance),
           alike = alike_at_start(n->wanted, name), length = n->wanted.length;
    /* A letter that is wrong is likelier than one left out and another wrong. */
    bool as_long = name.length == length && n->best.length != length;
    if (distance < n->distance || (n->best.at && distance == n->distance &&
                                   (alike > n->alike || (alike == n->alike && as_long)))) {
        n->distance = distance;
        n->alike = alike;
        n->best = name;
    }
}

bool lml_nearest_found(const lml_nearest *n)
{
    return n->best.at != NULL;
}
