#include "unit/dimension.h"
#include "unit/currency.h"
#include <stdio.h>
#include <string.h>

enum { POWER_MOST = 9, BASES = 6 };

/* The powers as an array, so that one loop serves all of them. */
typedef struct powers {
    int at[BASES];
} powers;

static powers powers_of(lml_dimension d)
{
    return (powers){{d.mass, d.length, d.time, d.temperature, d.current, d.money}};
}

static lml_status from_powers(const powers *p, uint16_t currency, lml_dimension *out,
                              lml_error *err)
{
    for (int i = 0; i < BASES; i++)
        if (p->at[i] < -POWER_MOST || p->at[i] > POWER_MOST) {
            lml_fail(err, LML_OVERFLOW, "a unit may not have a power beyond %d", POWER_MOST);
            lml_error_hint(err, "check the formula: no quantity in the trade needs one");
            return LML_OVERFLOW;
        }
    *out = (lml_dimension){(int8_t)p->at[0],       (int8_t)p->at[1], (int8_t)p->at[2],
                           (int8_t)p->at[3],       (int8_t)p->at[4], (int8_t)p->at[5],
                           p->at[5] ? currency : 0};
    return LML_OK;
}

/* a + sign * b in powers. */
static lml_status combine(lml_dimension a, lml_dimension b, int sign, lml_dimension *out,
                          lml_error *err)
{
    if (a.money && b.money && a.currency != b.currency) {
        lml_fail(err, LML_MISMATCH, "%s and %s do not mix", lml_currency_at(a.currency)->code,
                 lml_currency_at(b.currency)->code);
        lml_error_hint(err, "convert one into the other first, at a rate you state");
        return LML_MISMATCH;
    }
    powers p = powers_of(a), q = powers_of(b);
    for (int i = 0; i < BASES; i++)
        p.at[i] += sign * q.at[i];
    return from_powers(&p, a.money ? a.currency : b.currency, out, err);
}

lml_status lml_dimension_mul(lml_dimension a, lml_dimension b, lml_dimension *out, lml_error *err)
{
    return combine(a, b, 1, out, err);
}

lml_status lml_dimension_div(lml_dimension a, lml_dimension b, lml_dimension *out, lml_error *err)
{
    return combine(a, b, -1, out, err);
}

lml_status lml_dimension_power(lml_dimension a, int power, lml_dimension *out, lml_error *err)
{
    /* Any power beyond this makes every dimension overflow; the cut keeps the product in range. */
    int bounded = power > 100 ? 100 : power < -100 ? -100 : power;
    powers p = powers_of(a);
    for (int i = 0; i < BASES; i++)
        p.at[i] *= bounded;
    return from_powers(&p, a.currency, out, err);
}

lml_status lml_dimension_root(lml_dimension a, int degree, lml_dimension *out, lml_error *err)
{
    powers p = powers_of(a);
    for (int i = 0; i < BASES; i++) {
        if (degree < 1 || p.at[i] % degree != 0) {
            char name[80];
            lml_fail(err, LML_MISMATCH, "%s has no root of degree %d",
                     lml_dimension_name(a, name, sizeof name), degree);
            lml_error_hint(err, "the powers of the unit must divide by the degree");
            return LML_MISMATCH;
        }
        p.at[i] /= degree;
    }
    return from_powers(&p, a.currency, out, err);
}

static const struct {
    lml_dimension dimension;
    const char *article, *name;
} named[] = {
    {{0, 0, 0, 0, 0, 0, 0}, "a", "ratio"},
    {{1, 0, 0, 0, 0, 0, 0}, "a", "mass"},
    {{0, 1, 0, 0, 0, 0, 0}, "a", "length"},
    {{0, 2, 0, 0, 0, 0, 0}, "an", "area"},
    {{0, 3, 0, 0, 0, 0, 0}, "a", "volume"},
    {{0, 0, 1, 0, 0, 0, 0}, "a", "time"},
    {{0, 0, 0, 1, 0, 0, 0}, "a", "temperature difference"},
    {{0, 0, 0, 0, 1, 0, 0}, "a", "current"},
    {{1, -3, 0, 0, 0, 0, 0}, "a", "density"},
    {{-1, 3, 0, 0, 0, 0, 0}, "a", "volume per mass"},
    {{1, -1, -2, 0, 0, 0, 0}, "a", "pressure"},
    {{1, 2, -2, 0, 0, 0, 0}, "an", "energy"},
    {{1, 2, -3, 0, 0, 0, 0}, "a", "power"},
    {{1, 2, -3, 0, -1, 0, 0}, "a", "voltage"},
    {{0, 0, 1, 0, 1, 0, 0}, "an", "electric charge"},
    {{0, -2, 0, 0, 1, 0, 0}, "a", "current density"},
    {{0, 2, -2, 0, 0, 0, 0}, "an", "energy per mass"},
    {{0, 2, -2, -1, 0, 0, 0}, "a", "specific heat"},
    {{0, 0, 0, -1, 0, 0, 0}, "a", "change per temperature difference"},
    {{0, 0, -1, 0, 0, 0, 0}, "a", "rate (per time)"},
    {{0, 0, -1, 1, 0, 0, 0}, "a", "temperature rate"},
    {{1, 0, -1, 0, 0, 0, 0}, "a", "mass per time"},
    {{0, 3, -1, 0, 0, 0, 0}, "a", "volume per time"},
    {{0, 1, -1, 0, 0, 0, 0}, "a", "speed"},
    {{1, -2, 0, 0, 0, 0, 0}, "a", "mass per area"},
    {{1, -1, 0, 0, 0, 0, 0}, "a", "mass per length"},
};
enum { NAMED = sizeof named / sizeof *named };

static size_t find_named(lml_dimension d)
{
    for (size_t i = 0; i < NAMED; i++)
        if (lml_dimension_equal(d, named[i].dimension))
            return i;
    return NAMED;
}

/* "mass^2 length^-1", for what has no name. */
static void write_powers(lml_dimension d, char *out, size_t size)
{
    static const char *const bases[BASES - 1] = {"mass", "length", "time", "temperature",
                                                 "current"};
    powers p = powers_of(d);
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i < BASES && used < size; i++) {
        if (p.at[i] == 0)
            continue;
        const char *base = i < BASES - 1 ? bases[i] : lml_currency_at(d.currency)->code;
        const char *blank = used ? " " : "";
        int n = p.at[i] == 1 ? snprintf(out + used, size - used, "%s%s", blank, base)
                             : snprintf(out + used, size - used, "%s%s^%d", blank, base, p.at[i]);
        used += (size_t)n;
    }
}

const char *lml_dimension_name(lml_dimension d, char *out, size_t size)
{
    size_t i = find_named(d);
    if (i < NAMED) {
        snprintf(out, size, "%s %s", named[i].article, named[i].name);
        return out;
    }
    if (d.money == 1) {
        const char *code = lml_currency_at(d.currency)->code;
        lml_dimension per = {(int8_t)-d.mass,
                             (int8_t)-d.length,
                             (int8_t)-d.time,
                             (int8_t)-d.temperature,
                             (int8_t)-d.current,
                             0,
                             0};
        i = find_named(per);
        if (i == 0) {
            snprintf(out, size, "an amount of %s", code);
            return out;
        }
        if (i < NAMED) {
            snprintf(out, size, "a price (%s per %s)", code, named[i].name);
            return out;
        }
    }
    write_powers(d, out, size);
    return out;
}
