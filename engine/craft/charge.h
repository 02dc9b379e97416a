/* The metal charge: how much of which lots to weigh out.
 *
 * From lots of known composition and a wanted mass, under rules on the charge as a whole, find the
 * amounts that serve one aim; or prove that there are none and say which rules clash. Mixing is
 * taken as closed: nothing is lost and nothing is gained in the melt. The answer is exact (figures
 * enter as their shortest decimals, see craft/scaled) and is not rounded: lml_charge_round makes
 * weighable amounts of it and checks every rule again.
 *
 * Masses are kg, prices money per kg in one currency, fractions parts of 1.
 *
 *     lml_charge_lot lot[2] = {{.name = "old ring", .available = 0.0224, .must_use = true, ...},
 *                              {.name = "fine gold", .unlimited = true, .price = 100500, ...}};
 *     lml_charge_rule rule = {.metal = LML_Au, .at_least = true, .limit = 0.752};
 *     lml_charge_problem p = {.lot = lot, .lots = 2, .rule = &rule, .rules = 1,
 *                             .mass = 0.03, .more_allowed = true};
 *     lml_charge_answer a;
 *     lml_charge_solve(&p, &alloc, &a, err);
 *     if (!a.possible)
 *         return lml_charge_refusal(&p, &a.reason, err);
 *     ... a.amount[1].mass ...
 *     lml_charge_free(&a);
 */
#ifndef LML_CRAFT_CHARGE_H
#define LML_CRAFT_CHARGE_H

#include "base/alloc.h"
#include "base/big.h"
#include "value/alloy.h"

enum { LML_CHARGE_LOTS = 256, LML_CHARGE_RULES = 60, LML_CHARGE_WORDS = 160 };

typedef struct lml_charge_lot {
    const char *name;
    const char *owner; /* NULL: the studio's own */
    double available;  /* kg; not read when unlimited */
    bool unlimited;
    bool must_use;     /* all of it; else as much as serves, or none */
    bool is_old;       /* melted before */
    double generation; /* how often it was melted: 0 for new grain */
    double price; /* per kg; a client's metal at its credit value, or the rules seem to cost too
                     much */
    lml_composition composition;
    lml_composition deviation; /* one standard deviation of each part, 0 where not stated */
} lml_charge_lot;

/* Some metals of the charge against others, each counted so many times: a colour goes by silver and
 * zinc against silver, zinc and copper. */
typedef struct lml_charge_blend {
    double part[LML_METALS], whole[LML_METALS];
} lml_charge_blend;

/* One limit on the charge: on the fraction of a metal, on the share of a group of lots (old metal,
 * one lot, one owner), or on a blend: sum x p >= F sum x w.
 *
 * With a guard k, every lot is counted k deviations on the bad side. That takes all errors to lie
 * the same way at once, which is on the safe side of the quadratic sum, and keeps the rule linear:
 * sum x (f - k u) >= F sum x. */
typedef struct lml_charge_rule {
    lml_metal metal;   /* LML_NO_METAL: the rule is on the group or the blend */
    const bool *group; /* a flag for each lot */
    const lml_charge_blend *blend;
    const char *name; /* of the group or the blend, for words: "old metal" */
    bool at_least;    /* else at most */
    double limit;     /* 0..1 */
    double guard;     /* 0: none */
} lml_charge_rule;

/* Each aim settles ties by the next concern, so that the answer is the one a goldsmith would pick:
 * least cost, then least new metal; the two others, then least cost. */
typedef enum lml_charge_aim { LML_LEAST_COST, LML_LEAST_NEW, LML_MOST_CLIENT } lml_charge_aim;

typedef struct lml_charge_problem {
    const lml_charge_lot *lot;
    const lml_charge_rule *rule;
    int lots, rules;
    double mass;       /* wanted, above 0 */
    bool more_allowed; /* at least this mass; else exactly */
    lml_charge_aim aim;
    const char *client; /* whose metal LML_MOST_CLIENT means */
} lml_charge_problem;

/* Anything that limits the charge. */
typedef enum lml_charge_kind {
    LML_CHARGE_MASS,      /* the wanted mass */
    LML_CHARGE_RULE,      /* rule[index] */
    LML_CHARGE_AVAILABLE, /* what there is of lot[index] */
    LML_CHARGE_MUST_USE   /* that all of lot[index] goes in */
} lml_charge_kind;

typedef struct lml_charge_limit {
    lml_charge_kind kind;
    int index;
} lml_charge_limit;

/* A limit that the answer stands at. `worth` is by how much the aim's figure (cost, kg of new
 * metal, less kg of the client's) rises for each unit by which the limit is raised: a kg of mass or
 * of a lot, the whole of 1 of a fraction or share (so a thousandth of it for 1 per thousand). A
 * rule's limit is moved at the answer's total mass. 0 when the limit costs nothing. */
typedef struct lml_charge_binding {
    lml_charge_limit limit;
    double worth;
} lml_charge_binding;

typedef struct lml_charge_amount {
    lml_big top; /* kg = top / bottom of the answer, exactly */
    double mass; /* kg, nearest */
    double
        worth; /* by how much the aim's figure rises for each kg of this lot forced in; 0 if used */
} lml_charge_amount;

/* What a set of amounts makes. Each figure is the double nearest to the exact one, except the
 * deviation, which takes the lots' errors as independent: sqrt(sum (x u)^2) / total. */
typedef struct lml_charge_mix {
    double mass, cost;
    double old_share;  /* of the mass */
    double generation; /* after this melt: sum x (g + 1) / sum x */
    lml_composition composition, deviation;
} lml_charge_mix;

/* Why there is no answer. `clash` is a smallest set of limits that cannot hold together: without
 * any one of them the rest can be met. When one rule (or the mass) is at odds with what the lots
 * are, `single` is set, and `reachable` is how near it could come with every lot at hand: the
 * greatest or least fraction or share (guard counted), or the mass in kg. */
typedef struct lml_charge_reason {
    lml_charge_limit *clash;
    int clashing;
    bool single;
    lml_charge_limit cause;
    double reachable;
} lml_charge_reason;

typedef struct lml_charge_answer {
    bool possible;
    int lots;
    lml_charge_amount *amount; /* a figure for each lot */
    lml_big bottom;
    lml_charge_mix mix;
    lml_charge_binding *binding;
    int bindings;
    lml_charge_reason reason; /* when not possible */
    lml_alloc alloc;
    int room; /* limits that the two lists were made for */
} lml_charge_answer;

/* LML_OK whether possible or not. LML_BAD_VALUE: a figure out of its range, named. LML_LIMIT: too
 * many lots or rules. LML_OVERFLOW: figures with more digits than an exact answer holds.
 * LML_NO_MEMORY. */
lml_status lml_charge_solve(const lml_charge_problem *problem, const lml_alloc *alloc,
                            lml_charge_answer *out, lml_error *err);
void lml_charge_free(lml_charge_answer *answer);

/* One limit in words ("at least 750 ‰ gold", "at most 50 % old metal"). Returns `out`. */
const char *lml_charge_limit_words(const lml_charge_problem *problem, lml_charge_limit limit,
                                   char out[LML_CHARGE_WORDS]);
/* The reason as an error: LML_STOPPED, with a hint. */
lml_status lml_charge_refusal(const lml_charge_problem *problem, const lml_charge_reason *reason,
                              lml_error *err);

/* Make amounts that a scale of this step (kg) can show. A lot that is used up goes in whole,
 * whatever it weighs, and an unused one stays out. Each other lot may take the steps within two of
 * its exact amount, or all there is. Of the sets whose total is not below the wanted mass and that
 * keep every rule, checked anew in whole numbers, that one is taken which overshoots the mass
 * least, then costs least. So the safe direction of each lot comes out by itself: fine gold up and
 * alloy down under a least fineness, old metal down under a greatest share. A wanted mass of
 * "exactly" is met from above. Where the least and the most of a metal are the same, which no step
 * hits, the most yields by what one step of a lot changes. Room for a figure for each lot in
 * `mass`; `mix` is what they make. LML_STOPPED: no amounts so near fit; the message names the rule
 * without which some would. LML_BAD_VALUE: a step that is not above 0, or an answer that is not
 * possible. */
lml_status lml_charge_round(const lml_charge_problem *problem, const lml_charge_answer *answer,
                            double step, const lml_alloc *alloc, double mass[], lml_charge_mix *mix,
                            lml_error *err);

/* The order to weigh in: lot numbers into `order`, unused lots left out; returns how many.
 * Old metal comes first, because it cannot be had again: if it turns out lighter than thought, the
 * new metal can still be calculated anew. Then the largest first, so that the small additions,
 * which decide the fineness, come last and can make good the errors of the large. Ties by lot
 * number. */
int lml_charge_weigh_order(const lml_charge_problem *problem, const double mass[], int order[]);

#endif
