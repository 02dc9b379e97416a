#include "craft/simplex.h"

#include "craft/scaled.h"
#include "craft/sticky.h"

#include <string.h>

/* So many steps without movement are taken by the largest coefficient before Bland's rule. */
enum { PATIENCE = 20 };

enum stage { FEASIBILITY, COST, TIE };
enum resting { AT_LOW, AT_HIGH, BASIC };

/* A variable is a column or, from `columns` on, the sum of a row; a row's sum has the column -1 in
 * its own row, so that  matrix x - sums = 0  and the right side is zero throughout.
 *
 * Invariant: inverse / bottom is the inverse of the basis, bottom > 0, and all of it is whole. */
typedef struct table {
    const lml_simplex_problem *problem;
    int columns, rows, all;
    lml_big bottom;
    lml_big *inverse; /* rows * rows */
    lml_big *level;   /* of the variable basic in each place: level / bottom */
    lml_big *price;   /* of each row in the stage's cost: price / bottom */
    lml_big *swing;   /* change of each basic variable as the entering one falls: swing / bottom */
    lml_big *residual;
    int *basic;   /* the variable in each place */
    int *rest;    /* of each variable: resting */
    bool *frozen; /* may not enter: moving it would raise the cost */
    int pivots, still;
    int tie; /* which of the ties the stage is at */
    lml_sticky work;
} table;

/* A number is long, and is worked on where it is rather than copied. */
static void clear(lml_big *a)
{
    a->sign = a->length = 0;
}

static void turn_over(lml_big *a)
{
    a->sign = -a->sign;
}

static void copy(lml_big *to, const lml_big *from)
{
    to->sign = from->sign;
    to->length = from->length;
    memcpy(to->limb, from->limb, (size_t)from->length * sizeof *from->limb);
}

static lml_big negative(lml_big a)
{
    a.sign = -a.sign;
    return a;
}

static lml_big magnitude(lml_big a)
{
    a.sign = a.length > 0;
    return a;
}

/* --- the problem as seen from a variable ---------------------------------------------------- */

static const lml_simplex_range *range_of(const table *t, int variable)
{
    return variable < t->columns ? &t->problem->column[variable]
                                 : &t->problem->row[variable - t->columns];
}

static lml_i128 entry(const table *t, int row, int variable)
{
    if (variable < t->columns)
        return t->problem->matrix[(size_t)row * (size_t)t->columns + (size_t)variable];
    return variable - t->columns == row ? -1 : 0;
}

/* Sum over the rows of weight * the variable's column. */
static void along(table *t, const lml_big *weight, int variable, lml_big *sum)
{
    if (variable >= t->columns) {
        copy(sum, &weight[variable - t->columns]);
        turn_over(sum);
        return;
    }
    clear(sum);
    for (int i = 0; i < t->rows; i++)
        if (weight[i].sign != 0)
            lml_sticky_add_whole(&t->work, sum, &weight[i], entry(t, i, variable));
}

/* A whole amount over the common denominator. */
static lml_big over_bottom(table *t, lml_i128 amount)
{
    lml_big whole = lml_scaled_big(amount);
    return lml_sticky_mul(&t->work, &t->bottom, &whole);
}

/* -1 when the basic variable of a place is below its low bound, 1 above its high one, else 0. */
static int violated(table *t, int place)
{
    const lml_simplex_range *range = range_of(t, t->basic[place]);
    if (range->has_low) {
        lml_big low = over_bottom(t, range->low);
        if (lml_big_compare(&t->level[place], &low) < 0)
            return -1;
    }
    if (range->has_high) {
        lml_big high = over_bottom(t, range->high);
        if (lml_big_compare(&t->level[place], &high) > 0)
            return 1;
    }
    return 0;
}

static lml_i128 cost_of(const table *t, enum stage stage, int variable)
{
    const lml_i128 *cost = stage == COST ? t->problem->cost : NULL;
    if (stage == TIE)
        cost = t->problem->tie + (size_t)t->tie * (size_t)t->columns;
    return cost && variable < t->columns ? cost[variable] : 0;
}

/* --- one basis ------------------------------------------------------------------------------ */

static void find_levels(table *t)
{
    for (int i = 0; i < t->rows; i++)
        clear(&t->residual[i]);
    for (int v = 0; v < t->all; v++) {
        if (t->rest[v] == BASIC)
            continue;
        const lml_simplex_range *range = range_of(t, v);
        lml_i128 value = t->rest[v] == AT_LOW ? range->low : range->high;
        if (value == 0)
            continue;
        lml_big paid = negative(lml_scaled_big(value));
        for (int i = 0; i < t->rows; i++)
            lml_sticky_add_whole(&t->work, &t->residual[i], &paid, entry(t, i, v));
    }
    for (int k = 0; k < t->rows; k++) {
        clear(&t->level[k]);
        for (int i = 0; i < t->rows; i++)
            if (t->residual[i].sign != 0)
                lml_sticky_add_product(&t->work, &t->level[k], &t->inverse[k * t->rows + i],
                                       &t->residual[i]);
    }
}

/* The rows' prices in this stage's cost. Returns whether anything is still violated. */
static bool find_prices(table *t, enum stage stage)
{
    bool wrong = false;
    for (int i = 0; i < t->rows; i++)
        clear(&t->price[i]);
    for (int k = 0; k < t->rows; k++) {
        int side = stage == FEASIBILITY ? violated(t, k) : 0;
        lml_i128 cost = stage == FEASIBILITY ? side : cost_of(t, stage, t->basic[k]);
        wrong = wrong || side != 0;
        for (int i = 0; i < t->rows && cost != 0; i++)
            lml_sticky_add_whole(&t->work, &t->price[i], &t->inverse[k * t->rows + i], cost);
    }
    return wrong;
}

/* How the stage's cost changes as a resting variable rises: slope / bottom. */
static void slope_of(table *t, enum stage stage, int variable, lml_big *slope)
{
    along(t, t->price, variable, slope);
    turn_over(slope);
    lml_sticky_add_whole(&t->work, slope, &t->bottom, cost_of(t, stage, variable));
}

static int choose_entering(table *t, enum stage stage)
{
    bool bland = t->still >= PATIENCE;
    int best = -1;
    lml_big slope, best_size = lml_big_of(0);
    for (int v = 0; v < t->all; v++) {
        const lml_simplex_range *range = range_of(t, v);
        bool fixed = range->has_low && range->has_high && range->low == range->high;
        if (t->rest[v] == BASIC || t->frozen[v] || fixed)
            continue;
        slope_of(t, stage, v, &slope);
        if (slope.sign == 0 || (slope.sign > 0) != (t->rest[v] == AT_HIGH))
            continue;
        if (bland)
            return v;
        slope.sign = 1;
        if (best < 0 || lml_big_compare(&slope, &best_size) > 0) {
            best = v;
            copy(&best_size, &slope);
        }
    }
    return best;
}

/* How far the entering variable moves, as a fraction, and what stops it. */
struct step {
    lml_big top, bottom; /* bottom > 0 */
    int place;           /* index of the blocking variable; -1: the entering one's own far bound */
    bool at_high;        /* the bound that the blocking variable comes to rest at */
    bool blocked;
};

static void find_swing(table *t, int entering)
{
    for (int k = 0; k < t->rows; k++)
        along(t, &t->inverse[k * t->rows], entering, &t->swing[k]);
}

/* The bound that the basic variable of a place meets first when it moves in `direction`: its near
 * bound when it is violated, so that it comes to rest as soon as it fits. */
static bool bound_ahead(table *t, int place, int direction, lml_i128 *bound, bool *at_high)
{
    const lml_simplex_range *range = range_of(t, t->basic[place]);
    int side = violated(t, place);
    if (side != 0 && side == direction)
        return false;
    *at_high = side != 0 ? side > 0 : direction > 0;
    *bound = *at_high ? range->high : range->low;
    return *at_high ? range->has_high : range->has_low;
}

static struct step find_step(table *t, int entering)
{
    const lml_simplex_range *own = range_of(t, entering);
    bool rising = t->rest[entering] == AT_LOW;
    struct step best = {.place = -1, .at_high = rising, .blocked = own->has_low && own->has_high};
    best.bottom = lml_big_of(1);
    if (best.blocked) {
        lml_big high = lml_scaled_big(own->high), low = lml_scaled_big(own->low);
        best.top = lml_sticky_sub(&t->work, &high, &low);
    }
    for (int k = 0; k < t->rows; k++) {
        int direction = rising ? -t->swing[k].sign : t->swing[k].sign;
        lml_i128 bound;
        bool at_high;
        if (direction == 0 || !bound_ahead(t, k, direction, &bound, &at_high))
            continue;
        lml_big wanted = over_bottom(t, bound);
        lml_big gap = magnitude(lml_sticky_sub(&t->work, &wanted, &t->level[k]));
        lml_big rate = magnitude(t->swing[k]);
        int order = -1;
        if (best.blocked) {
            lml_big here = lml_sticky_mul(&t->work, &gap, &best.bottom),
                    there = lml_sticky_mul(&t->work, &best.top, &rate);
            order = lml_big_compare(&here, &there);
        }
        bool lower = order == 0 && best.place >= 0 && t->basic[k] < t->basic[best.place];
        if (order < 0 || lower)
            best = (struct step){gap, rate, k, at_high, true};
    }
    return best;
}

/* Exchange the variable of a place for the entering one. Every division is without remainder. */
static void pivot(table *t, int place, int entering, bool at_high)
{
    int n = t->rows;
    bool flip = t->swing[place].sign < 0;
    lml_big turn = magnitude(t->swing[place]);
    for (int k = 0; k < n; k++) {
        if (k == place)
            continue;
        lml_big share = flip ? negative(t->swing[k]) : t->swing[k];
        for (int i = 0; i < n; i++) {
            lml_big *at = &t->inverse[k * n + i];
            const lml_big *other = &t->inverse[place * n + i];
            if (at->sign == 0 && (share.sign == 0 || other->sign == 0))
                continue; /* it stays nothing */
            lml_big kept = lml_sticky_mul(&t->work, &turn, at);
            lml_big gone = lml_sticky_mul(&t->work, &share, other);
            lml_big both = lml_sticky_sub(&t->work, &kept, &gone);
            *at = lml_sticky_divide(&t->work, &both, &t->bottom);
        }
    }
    for (int i = 0; i < n && flip; i++)
        t->inverse[place * n + i] = negative(t->inverse[place * n + i]);
    t->bottom = turn;
    t->rest[t->basic[place]] = at_high ? AT_HIGH : AT_LOW;
    t->rest[entering] = BASIC;
    t->basic[place] = entering;
}

/* --- the whole way -------------------------------------------------------------------------- */

/* Pivot until the stage is done. Returns the variable that may grow for ever, or -1. */
static int improve(table *t, enum stage stage)
{
    int most = t->problem->most_pivots > 0 ? t->problem->most_pivots : LML_SIMPLEX_PIVOTS;
    t->still = 0;
    for (;;) {
        find_levels(t);
        bool wrong = find_prices(t, stage);
        if (stage == FEASIBILITY && !wrong)
            return -1;
        int entering = choose_entering(t, stage);
        if (entering < 0 || t->work.status != LML_OK)
            return -1;
        find_swing(t, entering);
        struct step step = find_step(t, entering);
        if (t->work.status != LML_OK)
            return -1;
        if (!step.blocked)
            return entering;
        if (t->pivots++ >= most) {
            t->work.status =
                lml_fail(t->work.err, LML_LIMIT, "no solution after %d steps of the solver", most);
            return -1;
        }
        t->still = step.top.sign == 0 ? t->still + 1 : 0;
        if (step.place < 0)
            t->rest[entering] = step.at_high ? AT_HIGH : AT_LOW;
        else
            pivot(t, step.place, entering, step.at_high);
    }
}

/* Keep what costs nothing to move: the points of least cost are those where all else rests. */
static void freeze(table *t, enum stage stage)
{
    lml_big slope;
    find_prices(t, stage);
    for (int v = 0; v < t->all; v++) {
        if (t->rest[v] == BASIC)
            continue;
        slope_of(t, stage, v, &slope);
        if (slope.sign != 0)
            t->frozen[v] = true;
    }
}

static void start(table *t)
{
    t->bottom = lml_big_of(1);
    for (int v = 0; v < t->all; v++) {
        t->rest[v] = v < t->columns ? AT_LOW : BASIC;
        t->frozen[v] = false;
    }
    for (int k = 0; k < t->rows; k++) {
        t->basic[k] = t->columns + k;
        for (int i = 0; i < t->rows; i++)
            t->inverse[k * t->rows + i] = lml_big_of(k == i ? -1 : 0);
    }
}

static void describe(table *t, enum stage stage, lml_simplex_answer *out)
{
    for (int k = 0; k < t->rows; k++)
        out->column[t->basic[k]].amount = t->level[k];
    out->bottom = t->bottom;
    out->cost = lml_big_of(0);
    find_prices(t, stage);
    for (int v = 0; v < t->all; v++) {
        lml_simplex_part *part = &out->column[v];
        const lml_simplex_range *range = range_of(t, v);
        lml_big low = over_bottom(t, range->has_low ? range->low : 0);
        lml_big high = over_bottom(t, range->has_high ? range->high : 0);
        if (t->rest[v] != BASIC)
            part->amount = t->rest[v] == AT_LOW ? low : high;
        slope_of(t, stage, v, &part->marginal);
        part->place = range->has_low && lml_big_compare(&part->amount, &low) == 0 ? LML_AT_LOW
                      : range->has_high && lml_big_compare(&part->amount, &high) == 0
                          ? LML_AT_HIGH
                          : LML_AT_NEITHER;
        part->nearest_amount = lml_big_ratio(&part->amount, &t->bottom);
        part->nearest_marginal = lml_big_ratio(&part->marginal, &t->bottom);
        if (out->outcome == LML_SIMPLEX_OPTIMAL)
            lml_sticky_add_whole(&t->work, &out->cost, &part->amount, cost_of(t, COST, v));
    }
    out->nearest_cost = lml_big_ratio(&out->cost, &t->bottom);
    out->pivots = t->pivots;
}

static void work(table *t, lml_simplex_answer *out)
{
    start(t);
    out->grows = -1;
    out->outcome = LML_SIMPLEX_OPTIMAL;
    improve(t, FEASIBILITY);
    if (t->work.status == LML_OK && find_prices(t, FEASIBILITY))
        out->outcome = LML_SIMPLEX_INFEASIBLE;
    if (t->work.status == LML_OK && out->outcome == LML_SIMPLEX_OPTIMAL)
        out->grows = improve(t, COST);
    int ties = t->problem->tie ? 1 + t->problem->more_ties : 0;
    for (int k = 0; k < ties && t->work.status == LML_OK && out->outcome == LML_SIMPLEX_OPTIMAL &&
                    out->grows < 0;
         k++) {
        freeze(t, k == 0 ? COST : TIE); /* of the tie before */
        t->tie = k;
        out->grows = improve(t, TIE);
    }
    if (out->grows >= 0)
        out->outcome = LML_SIMPLEX_UNBOUNDED;
    if (t->work.status == LML_OK)
        describe(t, out->outcome == LML_SIMPLEX_INFEASIBLE ? FEASIBILITY : COST, out);
}

static lml_status check(const lml_simplex_problem *p, lml_error *err)
{
    if (p->columns < 1 || p->rows < 0 || p->most_pivots < 0)
        return lml_fail(err, LML_BAD_VALUE,
                        "a linear programme needs a column and no count below 0");
    if (p->columns > LML_SIMPLEX_COLUMNS || p->rows > LML_SIMPLEX_ROWS)
        return lml_fail(err, LML_LIMIT,
                        "a linear programme of %d columns and %d rows: at most %d and %d",
                        p->columns, p->rows, LML_SIMPLEX_COLUMNS, LML_SIMPLEX_ROWS);
    for (int v = 0; v < p->columns + p->rows; v++) {
        bool column = v < p->columns;
        const lml_simplex_range *r = column ? &p->column[v] : &p->row[v - p->columns];
        if (column && !r->has_low)
            return lml_fail(err, LML_BAD_VALUE, "column %d has no low bound", v);
        if (r->has_low && r->has_high && r->low > r->high)
            return lml_fail(err, LML_BAD_VALUE, "the low bound of %s %d is above its high bound",
                            column ? "column" : "row", column ? v : v - p->columns);
    }
    return LML_OK;
}

static size_t parts_size(int parts)
{
    return (size_t)parts * sizeof(lml_simplex_part);
}

lml_status lml_simplex_solve(const lml_simplex_problem *problem, const lml_alloc *alloc,
                             lml_simplex_answer *out, lml_error *err)
{
    lml_status s = check(problem, err);
    if (s != LML_OK)
        return s;
    size_t n = (size_t)problem->rows, all = n + (size_t)problem->columns;
    size_t bigs = (n * n + 4 * n) * sizeof(lml_big);
    size_t size = bigs + (n + all) * sizeof(int) + all * sizeof(bool);
    lml_simplex_answer answer = {
        .columns = problem->columns, .rows = problem->rows, .alloc = *alloc};
    answer.column = lml_alloc_get(alloc, parts_size((int)all));
    lml_big *block = answer.column ? lml_alloc_get(alloc, size) : NULL;
    if (!block) {
        lml_simplex_free(&answer);
        return lml_fail(err, LML_NO_MEMORY, "out of memory while solving a linear programme");
    }
    memset(answer.column, 0, parts_size((int)all));
    answer.row = answer.column + problem->columns;

    table t = {
        .problem = problem, .columns = problem->columns, .rows = problem->rows, .work.err = err};
    t.all = (int)all;
    t.inverse = block;
    t.level = t.inverse + n * n;
    t.price = t.level + n;
    t.swing = t.price + n;
    t.residual = t.swing + n;
    t.basic = (int *)(t.residual + n);
    t.rest = t.basic + n;
    t.frozen = (bool *)(t.rest + all);
    work(&t, &answer);
    lml_alloc_free(alloc, block, size);
    if (t.work.status != LML_OK) {
        lml_simplex_free(&answer);
        return t.work.status;
    }
    *out = answer;
    return LML_OK;
}

void lml_simplex_free(lml_simplex_answer *answer)
{
    if (answer->column)
        lml_alloc_free(&answer->alloc, answer->column, parts_size(answer->columns + answer->rows));
    answer->column = answer->row = NULL;
}
