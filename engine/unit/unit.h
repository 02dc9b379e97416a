/* Units: one constant table, exact factors, no prefix that a unit does not list.
 *
 * A unit as a person wrote it is a product of up to four table units with powers; it is kept with
 * the value so that the value prints in it. The factor to SI is an exact rational. Currencies and
 * the two temperature points are in the table too, so that one reader serves all.
 *
 *     lml_unit u;
 *     lml_unit_read(lml_span_of("g/cm3"), &u, err);
 *     lml_rational f;  lml_unit_factor(u, &f, err);      1000 kg/m3 for each
 */
#ifndef LML_UNIT_UNIT_H
#define LML_UNIT_UNIT_H

#include "base/exact.h"
#include "unit/dimension.h"

/* How a unit is to be understood beside its dimension. */
typedef enum lml_unit_sort {
    LML_UNIT_PLAIN,    /* a factor and a dimension */
    LML_UNIT_POINT,    /* degC, degF, kelvin: a temperature point */
    LML_UNIT_RATIO,    /* %, per mille, ppm, and "1" */
    LML_UNIT_KARAT,    /* kt */
    LML_UNIT_CURRENCY, /* an ISO 4217 code */
} lml_unit_sort;

/* One row of the table. */
typedef struct lml_unit_row {
    const char *name;      /* as it prints: "g", "°C" */
    const char *spellings; /* other spellings it is read in, blank-separated, or "" */
    lml_unit_sort sort;
    lml_dimension dimension;
    lml_rational factor; /* times this is SI (kg, m, s, K, A); for a currency 1 */
    lml_rational offset; /* points only: SI = x * factor + offset */
    const char *exact;   /* the factor in words: "480 grain", "1/100 m" */
    const char *source;
    const char *words; /* "troy ounce" */
} lml_unit_row;

/* The table in print order; index 0 is the plain number ("1"). */
size_t lml_unit_count(void);
const lml_unit_row *lml_unit_at(size_t index);

enum { LML_UNIT_FACTORS = 4 };
/* Factors in written order, id 0 ends the list; a unit of none is the plain number. Currency codes
 * share one id (LML_UNIT_MONEY); which currency it is, is in the value's dimension. */
typedef struct lml_unit {
    uint8_t id[LML_UNIT_FACTORS];
    int8_t power[LML_UNIT_FACTORS];
} lml_unit;
enum { LML_UNIT_MONEY = 255 };

/* A unit of one factor. */
lml_unit lml_unit_one(unsigned id, int power);
bool lml_unit_equal(lml_unit a, lml_unit b);
static inline bool lml_unit_none(lml_unit u)
{
    return u.id[0] == 0;
}

/* Of one factor, as most are. */
static inline bool lml_unit_single(lml_unit u)
{
    return u.id[0] && u.power[0] == 1 && u.id[1] == 0;
}

/* Read a whole unit text; a currency that was met is in the dimension. Refusals, each with
 * its hint: unknown (nearest name), ambiguous (oz gr floz tael cal Btu: both meanings), a point
 * inside a compound, two slashes, a denominator of several factors without parentheses, K alone. */
lml_status lml_unit_read(lml_span text, lml_unit *out, lml_dimension *dimension, lml_error *err);
lml_status lml_unit_factor(lml_unit u, lml_rational *out, lml_error *err);
lml_status lml_unit_dimension(lml_unit u, uint16_t currency, lml_dimension *out, lml_error *err);
/* The sort of a unit of exactly one factor of power 1; LML_UNIT_PLAIN for all others. */
lml_unit_sort lml_unit_sort_of(lml_unit u);
/* "J/(g·K)". Returns the length. `out` holds at least LML_UNIT_TEXT bytes. */
enum { LML_UNIT_TEXT = 64 };
size_t lml_unit_write(lml_unit u, uint16_t currency, char *out);
/* The unit in which a value of this dimension prints if none was written (mass g, length mm, volume
 * cm3, density g/cm3, time min, pressure kPa, energy kJ ...); SI products for all others. */
lml_unit lml_unit_usual(lml_dimension d);
/* Unit of a product or quotient, for printing: the factors put together, or lml_unit_usual of
 * `result` when they would not fit or two units of one dimension would be side by side. */
lml_unit lml_unit_combine(lml_unit a, lml_unit b, bool divide, lml_dimension result);

#endif
