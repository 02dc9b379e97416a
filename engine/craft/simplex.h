/* Exact linear programming: bounded variables, ranged rows, whole-number coefficients.
 *
 *     minimise  cost . x   with   column low <= x <= high,   row low <= matrix x <= high
 *
 * The method is the revised simplex for bounded variables. The inverse of the basis is kept as
 * whole numbers over one common denominator (the basis's determinant; Edmonds 1967, Bareiss 1968),
 * so a pivot divides without remainder and nothing is ever rounded: "cannot be met" is a proof, a
 * binding bound is exact, and the same problem gives the same answer on every machine. Feasibility
 * comes first, by reducing the sum of violations; then the cost; then, for answers of equal cost,
 * one tie after the other. Pivots follow the largest coefficient, ties to the lower index, and
 * Bland's rule (1977) after a run of steps that did not move, which cannot cycle.
 *
 * It is not integer programming, and it knows nothing about metal: see craft/charge.
 *
 *     lml_simplex_problem p = {.columns = 2, .rows = 1, .column = c, .row = r, .matrix = m, .cost =
 * k}; lml_simplex_answer a; lml_status s = lml_simplex_solve(&p, &alloc, &a, err);
 *     ... a.column[0].amount ...
 *     lml_simplex_free(&a);
 */
#ifndef LML_CRAFT_SIMPLEX_H
#define LML_CRAFT_SIMPLEX_H

#include "base/alloc.h"
#include "base/big.h"

enum { LML_SIMPLEX_COLUMNS = 384, LML_SIMPLEX_ROWS = 128, LML_SIMPLEX_PIVOTS = 20000 };

typedef struct lml_simplex_range {
    bool has_low, has_high;
    lml_i128 low, high;
} lml_simplex_range;

typedef struct lml_simplex_problem {
    int columns, rows;
    const lml_simplex_range *column; /* each has a low bound */
    const lml_simplex_range *row;    /* either bound, both or none */
    const lml_i128 *matrix;          /* rows * columns, row after row */
    const lml_i128 *cost;            /* a figure for each column; NULL: any feasible point */
    const lml_i128 *tie;             /* least of this among the points of least cost; may be NULL */
    int more_ties;   /* so many further ties, one after the other, follow in `tie` */
    int most_pivots; /* 0: LML_SIMPLEX_PIVOTS */
} lml_simplex_problem;

typedef enum lml_simplex_outcome {
    LML_SIMPLEX_OPTIMAL,
    LML_SIMPLEX_INFEASIBLE,
    LML_SIMPLEX_UNBOUNDED
} lml_simplex_outcome;

typedef enum lml_simplex_place { LML_AT_NEITHER, LML_AT_LOW, LML_AT_HIGH } lml_simplex_place;

/* A column's x or a row's sum: amount / bottom and marginal / bottom exactly.
 *
 * Optimal: `marginal` is how much the cost rises for each unit by which the bound that holds it is
 * raised (the dual value of a row, the reduced cost of a column): positive only at the low bound,
 * negative only at the high one, zero between. At a degenerate corner it is one of several valid
 * values.
 *
 * Infeasible: the amounts are the nearest ones, and the marginals are a certificate (Farkas 1902).
 * Take the row sums weighted by their marginals: whatever x within the columns' bounds,
 *     sum over rows and columns of  marginal * (its low bound where positive, its high where
 * negative) is above 0, while for any x the marginals times the amounts add up to 0. Only bounds
 * with a marginal clash. */
typedef struct lml_simplex_part {
    lml_big amount, marginal;
    double nearest_amount, nearest_marginal;
    lml_simplex_place place; /* by its amount, whatever its marginal */
} lml_simplex_part;

typedef struct lml_simplex_answer {
    lml_simplex_outcome outcome;
    int pivots;
    lml_big bottom; /* above 0 */
    lml_big cost;   /* the least cost is cost / bottom; optimal only */
    double nearest_cost;
    int grows; /* unbounded: the column (or columns + row) that can grow without limit */
    int columns, rows;
    lml_simplex_part *column; /* unbounded: the point from which it grows */
    lml_simplex_part *row;    /* in the same block of memory, after the columns */
    lml_alloc alloc;
} lml_simplex_answer;

/* LML_OK for all three outcomes. LML_BAD_VALUE: a low bound above its high one, a column without a
 * low bound, a negative count. LML_LIMIT: more columns or rows than the limits above, or more
 * pivots than allowed. LML_OVERFLOW: the whole numbers exceeded lml_big. LML_NO_MEMORY. */
lml_status lml_simplex_solve(const lml_simplex_problem *problem, const lml_alloc *alloc,
                             lml_simplex_answer *out, lml_error *err);
void lml_simplex_free(lml_simplex_answer *answer);

#endif
