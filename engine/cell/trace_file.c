#include "cell/trace_file.h"

#include "base/decimal.h"
#include "cell/code_line.h"

#include <stdlib.h>
#include <string.h>

typedef struct written {
    double number;
    unsigned line;  /* 0: of a constant of the file */
    const char *at; /* in the line */
} written;

static int in_order(const void *a, const void *b)
{
    const written *one = a, *other = b;
    const int order = (one->number > other->number) - (one->number < other->number),
              by_line = (one->line > other->line) - (one->line < other->line);
    return order != 0     ? order
           : by_line != 0 ? by_line
                          : (one->at > other->at) - (one->at < other->at);
}

/* Read and sorted once: a run asks of the same few files for each bare number. */
struct lml_trace_file {
    struct lml_trace_file *next;
    const char *name;
    written *all;
    size_t count;
};

/* Add the numbers of the line to those at `all`, unless it is NULL; how many there are. */
static size_t read_line(lml_span line, unsigned number, written *all)
{
    bool constant = lml_code_line_names(line).length > 0;
    size_t count = 0, at = 0;
    for (double x; lml_code_line_next(line, &at, &x); count++)
        if (all)
            all[count] = (written){x, constant ? 0 : number, line.at + at - 1};
    return count;
}

static size_t read_text(lml_span text, written *all)
{
    const char *end = text.at + text.length, *feed;
    size_t count = 0;
    unsigned number = 1;
    for (const char *from = text.at; from < end; from = feed + 1, number++) {
        feed = memchr(from, '\n', (size_t)(end - from));
        feed = feed ? feed : end;
        count += read_line(lml_span_between(from, feed), number, all ? all + count : NULL);
    }
    return count;
}

static const struct lml_trace_file *find(lml_trace *t, const char *name)
{
    for (struct lml_trace_file *f = t->file; f; f = f->next)
        if (strcmp(f->name, name) == 0)
            return f;
    lml_span text = t->text(t->text_self, name);
    size_t count = read_text(text, NULL);
    lml_alloc pool = lml_pool_alloc(&t->texts);
    struct lml_trace_file *f = lml_alloc_get(&pool, sizeof *f + count * sizeof *f->all);
    if (!f) {
        t->short_of = true;
        return NULL;
    }
    *f = (struct lml_trace_file){t->file, name, (written *)(f + 1), count};
    read_text(text, f->all);
    qsort(f->all, count, sizeof *f->all, in_order);
    t->file = f;
    return f;
}

/* The first of that number in the line, or what is behind it. */
static size_t first_of(const struct lml_trace_file *f, double x, unsigned line)
{
    const written wanted = {x, line, NULL};
    size_t low = 0, high = f->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (in_order(&f->all[middle], &wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static bool is_there(const struct lml_trace_file *f, size_t i, double x, unsigned line)
{
    return i < f->count && f->all[i].number == x && f->all[i].line == line;
}

bool lml_trace_file_has(lml_trace *t, const char *file, unsigned line, double x)
{
    const struct lml_trace_file *f = find(t, file);
    return f &&
           (is_there(f, first_of(f, x, 0), x, 0) || is_there(f, first_of(f, x, line), x, line));
}

bool lml_trace_file_has_text(lml_trace *t, const char *file, unsigned line, lml_span words)
{
    lml_decimal d;
    const size_t used = lml_decimal_read(words, &d);
    const struct lml_trace_file *f = used > 0 ? find(t, file) : NULL;
    if (!f)
        return false;
    const lml_span text = t->text(t->text_self, file);
    const double x = lml_decimal_scale(&d, (lml_rational){1, 1});
    for (size_t i = first_of(f, x, line); is_there(f, i, x, line); i++) {
        const char *at = f->all[i].at, *end = text.at + text.length;
        if (at > text.at && at[-1] == '"' && words.length < (size_t)(end - at) &&
            memcmp(at, words.at, words.length) == 0 && at[words.length] == '"')
            return true;
    }
    return false;
}
