#include "base/real.h"
#include "value/power.h"
#include "value/refusal.h"
#include "value/money.h"
#include "unit/unit_table.h"

#include <math.h>
#include <stdlib.h>

enum { POWER_MOST = 9 };

static bool is_numeric(const lml_value *v)
{
    return v->kind == LML_NUMBER || v->kind == LML_QUANTITY;
}

static lml_status too_large(const lml_value *a, lml_error *err)
{
    return lml_refusal_alone(LML_OVERFLOW, a, "gives a result that is too large to store",
                             "check the units and exponents", err);
}

/* A result of this dimension: a number of a number, a ratio, a quantity or money. */
static lml_status give(const lml_value *a, double amount, lml_dimension dimension, lml_unit unit,
                       lml_value *out, lml_error *err)
{
    if (!(fabs(amount) < 1e285)) /* as lml_arithmetic_mul */
        return too_large(a, err);
    if (lml_dimension_equal(dimension, (lml_dimension){.money = 1, .currency = dimension.currency}))
        return lml_money_of(amount, dimension.currency, out, err);
    *out = a->kind == LML_NUMBER ? lml_value_number(amount)
                                 : lml_value_quantity(amount, dimension, unit);
    return LML_OK;
}

/* The unit multiplied by itself: mm to mm2 as the table has it. */
static lml_unit raised(lml_unit unit, int power, lml_dimension one, lml_dimension result)
{
    const lml_unit none = {{0}, {0}};
    lml_unit product = none;
    lml_dimension dimension = {0};
    if (lml_dimension_none(result))
        return none;
    for (int i = 0; i < abs(power); i++) {
        lml_dimension_mul(dimension, one, &dimension, NULL);
        product = lml_unit_combine(product, unit, false, dimension);
    }
    return power < 0 ? lml_unit_combine(none, product, true, result) : product;
}

/* The unit whose power this is, when it has one: mm2 to mm. */
static lml_unit unraised(lml_unit unit, int degree, lml_dimension result)
{
    lml_unit root = {{0}, {0}};
    if (lml_dimension_none(result))
        return root;
    for (int i = 0; i < LML_UNIT_FACTORS && unit.id[i] != 0; i++) {
        int step = 1;
        unsigned id = lml_unit_table_root(unit.id[i], &step);
        if (unit.power[i] * step % degree != 0)
            return lml_unit_usual(result);
        root.id[i] = (uint8_t)id;
        root.power[i] = (int8_t)(unit.power[i] * step / degree);
    }
    return lml_unit_combine(root, (lml_unit){{0}, {0}}, false, result);
}

lml_status lml_power(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err)
{
    lml_dimension dimension;
    if (!is_numeric(a))
        return lml_refusal_alone(LML_MISMATCH, a, "cannot be raised to a power",
                                 "only numbers and quantities can", err);
    if (b->kind != LML_NUMBER)
        return lml_refusal_alone(LML_MISMATCH, b, "cannot be an exponent",
                                 "an exponent is a whole number from -9 to 9", err);
    if (!(fabs(b->amount) <= POWER_MOST) || b->amount != floor(b->amount))
        return lml_refusal_alone(LML_BAD_VALUE, b, "cannot be an exponent",
                                 "an exponent is a whole number from -9 to 9; for a root use "
                                 "root",
                                 err);
    int power = (int)b->amount;
    lml_status status = lml_dimension_power(a->dimension, power, &dimension, err);
    if (status != LML_OK)
        return status;
    if (power == 1) {
        *out = lml_value_bare(a);
        return LML_OK;
    }
    if (power < 0 && a->amount == 0.0)
        return lml_refusal_zero(a, err);
    double amount = 1.0;
    for (int i = 0; i < abs(power); i++)
        amount *= a->amount;
    return give(a, power < 0 ? 1.0 / amount : amount, dimension,
                raised(a->unit, power, a->dimension, dimension), out, err);
}

lml_status lml_power_root(const lml_value *a, int degree, lml_value *out, lml_error *err)
{
    lml_dimension dimension;
    if (!is_numeric(a))
        return lml_refusal_alone(LML_MISMATCH, a, "has no root", "only numbers and quantities have",
                                 err);
    if (degree < 1 || degree > POWER_MOST) {
        lml_fail(err, LML_BAD_VALUE, "there is no root of degree %d", degree);
        lml_error_hint(err, "the degree of a root is 1 to 9: 2 is the square root");
        return LML_BAD_VALUE;
    }
    if (a->amount < 0.0 && degree % 2 == 0)
        return lml_refusal_alone(LML_BAD_VALUE, a, "is negative, so it has no such root",
                                 "check where it comes from", err);
    lml_status status = lml_dimension_root(a->dimension, degree, &dimension, err);
    if (status != LML_OK)
        return status;
    if (degree == 1) {
        *out = lml_value_bare(a);
        return LML_OK;
    }
    double size = fabs(a->amount);
    double root = degree == 2 ? sqrt(size) : lml_real_root(size, degree);
    return give(a, copysign(root, a->amount), dimension, unraised(a->unit, degree, dimension), out,
                err);
}
