#include "charge_case.h"

#include "craft/simplex.h"

#include <math.h>

/* The same charge as a linear programme, written down anew in the whole numbers of the draw, with
 * only the limits that are kept: the mass, the rules, what there is of each lot, what must be used.
 */
static lml_simplex_outcome outcome_of(const charge_case *c, const bool keep[], double *cost)
{
    enum { ALL = CASE_LOTS * (1 + CASE_RULES) };
    int lots = c->problem.lots, rules = c->problem.rules;
    lml_i128 matrix[ALL], price[CASE_LOTS];
    lml_simplex_range column[CASE_LOTS], row[1 + CASE_RULES];
    row[0] = (lml_simplex_range){keep[0], keep[0] && !c->problem.more_allowed,
                                 case_count(c->problem.mass), case_count(c->problem.mass)};
    for (int j = 0; j < lots; j++) {
        const lml_charge_lot *lot = &c->lot[j];
        int64_t there = lot->unlimited ? 0 : case_count(lot->available);
        bool all = lot->must_use && keep[1 + rules + lots + j];
        column[j] = (lml_simplex_range){true, !lot->unlimited && keep[1 + rules + j],
                                        all ? there : 0, there};
        price[j] = (int64_t)(lot->price / CENTS + 0.5);
        matrix[j] = 1;
    }
    for (int r = 0; r < rules; r++) {
        row[1 + r] = (lml_simplex_range){keep[1 + r], false, 0, 0};
        for (int j = 0; j < lots; j++)
            matrix[(1 + r) * lots + j] = case_margin(c, r, j);
    }
    lml_simplex_problem p = {.columns = lots,
                             .rows = 1 + rules,
                             .column = column,
                             .row = row,
                             .matrix = matrix,
                             .cost = price};
    lml_alloc heap = lml_alloc_heap();
    lml_simplex_answer a;
    cr_assert_eq(lml_simplex_solve(&p, &heap, &a, NULL), LML_OK);
    lml_simplex_outcome outcome = a.outcome;
    *cost = a.nearest_cost * CENTS / MASSES;
    lml_simplex_free(&a);
    return outcome;
}

static int number_of(const charge_case *c, lml_charge_limit limit)
{
    int rules = c->problem.rules, lots = c->problem.lots;
    return limit.kind == LML_CHARGE_MASS        ? 0
           : limit.kind == LML_CHARGE_RULE      ? 1 + limit.index
           : limit.kind == LML_CHARGE_AVAILABLE ? 1 + rules + limit.index
                                                : 1 + rules + lots + limit.index;
}

static bool close_to(double a, double b, double tolerance)
{
    return fabs(a - b) <= tolerance * fmax(1, fmax(fabs(a), fabs(b)));
}

/* What goes in comes out, metal by metal, and every limit holds. */
static void expect_conserved(const charge_case *c, const lml_charge_answer *a)
{
    double mass = 0, cost = 0, parts = 0;
    for (int j = 0; j < a->lots; j++) {
        const lml_charge_lot *lot = &c->lot[j];
        double x = a->amount[j].mass;
        cr_assert(x >= 0 && (lot->unlimited || x <= lot->available));
        cr_assert(!lot->must_use || x == lot->available);
        mass += x;
        cost += x * lot->price;
    }
    cr_assert(close_to(a->mix.mass, mass, 1e-14));
    cr_assert(close_to(a->mix.cost, cost, 1e-12));
    cr_assert(c->problem.more_allowed ? a->mix.mass >= c->problem.mass
                                      : a->mix.mass == c->problem.mass);
    for (int m = 0; m < LML_METALS; m++) {
        double in = 0;
        for (int j = 0; j < a->lots; j++)
            in += a->amount[j].mass * c->lot[j].composition.part[m];
        cr_assert(fabs(in - a->mix.composition.part[m] * a->mix.mass) <= 1e-14);
        parts += a->mix.composition.part[m];
    }
    cr_assert(fabs(parts - 1) <= 1e-14);
    for (int r = 0; r < c->problem.rules; r++) {
        double sum = 0;
        for (int j = 0; j < a->lots; j++)
            sum += (double)case_margin(c, r, j) * a->amount[j].mass;
        cr_assert(sum >= -1e-12, "rule %d is broken by %g", r, sum);
    }
}

Test(charge_random, what_goes_in_comes_out_at_the_least_cost)
{
    bool keep[1 + CASE_RULES + 2 * CASE_LOTS];
    memset(keep, true, sizeof keep);
    int possible = 0;
    case_state = 11;
    for (int n = 0; n < 6000; n++) {
        charge_case c;
        case_draw_charge(&c, case_draw(1, CASE_LOTS), case_draw(0, CASE_RULES));
        lml_charge_answer a = case_solve(&c);
        double cost;
        cr_assert_eq(a.possible, outcome_of(&c, keep, &cost) == LML_SIMPLEX_OPTIMAL);
        if (a.possible) {
            expect_conserved(&c, &a);
            cr_assert(close_to(a.mix.cost, cost, 1e-12));
            possible++;
        }
        lml_charge_free(&a);
    }
    cr_expect_gt(possible, 1500);
}

/* The clash is a clash, and without any one of its limits it is none. */
Test(charge_random, a_clash_is_as_small_as_can_be)
{
    int clashes = 0, most = 0, single = 0;
    case_state = 12;
    for (int n = 0; n < 4000; n++) {
        charge_case c;
        case_draw_charge(&c, case_draw(1, CASE_LOTS), case_draw(1, CASE_RULES));
        lml_charge_answer a = case_solve(&c);
        if (!a.possible) {
            bool keep[1 + CASE_RULES + 2 * CASE_LOTS] = {false};
            double cost;
            cr_assert_gt(a.reason.clashing, 0);
            for (int i = 0; i < a.reason.clashing; i++)
                keep[number_of(&c, a.reason.clash[i])] = true;
            cr_assert_eq(outcome_of(&c, keep, &cost), LML_SIMPLEX_INFEASIBLE);
            for (int i = 0; i < a.reason.clashing; i++) {
                bool *one = &keep[number_of(&c, a.reason.clash[i])];
                *one = false;
                cr_assert_neq(outcome_of(&c, keep, &cost), LML_SIMPLEX_INFEASIBLE);
                *one = true;
            }
            clashes++;
            single += a.reason.single;
            most = a.reason.clashing > most ? a.reason.clashing : most;
        }
        lml_charge_free(&a);
    }
    cr_expect_gt(clashes, 1000);
    cr_expect_gt(most, 4);
    cr_expect(single > 100 && single < clashes);
}

static bool possible_at(charge_case *c, int rule, double limit)
{
    charge_case alone = *c;
    alone.rule[0] = c->rule[rule];
    alone.rule[0].limit = limit;
    alone.problem.lot = alone.lot;
    alone.problem.rule = alone.rule;
    alone.problem.rules = 1;
    lml_charge_answer a = case_solve(&alone);
    bool possible = a.possible;
    lml_charge_free(&a);
    return possible;
}

/* With that rule alone: just short of what is said to be reachable can be met, just beyond cannot.
 */
Test(charge_random, what_is_said_to_be_reachable_is)
{
    int checked = 0;
    case_state = 13;
    for (int n = 0; n < 4000; n++) {
        charge_case c;
        case_draw_charge(&c, case_draw(1, 8), case_draw(1, 3));
        lml_charge_answer a = case_solve(&c);
        const lml_charge_reason *reason = &a.reason;
        if (!a.possible && reason->single && reason->cause.kind == LML_CHARGE_RULE) {
            int r = reason->cause.index;
            double away = c.rule[r].at_least ? 1e-9 : -1e-9;
            double near = reason->reachable - away, beyond = reason->reachable + away;
            double all = 0, must = 0;
            for (int j = 0; j < c.problem.lots; j++) {
                all += c.lot[j].unlimited ? 1 : c.lot[j].available;
                must += c.lot[j].must_use ? c.lot[j].available : 0;
            }
            bool mass = all >= c.problem.mass && (must <= c.problem.mass || c.problem.more_allowed);
            if (mass && near >= 0 && near <= 1 && beyond >= 0 && beyond <= 1) {
                cr_assert(possible_at(&c, r, near), "case %d: %.12g", n, reason->reachable);
                cr_assert_not(possible_at(&c, r, beyond), "case %d: %.12g", n, reason->reachable);
                checked++;
            }
        }
        lml_charge_free(&a);
    }
    cr_expect_gt(checked, 300, "%d", checked);
}

/* What the charge costs when a limit is moved by `by`, or NaN when it cannot be moved. */
static double cost_at(const charge_case *c, lml_charge_limit limit, double by)
{
    charge_case moved = *c;
    moved.problem.lot = moved.lot;
    moved.problem.rule = moved.rule;
    double *figure = limit.kind == LML_CHARGE_MASS   ? &moved.problem.mass
                     : limit.kind == LML_CHARGE_RULE ? &moved.rule[limit.index].limit
                                                     : &moved.lot[limit.index].available;
    *figure += by;
    if (*figure <= 0 || (limit.kind == LML_CHARGE_RULE && *figure > 1))
        return NAN;
    lml_charge_answer a = case_solve(&moved);
    double cost = a.possible ? a.mix.cost : NAN;
    lml_charge_free(&a);
    return cost;
}

/* The least cost bends upwards as a limit moves, so the worth of a limit lies between what the cost
 * does on one side and on the other. */
Test(charge_random, the_worth_of_a_limit_is_what_moving_it_costs)
{
    const double by = 1e-7;
    int checked = 0;
    case_state = 14;
    for (int n = 0; n < 1500; n++) {
        charge_case c;
        case_draw_charge(&c, case_draw(2, 8), case_draw(1, 4));
        c.problem.more_allowed = false; /* else the total mass moves along with the limit */
        lml_charge_answer a = case_solve(&c);
        for (int i = 0; a.possible && i < a.bindings; i++) {
            double worth = a.binding[i].worth, slack = 1e-4 * fmax(1, fabs(worth)) + 0.02;
            double below = (a.mix.cost - cost_at(&c, a.binding[i].limit, -by)) / by;
            double above = (cost_at(&c, a.binding[i].limit, by) - a.mix.cost) / by;
            cr_assert(isnan(below) || worth >= below - slack, "%d: %g < %g", n, worth, below);
            cr_assert(isnan(above) || worth <= above + slack, "%d: %g > %g", n, worth, above);
            checked += !isnan(below) && !isnan(above);
        }
        lml_charge_free(&a);
    }
    cr_expect_gt(checked, 500, "%d", checked);
}

/* The least cost when no more than `most` kg of the lots that `priced` puts a price on go in. */
static double cheapest_with(const charge_case *priced, const charge_case *c, double most)
{
    charge_case held = *c;
    held.problem.lot = held.lot;
    held.problem.rule = held.rule;
    held.problem.aim = LML_LEAST_COST;
    int r = held.problem.rules++;
    for (int j = 0; j < c->problem.lots; j++)
        held.group[r][j] = priced->lot[j].price > 0;
    held.rule[r] =
        (lml_charge_rule){.group = held.group[r], .limit = fmin(1, most / c->problem.mass + 1e-12)};
    lml_charge_answer a = case_solve(&held);
    cr_assert(a.possible);
    double cost = a.mix.cost;
    lml_charge_free(&a);
    return cost;
}

/* The other aims against the least cost under their own figure as the price. */
Test(charge_random, the_other_aims_are_least_and_then_cheapest)
{
    case_state = 15;
    int checked = 0;
    for (int n = 0; n < 2000; n++) {
        charge_case c;
        case_draw_charge(&c, case_draw(2, 8), case_draw(0, 4));
        bool new_metal = n % 2 == 0;
        for (int j = 0; j < c.problem.lots; j++)
            if (c.lot[j].owner) {
                case_available(&c.lot[j], 5);
                c.lot[j].is_old = true;
            }
        charge_case priced = c;
        priced.problem.lot = priced.lot;
        c.problem.aim = new_metal ? LML_LEAST_NEW : LML_MOST_CLIENT;
        for (int j = 0; j < c.problem.lots; j++) /* 1 for what is to be least, 0 else */
            priced.lot[j].price = new_metal ? !c.lot[j].is_old : !c.lot[j].owner;
        lml_charge_answer a = case_solve(&c), b = case_solve(&priced);
        cr_assert_eq(a.possible, b.possible);
        if (a.possible && (new_metal || !c.problem.more_allowed)) {
            double least = 0;
            for (int j = 0; j < a.lots; j++)
                least += a.amount[j].mass * priced.lot[j].price;
            cr_assert(close_to(least, b.mix.cost, 1e-12));
            if (!c.problem.more_allowed && a.mix.mass - least > 1e-9) {
                cr_assert(close_to(a.mix.cost, cheapest_with(&priced, &c, least), 1e-6));
                checked++;
            }
        }
        lml_charge_free(&a);
        lml_charge_free(&b);
    }
    cr_expect_gt(checked, 400);
}
