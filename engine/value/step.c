#include "value/step.h"
#include "value/money.h"
#include "value/point.h"
#include "unit/unit_table.h"
#include "value/compare.h"

#include <math.h>

/* How near, relative to the value or to the step if that is larger, counts as on the step. */
static const double NEAR = 1e-9;
/* Beyond this many steps a double cannot distinguish one from the next. */
static const double MOST_STEPS = 9007199254740992.0;
static const int64_t DAY = 86400;

enum { MOST_DECIMALS = 15 };

/* The whole number of steps that `steps` is, with what is near a whole counted as whole. */
static double whole_steps(double steps, lml_direction direction)
{
    double nearest = round(steps), slack = NEAR * fmax(1.0, fabs(steps));
    if (fabs(steps - nearest) <= slack)
        return nearest;
    switch (direction) {
    case LML_TO_UP:
        return ceil(steps);
    case LML_TO_DOWN:
        return floor(steps);
    case LML_TO_NEAREST:
        break;
    }
    /* A hair under the half is the half, which goes away from zero. */
    return copysign(floor(fabs(steps) + 0.5 + slack), steps);
}

/* A step as its decimal in its unit: k steps are then k times that decimal exactly, and the double
 * nearest to it is the one that the reader makes of the printed text. */
typedef struct step_size {
    lml_decimal one;
    lml_rational factor;
    lml_unit unit;
} step_size;

static lml_status measure(const lml_value *step, step_size *out, lml_error *err)
{
    out->unit = step->unit;
    if (lml_unit_none(out->unit) && !lml_dimension_none(step->dimension))
        out->unit = lml_unit_usual(step->dimension);
    lml_status status = lml_unit_factor(out->unit, &out->factor, err);
    if (status != LML_OK)
        return status;
    out->one = (lml_decimal){0};
    lml_decimal_shortest(step->amount, out->factor, &out->one); /* the amount is above zero */
    return LML_OK;
}

static lml_decimal times(const lml_decimal *one, double count)
{
    lml_decimal d = *one;
    d.digits *= (uint64_t)fabs(count);
    d.negative = count < 0.0;
    return d;
}

static uint8_t decimals_of(const lml_decimal *d)
{
    int decimals = d->exponent < 0 ? -d->exponent : 0;
    return (uint8_t)(decimals > MOST_DECIMALS ? LML_SHORTEST : decimals);
}

static lml_status count(const lml_value *a, double amount, const lml_value *step,
                        lml_direction direction, double *out, lml_error *err)
{
    double steps = amount / step->amount;
    if (!(fabs(steps) < MOST_STEPS))
        return lml_refusal_alone(LML_OVERFLOW, a, "has too many steps to count",
                                 "take a larger step", err);
    *out = whole_steps(steps, direction) + 0.0; /* no negative zero */
    return LML_OK;
}

/* The point unit that goes with the unit of a difference. */
static lml_unit point_unit(lml_unit written, lml_unit difference)
{
    bool fahrenheit = difference.id[0] == LML_U_DELTA_F;
    if (fahrenheit == (written.id[0] == LML_U_DEGF))
        return written;
    return lml_unit_one(fahrenheit ? LML_U_DEGF : LML_U_DEGC, 1);
}

static lml_status temperature_to_step(const lml_value *a, const lml_value *step,
                                      lml_direction direction, lml_value *out, lml_error *err)
{
    step_size size;
    double steps = 0.0;
    lml_unit unit = point_unit(a->unit, step->unit);
    lml_rational zero = lml_unit_at(unit.id[0])->offset;
    lml_status status = measure(step, &size, err);
    if (status == LML_OK)
        status = count(a, a->amount - (double)zero.top / (double)zero.bottom, step, direction,
                       &steps, err);
    if (status != LML_OK)
        return status;
    lml_decimal amount = times(&size.one, steps);
    status = lml_point_temperature_of(&amount, unit, out, err);
    if (status == LML_OK) {
        out->decimals = decimals_of(&size.one);
        out->toward = (uint8_t)direction;
    }
    return status;
}

/* Steps of a clock count from midnight, so a step must divide the day. */
static lml_status clock_to_step(const lml_value *a, const lml_value *step, lml_direction direction,
                                lml_value *out, lml_error *err)
{
    int64_t seconds = step->amount <= (double)DAY ? llround(step->amount) : 0;
    if (seconds < 1 || fabs(step->amount - (double)seconds) > NEAR * step->amount ||
        DAY % seconds != 0)
        return lml_refusal_alone(LML_BAD_VALUE, step, "does not divide the day evenly",
                                 "take a step such as 5 min, 15 min or 1 h", err);
    const lml_rounding modes[] = {
        [LML_TO_NEAREST] = LML_HALF_UP, [LML_TO_UP] = LML_CEILING, [LML_TO_DOWN] = LML_FLOOR};
    int64_t steps = 0;
    lml_status status = lml_exact_divide_i128(a->exact, seconds, modes[direction], &steps, err);
    if (status != LML_OK)
        return status;
    if (a->kind == LML_MOMENT)
        status = lml_point_moment((lml_i128)steps * seconds, out, err);
    else
        *out = (lml_value){
            .kind = LML_TIME_OF_DAY, .decimals = LML_SHORTEST, .exact = steps * seconds % DAY};
    if (status == LML_OK && steps * seconds == a->exact && a->kind == LML_MOMENT)
        out->mode = a->mode;
    return status;
}

static bool is_of(const lml_value *v, lml_dimension d)
{
    return v->kind == LML_QUANTITY && v->mode == LML_NO_MODE &&
           lml_dimension_equal(v->dimension, d);
}

/* Whether values of the kind of `a` are rounded to steps such as `step`. */
static bool fits(const lml_value *a, const lml_value *step)
{
    switch ((lml_kind)a->kind) {
    case LML_NUMBER:
        return lml_value_is_scalar(step);
    case LML_QUANTITY:
        return lml_compare_alike(a, step) || is_of(step, a->dimension);
    case LML_TEMPERATURE:
        return is_of(step, (lml_dimension){.temperature = 1});
    case LML_FINENESS:
    case LML_FINENESS_DIFFERENCE:
        return is_of(step, (lml_dimension){0}) ||
               ((step->kind == LML_FINENESS || step->kind == LML_FINENESS_DIFFERENCE) &&
                step->metal == a->metal);
    case LML_FINE_MASS:
        return is_of(step, (lml_dimension){.mass = 1}) || lml_compare_alike(a, step);
    case LML_MONEY:
        return lml_compare_alike(a, step);
    case LML_MOMENT:
    case LML_TIME_OF_DAY:
        return is_of(step, (lml_dimension){.time = 1});
    case LML_WEEKDAY:
        return false;
    }
    return false;
}

static lml_status check_fineness(const lml_value *v, const lml_value *step, lml_error *err)
{
    if (v->kind != LML_FINENESS || (v->amount >= 0.0 && v->amount <= 1.0))
        return LML_OK;
    return lml_refusal_alone(LML_BAD_VALUE, step, "leads to an impossible fineness",
                             "a fineness is between 0 and 1000 ‰: take a step that divides it",
                             err);
}

static lml_status amount_to_step(const lml_value *a, const lml_value *step, lml_direction direction,
                                 lml_value *out, lml_error *err)
{
    step_size size;
    double steps = 0.0;
    lml_value in_unit = *step;
    /* A fineness difference and a bare ratio print in units that a fineness does not take. */
    if (a->kind == LML_FINENESS &&
        (lml_unit_none(step->unit) || step->unit.id[0] == LML_U_DELTA_PER_MILLE))
        in_unit.unit = lml_unit_one(LML_U_PER_MILLE, 1);
    if (a->kind == LML_FINENESS_DIFFERENCE)
        in_unit.unit = lml_unit_one(LML_U_DELTA_PER_MILLE, 1);
    lml_status status = measure(&in_unit, &size, err);
    if (status == LML_OK)
        status = count(a, a->amount, step, direction, &steps, err);
    if (status != LML_OK)
        return status;
    lml_decimal amount = times(&size.one, steps);
    lml_value result = {.kind = a->kind,
                        .mode = a->mode,
                        .metal = a->metal,
                        .decimals = decimals_of(&size.one),
                        .dimension = a->dimension,
                        .unit = size.unit,
                        .toward = (uint8_t)direction,
                        .amount = lml_decimal_scale(&amount, size.factor)};
    status = check_fineness(&result, step, err);
    if (status == LML_OK)
        *out = result;
    return status;
}

lml_status lml_step_round(const lml_value *a, const lml_value *step, lml_direction direction,
                          lml_value *out, lml_error *err)
{
    if (!fits(a, step))
        return lml_refusal_mismatch(LML_STEP, a, step, err);
    if (step->kind == LML_MONEY ? step->exact <= 0 : !(step->amount > 0.0))
        return lml_refusal_alone(LML_BAD_VALUE, step, "is not a valid rounding step",
                                 "a step must be above zero", err);
    if (a->kind == LML_MONEY) {
        const lml_rounding modes[] = {
            [LML_TO_NEAREST] = LML_HALF_UP, [LML_TO_UP] = LML_CEILING, [LML_TO_DOWN] = LML_FLOOR};
        return lml_money_round_to(a, step, modes[direction], out, err);
    }
    if (a->kind == LML_TEMPERATURE)
        return temperature_to_step(a, step, direction, out, err);
    if (a->kind == LML_MOMENT || a->kind == LML_TIME_OF_DAY)
        return clock_to_step(a, step, direction, out, err);
    return amount_to_step(a, step, direction, out, err);
}

lml_status lml_step_to_decimals(const lml_value *v, lml_direction direction, lml_value *out,
                                lml_error *err)
{
    lml_unit unit = v->unit;
    lml_dimension dimension = v->dimension;
    if (v->kind == LML_TEMPERATURE) {
        unit = lml_unit_one(unit.id[0] == LML_U_DEGF ? LML_U_DELTA_F : LML_U_DELTA_C, 1);
        dimension = (lml_dimension){.temperature = 1};
    }
    if (v->kind == LML_FINE_MASS)
        dimension = (lml_dimension){.mass = 1};
    lml_rational factor;
    lml_status status = lml_unit_factor(unit, &factor, err);
    if (status != LML_OK)
        return status;
    lml_decimal one = {.digits = 1, .exponent = -v->decimals};
    lml_value step = lml_value_quantity(lml_decimal_scale(&one, factor), dimension, unit);
    return lml_step_round(v, &step, direction, out, err);
}

/* The kinds that can be counted off in others of their own. */
static bool countable(const lml_value *a, const lml_value *b)
{
    bool kind = a->kind == LML_NUMBER || a->kind == LML_QUANTITY || a->kind == LML_FINE_MASS ||
                a->kind == LML_FINENESS_DIFFERENCE || a->kind == LML_MONEY;
    return kind && lml_compare_alike(a, b);
}

static lml_status whole(lml_operator operation, const lml_value *a, const lml_value *b,
                        double *steps, lml_error *err)
{
    if (!countable(a, b))
        return lml_refusal_mismatch(operation, a, b, err);
    if (b->kind == LML_MONEY ? b->exact == 0 : b->amount == 0.0)
        return lml_refusal_zero(a, err);
    return a->kind == LML_MONEY ? LML_OK : count(a, a->amount, b, LML_TO_DOWN, steps, err);
}

lml_status lml_step_divide(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err)
{
    double steps = 0.0;
    int64_t quotient;
    lml_status status = whole(LML_WHOLE, a, b, &steps, err);
    if (status == LML_OK && a->kind == LML_MONEY) {
        status = lml_exact_divide_i128(a->exact, b->exact, LML_FLOOR, &quotient, err);
        steps = (double)quotient;
    }
    if (status == LML_OK)
        *out = lml_value_number(steps);
    return status;
}

lml_status lml_step_remainder(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err)
{
    double steps = 0.0;
    int64_t quotient;
    lml_status status = whole(LML_REMAINDER, a, b, &steps, err);
    if (status == LML_OK && a->kind == LML_MONEY)
        status = lml_exact_divide_i128(a->exact, b->exact, LML_FLOOR, &quotient, err);
    if (status != LML_OK)
        return status;
    if (a->kind == LML_MONEY) {
        *out =
            lml_money((int64_t)(a->exact - (lml_i128)quotient * b->exact), a->dimension.currency);
        return LML_OK;
    }
    lml_value zero = {.kind = a->kind,
                      .mode = a->mode,
                      .metal = a->metal,
                      .decimals = LML_SHORTEST,
                      .dimension = a->dimension,
                      .unit = a->unit};
    bool on_step = fabs(a->amount / b->amount - steps) <= NEAR * fmax(1.0, fabs(steps));
    zero.amount = on_step ? 0.0 : fma(-steps, b->amount, a->amount);
    *out = zero;
    return LML_OK;
}
