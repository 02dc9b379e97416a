/* The operator tables of docs/values.md, cell by cell. The page is the expectation: it is read here
 * as a person reads it, its samples are read as values, and the engine must do what the cell says.
 * What cannot be understood fails. */
#include <criterion/criterion.h>

#include "value/arithmetic.h"
#include "value/wanted.h"
#include "read/read.h"
#include "value/compare.h"
#include "value/step.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { KINDS = 32, COLUMNS = 32, CELL = 160, LINE = 4096, KINDS_ON_PAGE = 18 };

typedef struct kind {
    char name[CELL], first[CELL], second[CELL];
} kind;

typedef struct page {
    FILE *file;
    char heading[CELL];
    int number;
} page;

typedef struct row {
    int count;
    char cell[COLUMNS][CELL];
} row;

static page open_page(void)
{
    page p = {.file = fopen(LML_SOURCE_DIR "/docs/values.md", "rb")};
    cr_assert(p.file, "docs/values.md cannot be opened");
    return p;
}

/* Without blanks and backticks at both ends, nor the asterisks of **bold** words. */
static void clean(const char *from, size_t length, char *out)
{
    while (length > 0 && strchr(" `", from[0]))
        from++, length--;
    while (length > 0 && strchr(" `", from[length - 1]))
        length--;
    if (length > 4 && strncmp(from, "**", 2) == 0 && strncmp(from + length - 2, "**", 2) == 0)
        from += 2, length -= 4;
    cr_assert(length < CELL);
    memcpy(out, from, length);
    out[length] = '\0';
}

/* The next row of a table under `heading`; false at the end of the page. */
static bool next_row(page *p, const char *heading, row *r)
{
    char line[LINE];
    while (fgets(line, sizeof line, p->file)) {
        p->number++;
        if (line[0] == '#') {
            const char *words = line + strspn(line, "# ");
            clean(words, strcspn(words, "\r\n"), p->heading);
        }
        if (line[0] != '|' || strncmp(line, "|---", 4) == 0 || strcmp(p->heading, heading) != 0)
            continue;
        r->count = 0;
        for (const char *at = line + 1, *bar; (bar = strchr(at, '|')) != NULL; at = bar + 1) {
            cr_assert(r->count < COLUMNS);
            clean(at, (size_t)(bar - at), r->cell[r->count++]);
        }
        return true;
    }
    fclose(p->file);
    return false;
}

static int read_kinds(kind kinds[KINDS])
{
    page p = open_page();
    row r;
    int count = 0;
    cr_assert(next_row(&p, "The kinds", &r));
    while (next_row(&p, "The kinds", &r)) {
        cr_assert(r.count == 4 && count < KINDS);
        strcpy(kinds[count].name, r.cell[0]);
        strcpy(kinds[count].first, r.cell[1]);
        strcpy(kinds[count++].second, r.cell[2]);
    }
    cr_assert_eq(count, KINDS_ON_PAGE);
    return count;
}

static lml_value value_of(const char *text)
{
    lml_value v;
    lml_error err;
    cr_assert_eq(lml_read_value(lml_span_of(text), LML_WANT_ANYTHING, LML_NO_METAL, &v, &err),
                 LML_OK, "\"%s\" is not read: %s (%s)", text, err.message, err.hint);
    return v;
}

static bool has_powers(const lml_value *v, int mass, int length, int time, int temperature)
{
    lml_dimension d = v->dimension;
    return v->kind == LML_QUANTITY && d.mass == mass && d.length == length && d.time == time &&
           d.temperature == temperature && d.current == 0 && d.money == 0 && d.currency == 0;
}

static bool is_price(const lml_value *v)
{
    lml_dimension d = v->dimension;
    return v->kind == LML_QUANTITY && d.money == 1 &&
           (d.mass || d.length || d.time || d.temperature || d.current);
}

/* Whether a value is of the kind that the page names; an unknown name fails. */
static bool is_of(const lml_value *v, const char *name)
{
    bool plain = v->mode == LML_NO_MODE;
    const struct {
        const char *name;
        bool holds;
    } known[] = {
        {"number", v->kind == LML_NUMBER},
        {"ratio", has_powers(v, 0, 0, 0, 0) && plain},
        {"mass", has_powers(v, 1, 0, 0, 0) && plain},
        {"volume", has_powers(v, 0, 3, 0, 0) && plain},
        {"time", has_powers(v, 0, 0, 1, 0) && plain},
        {"price", is_price(v) && plain},
        {"temperature", v->kind == LML_TEMPERATURE},
        {"temperature difference", has_powers(v, 0, 0, 0, 1) && plain},
        {"fineness", v->kind == LML_FINENESS && v->metal == LML_Au},
        {"fineness difference", v->kind == LML_FINENESS_DIFFERENCE && v->metal == LML_Au},
        {"fine mass", v->kind == LML_FINE_MASS && v->metal == LML_Au},
        {"money", v->kind == LML_MONEY},
        {"pressure", has_powers(v, 1, -1, -2, 0) && plain},
        {"absolute pressure", has_powers(v, 1, -1, -2, 0) && v->mode == LML_ABSOLUTE},
        {"vacuum", has_powers(v, 1, -1, -2, 0) && v->mode == LML_VACUUM},
        {"moment", v->kind == LML_MOMENT},
        {"time of day", v->kind == LML_TIME_OF_DAY},
        {"weekday", v->kind == LML_WEEKDAY},
        {"compound", v->kind == LML_QUANTITY && plain},
    };
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (strcmp(known[i].name, name) == 0)
            return known[i].holds;
    cr_assert_fail("the page names a kind \"%s\" that nobody knows", name);
    return false;
}

typedef lml_status operation(const lml_value *a, const lml_value *b, lml_value *out,
                             lml_error *err);

static const struct {
    const char *sign;
    operation *run;
} operations[] = {{"+", lml_arithmetic_add}, {"-", lml_arithmetic_sub}, {"*", lml_arithmetic_mul},
                  {"/", lml_arithmetic_div}, {"//", lml_step_divide},   {"%", lml_step_remainder}};

static operation *operation_of(const char *sign)
{
    for (size_t i = 0; i < sizeof operations / sizeof *operations; i++)
        if (strcmp(operations[i].sign, sign) == 0)
            return operations[i].run;
    cr_assert_fail("the page names an operator \"%s\" that nobody knows", sign);
    return NULL;
}

static void expect_words(const lml_error *err, const char *where)
{
    cr_expect(strlen(err->message) > 10 && strlen(err->hint) > 10, "%s: no words: \"%s\" \"%s\"",
              where, err->message, err->hint);
    cr_expect_eq(err->labels, 0);
}

/* Powers of a product or quotient of quantities, added up here a second time. */
static void expect_powers(const char *sign, const lml_value *a, const lml_value *b,
                          const lml_value *result, const char *where)
{
    if (a->kind > LML_QUANTITY || b->kind > LML_QUANTITY || result->kind != LML_QUANTITY)
        return;
    int s = strcmp(sign, "*") == 0 ? 1 : strcmp(sign, "/") == 0 ? -1 : 0;
    if (s == 0)
        return;
    lml_dimension x = a->dimension, y = b->dimension, r = result->dimension;
    cr_expect(r.mass == x.mass + s * y.mass && r.length == x.length + s * y.length &&
                  r.time == x.time + s * y.time &&
                  r.temperature == x.temperature + s * y.temperature &&
                  r.current == x.current + s * y.current && r.money == x.money + s * y.money,
              "%s: the powers are wrong", where);
}

static void check_result(const char *sign, const char *first, const char *second,
                         const char *expected, const char *where)
{
    lml_value a = value_of(first), b = value_of(second), result;
    lml_error err;
    lml_status status = operation_of(sign)(&a, &b, &result, &err);
    lml_status due = strcmp(expected, "no") == 0             ? LML_MISMATCH
                     : strcmp(expected, "out of range") == 0 ? LML_BAD_VALUE
                                                             : LML_OK;
    cr_expect_eq(status, due, "%s: %s %s %s should be %s and is %s%s%s", where, first, sign, second,
                 expected, lml_status_name(status), status ? ": " : "", status ? err.message : "");
    cr_expect_eq(operation_of(sign)(&a, &b, &result, NULL), status, "%s: without an error", where);
    if (status != due)
        return;
    if (due != LML_OK) {
        expect_words(&err, where);
        return;
    }
    cr_expect(is_of(&result, expected), "%s: %s %s %s is no %s but %s", where, first, sign, second,
              expected, lml_kind_name((lml_kind)result.kind));
    cr_expect(result.origin == LML_UNSTATED && result.spread == LML_NO_SPREAD &&
              result.decimals == LML_SHORTEST);
    expect_powers(sign, &a, &b, &result, where);
}

static void check_comparison(const char *first, const char *second, const char *expected,
                             const char *where)
{
    lml_value a = value_of(first), b = value_of(second);
    lml_error err;
    int order = 9, reverse = 9;
    bool equal = true;
    bool ordered = strcmp(expected, "yes") == 0, known = strcmp(expected, "equal only") == 0;
    cr_assert(ordered || known || strcmp(expected, "no") == 0, "%s: \"%s\" is no answer", where,
              expected);
    lml_status status = lml_compare(&a, &b, &order, &err);
    cr_expect_eq(status, ordered ? LML_OK : LML_MISMATCH, "%s: compare %s, %s", where, first,
                 second);
    if (status != LML_OK)
        expect_words(&err, where);
    else {
        cr_expect_eq(lml_compare(&b, &a, &reverse, &err), LML_OK);
        cr_expect(order == -reverse && order >= -1 && order <= 1, "%s: no order", where);
    }
    status = lml_compare_equal(&a, &b, &equal, &err);
    cr_expect_eq(status, ordered || known ? LML_OK : LML_MISMATCH, "%s: equal %s, %s", where, first,
                 second);
    if (status == LML_OK)
        cr_expect_eq(equal, strcmp(first, second) == 0, "%s: %s, %s", where, first, second);
    cr_expect_eq(lml_compare_equal(&a, &b, &equal, NULL), status,
                 "%s: whether a refusal is told changes nothing", where);
}

static const kind *kind_named(const kind *kinds, int count, const char *name)
{
    for (int i = 0; i < count; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return &kinds[i];
    cr_assert_fail("the page has no sample of \"%s\"", name);
    return NULL;
}

/* One table: all kinds against all, each cell with the samples of its row and column. */
static void check_table(const char *sign)
{
    kind kinds[KINDS];
    int count = read_kinds(kinds), rows = 0;
    bool comparison = strcmp(sign, "compare") == 0;
    page p = open_page();
    static row head, r;
    cr_assert(next_row(&p, sign, &head), "the page has no table \"%s\"", sign);
    cr_assert_eq(head.count, count + 1);
    while (next_row(&p, sign, &r)) {
        cr_assert_eq(r.count, count + 1, "values.md:%d has %d cells", p.number, r.count);
        const kind *left = kind_named(kinds, count, r.cell[0]);
        cr_assert_str_eq(left->name, kinds[rows].name);
        for (int c = 1; c <= count; c++) {
            char where[2 * CELL];
            const kind *right = kind_named(kinds, count, head.cell[c]);
            cr_assert_str_eq(right->name, kinds[c - 1].name);
            snprintf(where, sizeof where, "values.md:%d, %.60s", p.number, right->name);
            if (comparison) {
                check_comparison(left->first, right->second, r.cell[c], where);
                check_comparison(left->first, right->first, r.cell[c], where);
            } else
                check_result(sign, left->first, right->second, r.cell[c], where);
        }
        rows++;
    }
    cr_assert_eq(rows, count, "the table \"%s\" has %d rows", sign, rows);
}

Test(operators, the_samples_are_of_their_kind)
{
    kind kinds[KINDS];
    int count = read_kinds(kinds);
    for (int i = 0; i < count; i++) {
        lml_value first = value_of(kinds[i].first), second = value_of(kinds[i].second);
        cr_expect(is_of(&first, kinds[i].name), "%s is no %s", kinds[i].first, kinds[i].name);
        cr_expect(is_of(&second, kinds[i].name), "%s is no %s", kinds[i].second, kinds[i].name);
    }
}

Test(operators, sums)
{
    check_table("+");
}

Test(operators, differences)
{
    check_table("-");
}

Test(operators, products)
{
    check_table("*");
}

Test(operators, quotients)
{
    check_table("/");
}

Test(operators, whole_quotients)
{
    check_table("//");
}

Test(operators, remainders)
{
    check_table("%");
}

Test(operators, comparisons)
{
    check_table("compare");
}

Test(operators, values_of_one_kind_that_are_apart)
{
    page p = open_page();
    row r;
    int count = 0;
    const char *heading = "The same kind, but different";
    cr_assert(next_row(&p, heading, &r));
    for (; next_row(&p, heading, &r); count++) {
        char where[CELL];
        cr_assert_eq(r.count, 4);
        snprintf(where, sizeof where, "values.md:%d", p.number);
        if (strcmp(r.cell[1], "compare") == 0)
            check_comparison(r.cell[0], r.cell[2], r.cell[3], where);
        else
            check_result(r.cell[1], r.cell[0], r.cell[2], r.cell[3], where);
    }
    cr_expect_geq(count, 25);
}
