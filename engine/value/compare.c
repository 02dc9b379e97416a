#include "value/compare.h"
#include "value/refusal.h"

#include <string.h>

static bool same_dimension(const lml_value *a, const lml_value *b)
{
    return memcmp(&a->dimension, &b->dimension, sizeof a->dimension) == 0;
}

bool lml_compare_alike(const lml_value *a, const lml_value *b)
{
    if (a->kind != b->kind)
        return lml_value_is_scalar(a) && lml_value_is_scalar(b);
    switch ((lml_kind)a->kind) {
    case LML_QUANTITY:
        return same_dimension(a, b) && a->mode == b->mode;
    case LML_MONEY:
        return a->dimension.currency == b->dimension.currency;
    case LML_FINENESS:
    case LML_FINENESS_DIFFERENCE:
    case LML_FINE_MASS:
        return a->metal == b->metal;
    case LML_NUMBER:
    case LML_TEMPERATURE:
    case LML_MOMENT:
    case LML_TIME_OF_DAY:
    case LML_WEEKDAY:
        return true;
    }
    return false;
}

static bool is_exact(const lml_value *v)
{
    return v->kind >= LML_MONEY;
}

static int order_of(const lml_value *a, const lml_value *b)
{
    if (is_exact(a))
        return (a->exact > b->exact) - (a->exact < b->exact);
    return (a->amount > b->amount) - (a->amount < b->amount);
}

lml_status lml_compare(const lml_value *a, const lml_value *b, int *order, lml_error *err)
{
    bool quick = a->kind == LML_QUANTITY && b->kind == LML_QUANTITY && a->mode == b->mode &&
                 same_dimension(a, b);
    if (!quick && (a->kind == LML_WEEKDAY || !lml_compare_alike(a, b)))
        return lml_refusal_mismatch(LML_COMPARE, a, b, err);
    *order = order_of(a, b);
    return LML_OK;
}

lml_status lml_compare_equal(const lml_value *a, const lml_value *b, bool *equal, lml_error *err)
{
    if (!lml_compare_alike(a, b))
        return lml_refusal_mismatch(LML_COMPARE, a, b, err);
    *equal = order_of(a, b) == 0;
    return LML_OK;
}

bool lml_compare_is_zero(const lml_value *a)
{
    switch ((lml_kind)a->kind) {
    case LML_NUMBER:
    case LML_QUANTITY:
    case LML_FINENESS:
    case LML_FINENESS_DIFFERENCE:
    case LML_FINE_MASS:
        return a->amount == 0.0;
    case LML_MONEY:
        return a->exact == 0;
    case LML_TEMPERATURE:
    case LML_MOMENT:
    case LML_TIME_OF_DAY:
    case LML_WEEKDAY:
        return false;
    }
    return false;
}
