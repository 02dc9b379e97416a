/* Reads the tables of tests/reference: published values that the engine must reproduce.
 *
 * A table is UTF-8 text, one row a line, cells parted by one tab; lines that start with '#' and
 * empty lines are remarks. The first other line names the columns. A missing or empty table, a row
 * with too many or too few cells, a cell that is not the number it should be: each fails the test
 * and says where.
 *
 * The column `inputs`, where a table has one, holds `name=value` words parted by spaces. Every
 * input must be asked for, so that a misspelt one cannot pass unseen: ref_end_row fails on the
 * rest.
 *
 *     ref_table t = ref_open("karat.tsv");
 *     for (size_t i = 0; i < t.count; i++) {
 *         ref_row *row = &t.row[i];
 *         double karat = ref_input(row, "karat");
 *         ref_expect(row, ours);          columns published, tolerance, misprint
 *         ref_end_row(row);
 *     }
 */
#ifndef LML_TESTS_REFERENCE_H
#define LML_TESTS_REFERENCE_H

#include <criterion/criterion.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { REF_COLUMNS = 16, REF_ROWS = 1024, REF_INPUTS = 24, REF_LINE = 2048 };

/* Fails the test and goes no further. */
#define ref_fail(...)                                                                              \
    do {                                                                                           \
        cr_assert(false, __VA_ARGS__);                                                             \
        abort();                                                                                   \
    } while (0)

typedef struct ref_row {
    const struct ref_table *table;
    int line;
    char *cell[REF_COLUMNS];
    int inputs;
    struct {
        char *name, *value;
        bool asked;
    } input[REF_INPUTS];
} ref_row;

typedef struct ref_table {
    const char *name;
    int columns;
    char *column[REF_COLUMNS];
    size_t count;
    ref_row *row;
    struct ref_table *before;
} ref_table;

/* Tables live until the test's process ends; the list keeps them reachable for leak checkers. */
static ref_table *ref_opened;

/* The cell of a named column; fails when the table has no such column. */
static inline const char *ref_cell(const ref_row *row, const char *column)
{
    for (int i = 0; i < row->table->columns; i++)
        if (strcmp(row->table->column[i], column) == 0)
            return row->cell[i];
    ref_fail("%s has no column \"%s\"", row->table->name, column);
}

/* Where the row stands, for messages: "karat.tsv:12 FIN-01". */
static inline const char *ref_where(const ref_row *row)
{
    static char where[160];
    snprintf(where, sizeof where, "%s:%d %s", row->table->name, row->line, row->cell[0]);
    return where;
}

static inline double ref_number_of(const ref_row *row, const char *what, const char *text)
{
    char *end;
    double x = strtod(text, &end);
    if (*text == '\0' || *end != '\0' || !isfinite(x))
        ref_fail("%s: %s is \"%s\" and not a number", ref_where(row), what, text);
    return x;
}

static inline double ref_number(const ref_row *row, const char *column)
{
    return ref_number_of(row, column, ref_cell(row, column));
}

/* The text of a named input, or NULL. */
static inline const char *ref_input_text(ref_row *row, const char *name)
{
    for (int i = 0; i < row->inputs; i++)
        if (strcmp(row->input[i].name, name) == 0) {
            row->input[i].asked = true;
            return row->input[i].value;
        }
    return NULL;
}

static inline double ref_input_or(ref_row *row, const char *name, double absent)
{
    const char *text = ref_input_text(row, name);
    return text ? ref_number_of(row, name, text) : absent;
}

static inline double ref_input(ref_row *row, const char *name)
{
    const char *text = ref_input_text(row, name);
    if (!text)
        ref_fail("%s: the input \"%s\" is missing", ref_where(row), name);
    return ref_number_of(row, name, text);
}

static inline void ref_end_row(const ref_row *row)
{
    for (int i = 0; i < row->inputs; i++)
        cr_expect(row->input[i].asked, "%s: nobody asks for the input \"%s\"", ref_where(row),
                  row->input[i].name);
}

/* `tolerance` is absolute, or relative to the published value when it ends in %. */
static inline double ref_tolerance(const ref_row *row)
{
    char text[40];
    snprintf(text, sizeof text, "%s", ref_cell(row, "tolerance"));
    size_t length = strlen(text);
    bool relative = length > 0 && text[length - 1] == '%';
    if (relative)
        text[length - 1] = '\0';
    double tolerance = ref_number_of(row, "tolerance", text);
    return relative ? tolerance / 100 * fabs(ref_number(row, "published")) : tolerance;
}

/* Our value equals the published one within the tolerance, and differs by more than that from the
 * figure in the column `misprint`, when one stands there: a value printed somewhere that is wrong.
 */
static inline void ref_expect(const ref_row *row, double ours)
{
    double published = ref_number(row, "published"), tolerance = ref_tolerance(row);
    cr_expect(fabs(ours - published) <= tolerance, "%s: %s %s: we get %.9g, published %.9g +- %.3g",
              ref_where(row), ref_cell(row, "case"), ref_cell(row, "inputs"), ours, published,
              tolerance);
    const char *misprint = ref_cell(row, "misprint");
    if (*misprint)
        cr_expect(fabs(ours - ref_number_of(row, "misprint", misprint)) > tolerance,
                  "%s: we get %.9g, which is the misprint", ref_where(row), ours);
}

static inline int ref_split(char *line, char separator, char **part, int most)
{
    int count = 0;
    for (char *at = line; at; count++) {
        char *next = strchr(at, separator);
        if (next)
            *next++ = '\0';
        if (count < most)
            part[count] = at;
        at = next;
    }
    return count;
}

static inline void ref_read_inputs(ref_row *row)
{
    static const char blank[] = " ";
    char *rest = NULL;
    for (int c = 0; c < row->table->columns; c++) {
        if (strcmp(row->table->column[c], "inputs") != 0)
            continue;
        char *copy = strdup(row->cell[c]);
        for (char *word = strtok_r(copy, blank, &rest); word; word = strtok_r(NULL, blank, &rest)) {
            char *equals = strchr(word, '=');
            if (!equals || row->inputs == REF_INPUTS)
                ref_fail("%s: \"%s\" is not name=value, or one input too many", ref_where(row),
                         word);
            *equals = '\0';
            row->input[row->inputs].name = word;
            row->input[row->inputs++].value = equals + 1;
        }
        if (row->inputs == 0)
            free(copy);
    }
}

static inline ref_table *ref_open(const char *name)
{
    char path[512], line[REF_LINE];
    snprintf(path, sizeof path, "%s/tests/reference/%s", LML_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    if (!file)
        ref_fail("%s cannot be opened", path);
    ref_table *t = (ref_table *)calloc(1, sizeof *t);
    t->name = name;
    t->before = ref_opened;
    ref_opened = t;
    t->row = (ref_row *)calloc(REF_ROWS, sizeof *t->row);
    for (int number = 1; fgets(line, sizeof line, file); number++) {
        size_t length = strcspn(line, "\r\n");
        if (line[length] == '\0' && !feof(file))
            ref_fail("%s:%d is too long a line", name, number);
        line[length] = '\0';
        if (*line == '#' || *line == '\0')
            continue;
        if (t->columns == 0) {
            t->columns = ref_split(strdup(line), '\t', t->column, REF_COLUMNS);
            cr_assert(t->columns <= REF_COLUMNS, "%s has too many columns", name);
            continue;
        }
        cr_assert(t->count < REF_ROWS, "%s has too many rows", name);
        ref_row *row = &t->row[t->count++];
        row->table = t;
        row->line = number;
        int cells = ref_split(strdup(line), '\t', row->cell, REF_COLUMNS);
        cr_assert(cells == t->columns, "%s:%d has %d cells where %d are due", name, number, cells,
                  t->columns);
        ref_read_inputs(row);
    }
    fclose(file);
    cr_assert(t->count > 0, "%s holds no row", name);
    return t;
}

#endif
