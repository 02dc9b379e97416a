/* A value: what a person writes with a unit, and what arithmetic makes of it.
 *
 * One flat struct for all kinds, copied freely, owning nothing. `kind` says which members count:
 *
 *   NUMBER               amount
 *   QUANTITY             amount in SI, dimension, unit, mode (pressures); a ratio is a quantity of
 * no dimension, a temperature difference one of temperature^1, a price one with money^1 and another
 * dimension TEMPERATURE          amount in kelvin (a point) FINENESS             amount 0..1, metal
 *   FINENESS_DIFFERENCE  amount, metal
 *   FINE_MASS            amount in kg, metal
 *   MONEY                exact in millionths of the currency unit; dimension holds the currency
 *   MOMENT               exact in seconds since 1970-01-01T00:00 local; mode DATE_ONLY when written
 * so TIME_OF_DAY          exact in seconds since midnight, 0..86399 WEEKDAY              exact 1
 * (Monday) to 7
 *
 * `unit` is how it was written, and is kept by + and - of the left operand. `decimals` is set by
 * rounding to a step ("58.0 g" after up_to "0.1 g"), LML_SHORTEST otherwise, and holds for `unit`
 * only; `toward` is the lml_direction of that step, so that another unit is rounded the same way.
 * `kept` says that a recipe asked for the unit, which a sentence then keeps. `origin` says where a
 * figure came from; arithmetic drops it, and drops the spread.
 */
#ifndef LML_VALUE_VALUE_H
#define LML_VALUE_VALUE_H

#include "unit/dimension.h"
#include "value/metal.h"
#include "unit/unit.h"

/* clang-format off */
#define LML_KIND_MAP(X)                                                                            \
    X(NUMBER, "number") X(QUANTITY, "quantity") X(TEMPERATURE, "temperature")                      \
    X(FINENESS, "fineness") X(FINENESS_DIFFERENCE, "fineness difference")                          \
    X(FINE_MASS, "fine mass") X(MONEY, "money") X(MOMENT, "moment")                                \
    X(TIME_OF_DAY, "time of day") X(WEEKDAY, "weekday")
/* clang-format on */
typedef enum lml_kind {
#define X(name, words) LML_##name,
    LML_KIND_MAP(X)
#undef X
} lml_kind;

typedef enum lml_mode {
    LML_NO_MODE,
    LML_ABSOLUTE, /* a pressure written "abs" */
    LML_VACUUM,   /* a pressure written "vac": depth below the surrounding air */
    LML_DATE_ONLY /* a moment written without a time */
} lml_mode;

typedef enum lml_spread { LML_NO_SPREAD, LML_DEVIATION, LML_BETWEEN } lml_spread;

/* Where a figure came from; printed beside it. */
/* clang-format off */
#define LML_ORIGIN_MAP(X)                                                                          \
    X(UNSTATED, "") X(ASSUMED, "assumed") X(CLIENT_SAYS, "client says")                            \
    X(STAMP_SAYS, "stamp says") X(WEIGHED, "weighed here") X(MEASURED, "measured here")            \
    X(REPORT, "assay report") X(SUPPLIER, "supplier sheet") X(HISTORY, "studio history")           \
    X(ESTIMATED, "estimated")
/* clang-format on */
typedef enum lml_origin {
#define X(name, words) LML_##name,
    LML_ORIGIN_MAP(X)
#undef X
} lml_origin;

enum { LML_SHORTEST = 255 };

typedef struct lml_value {
    uint8_t kind, mode, spread, metal, decimals, origin;
    lml_dimension dimension;
    lml_unit unit;
    uint8_t toward, kept;
    union {
        double amount;
        int64_t exact;
    };
    double low, high; /* LML_BETWEEN: the ends; LML_DEVIATION: low is one standard deviation (SI) */
} lml_value;

const char *lml_kind_name(lml_kind kind);
const char *lml_origin_name(lml_origin origin);

/* Makers; `unit` is what it prints in. They do not check ranges. */
lml_value lml_value_number(double x);
lml_value lml_value_quantity(double si, lml_dimension dimension, lml_unit unit);
lml_value lml_value_ratio(double x);
/* The value alone: without spread, origin and the decimals it was written with. */
lml_value lml_value_bare(const lml_value *v);

/* One standard deviation in SI, of "a..b" that of an even spread; 0 when no spread was given. For
 * kinds that have an amount. */
double lml_value_deviation(const lml_value *v);

/* What the value is in words for a message: "a mass", "a fine mass of gold", "an amount of USD".
 * `out` holds at least 80 bytes. */
const char *lml_value_what(const lml_value *v, char *out, size_t size);
/* A number or a ratio: it scales another value and keeps its kind. */
bool lml_value_is_scalar(const lml_value *a);

#endif
