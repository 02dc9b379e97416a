#include "programme.h"

/* --- published examples ---------------------------------------------------------------------- */

/* Three rows that are equations with the slacks as columns of their own, the columns in every
 * order: which ties fall which way depends on the order, and in hundreds of the 5040 the largest
 * coefficient alone goes round for ever. */
static void expect_in_every_order(const int cost[7], const int matrix[21], int64_t n, int64_t d)
{
    int order[7] = {0, 1, 2, 3, 4, 5, 6}, orders = 0;
    for (long code = 0; code < 823543; code++) { /* 7^7 */
        int used = 0;
        long rest = code;
        for (int j = 0; j < 7; j++, rest /= 7) {
            order[j] = (int)(rest % 7);
            used |= 1 << order[j];
        }
        if (used != 127)
            continue;
        programme p;
        begin(&p, 7, 3);
        for (int j = 0; j < 7; j++) {
            p.cost[j] = cost[order[j]];
            for (int i = 0; i < 3; i++)
                p.matrix[i * 7 + j] = matrix[i * 7 + order[j]];
        }
        for (int i = 0; i < 3; i++)
            p.row[i] = (lml_simplex_range){true, true, i == 2, i == 2};
        p.problem.most_pivots = 200;
        lml_simplex_answer a = solve(&p);
        expect_optimal(&p, &a);
        expect_ratio(&a.cost, &a.bottom, n, d);
        lml_simplex_free(&a);
        orders++;
    }
    cr_expect_eq(orders, 5040);
}

/* E. M. L. Beale, "Cycling in the dual simplex algorithm", Naval Research Logistics Quarterly 2
 * (1955), 269-275, in the primal form of the textbooks, whose answer is -1/20; from memory,
 * unverified. Rows and cost are times 100. */
Test(simplex, beales_example_does_not_cycle)
{
    expect_in_every_order(
        (int[]){-75, 15000, -2, 600, 0, 0, 0},
        (int[]){25, -6000, -4, 900, 100, 0, 0, 50, -9000, -2, 300, 0, 100, 0, 0, 0, 1, 0, 0, 0, 1},
        -5, 1);
}

/* The other common form of it, with -5/4; from memory, unverified. Times 4. */
Test(simplex, the_other_form_of_beales_example_does_not_cycle)
{
    expect_in_every_order(
        (int[]){-3, 80, -2, 24, 0, 0, 0},
        (int[]){1, -32, -4, 36, 4, 0, 0, 2, -48, -2, 12, 0, 4, 0, 0, 0, 1, 0, 0, 0, 1}, -5, 1);
}

/* V. Chvatal, Linear Programming (1983), ch. 3, whose answer is 1; from memory, unverified. Rows
 * are times 2. */
Test(simplex, chvatals_example_does_not_cycle)
{
    expect_in_every_order(
        (int[]){-10, 57, 9, 24, 0, 0, 0},
        (int[]){1, -11, -5, 18, 2, 0, 0, 1, -3, -1, 2, 0, 2, 0, 1, 0, 0, 0, 0, 0, 1}, -1, 1);
}

/* V. Klee and G. J. Minty, "How good is the simplex algorithm?" (1972), in three dimensions with
 * the figures of Chvatal, Linear Programming (1983); from memory, unverified. */
Test(simplex, klee_and_minty)
{
    programme p;
    begin_at_most(&p, 3, 3, (int[]){-100, -10, -1}, (int[]){1, 0, 0, 20, 1, 0, 200, 20, 1},
                  (int[]){1, 100, 10000});
    lml_simplex_answer a = solve(&p);
    expect_optimal(&p, &a);
    expect_ratio(&a.cost, &a.bottom, -10000, 1);
    expect_ratio(&a.column[2].amount, &a.bottom, 10000, 1);
    lml_simplex_free(&a);
}

/* Hillier and Lieberman, Introduction to Operations Research, the prototype example of linear
 * programming: 3 x + 5 y with x <= 4, 2 y <= 12, 3 x + 2 y <= 18 gives 36 at (2, 6), shadow prices
 * 0, 3/2 and 1; from memory, unverified. */
Test(simplex, shadow_prices_of_the_prototype_example)
{
    programme p;
    begin_at_most(&p, 2, 3, (int[]){-3, -5}, (int[]){1, 0, 0, 2, 3, 2}, (int[]){4, 12, 18});
    lml_simplex_answer a = solve(&p);
    expect_optimal(&p, &a);
    expect_ratio(&a.cost, &a.bottom, -36, 1);
    expect_ratio(&a.column[0].amount, &a.bottom, 2, 1);
    expect_ratio(&a.column[1].amount, &a.bottom, 6, 1);
    expect_ratio(&a.row[0].marginal, &a.bottom, 0, 1);
    expect_ratio(&a.row[1].marginal, &a.bottom, -3, 2);
    expect_ratio(&a.row[2].marginal, &a.bottom, -1, 1);
    cr_expect_eq(a.row[0].place, LML_AT_NEITHER);
    cr_expect_eq(a.row[1].place, LML_AT_HIGH);
    lml_simplex_free(&a);
}

/* --- outcomes and refusals ------------------------------------------------------------------- */

Test(simplex, unbounded_names_what_grows)
{
    programme p;
    begin_at_most(&p, 2, 1, (int[]){0, -1}, (int[]){1, -1}, (int[]){3});
    lml_simplex_answer a = solve(&p);
    cr_expect_eq(a.outcome, LML_SIMPLEX_UNBOUNDED);
    cr_expect_eq(a.grows, 1);
    lml_simplex_free(&a);
}

Test(simplex, no_rows_leaves_the_bounds)
{
    programme p;
    begin(&p, 2, 0);
    p.cost[0] = 1, p.cost[1] = -1;
    p.column[0] = (lml_simplex_range){true, true, 2, 9};
    p.column[1] = (lml_simplex_range){true, true, 3, 7};
    lml_simplex_answer a = solve(&p);
    expect_optimal(&p, &a);
    expect_ratio(&a.cost, &a.bottom, -5, 1);
    lml_simplex_free(&a);
}

Test(simplex, the_tie_decides_among_equal_costs)
{
    programme p;
    begin(&p, 3, 1);
    for (int j = 0; j < 3; j++) {
        p.matrix[j] = 1;
        p.cost[j] = j == 2 ? 2 : 1;
        p.column[j] = (lml_simplex_range){true, true, 0, 6};
    }
    p.row[0] = (lml_simplex_range){true, true, 10, 10};
    for (int dear = 0; dear < 2; dear++) {
        lml_i128 tie[3] = {0, 0, -100};
        tie[dear] = 5;
        p.problem.tie = tie;
        lml_simplex_answer a = solve(&p);
        expect_optimal(&p, &a);
        expect_ratio(&a.cost, &a.bottom, 10, 1);
        expect_ratio(&a.column[dear].amount, &a.bottom, 4, 1);
        expect_ratio(&a.column[2].amount, &a.bottom, 0, 1);
        lml_simplex_free(&a);
    }
}

static lml_status status_of(const programme *p)
{
    lml_alloc heap = lml_alloc_heap();
    lml_simplex_answer a;
    lml_error err;
    lml_status s = lml_simplex_solve(&p->problem, &heap, &a, &err);
    if (s == LML_OK)
        lml_simplex_free(&a);
    else
        cr_expect_neq(err.message[0], '\0');
    return s;
}

Test(simplex, bad_problems_are_refused)
{
    programme p;
    begin(&p, 1, 1);
    p.row[0] = (lml_simplex_range){true, true, 2, 1};
    cr_expect_eq(status_of(&p), LML_BAD_VALUE);
    begin(&p, 1, 1);
    p.column[0].has_low = false;
    cr_expect_eq(status_of(&p), LML_BAD_VALUE);
    begin(&p, 0, 0);
    cr_expect_eq(status_of(&p), LML_BAD_VALUE);
    begin(&p, LML_SIMPLEX_COLUMNS + 1, 0);
    cr_expect_eq(status_of(&p), LML_LIMIT);
    begin(&p, 1, LML_SIMPLEX_ROWS + 1);
    cr_expect_eq(status_of(&p), LML_LIMIT);
}

Test(simplex, too_many_pivots_is_a_limit)
{
    programme p;
    begin_at_most(&p, 2, 3, (int[]){-3, -5}, (int[]){1, 0, 0, 2, 3, 2}, (int[]){4, 12, 18});
    p.problem.most_pivots = 1;
    cr_expect_eq(status_of(&p), LML_LIMIT);
}

/* The best corner has all fourteen columns in it, and a determinant of 14 * 120 binary digits. */
Test(simplex, numbers_that_outgrow_the_integers_are_an_overflow)
{
    programme p;
    begin(&p, ROWS, ROWS);
    for (int i = 0; i < ROWS; i++) {
        p.cost[i] = -1;
        p.row[i] = (lml_simplex_range){.has_high = true, .high = (lml_i128)1 << 120};
        for (int j = 0; j < ROWS; j++)
            p.matrix[i * ROWS + j] = i == j ? ((lml_i128)1 << 120) + 1 : i + j;
    }
    cr_expect_eq(status_of(&p), LML_OVERFLOW);
}

Test(simplex, every_failed_allocation_is_reported_and_nothing_leaks)
{
    programme p;
    state = 5;
    draw_charge(&p, 8, 4);
    for (uint64_t n = 1; n < 100; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        lml_simplex_answer a;
        lml_status s = lml_simplex_solve(&p.problem, &alloc, &a, NULL);
        if (s == LML_OK) {
            lml_simplex_free(&a);
            cr_expect_eq(meter.used, 0);
            cr_expect_gt(n, 1);
            return;
        }
        cr_expect_eq(s, LML_NO_MEMORY);
        cr_expect_eq(meter.used, 0);
    }
    cr_expect(false, "never succeeds");
}
