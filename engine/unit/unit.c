#include "unit/unit.h"
#include "unit/currency.h"
#include "unit/unit_table.h"
#include <string.h>

lml_unit lml_unit_one(unsigned id, int power)
{
    return (lml_unit){.id = {(uint8_t)id}, .power = {(int8_t)power}};
}

bool lml_unit_equal(lml_unit a, lml_unit b)
{
    for (int i = 0; i < LML_UNIT_FACTORS; i++) {
        if (a.id[i] != b.id[i] || (a.id[i] && a.power[i] != b.power[i]))
            return false;
        if (a.id[i] == 0)
            break;
    }
    return true;
}

lml_unit_sort lml_unit_sort_of(lml_unit u)
{
    return lml_unit_single(u) ? lml_unit_at(u.id[0])->sort : LML_UNIT_PLAIN;
}

lml_status lml_unit_factor(lml_unit u, lml_rational *out, lml_error *err)
{
    if (lml_unit_single(u)) { /* most are */
        *out = lml_unit_at(u.id[0])->factor;
        return LML_OK;
    }
    lml_rational product = {1, 1};
    for (int i = 0; i < LML_UNIT_FACTORS && u.id[i]; i++) {
        lml_rational factor;
        lml_status s = lml_rational_power(lml_unit_at(u.id[i])->factor, u.power[i], &factor, err);
        if (s == LML_OK)
            s = lml_rational_mul(product, factor, &product, err);
        if (s != LML_OK) {
            lml_error_hint(err, "the unit is too complex to convert exactly: write the value in "
                                "a simpler one");
            return s;
        }
    }
    *out = product;
    return LML_OK;
}

lml_status lml_unit_dimension(lml_unit u, uint16_t currency, lml_dimension *out, lml_error *err)
{
    if (lml_unit_single(u)) {
        *out = lml_unit_at(u.id[0])->dimension;
        out->currency = out->money ? currency : 0;
        return LML_OK;
    }
    lml_dimension product = {0};
    for (int i = 0; i < LML_UNIT_FACTORS && u.id[i]; i++) {
        lml_dimension d = lml_unit_at(u.id[i])->dimension;
        d.currency = d.money ? currency : 0;
        lml_status s = lml_dimension_power(d, u.power[i], &d, err);
        if (s == LML_OK)
            s = lml_dimension_mul(product, d, &product, err);
        if (s != LML_OK)
            return s;
    }
    *out = product;
    return LML_OK;
}

static size_t put(char *out, size_t at, const char *text)
{
    size_t length = strlen(text);
    memcpy(out + at, text, length + 1);
    return at + length;
}

/* The factors whose power has this sign, joined by a middle dot. */
static size_t put_factors(lml_unit u, uint16_t currency, int sign, char *out, size_t at)
{
    bool first = true;
    for (int i = 0; i < LML_UNIT_FACTORS && u.id[i]; i++) {
        int power = u.power[i] * sign;
        if (power <= 0)
            continue;
        if (!first)
            at = put(out, at, "·");
        first = false;
        at = put(out, at,
                 u.id[i] == LML_UNIT_MONEY ? lml_currency_at(currency)->code
                                           : lml_unit_at(u.id[i])->name);
        if (power > 1) {
            out[at++] = '^';
            out[at++] = (char)('0' + power);
            out[at] = '\0';
        }
    }
    return at;
}

size_t lml_unit_write(lml_unit u, uint16_t currency, char *out)
{
    int above = 0, below = 0;
    bool hundred = false;
    if (lml_unit_single(u) && u.id[0] != LML_UNIT_MONEY)
        return put(out, 0, lml_unit_at(u.id[0])->name);
    for (int i = 0; i < LML_UNIT_FACTORS && u.id[i]; i++) {
        above += u.power[i] > 0;
        below += u.power[i] < 0;
        hundred = hundred || u.id[i] == LML_U_HUNDRED_G;
    }
    out[0] = '\0';
    size_t at = put_factors(u, currency, 1, out, 0);
    if (below == 0)
        return at;
    bool parentheses = below > 1 || hundred;
    at = put(out, at, above ? "/" : "1/");
    if (parentheses)
        at = put(out, at, "(");
    at = put_factors(u, currency, -1, out, at);
    return parentheses ? put(out, at, ")") : at;
}

lml_unit lml_unit_usual(lml_dimension d)
{
    static const struct {
        lml_dimension dimension;
        lml_unit unit;
    } usual[] = {
        {{.mass = 1}, {{LML_U_G}, {1}}},
        {{.length = 1}, {{LML_U_MM}, {1}}},
        {{.length = 2}, {{LML_U_CM2}, {1}}},
        {{.length = 3}, {{LML_U_CM3}, {1}}},
        {{.time = 1}, {{LML_U_MIN}, {1}}},
        {{.temperature = 1}, {{LML_U_DELTA_C}, {1}}},
        {{.current = 1}, {{LML_U_A}, {1}}},
        {{.mass = 1, .length = -3}, {{LML_U_G, LML_U_CM3}, {1, -1}}},
        {{.mass = -1, .length = 3}, {{LML_U_CM3, LML_U_G}, {1, -1}}},
        {{.mass = 1, .length = -1, .time = -2}, {{LML_U_KPA}, {1}}},
        {{.mass = 1, .length = 2, .time = -2}, {{LML_U_KJ}, {1}}},
        {{.mass = 1, .length = 2, .time = -3}, {{LML_U_W}, {1}}},
        {{.mass = 1, .length = 2, .time = -3, .current = -1}, {{LML_U_V}, {1}}},
        {{.length = 2, .time = -2}, {{LML_U_J, LML_U_G}, {1, -1}}},
        {{.length = 2, .time = -2, .temperature = -1}, {{LML_U_J, LML_U_G, LML_U_K}, {1, -1, -1}}},
        {{.time = 1, .current = 1}, {{LML_U_A, LML_U_H}, {1, 1}}},
        {{.length = -2, .current = 1}, {{LML_U_A, LML_U_DM2}, {1, -1}}},
        {{.time = -1, .temperature = 1}, {{LML_U_DELTA_C, LML_U_H}, {1, -1}}},
        {{.time = -1, .mass = 1}, {{LML_U_G, LML_U_H}, {1, -1}}},
        {{.money = 1, .mass = -1}, {{LML_UNIT_MONEY, LML_U_G}, {1, -1}}},
        {{.money = 1, .time = -1}, {{LML_UNIT_MONEY, LML_U_H}, {1, -1}}},
    };
    d.currency = 0;
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        if (lml_dimension_equal(d, usual[i].dimension))
            return usual[i].unit;

    const int powers[] = {d.money, d.mass, d.length, d.time, d.temperature, d.current};
    static const uint8_t bases[] = {LML_UNIT_MONEY, LML_U_KG, LML_U_M, LML_U_S, LML_U_K, LML_U_A};
    lml_unit u = {0};
    int count = 0;
    for (int i = 0; i < 6; i++) {
        if (powers[i] == 0)
            continue;
        if (count == LML_UNIT_FACTORS)
            return (lml_unit){0};
        unsigned row = lml_unit_table_with_power(bases[i], powers[i] < 0 ? -powers[i] : powers[i]);
        u.id[count] = row < LML_U_COUNT ? (uint8_t)row : bases[i];
        u.power[count++] = (int8_t)(row < LML_U_COUNT ? (powers[i] < 0 ? -1 : 1) : powers[i]);
    }
    return u;
}

/* A product under construction: powers of root units, so that in2 * in is in3. */
typedef struct product {
    int count;
    uint8_t id[2 * LML_UNIT_FACTORS];
    int power[2 * LML_UNIT_FACTORS];
} product;

static void multiply(product *p, lml_unit u, int sign)
{
    for (int i = 0; i < LML_UNIT_FACTORS && u.id[i]; i++) {
        int step = 1, at = 0;
        uint8_t root = (uint8_t)lml_unit_table_root(u.id[i], &step);
        while (at < p->count && p->id[at] != root)
            at++;
        if (at == p->count) {
            p->id[at] = root;
            p->power[at] = 0;
            p->count++;
        }
        p->power[at] += sign * step * u.power[i];
    }
}

/* Whether one dimension is a power of the other: mm beside ft, cm beside mL. */
static bool of_one_family(lml_dimension a, lml_dimension b)
{
    const int p[] = {a.mass, a.length, a.time, a.temperature, a.current, a.money};
    const int q[] = {b.mass, b.length, b.time, b.temperature, b.current, b.money};
    for (int i = 0; i < 6; i++)
        for (int j = 0; j < 6; j++)
            if (p[i] * q[j] != p[j] * q[i])
                return false;
    return true;
}

/* The product as a unit; false when it does not fit or should not be left as it is. */
static bool as_unit(const product *p, lml_unit *out)
{
    lml_unit u = {0};
    int count = 0;
    for (int i = 0; i < p->count; i++) {
        const lml_unit_row *row = lml_unit_at(p->id[i]);
        if (p->power[i] == 0 || row->sort == LML_UNIT_RATIO)
            continue;
        for (int j = 0; j < i; j++)
            if (p->power[j] && lml_unit_at(p->id[j])->sort != LML_UNIT_RATIO &&
                of_one_family(row->dimension, lml_unit_at(p->id[j])->dimension))
                return false;
        int size = p->power[i] < 0 ? -p->power[i] : p->power[i];
        unsigned whole = lml_unit_table_with_power(p->id[i], size);
        if (count == LML_UNIT_FACTORS || row->sort == LML_UNIT_POINT ||
            row->sort == LML_UNIT_KARAT || size > 9)
            return false;
        u.id[count] = whole < LML_U_COUNT ? (uint8_t)whole : p->id[i];
        u.power[count++] = (int8_t)(whole < LML_U_COUNT ? p->power[i] / size : p->power[i]);
    }
    *out = u;
    return true;
}

/* g / (g/cm3) and its like: what is both above and below cancels, and one factor is left
 * that needs no other name. */
static bool one_left(lml_unit a, lml_unit b, int sign, lml_dimension result, lml_unit *out)
{
    if (!lml_unit_single(a) || b.id[1] == 0 || b.id[2] != 0)
        return false;
    int other = b.id[0] == a.id[0];
    if (b.id[1 - other] != a.id[0] || b.power[1 - other] != -sign || b.power[other] != sign ||
        b.id[other] == LML_U_K)
        return false;
    const lml_unit_row *row = lml_unit_at(b.id[other]);
    *out = lml_unit_one(b.id[other], 1);
    return row->sort == LML_UNIT_PLAIN && lml_dimension_equal(row->dimension, result);
}

lml_unit lml_unit_combine(lml_unit a, lml_unit b, bool divide, lml_dimension result)
{
    lml_unit left;
    if (one_left(a, b, divide ? -1 : 1, result, &left))
        return left;
    /* A ratio times a plain number keeps how it was written. */
    if (lml_dimension_none(result) && lml_unit_none(b))
        return a;
    if (lml_dimension_none(result) && lml_unit_none(a) && !divide)
        return b;
    product p = {0};
    multiply(&p, a, 1);
    multiply(&p, b, divide ? -1 : 1);
    lml_unit u, usual = lml_unit_usual(result);
    lml_dimension d;
    if (!as_unit(&p, &u) || lml_unit_dimension(u, result.currency, &d, NULL) != LML_OK ||
        !lml_dimension_equal(d, result))
        return usual;
    /* K cannot be used alone, and a kilojoule says more than a watt minute. */
    bool lone_kelvin = lml_unit_single(u) && u.id[0] == LML_U_K;
    return lone_kelvin || (lml_unit_single(usual) && !lml_unit_single(u)) ? usual : u;
}
