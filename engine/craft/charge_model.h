/* A charge in whole numbers, and the linear programme made of it. Internal to craft/charge.
 *
 * Masses become counts of 10^-mass_places kg. Each rule becomes a row over the lots that must not
 * be negative: sum x (f - limit) for "at least", sum x (limit - f) for "at most"; row 0 is the
 * mass. The limits are numbered: the mass, the rules, what there is of each lot, what must be used
 * of each.
 */
#ifndef LML_CRAFT_CHARGE_MODEL_H
#define LML_CRAFT_CHARGE_MODEL_H

#include "craft/charge.h"
#include "craft/simplex.h"

typedef struct lml_charge_model {
    const lml_charge_problem *problem;
    int lots, rules, limits;
    int mass_places, cost_places;
    lml_i128 mass, step;
    lml_i128 *available;  /* of each lot; not read when unlimited */
    lml_i128 *matrix;     /* (1 + rules) * lots */
    lml_i128 *cost, *tie; /* of each lot, for the aim */
    lml_simplex_range *column, *row;
    int *rule_places; /* row 1 + r counts 10^-rule_places[r] */
    lml_alloc alloc;
} lml_charge_model;

/* Checks the whole problem first. `step` (kg) is another mass that must be a whole number; 0 for
 * none. */
lml_status lml_charge_model_make(const lml_charge_problem *problem, double step,
                                 const lml_alloc *alloc, lml_charge_model *out, lml_error *err);
void lml_charge_model_free(lml_charge_model *model);

lml_charge_limit lml_charge_model_limit(const lml_charge_model *model, int number);

/* With all limits and the aim; or, if `keep` is not NULL, whether the limits that it flags can hold
 * together. */
lml_status lml_charge_model_solve(lml_charge_model *model, const bool keep[],
                                  lml_simplex_answer *out, lml_error *err);

/* The mix of amounts top[lot] / bottom, in kg. */
lml_status lml_charge_model_mix(const lml_charge_problem *problem, const lml_big top[],
                                const lml_big *bottom, lml_charge_mix *out, lml_error *err);

/* How far a lot is on the good side of a rule, as parts of 1: f - limit or limit - f, guard
 * counted. */
double lml_charge_model_margin(const lml_charge_model *model, int rule, int lot);

/* 10^power */
double lml_charge_model_ten(int power);

#endif
