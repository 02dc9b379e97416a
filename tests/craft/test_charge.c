#include "charge_case.h"
#include "reference.h"

#include <math.h>

static void expect_grams(const lml_charge_answer *a, const double grams[])
{
    cr_assert(a->possible);
    for (int j = 0; j < a->lots; j++)
        cr_expect_float_eq(a->amount[j].mass * 1000, grams[j], 0.0006, "lot %d: %.6f, not %.6f", j,
                           a->amount[j].mass * 1000, grams[j]);
}

/* --- worked examples ------------------------------------------------------------------------- */

/* Worked example of our own. */
Test(charge, button_with_fine_gold_and_master_alloy)
{
    charge_case c;
    case_button(&c, 0);
    case_old(&c, 0.5);
    lml_charge_answer a = case_solve(&c);
    expect_grams(&a, (double[]){20, 0, 18.34183, 1.658166});
    cr_expect_float_eq(a.mix.cost, 1845.344, 0.002);
    cr_expect_float_eq(a.mix.mass, 0.040, 1e-15);
    cr_expect_float_eq(a.mix.composition.part[LML_Au], 0.751, 1e-15);
    cr_expect_float_eq(a.mix.composition.part[LML_Ag], 0.1416, 0.00005);
    cr_expect_float_eq(a.mix.composition.part[LML_Cu], 0.1003, 0.00005);
    cr_expect_float_eq(a.mix.composition.part[LML_Zn], 0.0071, 0.00005);
    cr_expect_float_eq(a.mix.old_share, 0.5, 1e-15);
    cr_expect_float_eq(a.mix.generation, 1.5, 1e-15);
    cr_assert_eq(a.bindings, 3);
    cr_expect_eq(a.binding[0].limit.kind, LML_CHARGE_MASS);
    cr_expect_eq(a.binding[1].limit.index, 0);
    cr_expect_eq(a.binding[2].limit.index, 1);
    cr_expect_lt(a.binding[2].worth, 0);
    cr_expect_gt(a.amount[1].worth, 0);
    lml_charge_free(&a);
}

/* Worked example of our own: what the limit on old metal costs, with the client's metal for nothing
 * and at its gold's price. 58.7984 is 0.585 * 100.50 / 0.9999; then the rule costs no more than the
 * 1.658 g of master alloy. */
Test(charge, what_the_share_of_old_metal_costs)
{
    const double price[] = {0, 58.7984}, seems[] = {236.96, 1.99};
    for (int k = 0; k < 2; k++) {
        charge_case c;
        case_button(&c, price[k]);
        lml_charge_answer wide = case_solve(&c);
        expect_grams(&wide, (double[]){23.99614, 0, 16.00386, 0});
        case_old(&c, 0.5);
        lml_charge_answer narrow = case_solve(&c);
        cr_expect_float_eq(narrow.mix.cost - wide.mix.cost, seems[k], 0.006);
        /* along one edge of the programme the cost is straight, so the worth says it too */
        double worth = -narrow.binding[2].worth * (wide.mix.old_share - 0.5);
        cr_expect_float_eq(worth, seems[k], 0.006);
        lml_charge_free(&wide);
        lml_charge_free(&narrow);
    }
}

/* Worked examples of our own. */
Test(charge, other_corners)
{
    charge_case c;
    case_button(&c, 0);
    case_available(&c.lot[0], 0);
    lml_charge_answer a = case_solve(&c);
    expect_grams(&a, (double[]){0, 0, 30.043, 9.956996});
    cr_expect_float_eq(a.mix.cost, 3031.27, 0.005);
    lml_charge_free(&a);

    case_button(&c, 0);
    case_old(&c, 0.5);
    case_available(&c.lot[3], 0);
    a = case_solve(&c);
    expect_grams(&a, (double[]){20, 6.635, 13.365, 0});
    cr_expect_float_eq(a.mix.cost, 1867.35, 0.005);
    lml_charge_free(&a);
}

/* 100 g of 585 out of fine metals, of which the aim says nothing: 415 parts as 2 of silver to 3 of
 * copper are 166 and 249, in whatever order the lots stand. Where silver costs more none goes in;
 * with grain that is just so itself no copper is melted. */
Test(charge, what_the_aim_leaves_open_is_made_like_an_alloy)
{
    static const int order[6][3] = {{0, 1, 2}, {0, 2, 1}, {1, 0, 2},
                                    {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    const lml_composition like = {.part = {[LML_Au] = 0.5, [LML_Ag] = 0.2, [LML_Cu] = 0.3}};
    const double due[3][4] = {{58.5, 16.6, 24.9, 0}, {58.5, 0, 41.5, 0}, {17, 0, 0, 83}};
    for (int k = 0; k < 18; k++) {
        charge_case c;
        case_begin(&c, 100);
        double grams[4] = {0};
        for (int i = 0; i < 3; i++) {
            int metal = order[k % 6][i];
            lml_charge_lot *lot = case_lot(&c, "fine", 0, k / 6 == 1 && metal == 1 ? 2 : 1);
            case_compose(lot, metal == 0 ? 1000 : 0, metal == 1 ? 1000 : 0, metal == 2 ? 1000 : 0,
                         0);
            grams[i] = due[k / 6][metal];
        }
        if (k / 6 == 2) {
            case_compose(case_lot(&c, "grain", 0, 1), 500, 200, 300, 0);
            grams[3] = due[2][3];
        }
        case_metal(&c, LML_Au, true, 585);
        case_metal(&c, LML_Au, false, 585);
        c.problem.like = &like;
        c.problem.besides = LML_Au;
        lml_charge_answer a = case_solve(&c);
        expect_grams(&a, grams);
        lml_charge_free(&a);
    }
}

/* Worked example of our own: two of the client's rings, as much of them as may go in. */
Test(charge, most_of_the_clients_metal)
{
    charge_case c;
    case_begin(&c, 29);
    lml_charge_lot *rings[] = {case_lot(&c, "ring A", 562, 56), case_lot(&c, "ring B", 559, 56)};
    case_lot(&c, "14 karat grain", 585, 60);
    case_lot(&c, "fine gold", 999.9, 100.5);
    case_available(rings[0], 13.6508);
    case_available(rings[1], 9.8440);
    rings[0]->must_use = true;
    for (int i = 0; i < 2; i++) {
        rings[i]->owner = "client";
        rings[i]->is_old = true;
    }
    case_metal(&c, LML_Au, true, 587);
    case_old(&c, 0.6);
    const double due[] = {13.6508, 3.749228, 10.46853, 1.131472};
    c.problem.aim = LML_MOST_CLIENT;
    c.problem.client = "client";
    lml_charge_answer a = case_solve(&c);
    expect_grams(&a, due);
    lml_charge_free(&a);
    c.problem.aim = LML_LEAST_NEW;
    a = case_solve(&c);
    expect_grams(&a, due);
    lml_charge_free(&a);
}

/* Worked example of our own: a bangle of 897 +- 3 goes in whole. */
Test(charge, a_bangle_goes_in_whole_and_its_deviation_carries)
{
    charge_case c;
    case_begin(&c, 60);
    lml_charge_lot *bangle = case_lot(&c, "bangle", 897, 90);
    case_available(bangle, 31.92);
    bangle->must_use = true;
    bangle->deviation.part[LML_Au] = 0.003;
    case_lot(&c, "18 karat grain", 750, 79);
    case_lot(&c, "master alloy", 0, 1.2);
    case_metal(&c, LML_Au, true, 753);
    lml_charge_answer a = case_solve(&c);
    expect_grams(&a, (double[]){31.92, 22.06368, 6.01632});
    cr_expect_float_eq(a.mix.deviation.part[LML_Au], 0.001596, 1e-9);
    cr_expect_eq(a.amount[0].mass, bangle->available);
    lml_charge_free(&a);
}

/* --- published ------------------------------------------------------------------------------- */

static double fraction(ref_row *row, const char *karat, const char *thousand)
{
    double k = ref_input_or(row, karat, -1);
    return k < 0 ? ref_input(row, thousand) / 1000 : k / 24;
}

static void gold(lml_charge_lot *lot, double part)
{
    lot->composition = (lml_composition){{0}};
    lot->composition.part[LML_Au] = part;
    lot->composition.part[0] = 1 - part;
}

/* Every published raising and lowering of a karat, as a charge that must hit the fineness: the
 * sources are in the table. */
Test(charge, published_additions_and_splits)
{
    ref_table *t = ref_open("raise_lower.tsv");
    int worked = 0;
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        bool split = strcmp(ref_cell(row, "case"), "split") == 0;
        if (!split && strcmp(ref_cell(row, "case"), "addition") != 0)
            continue;
        charge_case c;
        case_begin(&c, split ? ref_input(row, "total") : ref_input(row, "mass"));
        lml_charge_lot *from = case_lot(&c, "first", 0, 1), *added = case_lot(&c, "second", 0, 1);
        gold(from, split ? ref_input(row, "first") / 1000 : fraction(row, "from_karat", "from"));
        gold(added,
             split ? ref_input(row, "second") / 1000 : fraction(row, "added_karat", "added"));
        double target = fraction(row, "to_karat", "to");
        case_metal(&c, LML_Au, true, 0)->limit = target;
        case_metal(&c, LML_Au, false, 0)->limit = target;
        if (!split) {
            case_available(from, c.problem.mass * 1000);
            from->must_use = c.problem.more_allowed = true;
        }
        lml_charge_answer a = case_solve(&c);
        cr_assert(a.possible, "%s", ref_where(row));
        ref_expect(row, a.amount[split ? 0 : 1].mass * 1000);
        ref_end_row(row);
        lml_charge_free(&a);
        worked++;
    }
    cr_expect_gt(worked, 40);
}

/* --- guards, ties, weighing ------------------------------------------------------------------ */

/* By hand: 585 +- 5 counted two deviations low is 575, so 30 g at 580 needs y g of fine gold with
 * 575 (30 - y) + 1000 y = 580 * 30: y = 150/425 g = 0.352941 g. */
Test(charge, a_guard_counts_the_deviations_against_the_rule)
{
    charge_case c;
    case_begin(&c, 30);
    case_lot(&c, "grain", 585, 50)->deviation.part[LML_Au] = 0.005;
    case_lot(&c, "fine gold", 1000, 100);
    case_metal(&c, LML_Au, true, 580)->guard = 2;
    lml_charge_answer a = case_solve(&c);
    expect_grams(&a, (double[]){29.647059, 0.352941});
    lml_charge_free(&a);
    c.rule[0].at_least = false; /* 585 + 10 is too much already */
    a = case_solve(&c);
    cr_expect_not(a.possible);
    cr_expect_float_eq(a.reason.reachable, 0.595, 1e-12);
    lml_charge_free(&a);
}

Test(charge, old_metal_first_where_the_cost_is_the_same)
{
    for (int old = 0; old < 2; old++) {
        charge_case c;
        case_begin(&c, 10);
        case_lot(&c, "one", 750, 80)->is_old = old == 0;
        case_lot(&c, "other", 750, 80)->is_old = old == 1;
        lml_charge_answer a = case_solve(&c);
        cr_expect_eq(a.amount[old].mass, 0.01);
        cr_expect_eq(a.amount[1 - old].mass, 0);
        lml_charge_free(&a);
    }
}

Test(charge, weigh_in_order)
{
    charge_case c;
    case_begin(&c, 10);
    for (int j = 0; j < 6; j++)
        case_lot(&c, "lot", 750, 80)->is_old = j == 2 || j == 4;
    const double mass[] = {0.005, 0, 0.001, 0.009, 0.003, 0.005};
    const int due[] = {4, 2, 3, 0, 5};
    int order[6];
    cr_assert_eq(lml_charge_weigh_order(&c.problem, mass, order), 5);
    cr_expect_arr_eq(order, due, sizeof due);
}

/* --- no answer ------------------------------------------------------------------------------- */

static void expect_refusal(const charge_case *c, const char *message, const char *hint)
{
    lml_charge_answer a = case_solve(c);
    lml_error err;
    cr_assert_not(a.possible);
    cr_expect_eq(lml_charge_refusal(&c->problem, &a.reason, &err), LML_STOPPED);
    cr_expect_str_eq(err.message, message);
    cr_expect_str_eq(err.hint, hint);
    lml_charge_free(&a);
}

Test(charge, one_rule_out_of_reach_says_how_near)
{
    charge_case c;
    case_begin(&c, 30);
    gold(case_lot(&c, "coin", 0, 1), 0);
    c.lot[0].composition.part[LML_Ag] = 0.9;
    c.lot[0].composition.part[0] = 0.1;
    case_lot(&c, "fine silver", 0, 1);
    case_available(&c.lot[1], 3.6); /* (26.4 * 900 + 3.6 * 1000) / 30 = 912 */
    case_metal(&c, LML_Ag, true, 925);
    expect_refusal(&c,
                   "with no more than 3.6 g of fine silver, silver cannot exceed 912 ‰, but at "
                   "least 925 ‰ is needed",
                   "bring in more that is rich in it, or make the charge lighter, or ask for less");
    c.rule[0].limit = 0.91204; /* too near for one decimal */
    expect_refusal(&c,
                   "with no more than 3.6 g of fine silver, silver cannot exceed 912 ‰, but at "
                   "least 912.04 ‰ is needed",
                   "bring in more that is rich in it, or make the charge lighter, or ask for less");
    c.rule[0] = (lml_charge_rule){.metal = LML_Ag, .limit = 0.85};
    expect_refusal(
        &c, "even with every lot, silver cannot fall below 900 ‰, but at most 850 ‰ is allowed",
        "bring in a lot that is poorer in it, or allow more");
    c.rule[0] = (lml_charge_rule){.metal = LML_Pd, .at_least = true, .limit = 0.02};
    expect_refusal(&c, "no lot contains any palladium, but at least 20 ‰ is needed",
                   "bring in a lot that is richer in it, or ask for less");
}

Test(charge, a_share_out_of_reach)
{
    charge_case c;
    case_button(&c, 0);
    c.problem.rules = 0; /* the fineness would be out of reach too */
    case_available(&c.lot[0], 30);
    c.lot[0].must_use = true;
    case_old(&c, 0.5);
    expect_refusal(
        &c,
        "with all 30 g of button, old metal cannot fall below 75 %, but at most 50 % is allowed",
        "leave out part of a lot, or make the charge heavier, or allow more");
}

Test(charge, too_little_or_too_much_metal)
{
    charge_case c;
    case_begin(&c, 30);
    case_available(case_lot(&c, "one", 750, 80), 15.3);
    case_available(case_lot(&c, "other", 750, 80), 10);
    expect_refusal(&c, "all lots together weigh 25.3 g, but 30 g is needed",
                   "bring in another lot, or ask for less");
    c.problem.mass = 0.015;
    c.lot[0].must_use = true;
    expect_refusal(&c, "the lots that must go in weigh 15.3 g, but exactly 15 g is needed",
                   "ask for at least that mass, or leave out part of a lot");
}

/* Each rule alone can be met: gold by fine gold, copper by the red alloy, both not. */
Test(charge, rules_that_clash_are_listed)
{
    charge_case c;
    case_begin(&c, 10);
    case_compose(case_lot(&c, "fine gold", 0, 100), 1000, 0, 0, 0);
    case_compose(case_lot(&c, "red alloy", 0, 1), 0, 100, 900, 0);
    case_metal(&c, LML_Au, true, 750);
    case_metal(&c, LML_Cu, true, 240);
    case_metal(&c, LML_Ag, false, 500);
    expect_refusal(&c, "these cannot all be met: at least 750 ‰ gold; at least 240 ‰ copper",
                   "loosen any one of them and the others can be met");
}

/* --- refusals -------------------------------------------------------------------------------- */

static void expect_bad(const charge_case *c, lml_status due, const char *words)
{
    lml_alloc heap = lml_alloc_heap();
    lml_charge_answer a = {.lots = -7};
    lml_error err = {0};
    cr_expect_eq(lml_charge_solve(&c->problem, &heap, &a, &err), due, "%s", words);
    cr_expect_eq(a.lots, -7);
    cr_expect(strstr(err.message, words) || (err.contexts > 0 && strstr(err.context[0], words)),
              "\"%s\" is not in: %s", words, err.message);
}

Test(charge, bad_figures_are_named)
{
    charge_case good, c;
    case_button(&good, 0);
    case_old(&good, 0.5);
    c = good; /* its problem still points at the arrays of `good` */
    c.problem.mass = NAN;
    expect_bad(&c, LML_BAD_VALUE, "required mass");
    c.problem.mass = 0;
    expect_bad(&c, LML_BAD_VALUE, "required mass");
    c = good;
    c.problem.lots = 0;
    expect_bad(&c, LML_BAD_VALUE, "at least one lot");
    c.problem.lots = LML_CHARGE_LOTS + 1;
    expect_bad(&c, LML_LIMIT, "257 lots");
    c = good;
    c.problem.aim = LML_MOST_CLIENT;
    expect_bad(&c, LML_BAD_VALUE, "no client is named");
    c.problem.client = "K";
    good.lot[0].owner = "K";
    expect_bad(&c, LML_BAD_VALUE, "in lot 1 (button)");
    c = good;
    good.lot[1].price = HUGE_VAL;
    expect_bad(&c, LML_BAD_VALUE, "in lot 2 (18 karat grain)");
    good.lot[1].price = -1;
    expect_bad(&c, LML_BAD_VALUE, "price");
    good.lot[1].price = 1;
    good.lot[2].must_use = true;
    expect_bad(&c, LML_BAD_VALUE, "its mass is not given");
    case_available(&good.lot[2], -1);
    expect_bad(&c, LML_BAD_VALUE, "the mass available");
    case_available(&good.lot[2], 1);
    good.lot[3].composition.part[LML_Zn] = 0.5;
    expect_bad(&c, LML_BAD_VALUE, "in lot 4 (master alloy)");
    good.lot[3].composition.part[LML_Zn] = 0.05;
    good.rule[0].limit = 1.5;
    expect_bad(&c, LML_BAD_VALUE, "in rule 1");
    good.rule[0].limit = 0.751;
    good.rule[0].guard = -1;
    expect_bad(&c, LML_BAD_VALUE, "guard");
    good.rule[0].guard = 0;
    good.rule[1].group = NULL;
    expect_bad(&c, LML_BAD_VALUE, "in rule 2");
}

Test(charge, figures_too_long_to_be_exact_are_an_overflow)
{
    charge_case c;
    case_button(&c, 0);
    case_available(&c.lot[0], 1e-30);
    case_available(&c.lot[1], 1e30);
    expect_bad(&c, LML_OVERFLOW, "more digits");
}

static void allocations(bool possible)
{
    const lml_composition like = {.part = {[LML_Au] = 0.5, [LML_Ag] = 0.2, [LML_Cu] = 0.3}};
    charge_case c;
    case_button(&c, 0);
    c.problem.like = &like;
    c.problem.besides = LML_Au;
    case_old(&c, 0.5);
    if (!possible)
        c.rule[0].limit = 1;
    for (uint64_t n = 1; n < 200; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        lml_charge_answer a;
        double mass[4];
        lml_charge_mix mix;
        lml_status s = lml_charge_solve(&c.problem, &alloc, &a, NULL);
        if (s == LML_OK) {
            cr_expect_eq(a.possible, possible);
            if (possible)
                s = lml_charge_round(&c.problem, &a, 1e-5, &alloc, mass, &mix, NULL);
            lml_charge_free(&a);
        }
        cr_assert_eq(meter.used, 0);
        if (s == LML_OK && n > meter.requests) {
            cr_expect_gt(n, 5);
            return;
        }
        cr_assert(s == LML_NO_MEMORY || n > meter.requests, "%d", (int)s);
    }
    cr_expect(false, "never succeeds");
}

Test(charge, every_failed_allocation_is_reported_and_nothing_leaks)
{
    allocations(true);
    allocations(false);
}
