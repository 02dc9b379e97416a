#include "report/tokens.h"

#include "base/decimal.h"

#include <stdlib.h>
#include <string.h>

bool lml_tokens_is(const lml_tokens *t, size_t i, const char *text)
{
    return i < t->count && lml_token_is(t->at[i], text);
}

bool lml_tokens_is_any(const lml_tokens *t, size_t i, const char *const *texts, size_t count)
{
    for (size_t k = 0; k < count; k++)
        if (lml_tokens_is(t, i, texts[k]))
            return true;
    return false;
}

bool lml_tokens_is_name(const lml_tokens *t, size_t i)
{
    return i < t->count && t->at[i].kind == LML_TOKEN_NAME &&
           !LML_TOKENS_IS_ANY(t, i, "and", "break", "do", "else", "elseif", "end", "false", "for",
                              "function", "goto", "if", "in", "local", "nil", "not", "or", "repeat",
                              "return", "then", "true", "until", "while");
}

/* ---- what a name is ---- */

bool lml_tokens_is_assigned(const lml_tokens *t, size_t i)
{
    while (lml_tokens_is(t, i + 1, ",") && lml_tokens_is_name(t, i + 2))
        i += 2;
    return lml_tokens_is(t, i + 1, "=");
}

static bool opens_parameters(const lml_tokens *t, size_t i)
{
    size_t back = i;
    while (back > 0 &&
           (lml_tokens_is_name(t, back - 1) || LML_TOKENS_IS_ANY(t, back - 1, ".", ":")))
        back--;
    return back > 0 && lml_tokens_is(t, back - 1, "function");
}

/* In a table, where a name is a key or a value: a function there has names of its own. */
static bool is_in_table(const lml_tokens *t, size_t i)
{
    return t->inner[i] > 0 && lml_tokens_is(t, t->inner[i] - 1, "{");
}

bool lml_tokens_is_bound(const lml_tokens *t, size_t i)
{
    size_t first = i;
    if ((i > 0 && LML_TOKENS_IS_ANY(t, i - 1, ".", ":")) || is_in_table(t, i))
        return false;
    if (t->inner[i] > 0 && lml_tokens_is(t, t->inner[i] - 1, "(") &&
        opens_parameters(t, t->inner[i] - 1))
        return true;
    while (first > 1 && lml_tokens_is(t, first - 1, ",") && lml_tokens_is_name(t, first - 2))
        first -= 2;
    return (first > 0 && LML_TOKENS_IS_ANY(t, first - 1, "local", "for", "function")) ||
           lml_tokens_is_assigned(t, i);
}

/* ---- reading ---- */

static void find_brackets(lml_tokens *t, uint32_t *inner)
{
    uint32_t open[LML_TOKENS_DEPTH + 1] = {0};
    int depth = 0;
    for (size_t i = 0; i < t->count; i++) {
        if (LML_TOKENS_IS_ANY(t, i, "(", "[", "{", "function", "if", "do", "repeat")) {
            t->too_deep = t->too_deep || depth + 1 == LML_TOKENS_DEPTH;
            depth += !t->too_deep;
            open[depth] = (uint32_t)i + 1;
        } else if (LML_TOKENS_IS_ANY(t, i, ")", "]", "}", "end", "until") && depth > 0) {
            depth--;
        }
        inner[i] = open[depth];
    }
}

static bool is_set(const lml_tokens *t, size_t i)
{
    if (t->at[i].kind != LML_TOKEN_NAME)
        return false;
    return is_in_table(t, i) ? lml_tokens_is(t, i + 1, "=")
                             : lml_tokens_is_bound(t, i) || lml_tokens_is_assigned(t, i);
}

static bool read_number(lml_token one, double *out)
{
    lml_decimal d;
    if (one.kind != LML_TOKEN_NUMBER || lml_decimal_read(one.text, &d) != one.text.length)
        return false;
    *out = lml_decimal_scale(&d, (lml_rational){1, 1});
    return true;
}

static int order_names(lml_span a, lml_span b)
{
    const size_t both = a.length < b.length ? a.length : b.length;
    const int order = memcmp(a.at, b.at, both);
    return order != 0 ? order : (a.length > b.length) - (a.length < b.length);
}

static int by_name(const void *a, const void *b)
{
    const lml_token *one = *(const lml_token *const *)a, *other = *(const lml_token *const *)b;
    const int order = order_names(one->text, other->text);
    return order != 0 ? order : (one > other) - (one < other);
}

static int by_size(const void *a, const void *b)
{
    const double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

bool lml_tokens_read(lml_span text, const lml_alloc *alloc, lml_tokens *out)
{
    lml_tokens t = {.count = 1};
    lml_scanner s = lml_scanner_on(text);
    while (lml_token_next(&s).kind != LML_TOKEN_END)
        t.count++;
    lml_token *all = lml_alloc_get(alloc, t.count * sizeof *all);
    uint32_t *inner = lml_alloc_get(alloc, t.count * sizeof *inner);
    const lml_token **set = lml_alloc_get(alloc, t.count * sizeof *set);
    double *number = lml_alloc_get(alloc, t.count * sizeof *number);
    if (!all || !inner || !set || !number)
        return false;
    s = lml_scanner_on(text);
    for (size_t i = 0; i < t.count; i++)
        all[i] = lml_token_next(&s);
    t.at = all;
    find_brackets(&t, inner);
    t.inner = inner;
    for (size_t i = 0; i < t.count; i++) {
        if (is_set(&t, i))
            set[t.sets++] = &all[i];
        t.numbers += read_number(all[i], &number[t.numbers]);
    }
    qsort(set, t.sets, sizeof *set, by_name);
    qsort(number, t.numbers, sizeof *number, by_size);
    t.set = set;
    t.number = number;
    *out = t;
    return true;
}

/* ---- looking up ---- */

size_t lml_tokens_line(const lml_tokens *t, unsigned line)
{
    size_t low = 0, high = t->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if ((unsigned)t->at[middle].line < line)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

size_t lml_tokens_set(const lml_tokens *t, lml_span name)
{
    size_t low = 0, high = t->sets;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (order_names(t->set[middle]->text, name) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

bool lml_tokens_have(const lml_tokens *t, double number)
{
    return t->numbers > 0 && bsearch(&number, t->number, t->numbers, sizeof number, by_size);
}
