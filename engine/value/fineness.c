#include "value/fineness.h"
#include "value/value.h"
#include "value/money.h"
#include "value/point.h"
#include "unit/unit_table.h"

#include <math.h>

/* Sums of parts such as 0.9999 + 0.0001 may pass 1 by rounding alone. */
static const double ROUNDING = 1e-12;

bool lml_fineness_family(const lml_value *v)
{
    return v->kind == LML_FINENESS || v->kind == LML_FINENESS_DIFFERENCE ||
           v->kind == LML_FINE_MASS;
}

static bool is_mass(const lml_value *v)
{
    return v->kind == LML_QUANTITY && lml_dimension_equal(v->dimension, (lml_dimension){.mass = 1});
}

static bool is_price_per_mass(const lml_value *v)
{
    lml_dimension price = {.mass = -1, .money = 1, .currency = v->dimension.currency};
    return v->kind == LML_QUANTITY && lml_dimension_equal(v->dimension, price);
}

static lml_value made(lml_kind kind, double amount, uint8_t metal, lml_unit unit)
{
    lml_value v = {.kind = (uint8_t)kind, .metal = metal, .decimals = LML_SHORTEST};
    v.unit = unit;
    v.amount = amount;
    return v;
}

static lml_status give(const lml_value *a, const lml_value *b, lml_kind kind, double amount,
                       lml_unit unit, lml_value *out, lml_error *err)
{
    if (!isfinite(amount))
        return lml_refusal_overflow(a, b, err);
    *out = made(kind, amount, lml_fineness_family(a) ? a->metal : b->metal, unit);
    return LML_OK;
}

/* A fineness or a difference of two, which lie between -1 and 1. */
static double cleaned(double amount, lml_unit unit)
{
    return lml_point_clean(amount, lml_unit_at(unit.id[0])->factor);
}

static lml_status give_fineness(double amount, uint8_t metal, lml_unit unit, lml_value *out,
                                lml_error *err)
{
    if (!(amount >= -ROUNDING && amount <= 1.0 + ROUNDING)) {
        lml_fail(err, LML_BAD_VALUE,
                 "a fineness of %.4g ‰ %s is impossible: it must be between 0 and 1000 ‰",
                 amount * 1000.0, lml_metal_symbol((lml_metal)metal));
        lml_error_hint(err, "check the masses and finenesses it comes from");
        return LML_BAD_VALUE;
    }
    *out = made(LML_FINENESS, cleaned(fmin(fmax(amount, 0.0), 1.0), unit), metal, unit);
    return LML_OK;
}

static lml_status give_difference(double amount, uint8_t metal, lml_value *out)
{
    lml_unit unit = lml_unit_one(LML_U_DELTA_PER_MILLE, 1);
    *out = made(LML_FINENESS_DIFFERENCE, cleaned(amount, unit), metal, unit);
    return LML_OK;
}

lml_status lml_fineness_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                            lml_value *out, lml_error *err)
{
    if (!lml_fineness_family(a) || !lml_fineness_family(b) || a->metal != b->metal)
        return lml_refusal_mismatch(operation, a, b, err);
    double amount = operation == LML_ADD ? a->amount + b->amount : a->amount - b->amount;
    if (a->kind == b->kind && a->kind != LML_FINENESS)
        return give(a, b, a->kind, amount, a->unit, out, err);
    if (a->kind == LML_FINENESS && b->kind == LML_FINENESS && operation == LML_SUB)
        return give_difference(amount, a->metal, out);
    if (a->kind == LML_FINENESS && b->kind == LML_FINENESS_DIFFERENCE)
        return give_fineness(amount, a->metal, a->unit, out, err);
    if (a->kind == LML_FINENESS_DIFFERENCE && b->kind == LML_FINENESS && operation == LML_ADD)
        return give_fineness(amount, b->metal, b->unit, out, err);
    return lml_refusal_mismatch(operation, a, b, err);
}

/* `a` is of the family. */
static lml_status product(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err)
{
    double amount = a->amount * b->amount;
    if (a->kind != LML_FINE_MASS && is_mass(b))
        return give(a, b, LML_FINE_MASS, amount, b->unit, out, err);
    if (a->kind != LML_FINENESS && lml_value_is_scalar(b))
        return give(a, b, a->kind, amount, a->unit, out, err);
    if (a->kind == LML_FINE_MASS && is_price_per_mass(b))
        return lml_money_of(amount, b->dimension.currency, out, err);
    return LML_MISMATCH;
}

lml_status lml_fineness_product(const lml_value *a, const lml_value *b, lml_value *out,
                                lml_error *err)
{
    lml_status status = lml_fineness_family(a) ? product(a, b, out, err) : product(b, a, out, err);
    return status == LML_MISMATCH ? lml_refusal_mismatch(LML_MUL, a, b, err) : status;
}

lml_status lml_fineness_quotient(const lml_value *a, const lml_value *b, lml_value *out,
                                 lml_error *err)
{
    bool both = lml_fineness_family(a) && lml_fineness_family(b);
    if (!lml_fineness_family(a) || (both && a->metal != b->metal))
        return lml_refusal_mismatch(LML_DIV, a, b, err);
    if (a->kind == LML_FINE_MASS && is_mass(b))
        return lml_fineness_of(a, b, out, err);
    bool turns_to_mass = a->kind == LML_FINE_MASS && both && b->kind != LML_FINE_MASS;
    bool turns_to_ratio = both && a->kind == b->kind;
    bool scaled = a->kind != LML_FINENESS && lml_value_is_scalar(b);
    if (!turns_to_mass && !turns_to_ratio && !scaled)
        return lml_refusal_mismatch(LML_DIV, a, b, err);
    if (b->amount == 0.0)
        return lml_refusal_zero(a, err);
    double amount = a->amount / b->amount;
    if (scaled)
        return give(a, b, a->kind, amount, a->unit, out, err);
    if (!isfinite(amount))
        return lml_refusal_overflow(a, b, err);
    *out = turns_to_ratio ? lml_value_ratio(amount)
                          : lml_value_quantity(amount, (lml_dimension){.mass = 1}, a->unit);
    return LML_OK;
}

lml_status lml_fineness_mass(const lml_value *fine, const lml_value *fineness, lml_value *out,
                             lml_error *err)
{
    if (fine->kind != LML_FINE_MASS || fineness->kind != LML_FINENESS)
        return lml_refusal_mismatch(LML_DIV, fine, fineness, err);
    return lml_fineness_quotient(fine, fineness, out, err);
}

lml_status lml_fineness_of(const lml_value *fine, const lml_value *mass, lml_value *out,
                           lml_error *err)
{
    if (fine->kind != LML_FINE_MASS || !is_mass(mass))
        return lml_refusal_mismatch(LML_DIV, fine, mass, err);
    if (mass->amount == 0.0)
        return lml_refusal_zero(fine, err);
    return give_fineness(fine->amount / mass->amount, fine->metal, lml_unit_one(LML_U_PER_MILLE, 1),
                         out, err);
}
