#include "charge_case.h"

#include <math.h>

static lml_status round_to(const charge_case *c, double grams, double mass[], lml_charge_mix *mix,
                           lml_error *err)
{
    lml_alloc heap = lml_alloc_heap();
    lml_charge_answer a = case_solve(c);
    cr_assert(a.possible);
    lml_status s = lml_charge_round(&c->problem, &a, grams / 1000, &heap, mass, mix, err);
    lml_charge_free(&a);
    return s;
}

/* Worked example of our own, on a scale of 0.01 g: fine gold up, master alloy down. */
Test(charge_round, rounds_the_button_charge)
{
    charge_case c;
    case_button(&c, 0);
    case_old(&c, 0.5);
    double mass[4];
    lml_charge_mix mix;
    cr_assert_eq(round_to(&c, 0.01, mass, &mix, NULL), LML_OK);
    const double due[] = {0.02, 0, 0.01835, 0.00165};
    for (int j = 0; j < 4; j++)
        cr_expect_eq(mass[j], due[j], "lot %d: %.17g", j, mass[j]);
    cr_expect_eq(mix.mass, 0.04);
    cr_expect_float_eq(mix.composition.part[LML_Au], (20 * 585 + 18.35 * 999.9) / 40000, 1e-15);
    cr_expect_float_eq(mix.cost, 18.35 * 100.5 + 1.65 * 1.2, 1e-9);
}

/* Worked example of our own: 15.451 g to add is weighed as 15.46 g on a scale of 0.01 g. */
Test(charge_round, what_must_go_in_is_not_rounded_and_fine_gold_goes_up)
{
    charge_case c;
    case_begin(&c, 22.404);
    lml_charge_lot *ring = case_lot(&c, "ring", 581, 0);
    case_available(ring, 22.404);
    ring->must_use = c.problem.more_allowed = true;
    case_lot(&c, "fine gold", 999.9, 100.5);
    case_metal(&c, LML_Au, true, 752);
    double mass[2];
    lml_charge_mix mix;
    cr_assert_eq(round_to(&c, 0.01, mass, &mix, NULL), LML_OK);
    cr_expect_eq(mass[0], 0.022404);
    cr_expect_eq(mass[1], 0.01546);
    cr_expect_geq(mix.composition.part[LML_Au], 0.752);
}

Test(charge_round, a_scale_too_coarse_is_refused_with_the_rule)
{
    charge_case c;
    case_begin(&c, 10);
    case_lot(&c, "grain", 585, 50);
    case_lot(&c, "fine gold", 999.9, 100);
    case_metal(&c, LML_Au, true, 600);
    case_metal(&c, LML_Au, false, 601);
    double mass[2] = {-1, -1};
    lml_charge_mix mix;
    lml_error err;
    cr_assert_eq(round_to(&c, 1, mass, &mix, &err), LML_STOPPED);
    cr_expect_str_eq(err.message,
                     "no amounts found in steps of 1 g meet the rule of at least 600 ‰ gold");
    cr_expect_str_eq(err.hint, "weigh on a finer scale, or loosen that rule a little");
    cr_expect_eq(mass[0], -1);
    cr_assert_eq(round_to(&c, 0, mass, &mix, &err), LML_BAD_VALUE);
    cr_assert_eq(round_to(&c, NAN, mass, &mix, &err), LML_BAD_VALUE);
}

/* 22.437 g at 700 lowered to 585 and no further: 22.437 (700/585 - 1) = 4.41069 g of copper, by the
 * rule that adding m (have/want - 1) lowers a metal. No step of 0.01 g hits it; the most yields. */
Test(charge_round, a_target_that_is_the_most_as_well_yields_by_a_step)
{
    charge_case c;
    case_begin(&c, 1);
    lml_charge_lot *ring = case_lot(&c, "ring", 700, 0);
    case_available(ring, 22.437);
    ring->must_use = c.problem.more_allowed = true;
    case_lot(&c, "copper", 0, 0.01);
    case_metal(&c, LML_Au, true, 585);
    case_metal(&c, LML_Au, false, 585);
    double mass[2];
    lml_charge_mix mix;
    cr_assert_eq(round_to(&c, 0.01, mass, &mix, NULL), LML_OK);
    cr_expect_float_eq(mass[0], 22.437e-3, 1e-12);
    cr_expect_float_eq(mass[1], 22.437e-3 * (700.0 / 585 - 1), 0.01e-3);
    cr_expect_geq(mix.composition.part[LML_Au], 0.585);
    cr_expect_leq(mix.composition.part[LML_Au], 0.585 + 0.01 / 26.847 * 0.585);
}

/* Au 585 with silver 80 and copper 335 named rose: silver against both is 0.193. A least of 0.4 for
 * the share takes silver in, and no more than it must: 0.4 of the 415 that are not gold. */
Test(charge_round, a_blend_bounds_one_metal_against_another)
{
    static lml_charge_blend pale;
    pale.part[LML_Ag] = pale.whole[LML_Ag] = pale.whole[LML_Cu] = 1;
    pale.part[LML_Zn] = pale.whole[LML_Zn] = 2.5;
    charge_case c;
    case_begin(&c, 100);
    case_lot(&c, "fine gold", 1000, 100);
    case_lot(&c, "silver", 0, 1);
    case_compose(case_lot(&c, "copper", 0, 0.01), 0, 0, 1000, 0);
    case_metal(&c, LML_Au, true, 585);
    lml_charge_rule *rule = case_metal(&c, LML_NO_METAL, true, 400);
    rule->blend = &pale;
    rule->name = "pale share";
    double mass[3];
    lml_charge_mix mix;
    cr_assert_eq(round_to(&c, 0.01, mass, &mix, NULL), LML_OK);
    cr_expect_float_eq(mass[0], 58.5e-3, 1e-9);
    cr_expect_float_eq(mass[1], 0.4 * 41.5e-3, 1e-9);
    cr_expect_float_eq(mass[2], 0.6 * 41.5e-3, 1e-9);
    case_available(&c.lot[1], 10);
    lml_charge_answer a = case_solve(&c);
    cr_assert(a.possible); /* more gold leaves less to be made pale */
    lml_charge_free(&a);
    case_metal(&c, LML_Au, false, 600);
    a = case_solve(&c);
    cr_assert(!a.possible);
    lml_charge_free(&a);
}

/* --- at random ------------------------------------------------------------------------------- */

/* Every rule again, in whole numbers that owe nothing to the engine. */
static void expect_fits(const charge_case *c, const double mass[], int64_t step)
{
    int64_t total = 0, wanted = case_count(c->problem.mass);
    for (int j = 0; j < c->problem.lots; j++) {
        const lml_charge_lot *lot = &c->lot[j];
        int64_t x = case_count(mass[j]), there = case_count(lot->available);
        cr_assert_eq(mass[j], (double)x / MASSES);
        cr_assert(x >= 0 && (lot->unlimited || x <= there));
        cr_assert(!lot->must_use || x == there);
        cr_assert(x % step == 0 || (!lot->unlimited && x == there), "lot %d cannot be weighed", j);
        total += x;
    }
    cr_assert_geq(total, wanted);
    for (int r = 0; r < c->problem.rules; r++) {
        int64_t sum = 0;
        for (int j = 0; j < c->problem.lots; j++)
            sum += case_margin(c, r, j) * case_count(mass[j]);
        cr_assert_geq(sum, 0, "rule %d is broken", r);
    }
}

Test(charge_round, random_charges_keep_every_rule)
{
    lml_alloc heap = lml_alloc_heap();
    int rounded = 0, refused = 0, near = 0, far = 0;
    case_state = 21;
    for (int n = 0; n < 6000; n++) {
        charge_case c;
        case_draw_charge(&c, case_draw(2, 8), case_draw(0, 5));
        lml_charge_answer a = case_solve(&c);
        if (a.possible) {
            double mass[CASE_LOTS];
            lml_charge_mix mix;
            lml_error err;
            lml_status s = lml_charge_round(&c.problem, &a, 1e-4, &heap, mass, &mix, &err);
            if (s == LML_OK) {
                expect_fits(&c, mass, 10);
                rounded++;
                near += mix.mass <= c.problem.mass + 1e-4 || c.problem.more_allowed;
                double most = 0;
                for (int j = 0; j < a.lots; j++)
                    most = fmax(most, fabs(mass[j] - a.amount[j].mass));
                /* FAR of charge_round.c, in steps of 0.1 g: with two, a charge was refused in which
                 * fine gold makes up for a step of palladium against a grain nearly as fine. */
                cr_assert(most <= 6.0000001e-4);
                far += most > 2.0000001e-4;
            } else {
                cr_assert_eq(s, LML_STOPPED, "%s", err.message);
                refused++;
            }
        }
        lml_charge_free(&a);
    }
    cr_expect_gt(rounded, 1000);
    cr_expect_lt(refused, rounded / 100, "%d refused, %d rounded", refused, rounded);
    cr_expect(far > 0 && far < rounded / 100, "%d further than two steps", far);
    cr_expect_gt(near, rounded * 9 / 10, "%d of %d overshoot by at most a step", near, rounded);
}
