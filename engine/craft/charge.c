#include "craft/charge.h"

#include "craft/charge_model.h"
#include "craft/charge_reason.h"
#include "craft/scaled.h"

#include <string.h>

/* Each list of limits can hold them all. */
static lml_status make_room(const lml_charge_model *model, lml_charge_answer *answer,
                            lml_error *err)
{
    size_t lots = (size_t)model->lots, limits = (size_t)model->limits;
    answer->lots = model->lots;
    answer->room = model->limits;
    answer->alloc = model->alloc;
    answer->amount = lml_alloc_get(&answer->alloc, lots * sizeof *answer->amount);
    answer->binding = lml_alloc_get(&answer->alloc, limits * sizeof *answer->binding);
    answer->reason.clash = lml_alloc_get(&answer->alloc, limits * sizeof *answer->reason.clash);
    if (!answer->amount || !answer->binding || !answer->reason.clash)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a charge of %d lots", model->lots);
    memset(answer->amount, 0, lots * sizeof *answer->amount);
    return LML_OK;
}

static void bind(lml_charge_answer *answer, lml_charge_limit limit, double worth)
{
    answer->binding[answer->bindings++] = (lml_charge_binding){limit, worth};
}

/* The programme calculates the aim in 10^-(cost_places + mass_places), masses in 10^-mass_places.
 */
static void find_bindings(const lml_charge_model *model, const lml_simplex_answer *found,
                          lml_charge_answer *answer)
{
    const lml_charge_problem *p = model->problem;
    double unit = lml_charge_model_ten(model->cost_places);
    if (found->row[0].place != LML_AT_NEITHER)
        bind(answer, lml_charge_model_limit(model, 0), found->row[0].nearest_marginal / unit);
    for (int r = 0; r < model->rules; r++) {
        if (found->row[1 + r].place == LML_AT_NEITHER)
            continue;
        double raised = found->row[1 + r].nearest_marginal *
                        lml_charge_model_ten(model->rule_places[r]) * answer->mix.mass / unit;
        bind(answer, lml_charge_model_limit(model, 1 + r), p->rule[r].at_least ? raised : -raised);
    }
    for (int j = 0; j < model->lots; j++) {
        double marginal = found->column[j].nearest_marginal / unit;
        bool whole =
            !p->lot[j].unlimited && (p->lot[j].must_use || found->column[j].place == LML_AT_HIGH);
        if (whole)
            bind(answer,
                 (lml_charge_limit){p->lot[j].must_use ? LML_CHARGE_MUST_USE : LML_CHARGE_AVAILABLE,
                                    j},
                 marginal);
        else
            answer->amount[j].worth = marginal;
    }
}

static lml_status describe(const lml_charge_model *model, const lml_simplex_answer *found,
                           lml_charge_answer *answer, lml_error *err)
{
    lml_big top[LML_CHARGE_LOTS], scale;
    lml_status s = lml_big_ten_to(model->mass_places, &scale, err);
    if (s == LML_OK)
        s = lml_big_mul(&found->bottom, &scale, &answer->bottom, err);
    if (s != LML_OK)
        return s;
    for (int j = 0; j < model->lots; j++) {
        top[j] = found->column[j].amount;
        answer->amount[j].top = top[j];
        answer->amount[j].mass = lml_big_ratio(&top[j], &answer->bottom);
    }
    s = lml_charge_model_mix(model->problem, top, &answer->bottom, &answer->mix, err);
    if (s == LML_OK)
        find_bindings(model, found, answer);
    return s;
}

static lml_status solve(lml_charge_model *model, lml_charge_answer *answer, lml_error *err)
{
    lml_simplex_answer found;
    lml_status s = lml_charge_model_solve(model, NULL, &found, err);
    if (s != LML_OK)
        return s;
    answer->possible = found.outcome == LML_SIMPLEX_OPTIMAL;
    if (answer->possible)
        s = describe(model, &found, answer, err);
    else if (found.outcome == LML_SIMPLEX_INFEASIBLE)
        s = lml_charge_reason_find(model, &found, &answer->reason, err);
    else
        s = lml_fail(err, LML_FAULT, "the objective of a charge has no minimum");
    lml_simplex_free(&found);
    return s;
}

lml_status lml_charge_solve(const lml_charge_problem *problem, const lml_alloc *alloc,
                            lml_charge_answer *out, lml_error *err)
{
    lml_charge_model model;
    lml_status s = lml_charge_model_make(problem, 0, alloc, &model, err);
    if (s != LML_OK)
        return s;
    lml_charge_answer answer = {0};
    s = make_room(&model, &answer, err);
    if (s == LML_OK)
        s = solve(&model, &answer, err);
    lml_charge_model_free(&model);
    if (s != LML_OK)
        lml_charge_free(&answer);
    else
        *out = answer;
    return s;
}

void lml_charge_free(lml_charge_answer *answer)
{
    size_t lots = (size_t)answer->lots, room = (size_t)answer->room;
    if (answer->amount)
        lml_alloc_free(&answer->alloc, answer->amount, lots * sizeof *answer->amount);
    if (answer->binding)
        lml_alloc_free(&answer->alloc, answer->binding, room * sizeof *answer->binding);
    if (answer->reason.clash)
        lml_alloc_free(&answer->alloc, answer->reason.clash, room * sizeof *answer->reason.clash);
    answer->amount = NULL;
    answer->binding = NULL;
    answer->reason.clash = NULL;
}

int lml_charge_weigh_order(const lml_charge_problem *problem, const double mass[], int order[])
{
    int used = 0;
    for (int j = 0; j < problem->lots; j++) {
        if (!(mass[j] > 0))
            continue;
        int at = used++;
        for (; at > 0; at--) {
            int before = order[at - 1];
            bool old = problem->lot[j].is_old, before_old = problem->lot[before].is_old;
            if (old != before_old ? before_old : mass[before] >= mass[j])
                break;
            order[at] = before;
        }
        order[at] = j;
    }
    return used;
}
