#include "craft/charge.h"

#include "base/decimal.h"
#include "craft/charge_model.h"
#include "craft/check.h"
#include "craft/scaled.h"
#include "craft/sticky.h"
#include "base/double.h"

#include <math.h>

/* A free lot is tried from one step below the step under its exact amount to REACH steps above it;
 * where none of these will do, to FAR above it: fine gold has to make up for more steps of a lot
 * that is nearly as fine as the charge. VISITS bounds the search where many lots are free; so many
 * take some tens of milliseconds. */
enum { REACH = 2, FAR = 6, CHOICES = FAR + 2, FREE = LML_CHARGE_RULES + 1, VISITS = 200000 };

/* A free lot and the amounts it may have, least first. */
struct choice {
    int lot, count;
    lml_i128 amount[CHOICES];
};

/* Row 0 is the mass wanted: sum x - mass; the others are the rules; none may be negative. The
 * running sums are doubles and only prune, with `slack` for their errors; what is taken was checked
 * exactly. */
struct search {
    const lml_charge_model *model;
    int rows, free, skip; /* the row that is not looked at; -1: none */
    struct choice choice[FREE];
    /* the most that the choices from here on can add to each row, and the least mass */
    double most[FREE + 1][1 + LML_CHARGE_RULES], least[FREE + 1];
    double slack[1 + LML_CHARGE_RULES];
    lml_i128 yield[1 + LML_CHARGE_RULES]; /* how far below zero each row may be */
    lml_i128 amount[LML_CHARGE_LOTS], best[LML_CHARGE_LOTS], exact[LML_CHARGE_LOTS];
    lml_i128 best_mass;
    double best_cost, best_off; /* and how far it is from the exact amounts */
    bool found;
    int visits;
};

static lml_i128 entry(const lml_charge_model *model, int row, int lot)
{
    return model->matrix[row * model->lots + lot];
}

/* --- the choices ---------------------------------------------------------------------------- */

/* A count that is not negative. */
static lml_status to_whole(const lml_big *big, lml_i128 *out, lml_error *err)
{
    if (lml_big_bits(big) > 120)
        return lml_fail(err, LML_OVERFLOW, "an amount is too large for the scale division");
    *out = 0;
    for (int i = big->length - 1; i >= 0; i--)
        *out = *out * ((lml_i128)1 << 64) + (lml_i128)big->limb[i];
    return LML_OK;
}

/* Whole counts of the model at or below the exact amount, and whether it is used up. */
static lml_status count_of(const lml_charge_model *model, const lml_charge_answer *answer, int lot,
                           lml_i128 *out, bool *exact, lml_error *err)
{
    lml_sticky work = {.err = err};
    lml_big scale = lml_sticky_ten_to(&work, model->mass_places), count, rest;
    lml_big top = lml_sticky_mul(&work, &answer->amount[lot].top, &scale);
    lml_status s = work.status;
    if (s == LML_OK)
        s = lml_big_divide(&top, &answer->bottom, &count, &rest, err);
    if (s == LML_OK)
        s = to_whole(&count, out, err);
    if (s == LML_OK)
        *exact = rest.sign == 0;
    return s;
}

static lml_status read_choices(struct search *search, const lml_charge_answer *answer, int reach,
                               lml_error *err)
{
    const lml_charge_model *model = search->model;
    search->free = 0;
    for (int f = 0; f < FREE; f++)
        search->choice[f].count = 0;
    for (int row = 0; row < search->rows; row++)
        search->yield[row] = 0;
    for (int j = 0; j < model->lots; j++) {
        const lml_charge_lot *lot = &model->problem->lot[j];
        lml_i128 count = 0;
        bool exact = false;
        lml_status s = count_of(model, answer, j, &count, &exact, err);
        if (s != LML_OK)
            return s;
        bool used_up = !lot->unlimited && exact && count == model->available[j];
        search->amount[j] = search->exact[j] = count;
        if (used_up || (exact && count == 0))
            continue;
        if (search->free == FREE)
            return lml_fail(err, LML_BAD_VALUE, "the amounts are not those of a solved charge");
        struct choice *choice = &search->choice[search->free++];
        choice->lot = j;
        lml_i128 below = lml_wide_quotient(count, model->step);
        for (lml_i128 n = below > 0 ? below - 1 : 0; n <= below + reach; n++) {
            lml_i128 amount;
            bool beyond = __builtin_mul_overflow(n, model->step, &amount);
            bool whole = !lot->unlimited && (beyond || amount >= model->available[j]);
            if (beyond && !whole)
                return lml_fail(err, LML_OVERFLOW,
                                "a lot of this size cannot be counted in scale divisions");
            choice->amount[choice->count++] = whole ? model->available[j] : amount;
            if (whole)
                break;
        }
    }
    return LML_OK;
}

/* --- the search ----------------------------------------------------------------------------- */

static bool meets(lml_sticky *work, const struct search *search, int row)
{
    const lml_charge_model *model = search->model;
    const lml_i128 *amount = search->amount;
    lml_big sum = lml_scaled_big(row == 0 ? -model->mass : search->yield[row]);
    for (int j = 0; j < model->lots; j++) {
        lml_big x = lml_scaled_big(amount[j]);
        lml_sticky_add_whole(work, &sum, &x, entry(model, row, j));
    }
    return sum.sign >= 0;
}

static void find_reach(struct search *search)
{
    for (int row = 0; row < search->rows; row++) {
        double scale = row == 0 ? lml_double_of_wide(search->model->mass) : 0;
        for (int j = 0; j < search->model->lots; j++)
            scale += fabs(lml_double_of_wide(entry(search->model, row, j)) *
                          lml_double_of_wide(search->amount[j]));
        search->most[search->free][row] = 0;
        for (int f = search->free - 1; f >= 0; f--) {
            const struct choice *choice = &search->choice[f];
            double rate = lml_double_of_wide(entry(search->model, row, choice->lot));
            double low = rate * lml_double_of_wide(choice->amount[0]);
            double high = rate * lml_double_of_wide(choice->amount[choice->count - 1]);
            search->most[f][row] = search->most[f + 1][row] + fmax(low, high);
            scale += fmax(fabs(low), fabs(high));
        }
        search->slack[row] = 1e-12 * scale;
    }
    search->least[search->free] = 0;
    for (int f = search->free - 1; f >= 0; f--)
        search->least[f] = search->least[f + 1] + lml_double_of_wide(search->choice[f].amount[0]);
}

static lml_status consider(struct search *search, lml_error *err)
{
    const lml_charge_model *model = search->model;
    lml_i128 mass = 0;
    double cost = 0, off = 0;
    for (int j = 0; j < model->lots; j++) {
        mass += search->amount[j];
        cost += lml_double_of_wide(search->amount[j]) * model->problem->lot[j].price;
        if (model->problem->like)
            off += fabs(lml_double_of_wide(search->amount[j] - search->exact[j]));
    }
    if (search->found &&
        (mass > search->best_mass ||
         (mass == search->best_mass &&
          (cost > search->best_cost || (cost == search->best_cost && off >= search->best_off)))))
        return LML_OK;
    lml_sticky work = {.err = err};
    for (int row = 0; row < search->rows; row++)
        if (row != search->skip && !meets(&work, search, row))
            return work.status;
    if (work.status != LML_OK)
        return work.status;
    search->found = true;
    search->best_mass = mass;
    search->best_cost = cost;
    search->best_off = off;
    for (int j = 0; j < model->lots; j++)
        search->best[j] = search->amount[j];
    return LML_OK;
}

/* Depth first over the free lots from `f` on; `sum` is what the lots before it give each row. */
static lml_status descend(struct search *search, int f, const double sum[], lml_error *err)
{
    if (search->visits++ > VISITS)
        return LML_OK;
    for (int row = 0; row < search->rows; row++)
        if (row != search->skip && sum[row] + search->most[f][row] <
                                       -search->slack[row] - lml_double_of_wide(search->yield[row]))
            return LML_OK;
    double over = lml_double_of_wide(search->best_mass - search->model->mass);
    if (search->found && sum[0] + search->least[f] > over + search->slack[0])
        return LML_OK;
    if (f == search->free)
        return consider(search, err);
    const struct choice *choice = &search->choice[f];
    lml_status s = LML_OK;
    for (int c = 0; c < choice->count && s == LML_OK; c++) {
        double next[1 + LML_CHARGE_RULES];
        for (int row = 0; row < search->rows; row++)
            next[row] = sum[row] + lml_double_of_wide(entry(search->model, row, choice->lot)) *
                                       lml_double_of_wide(choice->amount[c]);
        search->amount[choice->lot] = choice->amount[c];
        s = descend(search, f + 1, next, err);
    }
    return s;
}

static lml_status run(struct search *search, int skip, lml_error *err)
{
    const lml_charge_model *model = search->model;
    double sum[1 + LML_CHARGE_RULES];
    search->skip = skip;
    search->found = false;
    search->best_mass = 0;
    search->visits = 0;
    for (int f = 0; f < search->free; f++)
        search->amount[search->choice[f].lot] = 0;
    for (int row = 0; row < search->rows; row++) {
        sum[row] = row == 0 ? -lml_double_of_wide(model->mass) : 0;
        for (int j = 0; j < model->lots; j++)
            sum[row] +=
                lml_double_of_wide(entry(model, row, j)) * lml_double_of_wide(search->amount[j]);
    }
    find_reach(search);
    return descend(search, 0, sum, err);
}

/* Whether a rule is the most of a metal whose least is the same: no step hits both. */
static bool is_roof(const lml_charge_problem *p, int rule)
{
    const lml_charge_rule *roof = &p->rule[rule];
    for (int r = 0; r < p->rules; r++)
        if (!roof->at_least && roof->metal != LML_NO_METAL && p->rule[r].at_least &&
            p->rule[r].metal == roof->metal && p->rule[r].limit == roof->limit)
            return true;
    return false;
}

/* The roofs yield by what one step of a free lot changes. Whether there are any, and it is counted
 * without overflow. */
static bool let_roofs_yield(struct search *search)
{
    const lml_charge_model *model = search->model;
    bool any = false;
    for (int r = 0; r < model->rules; r++) {
        lml_i128 most = 0;
        for (int f = 0; f < search->free; f++) {
            lml_i128 rate = entry(model, 1 + r, search->choice[f].lot);
            most = rate > most ? rate : -rate > most ? -rate : most;
        }
        lml_i128 yield;
        if (is_roof(model->problem, r) && !__builtin_mul_overflow(most, model->step, &yield)) {
            search->yield[1 + r] = yield;
            any = any || yield > 0;
        }
    }
    return any;
}

/* --- the outcome ---------------------------------------------------------------------------- */

/* The limit without which some amounts would do, if there is one. */
static lml_status refuse(struct search *search, double step, lml_error *err)
{
    char size[LML_NUMBER_TEXT], words[LML_CHARGE_WORDS];
    lml_decimal_write_scaled(step, (lml_rational){1, 1000}, size);
    for (int row = 0; row < search->rows; row++) {
        lml_status s = run(search, row, err);
        if (s != LML_OK)
            return s;
        if (!search->found)
            continue;
        lml_charge_limit_words(search->model->problem, lml_charge_model_limit(search->model, row),
                               words);
        lml_fail(err, LML_STOPPED, "no amounts found in steps of %s g meet the rule of %s", size,
                 words);
        lml_error_hint(err, "weigh on a finer scale, or loosen that rule a little");
        return LML_STOPPED;
    }
    lml_fail(err, LML_STOPPED, "no amounts found in steps of %s g meet all rules at once", size);
    lml_error_hint(err, "weigh on a finer scale, or loosen a rule a little");
    return LML_STOPPED;
}

static lml_status look(struct search *search, const lml_charge_answer *answer, int reach,
                       lml_error *err)
{
    lml_status s = read_choices(search, answer, reach, err);
    if (s == LML_OK)
        s = run(search, -1, err);
    if (s == LML_OK && !search->found && let_roofs_yield(search))
        s = run(search, -1, err);
    return s;
}

static lml_status settle(struct search *search, const lml_charge_answer *answer, double step,
                         double mass[], lml_charge_mix *mix, lml_error *err)
{
    const lml_charge_model *model = search->model;
    lml_status s = look(search, answer, REACH, err);
    if (s == LML_OK && !search->found)
        s = look(search, answer, FAR, err);
    if (s != LML_OK)
        return s;
    if (!search->found)
        return refuse(search, step, err);
    lml_big top[LML_CHARGE_LOTS], bottom;
    for (int j = 0; j < model->lots; j++)
        top[j] = lml_scaled_big(search->best[j]);
    s = lml_big_ten_to(model->mass_places, &bottom, err);
    if (s == LML_OK)
        s = lml_charge_model_mix(model->problem, top, &bottom, mix, err);
    for (int j = 0; j < model->lots && s == LML_OK; j++)
        mass[j] = lml_big_ratio(&top[j], &bottom);
    return s;
}

lml_status lml_charge_round(const lml_charge_problem *problem, const lml_charge_answer *answer,
                            double step, const lml_alloc *alloc, double mass[], lml_charge_mix *mix,
                            lml_error *err)
{
    lml_status s = lml_check_positive(step, "the scale division (kg)", err);
    if (s != LML_OK)
        return s;
    if (!answer->possible || answer->lots != problem->lots)
        return lml_fail(err, LML_BAD_VALUE, "there are no amounts of this charge to round");
    lml_charge_model model;
    s = lml_charge_model_make(problem, step, alloc, &model, err);
    if (s != LML_OK)
        return s;
    struct search *search = lml_alloc_get(alloc, sizeof *search);
    if (!search)
        s = lml_fail(err, LML_NO_MEMORY, "out of memory while rounding a charge");
    else {
        search->model = &model;
        search->rows = 1 + model.rules;
        s = settle(search, answer, step, mass, mix, err);
        lml_alloc_free(alloc, search, sizeof *search);
    }
    lml_charge_model_free(&model);
    return s;
}
