#include "report/constant.h"

#include "base/decimal.h"
#include "cell/code_line.h"
#include "report/folded.h"
#include "report/operand.h"
#include "report/tokens.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    ABOVE = 3,       /* lines of a comment above a constant */
    LINE_MOST = 4000 /* bytes of a line that are read: a longer one was printed by a program */
};

/* ---- files ---- */

typedef struct lines {
    lml_span text;
    const uint32_t *start; /* of each, and of what is behind the last */
    unsigned count;
} lines;

/* False without memory. */
static bool read_lines(lml_span text, const lml_alloc *alloc, lines *out)
{
    lines l = {.text = text, .count = 1};
    for (size_t i = 0; i < text.length; i++)
        l.count += text.at[i] == '\n';
    uint32_t *start = lml_alloc_get(alloc, (l.count + 1) * sizeof *start);
    if (!start)
        return false;
    unsigned n = 0;
    start[n++] = 0;
    for (size_t i = 0; i < text.length; i++)
        if (text.at[i] == '\n')
            start[n++] = (uint32_t)i + 1;
    start[n] = (uint32_t)text.length + 1;
    l.start = start;
    *out = l;
    return true;
}

/* Counted from 1; empty where there is none. */
static lml_span line_at(const lines *l, unsigned number)
{
    if (number == 0 || number > l->count)
        return (lml_span){"", 0};
    const size_t from = l->start[number - 1], length = l->start[number] - 1 - from;
    return (lml_span){l->text.at + from, length < LINE_MOST ? length : LINE_MOST};
}

struct lml_constant_file {
    struct lml_constant_file *next;
    const char *name;
    lines lines;
    lml_tokens tokens;
};

/* The file, read once. NULL without memory. */
static const struct lml_constant_file *open_file(lml_constants *c, const char *name)
{
    for (struct lml_constant_file *f = c->file; f; f = f->next)
        if (strcmp(f->name, name) == 0)
            return f;
    const lml_span text = c->trace->text(c->trace->text_self, name);
    struct lml_constant_file *f = lml_alloc_get(&c->alloc, sizeof *f);
    if (!f || !read_lines(text, &c->alloc, &f->lines) ||
        !lml_tokens_read(text, &c->alloc, &f->tokens))
        return NULL;
    f->name = name;
    f->next = c->file;
    c->file = f;
    return f;
}

/* The line in front of its comment, and the comment without its dashes. */
static lml_span cut_comment(lml_span line, lml_span *comment)
{
    char quote = '\0';
    *comment = (lml_span){"", 0};
    for (size_t i = 0; i + 1 < line.length; i++) {
        char c = line.at[i];
        if (quote) {
            quote = c == quote ? '\0' : quote;
        } else if (c == '"' || c == '\'') {
            quote = c;
        } else if (c == '-' && line.at[i + 1] == '-') {
            *comment = lml_span_trim((lml_span){line.at + i + 2, line.length - i - 2});
            return (lml_span){line.at, i};
        }
    }
    return line;
}

/* ---- what is looked for ---- */

static bool has_words(lml_span line, lml_span words)
{
    for (size_t i = 0; words.length > 0 && i + words.length <= line.length; i++)
        if (memcmp(line.at + i, words.at, words.length) == 0)
            return true;
    return false;
}

/* "-0.5"; false where the words are no number, or not only one. */
static bool read_number(lml_span is, double *out)
{
    lml_decimal d;
    const size_t sign = is.length > 0 && is.at[0] == '-';
    const size_t used = lml_decimal_read((lml_span){is.at + sign, is.length - sign}, &d);
    if (used == 0 || used + sign != is.length)
        return false;
    const double x = lml_decimal_scale(&d, (lml_rational){1, 1});
    *out = sign ? -x : x;
    return true;
}

/* Whether the code of the line has the constant: a number, or a text with its quotes. */
static bool has(lml_span line, lml_span is)
{
    lml_span comment, code = cut_comment(line, &comment);
    if (is.length > 0 && is.at[0] == '"')
        return has_words(code, is);
    double x;
    if (!read_number(is, &x))
        return false;
    size_t at = 0;
    for (double y; lml_code_line_next(code, &at, &y);)
        if (y == fabs(x))
            return true;
    return false;
}

/* ---- what is said of it ---- */

/* The comment beside the constant, or above one that has a name. */
static void say(lml_constant *o, const lines *l)
{
    lml_span comment;
    cut_comment(line_at(l, o->line), &comment);
    o->said[0] = '\0';
    if (comment.length > 0 || o->name.length == 0) {
        snprintf(o->said, sizeof o->said, "%.*s", LML_SPAN_SHOWN(comment));
        return;
    }
    size_t used = 0;
    unsigned first = o->line;
    while (first > 1 && o->line - first < ABOVE && lml_span_starts(line_at(l, first - 1), "-- ") &&
           !lml_span_starts(line_at(l, first - 1), "-- --"))
        first--;
    for (; first < o->line && used < sizeof o->said; first++) {
        cut_comment(line_at(l, first), &comment);
        used += (size_t)snprintf(o->said + used, sizeof o->said - used, "%s%.*s",
                                 used > 0 ? " " : "", LML_SPAN_SHOWN(comment));
    }
}

/* ---- bare numbers that were said ---- */

/* "count" of "given.stones[0].count", and of "house.confidence, assumed" what it is called. */
static lml_span last_name(const char *what)
{
    size_t end = strcspn(what, ","), from = end;
    while (from > 0 && what[from - 1] != '.')
        from--;
    return (lml_span){what + from, end - from};
}

static bool has_name(lml_span line, lml_span called)
{
    for (size_t i = 0; called.length > 0 && i + called.length <= line.length; i++) {
        size_t end = i + called.length;
        if ((i == 0 || !lml_ascii_is_name(line.at[i - 1])) &&
            (end == line.length || !lml_ascii_is_name(line.at[end])) &&
            memcmp(line.at + i, called.at, called.length) == 0)
            return true;
    }
    return false;
}

/* Whether another input of the step was said in the same record: "given.stones[0]". */
static bool is_beside(const lml_trace *t, const lml_step *into, const char *what)
{
    size_t front = (size_t)(last_name(what).at - what);
    lml_trace_inputs of;
    lml_trace_inputs_open(&of, t, into);
    for (uint32_t in; front > 0 && (in = lml_trace_inputs_next(&of)) != 0;) {
        const char *other = t->step[in].what;
        if (other && strncmp(other, what, front) == 0)
            return true;
    }
    return false;
}

/* What was said, by its text, then in its order. */
struct lml_constant_all_said {
    size_t count;
    const lml_step *step[];
};

static int by_text(const void *a, const void *b)
{
    const lml_step *one = *(const lml_step *const *)a, *other = *(const lml_step *const *)b;
    const int order = strcmp(one->is, other->is);
    return order != 0 ? order : (one > other) - (one < other);
}

static bool is_said(const lml_step *s)
{
    return s->what && s->file;
}

/* Read once. NULL without memory. */
static const struct lml_constant_all_said *all_said(lml_constants *c)
{
    const lml_trace *t = c->trace;
    size_t count = 0;
    if (c->said)
        return c->said;
    for (size_t i = 1; i < t->steps; i++)
        count += is_said(&t->step[i]);
    struct lml_constant_all_said *all =
        lml_alloc_get(&c->alloc, sizeof *all + count * sizeof *all->step);
    if (!all)
        return NULL;
    all->count = 0;
    for (size_t i = 1; i < t->steps; i++)
        if (is_said(&t->step[i]))
            all->step[all->count++] = &t->step[i];
    qsort(all->step, count, sizeof *all->step, by_text);
    c->said = all;
    return all;
}

static size_t first_said(const struct lml_constant_all_said *all, const char *is)
{
    size_t low = 0, high = all->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (strcmp(all->step[middle]->is, is) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Said as that number, under a name that the line has. Of two, the one beside what else went in;
 * 0 where neither or both are. */
static uint32_t find_said(lml_constants *c, const char *is, const lml_step *into, lml_span line)
{
    const lml_trace *t = c->trace;
    const struct lml_constant_all_said *all = all_said(c);
    uint32_t found = 0;
    bool beside = false, several = false;
    for (size_t i = all ? first_said(all, is) : 0;
         all && i < all->count && strcmp(all->step[i]->is, is) == 0; i++) {
        const lml_step *s = all->step[i];
        if (!has_name(line, last_name(s->what)))
            continue;
        bool near = is_beside(t, into, s->what);
        bool same = found && strcmp(t->step[found].what, s->what) == 0;
        if (found && near == beside && !same)
            several = true;
        if (!found || (near && !beside)) {
            several = false;
            found = (uint32_t)(s - t->step);
            beside = near;
        }
    }
    return several ? 0 : found;
}

uint32_t lml_constant_said(lml_constants *c, uint32_t plain, uint32_t into)
{
    const lml_trace *t = c->trace;
    const lml_step *s = &t->step[plain], *to = &t->step[into];
    bool calculated = s->how && strcmp(s->how, LML_TRACE_PLAIN) == 0;
    bool constant = !s->how && !s->what && s->is[0] && s->is[0] != '"';
    if (!(calculated || constant) || !to->file || !t->text)
        return plain;
    const struct lml_constant_file *f = open_file(c, to->file);
    lml_span comment,
        line = cut_comment(f ? line_at(&f->lines, to->line) : (lml_span){"", 0}, &comment);
    if (has(line, lml_span_of(s->is)))
        return plain;
    uint32_t found = find_said(c, s->is, to, line);
    return found ? found : plain;
}

/* ---- the whole ---- */

/* Of 0 and 1 there is nothing to say: they are everywhere. */
static bool is_common(lml_span is)
{
    return lml_span_is(is, "0") || lml_span_is(is, "1") || lml_span_is(is, "-1");
}

bool lml_constant_of_text(const lml_trace *trace, lml_span words, lml_constant *out)
{
    bool once;
    *out = (lml_constant){.name = {"", 0}};
    return trace->where && trace->where(trace->text_self, words, &out->file, &out->line, &once);
}

/* Of a text from elsewhere where it is written, if in one place alone: it may still have been
 * joined of others here. */
static void say_text(const lml_trace *t, lml_span is, lml_constant *out)
{
    const char *file;
    unsigned line;
    bool once = false;
    if (is.length < 3 || is.at[0] != '"' || !t->where)
        return;
    const lml_span words = {is.at + 1, is.length - 2};
    if (t->where(t->text_self, words, &file, &line, &once) && once)
        snprintf(out->said, sizeof out->said, "written only in %s:%u", file, line);
}

/* The literal that the operation took. Of two inputs that are alike it is not known which. */
static bool find_literal(const lml_trace *t, const struct lml_constant_file *f,
                         const lml_step *into, uint32_t input, size_t *out)
{
    const char *is = t->step[input].is;
    lml_operation o = {.how = into->how, .line = into->line};
    uint32_t place = 0, alike = 0;
    lml_trace_inputs in;
    lml_trace_inputs_open(&in, t, into);
    for (uint32_t step; (step = lml_trace_inputs_next(&in)) != 0; place++) {
        if (step == input)
            o.side = place;
        alike += strcmp(t->step[step].is, is) == 0;
    }
    return alike == 1 && lml_operand_find(&f->tokens, &o, lml_span_of(is), out);
}

/* Of a number that the line makes of constants. */
static bool find_folded(const struct lml_constant_file *f, lml_span is, lml_constant *out)
{
    double x;
    lml_folded found;
    if (!read_number(is, &x))
        return false;
    if (!lml_folded_find(&f->tokens, out->line, x, &found))
        return false;
    if (found.constant) {
        out->line = (unsigned)f->tokens.at[found.constant].line;
        out->name = lml_operand_name(&f->tokens, found.constant);
        say(out, &f->lines);
    }
    out->name = found.words;
    return true;
}

bool lml_constant_folds(lml_constants *c, uint32_t into, uint32_t plain, lml_constant *out)
{
    const lml_trace *t = c->trace;
    const lml_step *to = &t->step[into], *s = &t->step[plain];
    if (!s->how || strcmp(s->how, LML_TRACE_PLAIN) != 0 || !to->file || !to->file[0] || !t->text)
        return false;
    *out = (lml_constant){.file = to->file, .line = to->line, .name = {"", 0}};
    const struct lml_constant_file *f = open_file(c, to->file);
    return f && find_folded(f, lml_span_of(s->is), out);
}

void lml_constant_find(lml_constants *c, uint32_t into, uint32_t input, lml_constant *out)
{
    const lml_trace *t = c->trace;
    const lml_step *to = &t->step[into];
    const lml_span is = lml_span_of(t->step[input].is);
    size_t literal;
    *out = (lml_constant){
        .file = to->file && to->file[0] ? to->file : NULL, .line = to->line, .name = {"", 0}};
    const struct lml_constant_file *f =
        out->file && t->text && !is_common(is) ? open_file(c, to->file) : NULL;
    if (!f)
        return;
    if (find_literal(t, f, to, input, &literal)) {
        out->line = (unsigned)f->tokens.at[literal].line;
        out->name = lml_operand_name(&f->tokens, literal);
        say(out, &f->lines);
        return;
    }
    if (find_folded(f, is, out))
        return;
    bool number = is.length > 0 && (lml_ascii_is_digit(is.at[0]) || is.at[0] == '-');
    double x;
    out->calculated = number && !(read_number(is, &x) && lml_tokens_have(&f->tokens, fabs(x)));
    if (!number)
        say_text(t, is, out);
}

/* ---- the row of a table ---- */

enum { ROW_LINES = 6, ROWS_MOST = 100 }; /* before the words; that have them: choices of ours */

/* The brace that opens the table which the place is in, on its line or a few above; 0: none. */
static unsigned find_open(const lines *l, unsigned number, lml_span before, size_t *at)
{
    int depth = 0;
    for (unsigned n = number; n > 0 && number - n <= ROW_LINES; n--) {
        lml_span comment, code = cut_comment(n == number ? before : line_at(l, n), &comment);
        for (size_t i = code.length; i > 0; i--) {
            char c = code.at[i - 1];
            depth += c == '}' ? 1 : c == '{' ? -1 : 0;
            if (depth < 0) {
                *at = i - 1;
                return n;
            }
        }
    }
    return 0;
}

typedef struct row_read {
    char *out;
    size_t used;
    int depth;
} row_read;

/* Add the code, of inner tables only that there are some. False behind the row's end, or where it
 * is too long. */
static bool add_code(row_read *r, lml_span code)
{
    for (size_t i = 0; i < code.length; i++) {
        char c = code.at[i];
        r->depth += c == '{' ? 1 : 0;
        bool shown = r->depth <= 1 || (r->depth == 2 && c == '{');
        if (r->used + 8 > LML_CONSTANT_ROW) {
            r->used = 0;
            return false;
        }
        if (shown)
            r->out[r->used++] = c;
        if (r->depth == 2 && c == '}')
            r->used += (size_t)snprintf(r->out + r->used, 6, "...}");
        r->depth -= c == '}' ? 1 : 0;
        if (c == '}' && r->depth == 0)
            return false;
    }
    return true;
}

/* The row around the words in the line; "" where there is none. */
static void read_row(const lines *l, unsigned number, size_t quote, char out[LML_CONSTANT_ROW])
{
    size_t open = 0;
    row_read r = {.out = out};
    unsigned n = find_open(l, number, (lml_span){line_at(l, number).at, quote}, &open);
    for (bool more = n > 0; more && n <= l->count; n++) {
        lml_span comment, code = lml_span_trim(cut_comment(line_at(l, n), &comment));
        more = code.length == 0 || (add_code(&r, code) && add_code(&r, (lml_span){" ", 1}));
    }
    out[r.depth == 0 ? r.used : 0] = '\0';
    const char *brace = strchr(out, '{');
    if (brace && brace > out &&
        (brace - out < 2 || brace[-2] != '=')) /* a call, or what is returned */
        out[0] = '\0';
}

static bool is_of_metal(const char *row, const char *metal)
{
    size_t length = strlen(metal);
    return length > 0 && strncmp(row, metal, length) == 0 && row[length] == ' ';
}

void lml_constant_row(lml_constants *c, lml_constant *at, lml_span words, const char *metal,
                      char out[LML_CONSTANT_ROW])
{
    const struct lml_constant_file *f = c->trace->text ? open_file(c, at->file) : NULL;
    unsigned found = 0;
    out[0] = '\0';
    for (unsigned n = at->line; f && n <= f->lines.count && found < ROWS_MOST; n++) {
        char other[LML_CONSTANT_ROW];
        const lml_span line = line_at(&f->lines, n);
        size_t quote = 0;
        while (quote + words.length + 1 < line.length &&
               (line.at[quote] != '"' || memcmp(line.at + quote + 1, words.at, words.length) != 0 ||
                line.at[quote + 1 + words.length] != '"'))
            quote++;
        if (quote + words.length + 1 >= line.length)
            continue;
        found++;
        read_row(&f->lines, n, quote, other);
        if (is_of_metal(other, metal)) {
            at->line = n;
            snprintf(out, LML_CONSTANT_ROW, "%s", other);
            return;
        }
        if (found == 1)
            snprintf(out, LML_CONSTANT_ROW, "%s", other);
    }
    if (found > 1)
        out[0] = '\0';
}
