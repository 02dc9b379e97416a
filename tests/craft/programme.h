/* Linear programmes for tests: made, drawn at random, solved, and their answers proved exactly by
 * arithmetic that owes nothing to how they were found. */
#ifndef LML_TESTS_CRAFT_PROGRAMME_H
#define LML_TESTS_CRAFT_PROGRAMME_H

#include "craft/scaled.h"
#include "craft/simplex.h"

#include <criterion/criterion.h>
#include <string.h>

enum { COLUMNS = 40, ROWS = 14 };

/* A problem with its own arrays. */
typedef struct programme {
    lml_simplex_range column[COLUMNS], row[ROWS];
    lml_i128 matrix[COLUMNS * ROWS], cost[COLUMNS];
    lml_simplex_problem problem;
} programme;

static inline void begin(programme *p, int columns, int rows)
{
    memset(p, 0, sizeof *p);
    for (int j = 0; j < COLUMNS; j++)
        p->column[j].has_low = true;
    p->problem = (lml_simplex_problem){.columns = columns,
                                       .rows = rows,
                                       .column = p->column,
                                       .row = p->row,
                                       .matrix = p->matrix,
                                       .cost = p->cost};
}

static inline void begin_at_most(programme *p, int columns, int rows, const int cost[],
                                 const int matrix[], const int high[])
{
    begin(p, columns, rows);
    for (int j = 0; j < columns; j++)
        p->cost[j] = cost[j];
    for (int k = 0; k < rows * columns; k++)
        p->matrix[k] = matrix[k];
    for (int i = 0; i < rows; i++)
        p->row[i] = (lml_simplex_range){.has_high = true, .high = high[i]};
}

static inline lml_simplex_answer solve(const programme *p)
{
    lml_alloc heap = lml_alloc_heap();
    lml_simplex_answer answer;
    lml_error err;
    lml_status s = lml_simplex_solve(&p->problem, &heap, &answer, &err);
    cr_assert_eq(s, LML_OK, "%s", err.message);
    return answer;
}

static uint64_t state; /* of the draws: each test sets it */

static inline int draw(int low, int high)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return low + (int)((state >> 33) % (uint64_t)(high - low + 1));
}

/* --- exact checks, independent of how the answer was found ------------------------------------ */

static inline lml_big product(const lml_big *a, lml_i128 b)
{
    lml_big whole = lml_scaled_big(b), out;
    cr_assert_eq(lml_big_mul(a, &whole, &out, NULL), LML_OK);
    return out;
}

static inline void add(lml_big *sum, const lml_big *a)
{
    cr_assert_eq(lml_big_add(sum, a, sum, NULL), LML_OK);
}

static inline bool equal(const lml_big *a, const lml_big *b)
{
    return lml_big_compare(a, b) == 0;
}

/* The rows' amounts are what the columns make, and marginals and costs add up:
 * cost = column's marginal + sum over rows of row's marginal * coefficient (0 for a certificate).
 */
static inline void expect_sums(const programme *p, const lml_simplex_answer *a, bool certificate)
{
    int columns = p->problem.columns, rows = p->problem.rows;
    for (int i = 0; i < rows; i++) {
        lml_big sum = lml_big_of(0);
        for (int j = 0; j < columns; j++) {
            lml_big part = product(&a->column[j].amount, p->matrix[i * columns + j]);
            add(&sum, &part);
        }
        cr_assert(equal(&sum, &a->row[i].amount), "row %d is not its sum", i);
    }
    for (int j = 0; j < columns; j++) {
        lml_big sum = a->column[j].marginal;
        lml_big due = product(&a->bottom, certificate ? 0 : p->cost[j]);
        for (int i = 0; i < rows; i++) {
            lml_big part = product(&a->row[i].marginal, p->matrix[i * columns + j]);
            add(&sum, &part);
        }
        cr_assert(equal(&sum, &due), "column %d: prices do not add up to its cost", j);
    }
}

static inline const lml_simplex_range *range_of(const programme *p, int v)
{
    return v < p->problem.columns ? &p->column[v] : &p->row[v - p->problem.columns];
}

/* In bounds, and every marginal at the bound that its sign belongs to: with expect_sums that proves
 * the least cost (weak duality), whatever the solver did. */
static inline void expect_optimal(const programme *p, const lml_simplex_answer *a)
{
    cr_assert_eq(a->outcome, LML_SIMPLEX_OPTIMAL);
    cr_assert_eq(a->bottom.sign, 1);
    expect_sums(p, a, false);
    lml_big cost = lml_big_of(0);
    for (int v = 0; v < p->problem.columns + p->problem.rows; v++) {
        const lml_simplex_range *r = range_of(p, v);
        const lml_simplex_part *part = &a->column[v];
        lml_big low = product(&a->bottom, r->low), high = product(&a->bottom, r->high);
        bool at_low = r->has_low && equal(&part->amount, &low);
        bool at_high = r->has_high && equal(&part->amount, &high);
        cr_assert(!r->has_low || lml_big_compare(&part->amount, &low) >= 0);
        cr_assert(!r->has_high || lml_big_compare(&part->amount, &high) <= 0);
        cr_assert(part->marginal.sign <= 0 || at_low, "%d: a worth above 0 off its low bound", v);
        cr_assert(part->marginal.sign >= 0 || at_high, "%d: a worth below 0 off its high bound", v);
        cr_assert_eq(part->place, at_low ? LML_AT_LOW : at_high ? LML_AT_HIGH : LML_AT_NEITHER);
        cr_assert_eq(part->nearest_amount, lml_big_ratio(&part->amount, &a->bottom));
        if (v < p->problem.columns) {
            lml_big paid = product(&part->amount, p->cost[v]);
            add(&cost, &paid);
        }
    }
    cr_assert(equal(&cost, &a->cost));
}

/* The weighted bounds are above 0 although the weighted amounts are 0 for every x: no x fits. */
static inline void expect_certificate(const programme *p, const lml_simplex_answer *a)
{
    cr_assert_eq(a->outcome, LML_SIMPLEX_INFEASIBLE);
    expect_sums(p, a, true);
    lml_big least = lml_big_of(0);
    for (int v = 0; v < p->problem.columns + p->problem.rows; v++) {
        const lml_simplex_range *r = range_of(p, v);
        int sign = a->column[v].marginal.sign;
        if (sign == 0)
            continue;
        cr_assert(sign > 0 ? r->has_low : r->has_high, "%d: the proof leans on no bound", v);
        lml_big part = product(&a->column[v].marginal, sign > 0 ? r->low : r->high);
        add(&least, &part);
    }
    cr_assert_eq(least.sign, 1);
}

static inline void expect_ratio(const lml_big *top, const lml_big *bottom, int64_t n, int64_t d)
{
    lml_big left = product(top, d), right = product(bottom, n);
    cr_expect(equal(&left, &right), "%.17g instead of %lld/%lld", lml_big_ratio(top, bottom),
              (long long)n, (long long)d);
}

/* Small whole numbers, many zeros and equal ones, so that corners are degenerate and rows clash. */
static inline void draw_small(programme *p, int columns, int rows)
{
    begin(p, columns, rows);
    for (int j = 0; j < columns; j++) {
        p->cost[j] = draw(-4, 4);
        int low = draw(-1, 2);
        p->column[j] = (lml_simplex_range){true, true, low, low + draw(0, 5)};
    }
    for (int i = 0; i < rows; i++) {
        int low = draw(-6, 8);
        p->row[i] = (lml_simplex_range){draw(0, 2) > 0, draw(0, 1) == 1, low, low + draw(0, 4)};
        for (int j = 0; j < columns; j++)
            p->matrix[i * columns + j] = draw(0, 2) == 0 ? 0 : draw(-3, 3);
    }
}

/* As charges are: fractions in tenths of a thousandth against their limits, hundredths of a gram.
 */
static inline void draw_charge(programme *p, int columns, int rows)
{
    begin(p, columns, rows);
    for (int j = 0; j < columns; j++) {
        p->cost[j] = draw(0, 10500);
        p->column[j] = (lml_simplex_range){true, draw(0, 3) > 0, 0, draw(50, 3000)};
        p->matrix[j] = 1;
    }
    int mass = draw(500, 5000);
    p->row[0] = (lml_simplex_range){true, draw(0, 1) == 1, mass, mass};
    for (int i = 1; i < rows; i++) {
        int limit = draw(0, 10000);
        p->row[i].has_low = true;
        for (int j = 0; j < columns; j++)
            p->matrix[i * columns + j] = draw(-2000, 10000) - limit;
    }
}

#endif
