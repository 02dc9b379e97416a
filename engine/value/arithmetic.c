#include "value/arithmetic.h"
#include "value/fineness.h"
#include "value/money.h"
#include "value/point.h"

#include <math.h>
#include <string.h>

/* The usual operation, on two quantities without a mode, is done here without calling anything:
 * recipes are made of it. All else goes to the file of its kind. */

static inline bool same_dimension(const lml_value *a, const lml_value *b)
{
    return lml_dimension_equal(a->dimension, b->dimension);
}

static inline bool no_dimension(const lml_value *v)
{
    return lml_dimension_none(v->dimension);
}

static inline bool same_unit(const lml_value *a, const lml_value *b)
{
    return memcmp(&a->unit, &b->unit, sizeof a->unit) == 0;
}

static inline bool plain(const lml_value *v)
{
    return v->kind == LML_QUANTITY && v->mode == LML_NO_MODE;
}

static inline bool numeric(const lml_value *v)
{
    return v->kind <= LML_QUANTITY;
}

/* Whether an amount in SI can still be written in a smaller unit: 1e307 kg would be an infinity of
 * grams. */
static inline bool fits(double amount)
{
    return fabs(amount) < 1e285;
}

static inline void put(lml_value *out, double amount, lml_dimension dimension, lml_unit unit,
                       uint8_t mode)
{
    *out = (lml_value){.kind = LML_QUANTITY,
                       .mode = mode,
                       .decimals = LML_SHORTEST,
                       .dimension = dimension,
                       .unit = unit,
                       .amount = amount};
}

/* Which mode a sum of two pressures has; false when they do not mix. */
static bool sum_of_modes(lml_operator operation, uint8_t a, uint8_t b, uint8_t *mode)
{
    if (b == LML_NO_MODE || (operation == LML_ADD && a == LML_NO_MODE)) {
        *mode = b == LML_NO_MODE ? a : b;
        return true;
    }
    if (operation == LML_ADD)
        return false;
    *mode = a == b ? LML_NO_MODE : LML_ABSOLUTE;
    return a == b || (a == LML_ABSOLUTE && b == LML_VACUUM);
}

static lml_status sum_of_numerics(lml_operator operation, const lml_value *a, const lml_value *b,
                                  double amount, lml_value *out, lml_error *err)
{
    uint8_t mode;
    if (!same_dimension(a, b) || !sum_of_modes(operation, a->mode, b->mode, &mode))
        return lml_refusal_mismatch(operation, a, b, err);
    if (!fits(amount))
        return lml_refusal_overflow(a, b, err);
    if (mode == LML_ABSOLUTE && amount < 0.0)
        return lml_refusal_alone(LML_BAD_VALUE, b, "is more than the pressure it is taken from",
                                 "an absolute pressure cannot be negative", err);
    if (a->kind == LML_NUMBER && b->kind == LML_NUMBER)
        *out = lml_value_number(amount);
    else
        put(out, amount, a->dimension, a->unit, mode);
    return LML_OK;
}

static lml_status sum(lml_operator operation, const lml_value *a, const lml_value *b, double amount,
                      lml_value *out, lml_error *err)
{
    if (numeric(a) && numeric(b))
        return sum_of_numerics(operation, a, b, amount, out, err);
    if (a->kind == LML_MONEY && b->kind == LML_MONEY)
        return lml_money_sum(operation, a, b, out, err);
    if (lml_point_kind(a) || lml_point_kind(b))
        return lml_point_sum(operation, a, b, out, err);
    if (lml_fineness_family(a) || lml_fineness_family(b))
        return lml_fineness_sum(operation, a, b, out, err);
    if (a->kind == LML_MONEY || b->kind == LML_MONEY)
        return lml_money_sum(operation, a, b, out, err);
    return lml_refusal_mismatch(operation, a, b, err);
}

lml_status lml_arithmetic_add(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err)
{
    double amount = a->amount + b->amount;
    if (plain(a) && plain(b) && same_dimension(a, b) && fits(amount)) {
        put(out, amount, a->dimension, a->unit, LML_NO_MODE);
        return LML_OK;
    }
    return sum(LML_ADD, a, b, amount, out, err);
}

lml_status lml_arithmetic_sub(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err)
{
    double amount = a->amount - b->amount;
    if (plain(a) && plain(b) && same_dimension(a, b) && fits(amount)) {
        put(out, amount, a->dimension, a->unit, LML_NO_MODE);
        return LML_OK;
    }
    return sum(LML_SUB, a, b, amount, out, err);
}

/* A dimension as one word, a byte a power; and bytes added or taken away without a carry into the
 * next. */
static inline uint64_t word_of(lml_dimension d)
{
    uint64_t word;
    memcpy(&word, &d, sizeof word);
    return word;
}

#define TOP_BITS 0x8080808080808080u

static inline uint64_t add_bytes(uint64_t a, uint64_t b)
{
    return ((a & ~TOP_BITS) + (b & ~TOP_BITS)) ^ ((a ^ b) & TOP_BITS);
}

static inline uint64_t sub_bytes(uint64_t a, uint64_t b)
{
    return ((a | TOP_BITS) - (b & ~TOP_BITS)) ^ ((a ^ ~b) & TOP_BITS);
}

/* Powers added or taken away, when no currency meets another or goes below the bar and none passes
 * 9 by far. */
static inline bool quick_dimension(lml_dimension a, lml_dimension b, bool divide,
                                   lml_dimension *out)
{
    const lml_dimension nine = {9, 9, 9, 9, 9, 9, 0}, beyond = {-16, -16, -16, -16, -16, -16, 0};
    uint64_t powers =
        divide ? sub_bytes(word_of(a), word_of(b)) : add_bytes(word_of(a), word_of(b));
    memcpy(out, &powers, sizeof *out);
    /* x + 9 below 16 for each: powers of -9 to 6. The rest goes the long way round. */
    return (add_bytes(powers, word_of(nine)) & word_of(beyond)) == 0 &&
           (b.money == 0 || (!divide && a.money == 0));
}

/* A unit for the result of two plain quantities; the usual cases first. */
static inline lml_unit result_unit(const lml_value *a, const lml_value *b, bool divide,
                                   lml_dimension dimension)
{
    if (divide && (same_unit(a, b) || (same_dimension(a, b) && !no_dimension(b))))
        return (lml_unit){{0}, {0}};
    if (no_dimension(b))
        return a->unit;
    if (no_dimension(a) && !divide)
        return b->unit;
    return lml_unit_combine(a->unit, b->unit, divide, dimension);
}

static inline bool is_money(lml_dimension d)
{
    return lml_dimension_equal(d, (lml_dimension){.money = 1, .currency = d.currency});
}

/* A product or quotient of two plain quantities. */
static inline lml_status give_plain(const lml_value *a, const lml_value *b, double amount,
                                    bool divide, lml_dimension dimension, lml_value *out,
                                    lml_error *err)
{
    if (is_money(dimension))
        return lml_money_of(amount, dimension.currency, out, err);
    put(out, amount, dimension, result_unit(a, b, divide, dimension), LML_NO_MODE);
    return LML_OK;
}

static lml_status give_numeric(const lml_value *a, const lml_value *b, double amount, bool divide,
                               lml_value *out, lml_error *err)
{
    lml_dimension dimension;
    if (a->dimension.money != 0 && b->dimension.money != 0 &&
        a->dimension.currency != b->dimension.currency)
        return lml_refusal_mismatch(divide ? LML_DIV : LML_MUL, a, b, err);
    lml_status status = divide ? lml_dimension_div(a->dimension, b->dimension, &dimension, err)
                               : lml_dimension_mul(a->dimension, b->dimension, &dimension, err);
    if (status != LML_OK)
        return status;
    if (!fits(amount))
        return lml_refusal_overflow(a, b, err);
    if (is_money(dimension))
        return lml_money_of(amount, dimension.currency, out, err);
    if (a->kind == LML_NUMBER && b->kind == LML_NUMBER) {
        *out = lml_value_number(amount);
        return LML_OK;
    }
    /* A pressure that is scaled is still measured from where it was. */
    uint8_t mode = no_dimension(b) ? a->mode : no_dimension(a) && !divide ? b->mode : LML_NO_MODE;
    if (mode == LML_ABSOLUTE && amount < 0.0)
        return lml_refusal_alone(LML_BAD_VALUE, no_dimension(b) ? b : a,
                                 "would make an absolute pressure negative",
                                 "an absolute pressure cannot be negative", err);
    put(out, amount, dimension, result_unit(a, b, divide, dimension), mode);
    return LML_OK;
}

lml_status lml_arithmetic_mul(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err)
{
    lml_dimension dimension;
    if (numeric(a) && numeric(b)) {
        double amount = a->amount * b->amount;
        if (plain(a) && plain(b) && fits(amount) &&
            quick_dimension(a->dimension, b->dimension, false, &dimension))
            return give_plain(a, b, amount, false, dimension, out, err);
        if (a->kind != b->kind && fits(amount)) {
            const lml_value *quantity = a->kind == LML_QUANTITY ? a : b;
            if (quantity->mode == LML_ABSOLUTE && amount < 0.0)
                return give_numeric(a, b, amount, false, out, err);
            put(out, amount, quantity->dimension, quantity->unit, quantity->mode);
            return LML_OK;
        }
        return give_numeric(a, b, amount, false, out, err);
    }
    if (lml_fineness_family(a) || lml_fineness_family(b))
        return lml_fineness_product(a, b, out, err);
    if (a->kind == LML_MONEY || b->kind == LML_MONEY)
        return lml_money_product(a, b, out, err);
    return lml_refusal_mismatch(LML_MUL, a, b, err);
}

/* Two pressures measured from different places have no ratio. */
static bool modes_clash(const lml_value *a, const lml_value *b)
{
    return a->mode != b->mode && same_dimension(a, b);
}

lml_status lml_arithmetic_div(const lml_value *a, const lml_value *b, lml_value *out,
                              lml_error *err)
{
    lml_dimension dimension;
    if (numeric(a) && numeric(b)) {
        double amount = a->amount / b->amount;
        if (plain(a) && plain(b) && fits(amount) &&
            quick_dimension(a->dimension, b->dimension, true, &dimension))
            return give_plain(a, b, amount, true, dimension, out, err);
        if (a->kind == LML_QUANTITY && b->kind == LML_NUMBER && fits(amount) &&
            !(a->mode == LML_ABSOLUTE && amount < 0.0)) {
            put(out, amount, a->dimension, a->unit, a->mode);
            return LML_OK;
        }
        if (modes_clash(a, b))
            return lml_refusal_mismatch(LML_DIV, a, b, err);
        if (b->amount == 0.0)
            return lml_refusal_zero(a, err);
        return give_numeric(a, b, amount, true, out, err);
    }
    if (lml_fineness_family(a) || lml_fineness_family(b))
        return lml_fineness_quotient(a, b, out, err);
    if (a->kind == LML_MONEY || b->kind == LML_MONEY)
        return lml_money_quotient(a, b, out, err);
    return lml_refusal_mismatch(LML_DIV, a, b, err);
}

/* What has a sign to turn round: a point on a scale or a fineness has none. */
static bool is_signed(const lml_value *v)
{
    return (numeric(v) && v->mode == LML_NO_MODE) || v->kind == LML_FINENESS_DIFFERENCE ||
           v->kind == LML_FINE_MASS || v->kind == LML_MONEY;
}

lml_status lml_arithmetic_negate(const lml_value *a, lml_value *out, lml_error *err)
{
    lml_value result = lml_value_bare(a);
    if (!is_signed(a) || (a->mode == LML_ABSOLUTE && a->amount > 0.0))
        return lml_refusal_alone(LML_MISMATCH, a, "cannot be negated",
                                 "only values that can be negative allow this", err);
    if (a->kind != LML_MONEY)
        result.amount = -a->amount;
    else if (lml_exact_sub_i64(0, a->exact, &result.exact, err) != LML_OK)
        return LML_OVERFLOW;
    *out = result;
    return LML_OK;
}

lml_status lml_arithmetic_absolute(const lml_value *a, lml_value *out, lml_error *err)
{
    if (!is_signed(a))
        return lml_refusal_alone(LML_MISMATCH, a, "has no absolute value",
                                 "only values that can be negative allow this", err);
    bool negative = a->kind == LML_MONEY ? a->exact < 0 : signbit(a->amount) != 0;
    if (negative)
        return lml_arithmetic_negate(a, out, err);
    *out = lml_value_bare(a);
    return LML_OK;
}
