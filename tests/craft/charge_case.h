/* Charges for tests: a builder, and draws at random in figures that are whole counts of a small
 * unit, so that a test can reckon with them exactly in 64-bit integers. */
#ifndef LML_TESTS_CRAFT_CHARGE_CASE_H
#define LML_TESTS_CRAFT_CHARGE_CASE_H

#include "craft/charge.h"

#include <criterion/criterion.h>
#include <string.h>

enum { CASE_LOTS = 12, CASE_RULES = 10 };

typedef struct charge_case {
    lml_charge_lot lot[CASE_LOTS];
    lml_charge_rule rule[CASE_RULES];
    bool group[CASE_RULES][CASE_LOTS];
    lml_charge_problem problem;
} charge_case;

static inline void case_begin(charge_case *c, double grams)
{
    memset(c, 0, sizeof *c);
    c->problem = (lml_charge_problem){.lot = c->lot, .rule = c->rule, .mass = grams / 1000};
}

/* A lot without end, of `gold` per thousand, the rest silver; money per gram. */
static inline lml_charge_lot *case_lot(charge_case *c, const char *name, double gold, double price)
{
    lml_charge_lot *lot = &c->lot[c->problem.lots++];
    *lot = (lml_charge_lot){.name = name, .unlimited = true, .price = price * 1000};
    lot->composition.part[LML_Au] = gold / 1000;
    lot->composition.part[LML_Ag] = 1 - gold / 1000;
    return lot;
}

static inline void case_available(lml_charge_lot *lot, double grams)
{
    lot->unlimited = false;
    lot->available = grams / 1000;
}

static inline lml_charge_rule *case_metal(charge_case *c, lml_metal metal, bool at_least,
                                          double per_thousand)
{
    lml_charge_rule *rule = &c->rule[c->problem.rules++];
    *rule = (lml_charge_rule){.metal = metal, .at_least = at_least, .limit = per_thousand / 1000};
    return rule;
}

/* The share of the lots that are old, at most. Lots must be there already. */
static inline lml_charge_rule *case_old(charge_case *c, double most)
{
    bool *group = c->group[c->problem.rules];
    for (int j = 0; j < c->problem.lots; j++)
        group[j] = c->lot[j].is_old;
    lml_charge_rule *rule = &c->rule[c->problem.rules++];
    *rule = (lml_charge_rule){.group = group, .name = "old metal", .limit = most};
    return rule;
}

/* Gold, silver, copper and zinc per thousand. */
static inline void case_compose(lml_charge_lot *lot, double gold, double silver, double copper,
                                double zinc)
{
    lot->composition = (lml_composition){{0}};
    lot->composition.part[LML_Au] = gold / 1000;
    lot->composition.part[LML_Ag] = silver / 1000;
    lot->composition.part[LML_Cu] = copper / 1000;
    lot->composition.part[LML_Zn] = zinc / 1000;
    lot->composition.part[0] = (1000 - gold - silver - copper - zinc) / 1000;
}

/* A client's 14 karat button, 18 karat grain, fine gold, a master alloy; 40 g of 751. */
static inline void case_button(charge_case *c, double button_price)
{
    case_begin(c, 40);
    case_compose(case_lot(c, "button", 585, button_price), 585, 250, 155, 10);
    case_compose(case_lot(c, "18 karat grain", 750, 79), 750, 125, 125, 0);
    case_compose(case_lot(c, "fine gold", 999.9, 100.5), 999.9, 0.1, 0, 0);
    case_compose(case_lot(c, "master alloy", 0, 1.2), 0, 400, 550, 50);
    c->lot[0].is_old = true;
    c->lot[0].generation = 1;
    case_metal(c, LML_Au, true, 751);
}

static inline lml_charge_answer case_solve(const charge_case *c)
{
    lml_alloc heap = lml_alloc_heap();
    lml_charge_answer answer;
    lml_error err;
    lml_status s = lml_charge_solve(&c->problem, &heap, &answer, &err);
    cr_assert_eq(s, LML_OK, "%s", err.message);
    return answer;
}

/* --- draws ----------------------------------------------------------------------------------- */

/* Fractions, limits and deviations count 1/10000, masses 0.01 g, prices a cent per g, guards 1/2.
 */
enum { PARTS = 10000, MASSES = 100000, CENTS = 10 };

static uint64_t case_state; /* of the draws: each test sets it */

static inline int case_draw(int low, int high)
{
    case_state = case_state * 6364136223846793005u + 1442695040888963407u;
    return low + (int)((case_state >> 33) % (uint64_t)(high - low + 1));
}

static const lml_metal case_metals[] = {LML_Au, LML_Ag, LML_Cu, LML_Zn};
enum { CASE_METALS = sizeof case_metals / sizeof *case_metals };

static inline void case_draw_lot(lml_charge_lot *lot)
{
    *lot = (lml_charge_lot){.name = "lot",
                            .owner = case_draw(0, 2) == 0 ? "client" : NULL,
                            .is_old = case_draw(0, 1) == 1,
                            .available = case_draw(0, 3000) / (double)MASSES,
                            .unlimited = case_draw(0, 3) == 0,
                            .price = case_draw(0, 10000) * (double)CENTS};
    lot->must_use = !lot->unlimited && case_draw(0, 5) == 0;
    lot->generation = lot->is_old ? case_draw(1, 3) : 0;
    int left = PARTS;
    for (int m = 0; m < CASE_METALS; m++) {
        int part = m == CASE_METALS - 1 ? left : case_draw(0, left);
        lot->composition.part[case_metals[m]] = part / (double)PARTS;
        left -= part;
    }
    lot->deviation.part[LML_Au] = case_draw(0, 60) / (double)PARTS;
}

static inline void case_draw_charge(charge_case *c, int lots, int rules)
{
    case_begin(c, case_draw(200, 6000) / 100.0);
    c->problem.lots = lots;
    c->problem.rules = rules;
    c->problem.more_allowed = case_draw(0, 2) == 0;
    c->problem.aim = LML_LEAST_COST;
    c->problem.client = "client";
    for (int j = 0; j < lots; j++)
        case_draw_lot(&c->lot[j]);
    for (int r = 0; r < rules; r++) {
        lml_charge_rule *rule = &c->rule[r];
        bool metal = case_draw(0, 3) > 0;
        *rule = (lml_charge_rule){.at_least = case_draw(0, 1) == 1,
                                  .limit = case_draw(0, PARTS) / (double)PARTS};
        rule->limit = rule->at_least ? rule->limit * 0.5 : 0.5 + rule->limit * 0.5;
        rule->limit = (int)(rule->limit * PARTS) / (double)PARTS;
        if (metal) {
            rule->metal = case_metals[case_draw(0, CASE_METALS - 1)];
            rule->guard = rule->metal == LML_Au ? case_draw(0, 4) / 2.0 : 0;
        } else {
            rule->group = c->group[r];
            for (int j = 0; j < lots; j++)
                c->group[r][j] = case_draw(0, 1) == 1;
        }
    }
}

/* How a lot stands to a rule, in halves of 1/10000: positive is on the good side. */
static inline int64_t case_margin(const charge_case *c, int r, int j)
{
    const lml_charge_rule *rule = &c->rule[r];
    const lml_charge_lot *lot = &c->lot[j];
    double q = rule->group ? rule->group[j] : lot->composition.part[rule->metal];
    int64_t part = (int64_t)(q * PARTS + 0.5), limit = (int64_t)(rule->limit * PARTS + 0.5);
    int64_t error = (int64_t)(lot->deviation.part[rule->metal] * PARTS + 0.5);
    int64_t twice = 2 * (rule->at_least ? part - limit : limit - part);
    return twice - (int64_t)(rule->guard * 2 + 0.5) * (rule->group ? 0 : error);
}

static inline int64_t case_count(double mass)
{
    return (int64_t)(mass * MASSES + 0.5);
}

#endif
