#include "craft/charge_model.h"

#include "craft/charge_like.h"
#include "craft/check.h"
#include "craft/scaled.h"
#include "craft/sticky.h"
#include "base/double.h"

#include <math.h>
#include <string.h>

/* --- checks --------------------------------------------------------------------------------- */

static lml_status check_lot(const lml_charge_lot *lot, lml_error *err)
{
    lml_status s = LML_OK;
    if (!lot->unlimited)
        s = lml_check_not_negative(lot->available, "the mass available (kg)", err);
    else if (lot->must_use)
        s = lml_fail(err, LML_BAD_VALUE, "all of it must be used, but its mass is not given");
    if (s == LML_OK)
        s = lml_check_not_negative(lot->price, "its price per kg", err);
    if (s == LML_OK)
        s = lml_check_not_negative(lot->generation, "its generation", err);
    if (s == LML_OK)
        s = lml_composition_check(&lot->composition, err);
    for (int m = 0; m < LML_METALS && s == LML_OK; m++)
        s = lml_check_between(lot->deviation.part[m], 0, 1, "a deviation of its composition", err);
    return s;
}

static lml_status check_rule(const lml_charge_rule *rule, lml_error *err)
{
    if ((int)rule->metal < 0 || rule->metal >= LML_METALS)
        return lml_fail(err, LML_BAD_VALUE, "it names no known metal");
    int subjects = (rule->metal != LML_NO_METAL) + (rule->group != NULL) + (rule->blend != NULL);
    if (subjects == 0)
        return lml_fail(err, LML_BAD_VALUE, "it is on neither a metal nor a group of lots");
    if (subjects > 1)
        return lml_fail(err, LML_BAD_VALUE, "it is on both a metal and a group of lots");
    for (int m = 0; rule->blend && m < LML_METALS; m++) {
        lml_status s = lml_check_not_negative(rule->blend->part[m], "a weight of a blend", err);
        if (s == LML_OK)
            s = lml_check_not_negative(rule->blend->whole[m], "a weight of a blend", err);
        if (s != LML_OK)
            return s;
    }
    lml_status s = lml_check_between(rule->limit, 0, 1, "its limit", err);
    return s != LML_OK ? s : lml_check_not_negative(rule->guard, "its guard", err);
}

static bool is_clients(const lml_charge_problem *p, int lot)
{
    const char *owner = p->lot[lot].owner;
    return owner && p->client && strcmp(owner, p->client) == 0;
}

static lml_status check(const lml_charge_problem *p, lml_error *err)
{
    if (p->lots < 1 || p->rules < 0)
        return lml_fail(err, LML_BAD_VALUE, "a charge needs at least one lot");
    if (p->lots > LML_CHARGE_LOTS || p->rules > LML_CHARGE_RULES)
        return lml_fail(err, LML_LIMIT,
                        "a charge of %d lots and %d rules: at most %d and %d are taken", p->lots,
                        p->rules, LML_CHARGE_LOTS, LML_CHARGE_RULES);
    lml_status s = lml_check_positive(p->mass, "the required mass (kg)", err);
    for (int j = 0; j < p->lots && s == LML_OK; j++) {
        const lml_charge_lot *lot = &p->lot[j];
        s = check_lot(lot, err);
        if (s == LML_OK && p->aim == LML_MOST_CLIENT && is_clients(p, j) && lot->unlimited)
            s = lml_fail(err, LML_BAD_VALUE, "it is the client's, but its mass is not given");
        lml_error_context(err, s, "in lot %d (%s)", j + 1, lot->name ? lot->name : "no name");
    }
    for (int r = 0; r < p->rules && s == LML_OK; r++)
        s = lml_error_context(err, check_rule(&p->rule[r], err), "in rule %d", r + 1);
    if (s == LML_OK && p->aim == LML_MOST_CLIENT && !p->client)
        s = lml_fail(err, LML_BAD_VALUE,
                     "the most of the client's metal is requested, but no client is named");
    return s;
}

/* --- whole numbers -------------------------------------------------------------------------- */

/* Bring decimals to the places that all of them need. */
static lml_status align(const lml_scaled from[], int count, lml_i128 to[], int *places,
                        lml_error *err)
{
    for (int i = 0; i < count; i++)
        if (from[i].places > *places)
            *places = from[i].places;
    for (int i = 0; i < count; i++) {
        lml_status s = lml_scaled_at(from[i], *places, &to[i], err);
        if (s != LML_OK)
            return s;
    }
    return LML_OK;
}

static lml_status read_masses(lml_charge_model *m, double step, lml_error *err)
{
    const lml_charge_problem *p = m->problem;
    lml_scaled mass[LML_CHARGE_LOTS + 2];
    lml_i128 count[LML_CHARGE_LOTS + 2];
    lml_status s = lml_scaled_of(p->mass, &mass[m->lots], err);
    if (s == LML_OK)
        s = lml_scaled_of(step, &mass[m->lots + 1], err);
    for (int j = 0; j < m->lots && s == LML_OK; j++)
        s = lml_scaled_of(p->lot[j].unlimited ? 0 : p->lot[j].available, &mass[j], err);
    if (s == LML_OK)
        s = align(mass, m->lots + 2, count, &m->mass_places, err);
    if (s != LML_OK)
        return s;
    memcpy(m->available, count, (size_t)m->lots * sizeof *count);
    m->mass = count[m->lots];
    m->step = count[m->lots + 1];
    return LML_OK;
}

/* sum p f - limit sum w f, turned so that more is better. */
static lml_status read_blend(const lml_charge_rule *rule, const lml_charge_lot *lot,
                             lml_scaled *out, lml_error *err)
{
    lml_scaled limit, sum = {0, 0};
    lml_status s = lml_scaled_of(rule->limit, &limit, err);
    for (int m = 0; m < LML_METALS && s == LML_OK; m++) {
        double found = lot->composition.part[m];
        lml_scaled f, part, whole;
        if (!(found > 0) || (rule->blend->part[m] == 0 && rule->blend->whole[m] == 0))
            continue;
        s = lml_scaled_of(found, &f, err);
        if (s == LML_OK)
            s = lml_scaled_of(rule->blend->part[m], &part, err);
        if (s == LML_OK)
            s = lml_scaled_of(rule->blend->whole[m], &whole, err);
        if (s == LML_OK)
            s = lml_scaled_mul(limit, whole, &whole, err);
        if (s == LML_OK)
            s = rule->at_least ? lml_scaled_sub(part, whole, &part, err)
                               : lml_scaled_sub(whole, part, &part, err);
        if (s == LML_OK)
            s = lml_scaled_mul(part, f, &part, err);
        lml_scaled nothing = {0, 0};
        if (s == LML_OK)
            s = lml_scaled_sub(nothing, part, &part, err);
        if (s == LML_OK)
            s = lml_scaled_sub(sum, part, &sum, err);
    }
    if (s == LML_OK)
        *out = sum;
    return s;
}

/* f -+ k u - limit, turned so that more is better. */
static lml_status read_margin(const lml_charge_rule *rule, const lml_charge_lot *lot, bool member,
                              lml_scaled *out, lml_error *err)
{
    if (rule->blend)
        return read_blend(rule, lot, out, err);
    bool metal = rule->metal != LML_NO_METAL;
    double fraction = metal ? lot->composition.part[rule->metal] : member ? 1 : 0;
    lml_scaled found, limit, guard, deviation, shift;
    lml_status s = lml_scaled_of(fraction, &found, err);
    if (s == LML_OK)
        s = lml_scaled_of(rule->limit, &limit, err);
    if (s == LML_OK)
        s = rule->at_least ? lml_scaled_sub(found, limit, &found, err)
                           : lml_scaled_sub(limit, found, &found, err);
    if (s == LML_OK && metal && rule->guard > 0) {
        s = lml_scaled_of(rule->guard, &guard, err);
        if (s == LML_OK)
            s = lml_scaled_of(lot->deviation.part[rule->metal], &deviation, err);
        if (s == LML_OK)
            s = lml_scaled_mul(guard, deviation, &shift, err);
        if (s == LML_OK)
            s = lml_scaled_sub(found, shift, &found, err);
    }
    if (s == LML_OK)
        *out = found;
    return s;
}

static lml_status read_rules(lml_charge_model *m, lml_error *err)
{
    const lml_charge_problem *p = m->problem;
    lml_scaled margin[LML_CHARGE_LOTS];
    for (int j = 0; j < m->lots; j++)
        m->matrix[j] = 1;
    for (int r = 0; r < m->rules; r++) {
        const lml_charge_rule *rule = &p->rule[r];
        lml_status s = LML_OK;
        for (int j = 0; j < m->lots && s == LML_OK; j++)
            s = read_margin(rule, &p->lot[j], rule->group && rule->group[j], &margin[j], err);
        if (s == LML_OK)
            s = align(margin, m->lots, &m->matrix[(r + 1) * m->lots], &m->rule_places[r], err);
        if (s != LML_OK)
            return lml_error_context(err, s, "in rule %d", r + 1);
    }
    return LML_OK;
}

static lml_status read_costs(lml_charge_model *m, lml_error *err)
{
    const lml_charge_problem *p = m->problem;
    lml_scaled price[LML_CHARGE_LOTS];
    bool cheapest = p->aim == LML_LEAST_COST || p->aim == LML_MOST_LIKE; /* see charge_like */
    lml_status s = LML_OK;
    for (int j = 0; j < m->lots && s == LML_OK; j++)
        s = lml_scaled_of(p->lot[j].price, &price[j], err);
    int places = 0;
    if (s == LML_OK)
        s = align(price, m->lots, cheapest ? m->cost : m->tie, &places, err);
    m->cost_places = cheapest ? places : 0;
    for (int j = 0; j < m->lots; j++) {
        if (p->aim == LML_MOST_CLIENT)
            m->cost[j] = is_clients(p, j) ? -1 : 0;
        else
            (cheapest ? m->tie : m->cost)[j] = p->lot[j].is_old ? 0 : 1;
    }
    return s;
}

/* One block for all the arrays: the 128-bit ones first, for their alignment. */
static size_t wholes(int lots, int rules)
{
    return (size_t)lots * (size_t)(1 + rules) + 3 * (size_t)lots;
}

static size_t block_size(int lots, int rules)
{
    return wholes(lots, rules) * sizeof(lml_i128) +
           (size_t)(lots + 1 + rules) * sizeof(lml_simplex_range) + (size_t)rules * sizeof(int);
}

lml_status lml_charge_model_make(const lml_charge_problem *problem, double step,
                                 const lml_alloc *alloc, lml_charge_model *out, lml_error *err)
{
    lml_status s = check(problem, err);
    if (s != LML_OK)
        return s;
    int lots = problem->lots, rules = problem->rules;
    lml_charge_model m = {.problem = problem, .lots = lots, .rules = rules, .alloc = *alloc};
    m.limits = 1 + rules + 2 * lots;
    m.available = lml_alloc_get(alloc, block_size(lots, rules));
    if (!m.available)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a charge of %d lots", lots);
    memset(m.available, 0, block_size(lots, rules));
    m.cost = m.available + lots;
    m.tie = m.cost + lots;
    m.matrix = m.tie + lots;
    m.column = (lml_simplex_range *)(m.available + wholes(lots, rules));
    m.row = m.column + lots;
    m.rule_places = (int *)(m.row + 1 + rules);
    s = read_masses(&m, step, err);
    if (s == LML_OK)
        s = read_rules(&m, err);
    if (s == LML_OK)
        s = read_costs(&m, err);
    if (s != LML_OK)
        lml_charge_model_free(&m);
    else
        *out = m;
    return s;
}

void lml_charge_model_free(lml_charge_model *model)
{
    if (model->available)
        lml_alloc_free(&model->alloc, model->available, block_size(model->lots, model->rules));
    model->available = NULL;
}

lml_charge_limit lml_charge_model_limit(const lml_charge_model *model, int number)
{
    if (number == 0)
        return (lml_charge_limit){LML_CHARGE_MASS, 0};
    number -= 1;
    if (number < model->rules)
        return (lml_charge_limit){LML_CHARGE_RULE, number};
    number -= model->rules;
    if (number < model->lots)
        return (lml_charge_limit){LML_CHARGE_AVAILABLE, number};
    return (lml_charge_limit){LML_CHARGE_MUST_USE, number - model->lots};
}

lml_status lml_charge_model_solve(lml_charge_model *model, const bool keep[],
                                  lml_simplex_answer *out, lml_error *err)
{
    const lml_charge_problem *p = model->problem;
    int rules = model->rules, lots = model->lots;
    bool mass = !keep || keep[0];
    model->row[0] = (lml_simplex_range){mass, mass && !p->more_allowed, model->mass, model->mass};
    for (int r = 0; r < rules; r++)
        model->row[1 + r] = (lml_simplex_range){!keep || keep[1 + r], false, 0, 0};
    for (int j = 0; j < lots; j++) {
        bool bounded = !p->lot[j].unlimited && (!keep || keep[1 + rules + j]);
        bool all = p->lot[j].must_use && (!keep || keep[1 + rules + lots + j]);
        lml_i128 available = model->available[j];
        model->column[j] = (lml_simplex_range){true, bounded, all ? available : 0, available};
    }
    lml_simplex_problem programme = {.columns = lots,
                                     .rows = 1 + rules,
                                     .column = model->column,
                                     .row = model->row,
                                     .matrix = model->matrix,
                                     .cost = keep ? NULL : model->cost,
                                     .tie = keep ? NULL : model->tie};
    return lml_charge_like_solve(model, &programme, out, err);
}

double lml_charge_model_ten(int power)
{
    double ten = 1;
    for (int i = 0; i < power; i++)
        ten *= 10;
    return ten;
}

double lml_charge_model_margin(const lml_charge_model *model, int rule, int lot)
{
    return lml_double_of_wide(model->matrix[(rule + 1) * model->lots + lot]) /
           lml_charge_model_ten(model->rule_places[rule]);
}

/* --- what amounts make ---------------------------------------------------------------------- */

/* sum value * top / (10^places), exactly, and its quotient by `by`. */
static lml_status weigh(const double value[], int lots, const lml_big top[], const lml_big *by,
                        double *out, lml_error *err)
{
    lml_scaled decimal[LML_CHARGE_LOTS];
    lml_i128 count[LML_CHARGE_LOTS];
    int places = 0;
    lml_status s = LML_OK;
    bool nothing = true; /* as of most metals */
    for (int j = 0; j < lots && s == LML_OK; j++) {
        decimal[j] = (lml_scaled){0, 0};
        if (top[j].sign != 0 && value[j] != 0) {
            s = lml_scaled_of(value[j], &decimal[j], err);
            nothing = false;
        }
    }
    if (nothing) {
        *out = 0;
        return LML_OK;
    }
    if (s == LML_OK)
        s = align(decimal, lots, count, &places, err);
    if (s != LML_OK)
        return s;
    lml_sticky work = {.err = err};
    lml_big sum = lml_big_of(0), scale = lml_sticky_ten_to(&work, places);
    for (int j = 0; j < lots; j++)
        lml_sticky_add_whole(&work, &sum, &top[j], count[j]);
    lml_big under = lml_sticky_mul(&work, &scale, by);
    if (work.status == LML_OK)
        *out = lml_big_ratio(&sum, &under);
    return work.status;
}

static double quadratic(const lml_charge_problem *p, const double mass[], int metal)
{
    double sum = 0;
    for (int j = 0; j < p->lots; j++) {
        double error = mass[j] * p->lot[j].deviation.part[metal];
        sum += error * error;
    }
    return sqrt(sum);
}

lml_status lml_charge_model_mix(const lml_charge_problem *p, const lml_big top[],
                                const lml_big *bottom, lml_charge_mix *out, lml_error *err)
{
    double value[LML_CHARGE_LOTS], mass[LML_CHARGE_LOTS];
    lml_charge_mix mix = {0};
    lml_big total = lml_big_of(0);
    lml_status s = LML_OK;
    for (int j = 0; j < p->lots && s == LML_OK; j++) {
        s = lml_big_add(&total, &top[j], &total, err);
        mass[j] = lml_big_ratio(&top[j], bottom);
    }
    if (s != LML_OK)
        return s;
    mix.mass = lml_big_ratio(&total, bottom);
    for (int j = 0; j < p->lots; j++)
        value[j] = p->lot[j].price;
    s = weigh(value, p->lots, top, bottom, &mix.cost, err);
    for (int j = 0; j < p->lots; j++)
        value[j] = p->lot[j].is_old ? 1 : 0;
    if (s == LML_OK)
        s = weigh(value, p->lots, top, &total, &mix.old_share, err);
    for (int j = 0; j < p->lots; j++)
        value[j] = p->lot[j].generation + 1;
    if (s == LML_OK)
        s = weigh(value, p->lots, top, &total, &mix.generation, err);
    for (int m = 0; m < LML_METALS && s == LML_OK; m++) {
        for (int j = 0; j < p->lots; j++)
            value[j] = p->lot[j].composition.part[m];
        s = weigh(value, p->lots, top, &total, &mix.composition.part[m], err);
        mix.deviation.part[m] = quadratic(p, mass, m) / mix.mass;
    }
    if (s == LML_OK)
        *out = mix;
    return s;
}
