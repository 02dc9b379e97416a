#include "value/value.h"
#include "unit/currency.h"
#include <math.h>
#include <stdio.h>

const char *lml_kind_name(lml_kind kind)
{
    static const char *const names[] = {
#define X(id, words) [LML_##id] = words,
        LML_KIND_MAP(X)
#undef X
    };
    return names[kind];
}

const char *lml_origin_name(lml_origin origin)
{
    static const char *const names[] = {
#define X(id, words) [LML_##id] = words,
        LML_ORIGIN_MAP(X)
#undef X
    };
    return names[origin];
}

lml_value lml_value_number(double x)
{
    return (lml_value){.kind = LML_NUMBER, .decimals = LML_SHORTEST, .amount = x};
}

lml_value lml_value_quantity(double si, lml_dimension dimension, lml_unit unit)
{
    return (lml_value){.kind = LML_QUANTITY,
                       .decimals = LML_SHORTEST,
                       .dimension = dimension,
                       .unit = unit,
                       .amount = si};
}

lml_value lml_value_ratio(double x)
{
    return lml_value_quantity(x, (lml_dimension){0}, (lml_unit){0});
}

double lml_value_deviation(const lml_value *v)
{
    return v->spread == LML_DEVIATION ? v->low
           : v->spread == LML_BETWEEN ? (v->high - v->low) / sqrt(12.0)
                                      : 0.0;
}

const char *lml_value_what(const lml_value *v, char *out, size_t size)
{
    const char *metal = lml_metal_name((lml_metal)v->metal);
    switch ((lml_kind)v->kind) {
    case LML_NUMBER:
        snprintf(out, size, "a number");
        break;
    case LML_QUANTITY:
        if (v->mode == LML_VACUUM)
            snprintf(out, size, "a vacuum");
        else if (v->mode == LML_ABSOLUTE)
            snprintf(out, size, "an absolute pressure");
        else
            lml_dimension_name(v->dimension, out, size);
        break;
    case LML_TEMPERATURE:
        snprintf(out, size, "a temperature");
        break;
    case LML_FINENESS:
        snprintf(out, size, "a fineness of %s", metal);
        break;
    case LML_FINENESS_DIFFERENCE:
        snprintf(out, size, "a fineness difference of %s", metal);
        break;
    case LML_FINE_MASS:
        snprintf(out, size, "a fine mass of %s", metal);
        break;
    case LML_MONEY:
        snprintf(out, size, "an amount of %s", lml_currency_at(v->dimension.currency)->code);
        break;
    case LML_MOMENT:
        snprintf(out, size, v->mode == LML_DATE_ONLY ? "a date" : "a moment");
        break;
    case LML_TIME_OF_DAY:
        snprintf(out, size, "a time of day");
        break;
    case LML_WEEKDAY:
        snprintf(out, size, "a weekday");
        break;
    }
    return out;
}

bool lml_value_is_scalar(const lml_value *a)
{
    return a->kind == LML_NUMBER || (a->kind == LML_QUANTITY && lml_dimension_none(a->dimension));
}

lml_value lml_value_bare(const lml_value *v)
{
    lml_value out = *v;
    out.spread = LML_NO_SPREAD;
    out.origin = LML_UNSTATED;
    out.decimals = LML_SHORTEST;
    out.low = out.high = 0.0;
    return out;
}
