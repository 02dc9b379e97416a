/* The metal charge: how much of which lots to weigh out.
 *
 * From lots of known composition and a wanted mass, under rules on the charge as a whole, find the
 * amounts that are best for one aim; or prove that there are none and say which rules clash. No
 * metal is lost or gained in the melt. The answer is exact (figures enter as their shortest
 * decimals, see craft/scaled) and is not rounded: lml_charge_round turns it into weighable amounts
 * and checks every rule again.
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
    bool must_use;     /* all of it; else as much as needed, or none */
    bool is_old;       /* melted before */
    double generation; /* how often it was melted: 0 for new grain */
    double price; /* per kg; a client's metal at its credit value, or the rules seem to cost too
                     much */
    lml_composition composition;
    lml_composition deviation; /* one standard deviation of each part, 0 where not stated */
} lml_charge_lot;

/* A ratio of metals in the charge, with weights: colour depends on silver and zinc relative to
 * silver, zinc and copper. */
typedef struct lml_charge_blend {
    double part[LML_METALS], whole[LML_METALS];
} lml_charge_blend;

/* One limit on the charge: on the fraction of a metal, on the share of a group of lots (old metal,
 * one lot, one owner), or on a blend: sum x p >= F sum x w.
 *
 * With a guard k, every lot is counted k deviations on the bad side. That assumes that all errors
 * have the same sign, which is safer than the quadratic sum, and keeps the rule linear: sum x (f -
 * k u) >= F sum x. */
typedef struct lml_charge_rule {
    lml_metal metal;   /* LML_NO_METAL: the rule is on the group or the blend */
    const bool *group; /* a flag for each lot */
    const lml_charge_blend *blend;
    const char *name; /* of the group or the blend, for words: "old metal" */
    bool at_least;    /* else at most */
    double limit;     /* 0..1 */
    double guard;     /* 0: none */
} lml_charge_rule;

/* Ties are settled by a second aim, so that the answer is the one a goldsmith would choose: least
 * cost, then least new metal; the others, then least cost. Most like the alloy that is named; of
 * none, least cost. */
typedef enum lml_charge_aim {
    LML_LEAST_COST,
    LML_LEAST_NEW,
    LML_MOST_CLIENT,
    LML_MOST_LIKE
} lml_charge_aim;

typedef struct lml_charge_problem {
    const lml_charge_lot *lot;
    const lml_charge_rule *rule;
    int lots, rules;
    double mass;       /* wanted, above 0 */
    bool more_allowed; /* at least this mass; else exactly */
    lml_charge_aim aim;
    const char *client; /* whose metal LML_MOST_CLIENT means */
    /* Where aim and second aim leave a choice, the metals other than `besides` come as near to the
     * proportions they have in this alloy as the lots allow: the least sum of the differences,
     * unnamed metal taken to have the proportions. Of charges equal in that, the one of lots that
     * are themselves most like it. May be NULL. */
    const lml_composition *like;
    lml_metal besides;
    lml_unit mass_unit; /* what masses are said in; none: g */
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

/* A limit that the answer reaches. `worth` is the increase of the aim's figure (cost, kg of new
 * metal, less kg of the client's) per unit by which the limit is raised: a kg of mass or of a lot,
 * the whole of 1 of a fraction or share (so a thousandth of it for 1 per thousand). A rule's limit
 * is moved at the answer's total mass. 0 if the limit costs nothing; of no meaning for
 * LML_MOST_LIKE.
 */
typedef struct lml_charge_binding {
    lml_charge_limit limit;
    double worth;
} lml_charge_binding;

typedef struct lml_charge_amount {
    lml_big top;  /* kg = top / bottom of the answer, exactly */
    double mass;  /* kg, nearest */
    double worth; /* increase of the aim's figure per kg of this lot forced in; 0 if used */
} lml_charge_amount;

/* The result of mixing a set of amounts. Each figure is the double nearest to the exact one, except
 * the deviation, which takes the lots' errors as independent: sqrt(sum (x u)^2) / total. */
typedef struct lml_charge_mix {
    double mass, cost;
    double old_share;  /* of the mass */
    double generation; /* after this melt: sum x (g + 1) / sum x */
    lml_composition composition, deviation;
} lml_charge_mix;

/* Why there is no answer. `clash` is a smallest set of limits that cannot hold together: without
 * any one of them the rest can be met. If one rule (or the mass) alone is impossible with these
 * lots, `single` is set, and `reachable` is how near it could come with every lot: the greatest or
 * least fraction or share (guard counted), or the mass in kg. */
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
    int room; /* number of limits that the two lists have room for */
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

/* Make amounts that a scale of this step (kg) can show. A lot that is used up goes in completely,
 * and an unused one stays out. Each other lot may take any step within two of its exact amount, or
 * all of it; within six where none of these will do. Of the sets that are not below the wanted mass
 * and keep every rule, checked again in whole numbers, the one with the least excess mass is taken,
 * then the cheapest, and where the charge is to be like an alloy the nearest to the exact amounts.
 * So each lot is rounded in its safe direction: fine gold up and alloy down under a least fineness,
 * old metal down under a greatest share. A wanted mass of "exactly" is met from above. If the least
 * and the most of a metal are equal, which no step meets, the most is relaxed by what one step of a
 * lot changes. Room for a figure for each lot in `mass`; `mix` is what they make. LML_STOPPED: no
 * amounts that near keep all rules; the message names the rule without which some would.
 * LML_BAD_VALUE: a step that is not above 0, or an answer that is not possible. */
lml_status lml_charge_round(const lml_charge_problem *problem, const lml_charge_answer *answer,
                            double step, const lml_alloc *alloc, double mass[], lml_charge_mix *mix,
                            lml_error *err);

/* The order to weigh in: lot numbers into `order`, unused lots left out; returns how many. Old
 * metal comes first, because it cannot be replaced: if it is lighter than expected, the new metal
 * can still be recalculated. Then the largest first, so that the small additions, which decide the
 * fineness, come last and can correct the errors of the large ones. Ties by lot number. */
int lml_charge_weigh_order(const lml_charge_problem *problem, const double mass[], int order[]);

#endif
