#include "value/wanted.h"
#include "unit/unit_table.h"
#include "value/write.h"
#include <math.h>
#include <stdio.h>

static const struct {
    const char *name, *example, *words;
} kinds[LML_WANTED_COUNT] = {
#define X(id, name, example, words) [LML_WANT_##id] = {name, example, words},
    LML_WANTED_MAP(X)
#undef X
};

const char *lml_wanted_name(lml_wanted w)
{
    return kinds[w].name;
}

const char *lml_wanted_example(lml_wanted w)
{
    return kinds[w].example;
}

const char *lml_wanted_words(lml_wanted w)
{
    return kinds[w].words;
}

const char *lml_wanted_nothing(lml_wanted w)
{
    static const char *const nothing[LML_WANTED_COUNT] = {
        [LML_WANT_MASS] = "0 g",        [LML_WANT_LENGTH] = "0 mm", [LML_WANT_AREA] = "0 mm2",
        [LML_WANT_VOLUME] = "0 mm3",    [LML_WANT_TIME] = "0 min",  [LML_WANT_RATIO] = "0 %",
        [LML_WANT_DENSITY] = "0 g/cm3", [LML_WANT_ENERGY] = "0 J",  [LML_WANT_POWER] = "0 W",
        [LML_WANT_CURRENT] = "0 A"};
    return nothing[w];
}

lml_wanted lml_wanted_by_name(lml_span name)
{
    for (unsigned i = 0; i < LML_WANTED_COUNT; i++)
        if (lml_span_is(name, kinds[i].name))
            return (lml_wanted)i;
    return LML_WANTED_COUNT;
}

static const lml_dimension pressure = {1, -1, -2, 0, 0, 0, 0};

/* The one dimension that a quantity of this kind has, or NULL. */
static const lml_dimension *dimension_due(lml_wanted w)
{
    static const lml_dimension none = {0}, mass = {.mass = 1}, length = {.length = 1},
                               area = {.length = 2}, volume = {.length = 3}, time = {.time = 1},
                               temperature = {.temperature = 1}, current = {.current = 1},
                               density = {.mass = 1, .length = -3},
                               energy = {.mass = 1, .length = 2, .time = -2},
                               power = {.mass = 1, .length = 2, .time = -3};
    switch (w) {
    case LML_WANT_MASS:
        return &mass;
    case LML_WANT_LENGTH:
        return &length;
    case LML_WANT_AREA:
        return &area;
    case LML_WANT_VOLUME:
        return &volume;
    case LML_WANT_TIME:
        return &time;
    case LML_WANT_TEMPERATURE_DIFFERENCE:
        return &temperature;
    case LML_WANT_RATIO:
        return &none;
    case LML_WANT_DENSITY:
        return &density;
    case LML_WANT_PRESSURE:
    case LML_WANT_VACUUM:
        return &pressure;
    case LML_WANT_ENERGY:
        return &energy;
    case LML_WANT_POWER:
        return &power;
    case LML_WANT_CURRENT:
        return &current;
    default:
        return NULL;
    }
}

static bool quantity_fits(lml_wanted w, const lml_value *v)
{
    const lml_dimension *due = dimension_due(w);
    lml_dimension d = v->dimension;
    if (w == LML_WANT_GAUGE) /* the one kind of gauge or the other, and it says which */
        return lml_dimension_equal(d, pressure) && v->mode != LML_NO_MODE;
    if (due)
        return lml_dimension_equal(d, *due) && (v->mode == LML_VACUUM) == (w == LML_WANT_VACUUM);
    if (w == LML_WANT_RATE)
        return d.time == -1;
    d.money = 0;
    d.currency = 0;
    return w == LML_WANT_PRICE && v->dimension.money == 1 && !lml_dimension_none(d);
}

static bool fits(lml_wanted w, const lml_value *v)
{
    switch (w) {
    case LML_WANT_ANYTHING:
        return true;
    case LML_WANT_NUMBER:
        return v->kind == LML_NUMBER;
    case LML_WANT_WHOLE:
        return v->kind == LML_NUMBER && v->spread == LML_NO_SPREAD && v->amount == floor(v->amount);
    case LML_WANT_FINE_MASS:
        return v->kind == LML_FINE_MASS;
    case LML_WANT_TEMPERATURE:
        return v->kind == LML_TEMPERATURE;
    case LML_WANT_FINENESS:
        return v->kind == LML_FINENESS;
    case LML_WANT_MONEY:
        return v->kind == LML_MONEY;
    case LML_WANT_MOMENT:
        return v->kind == LML_MOMENT;
    case LML_WANT_TIME_OF_DAY:
        return v->kind == LML_TIME_OF_DAY;
    case LML_WANT_WEEKDAY:
        return v->kind == LML_WEEKDAY;
    default:
        return v->kind == LML_QUANTITY && quantity_fits(w, v);
    }
}

/* The value's amount and a unit that would have been right. */
static void hint_in(const lml_value *v, const char *unit, const char *meaning, lml_error *err)
{
    char text[LML_VALUE_TEXT];
    lml_value bare = lml_value_number(lml_write_in_unit(v));
    lml_write_text(&bare, text);
    lml_error_hint(err, "write %s %s for %s", text, unit, meaning);
}

enum { SPREAD = 2 * LML_VALUE_TEXT + 16 };

/* A number times a factor, in that unit, with its spread. Rounded to nine decimals: 1.005 becomes
 * 100.5 and not 100.49999999999999. */
static const char *counted_in(const lml_value *v, double times, const char *unit, char out[SPREAD])
{
    char one[LML_VALUE_TEXT], other[LML_VALUE_TEXT];
    bool between = v->spread == LML_BETWEEN;
    double first = between ? v->low : v->amount, second = between ? v->high : v->low;
    lml_value n = lml_value_number(times == 1 ? first : round(first * times * 1e9) / 1e9),
              off = lml_value_number(times == 1 ? second : round(second * times * 1e9) / 1e9);
    lml_write_text(&n, one);
    lml_write_text(&off, other);
    if (between)
        snprintf(out, SPREAD, "%s..%s %s", one, other, unit);
    else if (v->spread == LML_DEVIATION)
        snprintf(out, SPREAD, "%s %s ± %s %s", one, unit, other, unit);
    else
        snprintf(out, SPREAD, "%s %s", one, unit);
    return out;
}

/* A bare number where a unit is needed. */
static void hint_unit(lml_wanted w, const lml_value *v, lml_error *err)
{
    double x = v->amount;
    char said[SPREAD], meant[SPREAD];
    bool of_one = x > 0 && (w == LML_WANT_RATIO ? x < 10 : x < 1); /* 585 of one is no ratio */
    bool of_hundred = w == LML_WANT_FINENESS && x > 24 && x <= 100;
    if (w == LML_WANT_RATIO && of_one)
        lml_error_hint(err, "write %s or, if it is a fraction of one, %s",
                       counted_in(v, 1, "%", said), counted_in(v, 100, "%", meant));
    else if (w == LML_WANT_RATIO)
        lml_error_hint(err, "write %s", counted_in(v, 1, "%", said));
    else if (w == LML_WANT_FINENESS && of_one)
        lml_error_hint(err, "write %s if it is a fraction of one", counted_in(v, 1000, "‰", meant));
    else if (of_hundred)
        lml_error_hint(err, "write %s or, if it is a percentage, %s", counted_in(v, 1, "‰", said),
                       counted_in(v, 10, "‰", meant));
    else if (w == LML_WANT_FINENESS && x > 0 && x <= 24)
        lml_error_hint(err, "write %s or %s", counted_in(v, 1, "kt", said),
                       counted_in(v, 1, "‰", meant));
    else if (w == LML_WANT_FINENESS)
        lml_error_hint(err, "write %s", counted_in(v, 1, "‰", said));
    else
        lml_error_hint(err, "write the unit too, as in %s", lml_wanted_example(w));
}

/* Of a pressure where a vacuum is due, or what a gauge shows. */
static void hint_gauge(lml_wanted w, const lml_value *v, lml_error *err)
{
    char text[LML_VALUE_TEXT];
    lml_value depth = *v; /* a gauge that counts from the air shows a vacuum below zero */
    depth.amount = fabs(v->amount);
    lml_write_text(v->spread == LML_NO_SPREAD ? &depth : v, text);
    if (v->mode == LML_ABSOLUTE)
        lml_error_hint(err, "a vacuum is the depth below the surrounding air: subtract "
                            "the pressure from that of the air and write it with vac");
    else if (v->amount < 0)
        lml_error_hint(err, "write %s vac for the depth below the surrounding air", text);
    else
        lml_error_hint(err,
                       w == LML_WANT_GAUGE
                           ? "write %s vac if the gauge shows a depth of vacuum (zero in open "
                             "air), %s abs if it shows absolute pressure (zero in empty space)"
                           : "write %s vac for the depth below the surrounding air; %s abs "
                             "is a pressure, counted from zero",
                       text, text);
}

/* The likely fix for the mix-ups that people make. */
static void hint(lml_wanted w, const lml_value *v, lml_error *err)
{
    char unit[LML_UNIT_TEXT];
    lml_unit_write(v->unit, v->dimension.currency, unit);
    bool quantity = v->kind == LML_QUANTITY;
    if (w == LML_WANT_TEMPERATURE && quantity && v->dimension.temperature == 1) {
        lml_error_hint(err, "a difference is written with Δ; a temperature is written °C, "
                            "°F or kelvin");
        return;
    }
    if (w == LML_WANT_TEMPERATURE_DIFFERENCE && v->kind == LML_TEMPERATURE) {
        hint_in(v, v->unit.id[0] == LML_U_DEGF ? "Δ°F" : "Δ°C", "a temperature difference", err);
        return;
    }
    bool of_gauge = w == LML_WANT_VACUUM || w == LML_WANT_GAUGE;
    if (of_gauge && quantity && lml_dimension_equal(v->dimension, pressure)) {
        hint_gauge(w, v, err);
        return;
    }
    if (w == LML_WANT_PRESSURE && quantity && v->mode == LML_VACUUM) {
        lml_error_hint(err,
                       "a vacuum is the depth below the surrounding air: subtract it "
                       "from the air pressure, or write %s abs if the gauge counts "
                       "from zero",
                       unit);
        return;
    }
    if (w == LML_WANT_FINENESS && quantity && lml_dimension_none(v->dimension)) {
        lml_value parts = *v;
        parts.unit = lml_unit_one(LML_U_PER_MILLE, 1);
        hint_in(&parts, "‰", "a fineness, and name the metal", err);
        return;
    }
    if (w == LML_WANT_FINENESS && quantity && v->unit.id[0] == LML_U_CT) {
        hint_in(v, "kt", "a fineness: ct is the carat of gem mass", err);
        return;
    }
    if (w == LML_WANT_MASS && v->kind == LML_FINE_MASS) {
        lml_error_hint(err, "leave out the metal's name for the mass of a piece; a fine "
                            "mass counts one metal only");
        return;
    }
    if (w == LML_WANT_FINE_MASS && quantity && v->dimension.mass == 1) {
        lml_error_hint(err, "name the metal: 7.5 g Au");
        return;
    }
    if (v->kind == LML_NUMBER && w != LML_WANT_WHOLE) {
        hint_unit(w, v, err);
        return;
    }
    lml_error_hint(err, "write it like %s", lml_wanted_example(w));
}

lml_status lml_wanted_check(lml_wanted w, const lml_value *v, lml_error *err)
{
    if (fits(w, v))
        return LML_OK;
    if (!err)
        return LML_BAD_VALUE;
    char text[LML_VALUE_TEXT], what[80];
    lml_write_text(v, text);
    lml_value_what(v, what, sizeof what);
    lml_fail(err, LML_BAD_VALUE, "%s is needed, but %s is %s", lml_wanted_words(w), text, what);
    hint(w, v, err);
    return LML_BAD_VALUE;
}

bool lml_wanted_has_unit(lml_wanted w)
{
    return (w > LML_WANT_ANYTHING && w < LML_WANT_NUMBER) || w == LML_WANT_MOMENT ||
           w == LML_WANT_TIME_OF_DAY || w == LML_WANT_WEEKDAY;
}
