#include "value/point.h"
#include "unit/unit_table.h"

#include <math.h>

static const int64_t DAY = 86400;
/* 0001-01-01T00:00:00 and 9999-12-31T23:59:59 in seconds since 1970. */
static const int64_t FIRST_MOMENT = -62135596800, LAST_MOMENT = 253402300799;
static const double MOST_SECONDS = 1e15;

enum { CLEAN_DECIMALS = 11 };

bool lml_point_kind(const lml_value *v)
{
    return v->kind == LML_TEMPERATURE || v->kind == LML_MOMENT || v->kind == LML_TIME_OF_DAY;
}

static bool is_difference(const lml_value *v, lml_dimension d)
{
    return v->kind == LML_QUANTITY && lml_dimension_equal(v->dimension, d);
}

static lml_decimal rounded(double x, lml_rational factor)
{
    char text[LML_NUMBER_TEXT];
    lml_decimal d;
    size_t length = lml_decimal_write_fixed(x, factor, CLEAN_DECIMALS, LML_HALF_EVEN, text);
    lml_decimal_read((lml_span){text, length}, &d);
    return d;
}

double lml_point_clean(double amount, lml_rational factor)
{
    lml_decimal d = rounded(amount, factor);
    return lml_decimal_scale(&d, factor);
}

lml_status lml_point_temperature_of(const lml_decimal *amount, lml_unit unit, lml_value *out,
                                    lml_error *err)
{
    const lml_unit_row *row = lml_unit_at(unit.id[0]);
    lml_amount exact = {.decimal = *amount, .bottom = 1};
    double kelvin = lml_amount_scale(&exact, row->factor, row->offset);
    if (!(kelvin >= 0.0)) {
        lml_fail(err, LML_BAD_VALUE, "a temperature below absolute zero is impossible");
        lml_error_hint(err, "check the temperature and the difference it comes from");
        return LML_BAD_VALUE;
    }
    if (kelvin > LML_HOTTEST) {
        lml_fail(err, LML_OVERFLOW, "a temperature of %.3g kelvin is out of range", kelvin);
        lml_error_hint(err, "check the units and exponents");
        return LML_OVERFLOW;
    }
    *out = (lml_value){
        .kind = LML_TEMPERATURE, .decimals = LML_SHORTEST, .unit = unit, .amount = kelvin};
    return LML_OK;
}

lml_status lml_point_temperature(double kelvin, lml_unit unit, lml_value *out, lml_error *err)
{
    const lml_unit_row *row = lml_unit_at(unit.id[0]);
    double above_zero = kelvin - (double)row->offset.top / (double)row->offset.bottom;
    lml_decimal amount = rounded(above_zero, row->factor);
    return lml_point_temperature_of(&amount, unit, out, err);
}

lml_status lml_point_moment(lml_i128 seconds, lml_value *out, lml_error *err)
{
    if (seconds < FIRST_MOMENT || seconds > LAST_MOMENT) {
        lml_fail(err, LML_BAD_VALUE, "a moment must be in the years 1 to 9999");
        lml_error_hint(err, "check the time that was added or subtracted");
        return LML_BAD_VALUE;
    }
    *out = (lml_value){.kind = LML_MOMENT, .decimals = LML_SHORTEST, .exact = (int64_t)seconds};
    return LML_OK;
}

static lml_status temperature_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                                  lml_value *out, lml_error *err)
{
    const lml_dimension difference = {.temperature = 1};
    bool add = operation == LML_ADD;
    if (a->kind == LML_TEMPERATURE && is_difference(b, difference))
        return lml_point_temperature(add ? a->amount + b->amount : a->amount - b->amount, a->unit,
                                     out, err);
    if (add && is_difference(a, difference) && b->kind == LML_TEMPERATURE)
        return lml_point_temperature(a->amount + b->amount, b->unit, out, err);
    if (add || a->kind != LML_TEMPERATURE || b->kind != LML_TEMPERATURE)
        return lml_refusal_mismatch(operation, a, b, err);
    lml_unit unit = lml_unit_one(a->unit.id[0] == LML_U_DEGF ? LML_U_DELTA_F : LML_U_DELTA_C, 1);
    lml_rational factor = lml_unit_at(unit.id[0])->factor;
    *out = lml_value_quantity(lml_point_clean(a->amount - b->amount, factor), difference, unit);
    return LML_OK;
}

static lml_status seconds_of(const lml_value *time, int64_t *out, lml_error *err)
{
    if (!(fabs(time->amount) < MOST_SECONDS))
        return lml_refusal_alone(LML_OVERFLOW, time, "is too long to add to a moment",
                                 "check the units and exponents", err);
    *out = llround(time->amount);
    return LML_OK;
}

static lml_status shifted(const lml_value *point, const lml_value *time, int sign, lml_value *out,
                          lml_error *err)
{
    int64_t seconds = 0;
    lml_status status = seconds_of(time, &seconds, err);
    if (status != LML_OK)
        return status;
    int64_t sum = point->exact + sign * seconds;
    if (point->kind == LML_TIME_OF_DAY) {
        *out = (lml_value){
            .kind = LML_TIME_OF_DAY, .decimals = LML_SHORTEST, .exact = ((sum % DAY) + DAY) % DAY};
        return LML_OK;
    }
    /* A date moved by whole days is still a date. */
    uint8_t mode = seconds % DAY == 0 ? point->mode : LML_NO_MODE;
    status = lml_point_moment(sum, out, err);
    if (status == LML_OK)
        out->mode = mode;
    return status;
}

static lml_status clock_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                            lml_value *out, lml_error *err)
{
    const lml_dimension time = {.time = 1};
    if (lml_point_kind(a) && is_difference(b, time))
        return shifted(a, b, operation == LML_ADD ? 1 : -1, out, err);
    if (operation == LML_ADD && is_difference(a, time))
        return shifted(b, a, 1, out, err);
    if (operation == LML_ADD || a->kind != b->kind)
        return lml_refusal_mismatch(operation, a, b, err);
    *out = lml_value_quantity((double)(a->exact - b->exact), time, lml_unit_usual(time));
    return LML_OK;
}

lml_status lml_point_sum(lml_operator operation, const lml_value *a, const lml_value *b,
                         lml_value *out, lml_error *err)
{
    bool temperature = a->kind == LML_TEMPERATURE || b->kind == LML_TEMPERATURE;
    return temperature ? temperature_sum(operation, a, b, out, err)
                       : clock_sum(operation, a, b, out, err);
}
