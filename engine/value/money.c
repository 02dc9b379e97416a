#include "value/money.h"
#include "base/decimal.h"
#include "value/value.h"
#include "unit/currency.h"
#include "value/compare.h"

#include <math.h>

lml_value lml_money(int64_t millionths, uint16_t currency)
{
    return (lml_value){.kind = LML_MONEY,
                       .decimals = LML_SHORTEST,
                       .dimension = {.money = 1, .currency = currency},
                       .unit = {{LML_UNIT_MONEY}, {1}},
                       .exact = millionths};
}

static lml_status give(lml_status status, int64_t millionths, uint16_t currency, lml_value *out)
{
    if (status == LML_OK)
        *out = lml_money(millionths, currency);
    return status;
}

/* Beyond this no power of ten is needed: 19 digits of money times 17 of a double are below 10^37.
 */
enum { TENS = 37 };

static lml_i128 ten_to(int power)
{
    lml_i128 n = 1;
    while (power-- > 0)
        n *= 10;
    return n;
}

/* A finite double as it prints: +-digits * 10^exponent with at most 17 digits. */
static lml_decimal shortest(double x)
{
    char text[LML_NUMBER_TEXT];
    lml_decimal d;
    size_t length = lml_decimal_write_double(x, text);
    lml_decimal_read((lml_span){text, length}, &d);
    return d;
}

static lml_i128 signed_digits(const lml_decimal *d)
{
    return d->negative ? -(lml_i128)d->digits : (lml_i128)d->digits;
}

static lml_status too_large(lml_error *err)
{
    lml_fail(err, LML_OVERFLOW, "an amount of money beyond nine million million cannot be stored");
    lml_error_hint(err, "check the units and exponents");
    return LML_OVERFLOW;
}

/* top * 10^exponent / bottom, rounded half even. |top| < 10^37, 0 < |bottom| < 10^18. */
static lml_status scaled(lml_i128 top, int exponent, lml_i128 bottom, int64_t *out, lml_error *err)
{
    if (top == 0 || exponent < -TENS) {
        *out = 0;
        return LML_OK;
    }
    lml_i128 power = ten_to(exponent < 0 ? -exponent : exponent > TENS ? TENS : exponent);
    bool lost = exponent < 0 ? __builtin_mul_overflow(bottom, power, &bottom)
                             : exponent > TENS || __builtin_mul_overflow(top, power, &top);
    if (lost && exponent >= 0)
        return too_large(err);
    if (lost)
        *out = 0; /* a divisor beyond 10^38 leaves less than half a millionth */
    else if (lml_exact_divide_i128(top, bottom, LML_HALF_EVEN, out, NULL) != LML_OK)
        return too_large(err);
    return LML_OK;
}

/* The whole number nearest to what `near` stands for, when it can be no other one: not close to
 * half way between two. Most amounts are settled so, without being written as decimals. */
static bool surely_nearest(double near, int64_t *out)
{
    /* A double beside its shortest decimal, a sum kept as a double, the operation itself: three
     * roundings of 2^-53 each at most. */
    const double most = 0x1p49, apart = 0x1p-50;
    if (!(fabs(near) < most))
        return false;
    int64_t whole = (int64_t)near;
    double rest = near - (double)whole;
    if (fabs(fabs(rest) - 0.5) <= fabs(near) * apart)
        return false;
    *out = whole + (rest > 0.5) - (rest < -0.5);
    return true;
}

lml_status lml_money_of(double units, uint16_t currency, lml_value *out, lml_error *err)
{
    int64_t millionths;
    if (surely_nearest(units * LML_MONEY_ONE, &millionths))
        return give(LML_OK, millionths, currency, out);
    if (!isfinite(units))
        return too_large(err);
    lml_decimal d = shortest(units);
    lml_status status =
        scaled(signed_digits(&d), d.exponent + LML_MONEY_PLACES, 1, &millionths, err);
    return give(status, millionths, currency, out);
}

static double units_of(const lml_value *money)
{
    return (double)money->exact / LML_MONEY_ONE;
}

lml_status lml_money_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                         lml_value *out, lml_error *err)
{
    int64_t millionths;
    if (!lml_compare_alike(a, b))
        return lml_refusal_mismatch(operation, a, b, err);
    lml_status status = operation == LML_ADD
                            ? lml_exact_add_i64(a->exact, b->exact, &millionths, NULL)
                            : lml_exact_sub_i64(a->exact, b->exact, &millionths, NULL);
    if (status != LML_OK)
        return lml_refusal_overflow(a, b, err);
    return give(LML_OK, millionths, a->dimension.currency, out);
}

lml_status lml_money_product(const lml_value *a, const lml_value *b, lml_value *out, lml_error *err)
{
    const lml_value *money = a->kind == LML_MONEY ? a : b, *factor = a->kind == LML_MONEY ? b : a;
    int64_t millionths;
    if (!lml_value_is_scalar(factor))
        return lml_refusal_mismatch(LML_MUL, a, b, err);
    if (surely_nearest((double)money->exact * factor->amount, &millionths))
        return give(LML_OK, millionths, money->dimension.currency, out);
    if (!isfinite(factor->amount))
        return too_large(err);
    lml_decimal d = shortest(factor->amount);
    lml_status status = scaled(money->exact * signed_digits(&d), d.exponent, 1, &millionths, err);
    return give(status, millionths, money->dimension.currency, out);
}

/* money / price = quantity; money / quantity = price. */
static lml_status quotient_by_quantity(const lml_value *a, const lml_value *b, lml_value *out,
                                       lml_error *err)
{
    lml_dimension dimension;
    bool price = b->dimension.money == 1 && b->dimension.currency == a->dimension.currency;
    if (b->kind != LML_QUANTITY || (b->dimension.money != 0 && !price))
        return lml_refusal_mismatch(LML_DIV, a, b, err);
    lml_status status = lml_dimension_div(a->dimension, b->dimension, &dimension, err);
    if (status != LML_OK)
        return status;
    if (b->amount == 0.0)
        return lml_refusal_zero(a, err);
    double amount = units_of(a) / b->amount;
    if (!isfinite(amount))
        return lml_refusal_overflow(a, b, err);
    *out =
        lml_value_quantity(amount, dimension, lml_unit_combine(a->unit, b->unit, true, dimension));
    return LML_OK;
}

lml_status lml_money_quotient(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err)
{
    if (a->kind != LML_MONEY)
        return lml_refusal_mismatch(LML_DIV, a, b, err);
    if (b->kind == LML_MONEY) {
        if (!lml_compare_alike(a, b))
            return lml_refusal_mismatch(LML_DIV, a, b, err);
        if (b->exact == 0)
            return lml_refusal_zero(a, err);
        *out = lml_value_number((double)a->exact / (double)b->exact);
        return LML_OK;
    }
    if (!lml_value_is_scalar(b))
        return quotient_by_quantity(a, b, out, err);
    if (b->amount == 0.0)
        return lml_refusal_zero(a, err);
    if (!isfinite(b->amount))
        return too_large(err);
    int64_t millionths;
    if (surely_nearest((double)a->exact / b->amount, &millionths))
        return give(LML_OK, millionths, a->dimension.currency, out);
    lml_decimal d = shortest(b->amount);
    lml_status status = scaled(a->exact, -d.exponent, signed_digits(&d), &millionths, err);
    return give(status, millionths, a->dimension.currency, out);
}

/* One minor unit of the currency in millionths. */
static int64_t minor_unit(uint16_t currency)
{
    return (int64_t)ten_to(LML_MONEY_PLACES - lml_currency_at(currency)->minor);
}

static lml_status round_to(const lml_value *money, int64_t step, lml_rounding mode, lml_value *out,
                           lml_error *err)
{
    int64_t steps = 0, millionths = 0;
    lml_status status = lml_exact_divide_i128(money->exact, step, mode, &steps, NULL);
    if (status == LML_OK)
        status = lml_exact_mul_i64(steps, step, &millionths, NULL);
    if (status != LML_OK)
        return too_large(err);
    return give(status, millionths, money->dimension.currency, out);
}

static lml_status check_money(const lml_value *v, lml_error *err)
{
    if (v->kind == LML_MONEY)
        return LML_OK;
    return lml_refusal_alone(LML_MISMATCH, v, "is not an amount of money",
                             "only money is rounded to payable amounts and shared out", err);
}

lml_status lml_money_round(const lml_value *money, lml_rounding mode, lml_value *out,
                           lml_error *err)
{
    lml_status status = check_money(money, err);
    if (status != LML_OK)
        return status;
    return round_to(money, minor_unit(money->dimension.currency), mode, out, err);
}

lml_status lml_money_round_to(const lml_value *money, const lml_value *step, lml_rounding mode,
                              lml_value *out, lml_error *err)
{
    lml_status status = check_money(money, err);
    if (status != LML_OK)
        return status;
    if (!lml_compare_alike(money, step))
        return lml_refusal_mismatch(LML_STEP, money, step, err);
    if (step->exact <= 0)
        return lml_refusal_alone(LML_BAD_VALUE, step, "is not a valid rounding step",
                                 "a step must be above zero", err);
    return round_to(money, step->exact, mode, out, err);
}

/* Weights as whole numbers in one scale: the power of two that brings the largest below 2^62, so
 * that a weight of up to nine bits less loses nothing and equal weights stay equal. */
static int64_t whole_weight(double weight, int scale)
{
    return (int64_t)ldexp(weight, scale);
}

static lml_status weigh(const double *weights, size_t count, int *scale, lml_i128 *total,
                        lml_error *err)
{
    double most = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(weights[i]) || weights[i] < 0.0) {
            lml_fail(err, LML_BAD_VALUE, "share %zu has a weight that is negative or not a number",
                     i + 1);
            lml_error_hint(err, "a weight must be zero or more");
            return LML_BAD_VALUE;
        }
        most = fmax(most, weights[i]);
    }
    if (most == 0.0) {
        lml_fail(err, LML_BAD_VALUE, "money cannot be shared if all weights are zero");
        lml_error_hint(err, "give at least one share a weight above zero");
        return LML_BAD_VALUE;
    }
    int exponent;
    frexp(most, &exponent);
    *scale = 62 - exponent;
    *total = 0;
    for (size_t i = 0; i < count; i++)
        *total += whole_weight(weights[i], *scale);
    return LML_OK;
}

lml_status lml_money_share(const lml_value *money, const double *weights, size_t count,
                           lml_value *parts, lml_error *err)
{
    lml_i128 total;
    int scale;
    lml_status status = check_money(money, err);
    if (status != LML_OK)
        return status;
    uint16_t currency = money->dimension.currency;
    int64_t unit = minor_unit(currency), whole = money->exact / unit;
    if (money->exact % unit != 0)
        return lml_refusal_alone(LML_BAD_VALUE, money, "is not in whole minor units",
                                 "round it to the payable unit before it is shared", err);
    status = weigh(weights, count, &scale, &total, err);
    if (status != LML_OK)
        return status;

    lml_i128 sign = whole < 0 ? -1 : 1, sum = sign * whole, left = sum;
    for (size_t i = 0; i < count; i++) {
        lml_i128 units = lml_wide_quotient(sum * whole_weight(weights[i], scale), total);
        parts[i] = lml_money((int64_t)units, currency);
        left -= units;
    }
    /* What is left over goes one unit at a time to the largest remainder. A part that has had one
     * has a negative remainder from then on, so that nobody gets two. */
    for (; left > 0; left--) {
        size_t best = 0;
        lml_i128 largest = -total;
        for (size_t i = 0; i < count; i++) {
            lml_i128 remainder = sum * whole_weight(weights[i], scale) - parts[i].exact * total;
            if (remainder > largest) {
                largest = remainder;
                best = i;
            }
        }
        parts[best].exact++;
    }
    for (size_t i = 0; i < count; i++)
        parts[i].exact = (int64_t)(sign * parts[i].exact * unit);
    return LML_OK;
}
