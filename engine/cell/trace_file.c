#include "cell/trace_file.h"

#include "base/ascii.h"
#include "base/decimal.h"

#include <string.h>

typedef struct written {
    double number;
    unsigned line;
    bool constant;
} written;

/* Read once: a run asks of the same few files for each bare number. */
struct lml_trace_file {
    struct lml_trace_file *next;
    const char *name;
    written *all;
    size_t count;
};

/* Add the numbers of the line to those at `all`, unless it is NULL; how many there are. */
static size_t read_line(lml_span line, unsigned number, written *all)
{
    static const char local[] = "local ";
    const size_t name = sizeof local - 1;
    bool constant = lml_span_starts(line, local) && line.length > name && line.at[name] >= 'A' &&
                    line.at[name] <= 'Z';
    size_t count = 0;
    for (size_t i = 0; i < line.length; i++) {
        lml_decimal d;
        bool within = i > 0 && (lml_ascii_is_name(line.at[i - 1]) || line.at[i - 1] == '.');
        if (within || !lml_ascii_is_digit(line.at[i]) ||
            lml_decimal_read((lml_span){line.at + i, line.length - i}, &d) == 0)
            continue;
        if (all)
            all[count] = (written){lml_decimal_scale(&d, (lml_rational){1, 1}), number, constant};
        count++;
    }
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
    t->file = f;
    return f;
}

bool lml_trace_file_has(lml_trace *t, const char *file, unsigned line, double x)
{
    const struct lml_trace_file *f = find(t, file);
    for (size_t i = 0; f && i < f->count; i++)
        if (f->all[i].number == x && (f->all[i].constant || f->all[i].line == line))
            return true;
    return false;
}
