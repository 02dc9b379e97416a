#include "value/mean.h"
#include "value/money.h"
#include "value/point.h"
#include "value/compare.h"

#include <math.h>

/* Sum of the amounts with the rounding of each addition carried along (Neumaier, 1974), so that the
 * order of a list does not show in its mean. */
static double sum_of(const lml_value *a, size_t count)
{
    double sum = 0.0, lost = 0.0;
    for (size_t i = 0; i < count; i++) {
        double x = a[i].amount, next = sum + x;
        lost += fabs(sum) >= fabs(x) ? (sum - next) + x : (x - next) + sum;
        sum = next;
    }
    return sum + lost;
}

static lml_status mean_of_exact(const lml_value *a, size_t count, lml_value *out, lml_error *err)
{
    lml_i128 sum = 0;
    int64_t mean;
    for (size_t i = 0; i < count; i++)
        sum += a[i].exact;
    lml_status status = lml_exact_divide_i128(sum, (lml_i128)count, LML_HALF_EVEN, &mean, err);
    if (status != LML_OK)
        return status;
    if (a[0].kind == LML_MOMENT)
        return lml_point_moment(mean, out, err);
    *out = lml_money(mean, a[0].dimension.currency);
    return LML_OK;
}

static lml_status mean_of_amounts(const lml_value *a, size_t count, lml_value *out, lml_error *err)
{
    double mean = sum_of(a, count) / (double)count;
    if (!isfinite(mean))
        return lml_refusal_overflow(&a[0], &a[count - 1], err);
    if (a[0].kind == LML_TEMPERATURE)
        return lml_point_temperature(mean, a[0].unit, out, err);
    *out = (lml_value){.kind = a[0].kind,
                       .mode = a[0].mode,
                       .metal = a[0].metal,
                       .decimals = LML_SHORTEST,
                       .dimension = a[0].dimension,
                       .unit = a[0].unit,
                       .amount = mean};
    return LML_OK;
}

lml_status lml_mean(const lml_value *a, size_t count, lml_value *out, lml_error *err)
{
    if (count == 0) {
        lml_fail(err, LML_BAD_VALUE, "cannot average an empty list");
        lml_error_hint(err, "give at least one value");
        return LML_BAD_VALUE;
    }
    if (a[0].kind == LML_TIME_OF_DAY || a[0].kind == LML_WEEKDAY)
        return lml_refusal_alone(LML_MISMATCH, &a[0], "is cyclic, so it has no mean",
                                 "moments can be averaged: give the dates too", err);
    for (size_t i = 1; i < count; i++)
        if (!lml_compare_alike(&a[0], &a[i]))
            return lml_refusal_mismatch(LML_MEAN, &a[0], &a[i], err);
    return a[0].kind == LML_MONEY || a[0].kind == LML_MOMENT ? mean_of_exact(a, count, out, err)
                                                             : mean_of_amounts(a, count, out, err);
}
