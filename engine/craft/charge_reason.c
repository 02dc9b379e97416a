#include "craft/charge_reason.h"

#include "base/decimal.h"
#include "unit/unit_table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LIMITS = 1 + LML_CHARGE_RULES + 2 * LML_CHARGE_LOTS };

/* --- a smallest clashing set ---------------------------------------------------------------- */

/* Of the limits kept, only those that the proof of infeasibility leans on. */
static void keep_proof(const lml_charge_model *model, const lml_simplex_answer *proof, bool keep[])
{
    int rules = model->rules, lots = model->lots;
    for (int i = 0; i < 1 + rules; i++)
        keep[i] = keep[i] && proof->row[i].marginal.sign != 0;
    for (int j = 0; j < lots; j++) {
        int sign = proof->column[j].marginal.sign;
        bool *available = &keep[1 + rules + j], *all = &keep[1 + rules + lots + j];
        *available = *available && sign < 0;
        *all = *all && sign > 0 && model->problem->lot[j].must_use;
    }
}

/* Drop one limit after the other for good, as long as the rest still clashes (a deletion filter:
 * Chinneck and Dravnieks 1991). The lots go first and the mass last, so that the remaining limits
 * name rules rather than lots. */
static lml_status filter(lml_charge_model *model, const lml_simplex_answer *proof, bool keep[],
                         lml_error *err)
{
    for (int i = 0; i < model->limits; i++)
        keep[i] = true;
    keep_proof(model, proof, keep);
    for (int i = model->limits - 1; i >= 0; i--) {
        if (!keep[i])
            continue;
        keep[i] = false;
        lml_simplex_answer rest;
        lml_status s = lml_charge_model_solve(model, keep, &rest, err);
        if (s != LML_OK)
            return s;
        if (rest.outcome == LML_SIMPLEX_INFEASIBLE)
            keep_proof(model, &rest, keep);
        else
            keep[i] = true;
        lml_simplex_free(&rest);
    }
    return LML_OK;
}

/* --- how near one rule could come ----------------------------------------------------------- */

/* What a lot counts in a rule: itself, or the part that the blend is a share of. */
static double counts(const lml_charge_rule *rule, const lml_charge_lot *lot)
{
    if (!rule->blend)
        return 1;
    double whole = 0;
    for (int m = 0; m < LML_METALS; m++)
        whole += rule->blend->whole[m] * lot->composition.part[m];
    return whole;
}

/* The best mean margin that the lots allow: what must go in, then the best lots first until the
 * mass is there, then what is still better than the mean, if more is allowed. */
static double best_margin(const lml_charge_model *model, int rule)
{
    const lml_charge_problem *p = model->problem;
    const lml_charge_rule *of = &p->rule[rule];
    int order[LML_CHARGE_LOTS], free_lots = 0;
    double margin[LML_CHARGE_LOTS], mass = 0, sum = 0, counted = 0;
    for (int j = 0; j < p->lots; j++) {
        margin[j] = lml_charge_model_margin(model, rule, j);
        if (p->lot[j].must_use) {
            mass += p->lot[j].available;
            sum += p->lot[j].available * margin[j];
            counted += p->lot[j].available * counts(of, &p->lot[j]);
            continue;
        }
        int at = free_lots++;
        for (; at > 0 && margin[order[at - 1]] < margin[j]; at--)
            order[at] = order[at - 1];
        order[at] = j;
    }
    for (int i = 0; i < free_lots; i++) {
        const lml_charge_lot *lot = &p->lot[order[i]];
        double m = margin[order[i]], there = lot->unlimited ? HUGE_VAL : lot->available;
        double take = fmin(there, fmax(0, p->mass - mass));
        mass += take;
        sum += take * m;
        counted += take * counts(of, lot);
        if (p->more_allowed && there > take && m * mass > sum) {
            if (lot->unlimited)
                return counts(of, lot) > 0 ? m / counts(of, lot) : 0;
            mass += there - take;
            sum += (there - take) * m;
            counted += (there - take) * counts(of, lot);
        }
    }
    return counted > 0 ? sum / counted : 0;
}

/* The mass nearest to the wanted one that the lots can make. */
static double nearest_mass(const lml_charge_problem *p)
{
    double must = 0, all = 0;
    for (int j = 0; j < p->lots; j++) {
        const lml_charge_lot *lot = &p->lot[j];
        must += lot->must_use ? lot->available : 0;
        all += lot->unlimited ? HUGE_VAL : lot->available;
    }
    return must > p->mass ? must : all;
}

static void find_cause(const lml_charge_model *model, lml_charge_reason *reason)
{
    int rules = 0;
    reason->cause = (lml_charge_limit){LML_CHARGE_MASS, 0};
    for (int i = 0; i < reason->clashing; i++)
        if (reason->clash[i].kind == LML_CHARGE_RULE) {
            reason->cause = reason->clash[i];
            rules++;
        }
    reason->single = rules <= 1;
    if (rules == 0) {
        reason->reachable = nearest_mass(model->problem);
    } else if (rules == 1) {
        const lml_charge_rule *rule = &model->problem->rule[reason->cause.index];
        double margin = best_margin(model, reason->cause.index);
        reason->reachable = rule->at_least ? rule->limit + margin : rule->limit - margin;
    }
}

lml_status lml_charge_reason_find(lml_charge_model *model, const lml_simplex_answer *proof,
                                  lml_charge_reason *reason, lml_error *err)
{
    bool keep[LIMITS];
    lml_status s = filter(model, proof, keep, err);
    if (s != LML_OK)
        return s;
    reason->clashing = 0;
    for (int i = 0; i < model->limits; i++)
        if (keep[i])
            reason->clash[reason->clashing++] = lml_charge_model_limit(model, i);
    find_cause(model, reason);
    return LML_OK;
}

/* --- words ---------------------------------------------------------------------------------- */

typedef char number[LML_NUMBER_TEXT];

static const lml_rational thousandth = {1, 1000}, hundredth = {1, 100};

static const char *to_decimals(double x, lml_rational unit, int decimals, number out)
{
    size_t length = lml_decimal_write_fixed(x, unit, decimals, LML_HALF_EVEN, out);
    while (length > 0 && out[length - 1] == '0')
        length--;
    if (length > 0 && out[length - 1] == '.')
        length--;
    out[length] = '\0';
    return out;
}

/* The unit that masses are said in, and its name. */
static lml_rational mass_unit(const lml_charge_problem *p, char name[LML_UNIT_TEXT])
{
    lml_unit unit = lml_unit_none(p->mass_unit) ? lml_unit_one(LML_U_G, 1) : p->mass_unit;
    lml_rational factor = thousandth;
    lml_unit_write(unit, 0, name);
    lml_unit_factor(unit, &factor, NULL);
    return factor;
}

/* Without the noise of a double's last digits, which a reader would take for knowledge. */
static const char *tidy(double x, lml_rational unit, number out)
{
    return to_decimals(x, unit, 4, out);
}

/* Of a lot, as the finest bench scale shows it. */
static const char *weighed(double mass, lml_rational unit, number out)
{
    return to_decimals(mass, unit, 3, out);
}

static lml_rational unit_of(const lml_charge_rule *rule)
{
    return rule->metal == LML_NO_METAL ? hundredth : thousandth;
}

static const char *fraction(const lml_charge_rule *rule, double x, number out)
{
    return tidy(x, unit_of(rule), out);
}

/* How near a rule could come, to one decimal where that still tells it from the limit. */
static const char *nearest(const lml_charge_rule *rule, double x, const char *due, number out)
{
    to_decimals(x, unit_of(rule), 1, out);
    return strcmp(out, due) == 0 ? fraction(rule, x, out) : out;
}

static const char *sign_of(const lml_charge_rule *rule)
{
    return rule->metal == LML_NO_METAL ? "%" : "‰";
}

static const char *subject_of(const lml_charge_rule *rule)
{
    if (rule->metal != LML_NO_METAL)
        return lml_metal_name(rule->metal);
    return rule->name ? rule->name : "a group of lots";
}

static const char *name_of(const lml_charge_lot *lot)
{
    return lot->name ? lot->name : "a lot without a name";
}

const char *lml_charge_limit_words(const lml_charge_problem *p, lml_charge_limit limit,
                                   char out[LML_CHARGE_WORDS])
{
    number figure, guard;
    char g[LML_UNIT_TEXT];
    lml_rational unit = mass_unit(p, g);
    bool of_rule = limit.kind == LML_CHARGE_RULE, of_mass = limit.kind == LML_CHARGE_MASS;
    const lml_charge_rule *rule = of_rule ? &p->rule[limit.index] : NULL;
    const lml_charge_lot *lot = of_rule || of_mass ? NULL : &p->lot[limit.index];
    switch (limit.kind) {
    case LML_CHARGE_MASS:
        snprintf(out, LML_CHARGE_WORDS, "%s %s %s in all", p->more_allowed ? "at least" : "exactly",
                 weighed(p->mass, unit, figure), g);
        break;
    case LML_CHARGE_RULE:
        snprintf(out, LML_CHARGE_WORDS, "%s %s %s %s", rule->at_least ? "at least" : "at most",
                 fraction(rule, rule->limit, figure), sign_of(rule), subject_of(rule));
        if (rule->guard > 0) {
            size_t length = strlen(out);
            snprintf(out + length, LML_CHARGE_WORDS - length, " with a margin of %s deviations",
                     tidy(rule->guard, (lml_rational){1, 1}, guard));
        }
        break;
    case LML_CHARGE_AVAILABLE:
        snprintf(out, LML_CHARGE_WORDS, "no more than %s %s of %s",
                 weighed(lot->available, unit, figure), g, name_of(lot));
        break;
    case LML_CHARGE_MUST_USE:
        snprintf(out, LML_CHARGE_WORDS, "all %s %s of %s", weighed(lot->available, unit, figure), g,
                 name_of(lot));
        break;
    }
    return out;
}

static lml_status refuse_mass(const lml_charge_problem *p, const lml_charge_reason *reason,
                              lml_error *err)
{
    number due, there;
    char g[LML_UNIT_TEXT];
    lml_rational unit = mass_unit(p, g);
    tidy(p->mass, unit, due);
    tidy(reason->reachable, unit, there);
    if (reason->reachable < p->mass) {
        lml_fail(err, LML_STOPPED, "all lots together weigh %s %s, but %s %s is needed", there, g,
                 due, g);
        lml_error_hint(err, "bring in another lot, or ask for less");
        return LML_STOPPED;
    }
    lml_fail(err, LML_STOPPED, "the lots that must go in weigh %s %s, but exactly %s %s is needed",
             there, g, due, g);
    lml_error_hint(err, "ask for at least that mass, or leave out part of a lot");
    return LML_STOPPED;
}

/* The lots that stand in the way, "with all 14 g of the button and no more than 5 g of grain"; when
 * there are none, or too many to read, every lot does. Gives the worst that they do: of a lot that
 * must go in no other can make up for it. */
static lml_charge_kind lots_in_the_way(const lml_charge_problem *p, const lml_charge_reason *reason,
                                       char *out, size_t size)
{
    enum { READABLE = 3 };
    char words[LML_CHARGE_WORDS];
    int lots = 0;
    lml_charge_kind worst = LML_CHARGE_RULE;
    size_t length = 0;
    snprintf(out, size, "even with every lot");
    for (int i = 0; i < reason->clashing; i++) {
        lml_charge_kind kind = reason->clash[i].kind;
        lots += kind >= LML_CHARGE_AVAILABLE;
        worst = kind > worst ? kind : worst;
    }
    for (int i = 0; i < reason->clashing && lots <= READABLE && length < size; i++) {
        if (reason->clash[i].kind < LML_CHARGE_AVAILABLE)
            continue;
        int more = snprintf(out + length, size - length, "%s%s", length > 0 ? " and " : "with ",
                            lml_charge_limit_words(p, reason->clash[i], words));
        length += more > 0 ? (size_t)more : 0;
    }
    return worst;
}

/* What would help. Metal that has to go in is thinned by a heavier charge; of good metal that runs
 * out a lighter one needs less. */
static const char *way_out(const lml_charge_rule *rule, lml_charge_kind worst)
{
    bool least = rule->at_least;
    if (worst == LML_CHARGE_MUST_USE)
        return "leave out part of a lot, or make the charge heavier";
    if (rule->metal == LML_NO_METAL)
        return least && !rule->blend ? "bring in more of it" : "bring in other metal";
    if (worst == LML_CHARGE_AVAILABLE)
        return least ? "bring in more that is rich in it, or make the charge lighter"
                     : "bring in more that is poor in it, or make the charge lighter";
    return least ? "bring in a lot that is richer in it" : "bring in a lot that is poorer in it";
}

static lml_status refuse_rule(const lml_charge_problem *p, const lml_charge_reason *reason,
                              lml_error *err)
{
    const lml_charge_rule *rule = &p->rule[reason->cause.index];
    bool least = rule->at_least;
    char lots[4 * LML_CHARGE_WORDS];
    lml_charge_kind worst = lots_in_the_way(p, reason, lots, sizeof lots);
    number due, there;
    fraction(rule, rule->limit, due);
    nearest(rule, reason->reachable, due, there);
    const char *sign = sign_of(rule), *subject = subject_of(rule);
    const char *guard = rule->guard > 0 ? " (each lot is counted with its guard)" : "";
    if (least && reason->reachable <= 0)
        lml_fail(err, LML_STOPPED, "no lot contains any %s, but at least %s %s is needed%s",
                 subject, due, sign, guard);
    else
        lml_fail(err, LML_STOPPED, "%s, %s cannot %s %s %s, but %s %s %s is %s%s", lots, subject,
                 least ? "exceed" : "fall below", there, sign, least ? "at least" : "at most", due,
                 sign, least ? "needed" : "allowed", guard);
    lml_error_hint(err, "%s, or %s", way_out(rule, worst), least ? "ask for less" : "allow more");
    return LML_STOPPED;
}

lml_status lml_charge_refusal(const lml_charge_problem *p, const lml_charge_reason *reason,
                              lml_error *err)
{
    if (reason->single)
        return reason->cause.kind == LML_CHARGE_MASS ? refuse_mass(p, reason, err)
                                                     : refuse_rule(p, reason, err);
    char list[sizeof err->message] = "", words[LML_CHARGE_WORDS];
    size_t length = 0;
    bool of_lots = false; /* else the rules clash at any mass */
    for (int i = 0; i < reason->clashing; i++)
        of_lots = of_lots || reason->clash[i].kind >= LML_CHARGE_AVAILABLE;
    for (int i = 0; i < reason->clashing && length < sizeof list - 1; i++) {
        if (reason->clash[i].kind == LML_CHARGE_MASS && !of_lots)
            continue;
        int more = snprintf(list + length, sizeof list - length, "%s%s", length > 0 ? "; " : "",
                            lml_charge_limit_words(p, reason->clash[i], words));
        length += more > 0 ? (size_t)more : 0;
    }
    lml_fail(err, LML_STOPPED, "these cannot all be met: %s", list);
    lml_error_hint(err, "loosen any one of them and the others can be met");
    return LML_STOPPED;
}
