/* craft.* of water, air, steam, heat, electrolysis and investment. */
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/what.h"
#include "cell/word.h"
#include "words/bind_craft.h"

#include "craft/air.h"
#include "craft/atmosphere.h"
#include "craft/electrolysis.h"
#include "craft/element.h"
#include "craft/heat.h"
#include "craft/hydrostatic.h"
#include "craft/slurry.h"
#include "craft/steam.h"
#include "craft/water.h"
#include "value/wanted.h"
#include "words/bind.h"

#include <math.h>

static const lml_dimension MASS = {.mass = 1};
static const lml_dimension LENGTH = {.length = 1};
static const lml_dimension TIME = {.time = 1};
static const lml_dimension CURRENT = {.current = 1};
static const lml_dimension PRESSURE = {.mass = 1, .length = -1, .time = -2};
static const lml_dimension ENERGY = {.mass = 1, .length = 2, .time = -2};
static const lml_dimension PER_KELVIN = {.temperature = -1};
static const lml_dimension HEATING = {.temperature = 1, .time = -1};

#define TAKE(who, list)                                                                            \
    lml_bind_craft_take_arguments(L, 1, "craft." who, list, sizeof list / sizeof *list)

/* What most functions of craft come to: charge, raise or push. */
static int finish(lua_State *L, lml_status status, const lml_error *e, const double *x,
                  lml_dimension dimension)
{
    if (status)
        return lml_raise(L, e);
    lml_box_charge(L, 20);
    lml_bind_craft_push_quantity(L, *x, dimension);
    return 1;
}

/* ---- water and air --------------------------------------------------------------------------- */

/* craft.water_density(temperature) */
static int water_density(lua_State *L)
{
    double x = 0,
           kelvin = lml_figure_amount(L, 1, LML_WANT_TEMPERATURE, "the temperature of the water");
    lml_error e;
    return finish(L, lml_water_density(kelvin, &x, &e), &e, &x, lml_bind_craft_density);
}

/* craft.air_density(pressure, temperature, humidity) */
static int air_density(lua_State *L)
{
    double x = 0, pressure = lml_figure_amount(L, 1, LML_WANT_PRESSURE, "the pressure of the air");
    double kelvin = lml_figure_amount(L, 2, LML_WANT_TEMPERATURE, "the temperature of the air");
    double humidity = lml_figure_amount(L, 3, LML_WANT_RATIO, "the humidity");
    lml_error e;
    return finish(L, lml_air_density(pressure, kelvin, humidity, &x, &e), &e, &x,
                  lml_bind_craft_density);
}

/* craft.buoyancy(thing, weights, air): mass over reading, from three densities. */
static int buoyancy(lua_State *L)
{
    double x = 0, thing = lml_figure_amount(L, 1, LML_WANT_DENSITY, "the density of the thing");
    double weights = lml_figure_amount(L, 2, LML_WANT_DENSITY, "the density of the weights");
    double air = lml_figure_amount(L, 3, LML_WANT_DENSITY, "the density of the air");
    lml_error e;
    return finish(L, lml_air_buoyancy(thing, weights, air, &x, &e), &e, &x, (lml_dimension){0});
}

static int finish_absolute(lua_State *L, lml_status status, const lml_error *e, const double *x)
{
    if (status)
        return lml_raise(L, e);
    lml_box_charge(L, 20);
    lml_value v = lml_value_quantity(*x, PRESSURE, lml_unit_usual(PRESSURE));
    v.mode = LML_ABSOLUTE;
    lml_figure_push(L, &v);
    return 1;
}

/* craft.standard_pressure(altitude): of the standard atmosphere, at an altitude as maps give it. */
static int standard_pressure(lua_State *L)
{
    double x = 0, height = 0, altitude = lml_figure_amount(L, 1, LML_WANT_LENGTH, "the altitude");
    lml_error e;
    lml_status status = lml_atmosphere_geopotential(altitude, &height, &e);
    if (!status)
        status = lml_atmosphere_pressure(height, &x, &e);
    return finish_absolute(L, status, &e, &x);
}

/* craft.station_pressure(reduced, altitude): from a weather report's barometer to the place's own.
 */
static int station_pressure(lua_State *L)
{
    double x = 0, height = 0;
    double reduced =
        lml_figure_amount(L, 1, LML_WANT_PRESSURE, "the pressure reduced to sea level");
    double altitude = lml_figure_amount(L, 2, LML_WANT_LENGTH, "the altitude");
    lml_error e;
    lml_status status = lml_atmosphere_geopotential(altitude, &height, &e);
    if (!status)
        status = lml_atmosphere_station(reduced, height, &x, &e);
    return finish_absolute(L, status, &e, &x);
}

/* craft.boiling_pressure(temperature): under which water boils. */
static int boiling_pressure(lua_State *L)
{
    double x = 0, kelvin = lml_figure_amount(L, 1, LML_WANT_TEMPERATURE, "the temperature");
    lml_error e;
    return finish_absolute(L, lml_steam_pressure(kelvin, &x, &e), &e, &x);
}

/* craft.boiling_temperature(pressure): of water under an absolute pressure. */
static int boiling_temperature(lua_State *L)
{
    double x = 0, pressure = lml_figure_amount(L, 1, LML_WANT_PRESSURE, "the absolute pressure");
    lml_error e;
    if (lml_steam_temperature(pressure, &x, &e))
        return lml_raise(L, &e);
    lml_box_charge(L, 20);
    lml_bind_craft_push_celsius(L, x, 0);
    return 1;
}

/* ---- weighing under water -------------------------------------------------------------------- */

/* craft.weigh_under_water { in_air, in_water, water, air, deviation }: density (with its spread
 * when the deviation of a reading is given) and what the water took off. */
static int weigh_under_water(lua_State *L)
{
    lml_hydrostatic_weighing w = {0};
    const lml_argument due[] = {
        {.name = "in_air", .wanted = LML_WANT_MASS, .out = &w.in_air},
        {.name = "in_water", .wanted = LML_WANT_MASS, .out = &w.in_water},
        {.name = "water", .wanted = LML_WANT_DENSITY, .out = &w.water},
        {.name = "air", .wanted = LML_WANT_DENSITY, .out = &w.air},
        {.name = "deviation", .wanted = LML_WANT_MASS, .out = &w.deviation, .optional = true}};
    TAKE("weigh_under_water", due);
    lml_hydrostatic_density d;
    lml_error e;
    lml_box_charge(L, 50);
    if (lml_hydrostatic_weigh(&w, &d, &e))
        return lml_raise(L, &e);
    lua_createtable(L, 0, 2);
    lml_bind_craft_push_spread(L, d.density, d.deviation, lml_bind_craft_density);
    lua_setfield(L, -2, "density");
    lml_bind_craft_set_quantity(L, "loss", d.loss, MASS);
    return 1;
}

/* craft.reading_under_water { in_air, density, water, air } */
static int reading_under_water(lua_State *L)
{
    double in_air = 0, density = 0, water = 0, air = 0, x = 0;
    const lml_argument due[] = {{.name = "in_air", .wanted = LML_WANT_MASS, .out = &in_air},
                                {.name = "density", .wanted = LML_WANT_DENSITY, .out = &density},
                                {.name = "water", .wanted = LML_WANT_DENSITY, .out = &water},
                                {.name = "air", .wanted = LML_WANT_DENSITY, .out = &air}};
    TAKE("reading_under_water", due);
    lml_error e;
    return finish(L, lml_hydrostatic_reading(in_air, density, water, air, &x, &e), &e, &x, MASS);
}

/* craft.gold_by_density { density, rest, gold, mixing }: the part of gold in a piece of that
 * density whose other part has the density `rest`, with its deviation and the share that each error
 * has in it. The part is a ratio and not cut to 0 .. 1: below 0 or above 1 the rest is not what was
 * taken. The spreads of `density` and `rest` are used; `mixing` is how far real alloys are from
 * adding volumes. */
static int gold_by_density(lua_State *L)
{
    lml_hydrostatic_guess g = {.gold = lml_element_of(LML_Au)->density.value};
    const lml_argument due[] = {
        {.name = "density",
         .wanted = LML_WANT_DENSITY,
         .out = &g.density,
         .deviation = &g.density_deviation},
        {.name = "rest",
         .wanted = LML_WANT_DENSITY,
         .out = &g.rest,
         .deviation = &g.rest_deviation},
        {.name = "gold", .wanted = LML_WANT_DENSITY, .out = &g.gold, .optional = true},
        {.name = "mixing", .wanted = LML_WANT_RATIO, .out = &g.mixing_deviation, .optional = true}};
    TAKE("gold_by_density", due);
    lml_hydrostatic_fineness f;
    lml_error e;
    lml_box_charge(L, 50);
    if (lml_hydrostatic_gold(&g, &f, &e))
        return lml_raise(L, &e);
    const lml_dimension ratio = {0};
    lua_createtable(L, 0, 5);
    lml_bind_craft_push_spread(L, f.fineness, f.deviation, ratio);
    lua_setfield(L, -2, "part");
    lml_bind_craft_set_quantity(L, "deviation", f.deviation, ratio);
    lml_bind_craft_set_quantity(L, "from_weighing", f.from_weighing, ratio);
    lml_bind_craft_set_quantity(L, "from_rest", f.from_rest, ratio);
    lml_bind_craft_set_quantity(L, "from_mixing", f.from_mixing, ratio);
    return 1;
}

/* ---- heat ------------------------------------------------------------------------------------ */

/* craft.heat_needed { mass, capacity, fusion, from, to } */
static int heat_needed(lua_State *L)
{
    lml_heat_load load = {0};
    double x = 0;
    const lml_argument due[] = {{.name = "mass", .wanted = LML_WANT_MASS, .out = &load.mass},
                                {.name = "capacity",
                                 .out = &load.capacity,
                                 .dimension = &lml_bind_craft_heat_capacity,
                                 .example = "0.39 J/(g·K)"},
                                {.name = "fusion",
                                 .out = &load.fusion,
                                 .dimension = &lml_bind_craft_heat,
                                 .example = "87 J/g",
                                 .optional = true},
                                {.name = "from", .wanted = LML_WANT_TEMPERATURE, .out = &load.from},
                                {.name = "to", .wanted = LML_WANT_TEMPERATURE, .out = &load.to}};
    TAKE("heat_needed", due);
    lml_error e;
    return finish(L, lml_heat_needed(&load, &x, &e), &e, &x, ENERGY);
}

/* craft.heat_time(energy, power, efficiency) */
static int heat_time(lua_State *L)
{
    double x = 0, joules = lml_figure_amount(L, 1, LML_WANT_ENERGY, "the heat needed");
    double power = lml_figure_amount(L, 2, LML_WANT_POWER, "the power of the furnace");
    double efficiency = lml_figure_amount(L, 3, LML_WANT_RATIO, "the efficiency");
    lml_error e;
    return finish(L, lml_heat_time(joules, power, efficiency, &x, &e), &e, &x, TIME);
}

#define CYLINDER(c)                                                                                \
    {.name = "diameter", .wanted = LML_WANT_LENGTH, .out = &(c).diameter},                         \
        {.name = "height", .wanted = LML_WANT_LENGTH, .out = &(c).height, .optional = true},       \
    {                                                                                              \
        .name = "diffusivity", .out = &(c).diffusivity, .dimension = &lml_bind_craft_diffusivity,  \
        .example = "0.35 mm2/s"                                                                    \
    }

/* craft.heat_lag { diameter, height, diffusivity } */
static int heat_lag(lua_State *L)
{
    lml_heat_cylinder c = {0};
    double x = 0;
    const lml_argument due[] = {CYLINDER(c)};
    TAKE("heat_lag", due);
    lml_error e;
    return finish(L, lml_heat_lag(&c, &x, &e), &e, &x, TIME);
}

/* craft.equalise_time { diameter, height, diffusivity, step, tolerance, rate }: until the centre of
 * a flask is within the tolerance of its surface; without a rate, after the surface jumped by the
 * step; with it, after the surface arrived. */
static int equalise_time(lua_State *L)
{
    lml_heat_cylinder c = {0};
    double step = 0, tolerance = 0, rate = NAN, x = 0;
    const lml_argument due[] = {
        CYLINDER(c),
        {.name = "step", .wanted = LML_WANT_TEMPERATURE_DIFFERENCE, .out = &step},
        {.name = "tolerance", .wanted = LML_WANT_TEMPERATURE_DIFFERENCE, .out = &tolerance},
        {.name = "rate",
         .out = &rate,
         .dimension = &HEATING,
         .example = "3 Δ°C/min",
         .optional = true}};
    TAKE("equalise_time", due);
    lml_error e;
    lml_status status = isnan(rate) ? lml_heat_equalise_step(&c, step, tolerance, &x, &e)
                                    : lml_heat_equalise_ramp(&c, step, rate, tolerance, &x, &e);
    return finish(L, status, &e, &x, TIME);
}

/* ---- electrolysis ---------------------------------------------------------------------------- */

/* craft.electrolysis_equivalent(metal, valence): mass per charge. */
static int electrolysis_equivalent(lua_State *L)
{
    lml_metal metal = lml_what_metal(L, 1);
    double charges = lml_figure_amount(L, 2, LML_WANT_WHOLE, "the valence");
    int valence = fabs(charges) <= 100 ? (int)charges : 0;
    if (charges != valence)
        return lml_raise_text(L, LML_BAD_VALUE,
                              "the valence is a small whole number such as 3, and %.17g was given",
                              charges);
    double x = 0;
    lml_error e;
    const lml_dimension dimension = {.mass = 1, .current = -1, .time = -1};
    return finish(L, lml_electrolysis_equivalent(metal, valence, &x, &e), &e, &x, dimension);
}

#define DEPOSIT(d)                                                                                 \
    {.name = "equivalent",                                                                         \
     .out = &(d).equivalent,                                                                       \
     .dimension = &MASS_PER_CHARGE,                                                                \
     .example = "craft.electrolysis_equivalent(\"Rh\", 3)"},                                       \
        {.name = "density", .wanted = LML_WANT_DENSITY, .out = &(d).density},                      \
        {.name = "efficiency", .wanted = LML_WANT_RATIO, .out = &(d).efficiency},                  \
    {                                                                                              \
        .name = "area", .wanted = LML_WANT_AREA, .out = &(d).area                                  \
    }
static const lml_dimension MASS_PER_CHARGE = {.mass = 1, .current = -1, .time = -1};

/* craft.plated_mass { equivalent, current, time, efficiency } */
static int plated_mass(lua_State *L)
{
    double equivalent = 0, current = 0, time = 0, efficiency = 0, x = 0;
    const lml_argument due[] = {
        {.name = "equivalent",
         .out = &equivalent,
         .dimension = &MASS_PER_CHARGE,
         .example = "craft.electrolysis_equivalent(\"Rh\", 3)"},
        {.name = "current", .wanted = LML_WANT_CURRENT, .out = &current},
        {.name = "time", .wanted = LML_WANT_TIME, .out = &time},
        {.name = "efficiency", .wanted = LML_WANT_RATIO, .out = &efficiency}};
    TAKE("plated_mass", due);
    lml_error e;
    return finish(L, lml_electrolysis_mass(equivalent, current, time, efficiency, &x, &e), &e, &x,
                  MASS);
}

/* craft.plated_thickness { equivalent, density, efficiency, area, current, time } */
static int plated_thickness(lua_State *L)
{
    lml_electrolysis_deposit d = {0};
    double current = 0, time = 0, x = 0;
    const lml_argument due[] = {DEPOSIT(d),
                                {.name = "current", .wanted = LML_WANT_CURRENT, .out = &current},
                                {.name = "time", .wanted = LML_WANT_TIME, .out = &time}};
    TAKE("plated_thickness", due);
    lml_error e;
    return finish(L, lml_electrolysis_thickness(&d, current, time, &x, &e), &e, &x, LENGTH);
}

/* craft.plating_time { equivalent, density, efficiency, area, thickness, current } */
static int plating_time(lua_State *L)
{
    lml_electrolysis_deposit d = {0};
    double thickness = 0, current = 0, x = 0;
    const lml_argument due[] = {DEPOSIT(d),
                                {.name = "thickness", .wanted = LML_WANT_LENGTH, .out = &thickness},
                                {.name = "current", .wanted = LML_WANT_CURRENT, .out = &current}};
    TAKE("plating_time", due);
    lml_error e;
    return finish(L, lml_electrolysis_time(&d, thickness, current, &x, &e), &e, &x, TIME);
}

/* craft.plating_current { equivalent, density, efficiency, area, thickness, time } */
static int plating_current(lua_State *L)
{
    lml_electrolysis_deposit d = {0};
    double thickness = 0, time = 0, x = 0;
    const lml_argument due[] = {DEPOSIT(d),
                                {.name = "thickness", .wanted = LML_WANT_LENGTH, .out = &thickness},
                                {.name = "time", .wanted = LML_WANT_TIME, .out = &time}};
    TAKE("plating_current", due);
    lml_error e;
    return finish(L, lml_electrolysis_current(&d, thickness, time, &x, &e), &e, &x, CURRENT);
}

/* ---- investment ------------------------------------------------------------------------------ */

/* craft.slurry_density { ratio, powder_density, water_density } */
static int slurry_density(lua_State *L)
{
    double ratio = 0, powder = 0, water = 0, x = 0;
    const lml_argument due[] = {
        {.name = "ratio", .wanted = LML_WANT_RATIO, .out = &ratio},
        {.name = "powder_density", .wanted = LML_WANT_DENSITY, .out = &powder},
        {.name = "water_density", .wanted = LML_WANT_DENSITY, .out = &water}};
    TAKE("slurry_density", due);
    lml_error e;
    return finish(L, lml_slurry_density(ratio, powder, water, &x, &e), &e, &x,
                  lml_bind_craft_density);
}

/* craft.slurry_batch { volume, ratio, powder_density, water_density }: powder and water to weigh.
 */
static int slurry_batch(lua_State *L)
{
    double volume = 0, ratio = 0, powder = 0, water = 0;
    const lml_argument due[] = {
        {.name = "volume", .wanted = LML_WANT_VOLUME, .out = &volume},
        {.name = "ratio", .wanted = LML_WANT_RATIO, .out = &ratio},
        {.name = "powder_density", .wanted = LML_WANT_DENSITY, .out = &powder},
        {.name = "water_density", .wanted = LML_WANT_DENSITY, .out = &water}};
    TAKE("slurry_batch", due);
    lml_batch batch;
    lml_error e;
    lml_box_charge(L, 20);
    if (lml_slurry_batch(volume, ratio, powder, water, &batch, &e))
        return lml_raise(L, &e);
    lua_createtable(L, 0, 2);
    lml_bind_craft_set_quantity(L, "powder", batch.powder, MASS);
    lml_bind_craft_set_quantity(L, "water", batch.water, MASS);
    return 1;
}

/* craft.working_time { time, at, temperature, rate }: of a slurry at another temperature than `at`,
 * where the cup test (or the maker) says `time`. */
static int working_time(lua_State *L)
{
    lml_cup_test test = {0};
    double rate = LML_SLURRY_RATE, temperature = 0, x = 0;
    const lml_argument due[] = {
        {.name = "time", .wanted = LML_WANT_TIME, .out = &test.time},
        {.name = "at", .wanted = LML_WANT_TEMPERATURE, .out = &test.temperature},
        {.name = "temperature", .wanted = LML_WANT_TEMPERATURE, .out = &temperature},
        {.name = "rate",
         .out = &rate,
         .dimension = &PER_KELVIN,
         .example = "0.045 1/K",
         .optional = true}};
    TAKE("working_time", due);
    lml_error e;
    return finish(L, lml_slurry_working_time(test, rate, temperature, &x, &e), &e, &x, TIME);
}

/* craft.working_rate { time, at, other_time, other_at }: the rate from two cup tests. */
static int working_rate(lua_State *L)
{
    lml_cup_test first = {0}, second = {0};
    double x = 0;
    const lml_argument due[] = {
        {.name = "time", .wanted = LML_WANT_TIME, .out = &first.time},
        {.name = "at", .wanted = LML_WANT_TEMPERATURE, .out = &first.temperature},
        {.name = "other_time", .wanted = LML_WANT_TIME, .out = &second.time},
        {.name = "other_at", .wanted = LML_WANT_TEMPERATURE, .out = &second.temperature}};
    TAKE("working_rate", due);
    lml_error e;
    return finish(L, lml_slurry_rate(first, second, &x, &e), &e, &x, PER_KELVIN);
}

const lml_word lml_bind_physics[] = {
    {"air_density", air_density, "pressure: value, temperature: value, humidity: value", "value",
     "The density of moist air.",
     "craft.air_density(Q \"1013.25 hPa\", Q \"20 °C\", Q \"50 %\"):nearest \"0.0001 kg/m3\"",
     "1.1993 kg/m3"},
    {"boiling_pressure", boiling_pressure, "temperature: value", "value",
     "The pressure under which water boils.",
     "craft.boiling_pressure(Q \"300 kelvin\"):as \"hPa\":nearest \"0.01 hPa\"", "35.37 hPa abs"},
    {"boiling_temperature", boiling_temperature, "pressure: value", "value",
     "The temperature at which water boils under an absolute pressure.",
     "craft.boiling_temperature(Q \"100 kPa abs\"):as \"°C\":nearest \"0.1 Δ°C\"", "99.6 °C"},
    {"buoyancy", buoyancy, "thing: value, weights: value, air: value", "number",
     "True mass divided by the scale reading, from three densities.",
     "craft.buoyancy(Q \"8 g/cm3\", Q \"8 g/cm3\", Q \"1.2 kg/m3\")", "1"},
    {"electrolysis_equivalent", electrolysis_equivalent, "metal: string, valence: number", "value",
     "The mass that an electric charge deposits.",
     "(craft.electrolysis_equivalent(\"Ag\", 1) * Q \"1 A\" * Q \"1 s\"):as \"mg\":nearest "
     "\"0.001 mg\"",
     "1.118 mg"},
    {"equalise_time", equalise_time, "of: table", "value",
     "The time until the middle of a flask has caught up with its surface: diameter, height, "
     "diffusivity, step, tolerance, rate.",
     "craft.equalise_time { diameter = Q \"2 m\", diffusivity = Q \"1 m2/min\", step = Q "
     "\"100 Δ°C\", tolerance = Q \"10 Δ°C\" }:as \"min\":nearest \"0.01 min\"",
     "0.48 min"},
    {"gold_by_density", gold_by_density, "of: table", "table",
     "The share of gold in a piece of that density: density, rest, gold, mixing.",
     "craft.gold_by_density({ density = Q \"15.96116 g/cm3\", rest = Q \"10.49 g/cm3\", gold "
     "= Q \"19.32 g/cm3\" }).part:as \"%\":nearest \"0.1 %\"",
     "75.0 %"},
    {"heat_lag", heat_lag, "of: table", "value",
     "How long the middle of a flask lags behind a steady rise: diameter, height, diffusivity.",
     "craft.heat_lag { diameter = Q \"2 m\", diffusivity = Q \"1 m2/min\" }:as "
     "\"min\":nearest \"0.001 min\"",
     "0.173 min"},
    {"heat_needed", heat_needed, "of: table", "value",
     "The heat that warms and melts a mass: mass, capacity, fusion, from, to.",
     "craft.heat_needed { mass = Q \"1 kg\", capacity = Q \"2.09 J/(g·K)\", from = Q \"0 "
     "°C\", to = Q \"10 °C\" }:as \"kJ\"",
     "20.9 kJ"},
    {"heat_time", heat_time, "energy: value, power: value, efficiency: value", "value",
     "How long a furnace takes for that heat.",
     "craft.heat_time(Q \"900 kJ\", Q \"1500 W\", Q \"50 %\"):as \"min\"", "20 min"},
    {"plated_mass", plated_mass, "of: table", "value",
     "What a bath deposits: equivalent, current, time, efficiency.",
     "craft.plated_mass { equivalent = craft.electrolysis_equivalent(\"Ag\", 1), current = Q "
     "\"2 A\", time = Q \"10 min\", efficiency = Q \"100 %\" }:as \"g\":nearest \"0.001 g\"",
     "1.342 g"},
    {"plated_thickness", plated_thickness, "of: table", "value",
     "How thick the layer grows: equivalent, density, efficiency, area, current, time.",
     "craft.plated_thickness { equivalent = craft.electrolysis_equivalent(\"Rh\", 3), "
     "density = Q \"12.41 g/cm3\", efficiency = Q \"75 %\", area = Q \"8.09 cm2\", current = "
     "Q \"0.15 A\", time = Q \"90 s\" }:as \"µm\":nearest \"0.001 µm\"",
     "0.359 µm"},
    {"plating_current", plating_current, "of: table", "value",
     "The current for a layer in a time: equivalent, density, efficiency, area, thickness, time.",
     "craft.plating_current { equivalent = craft.electrolysis_equivalent(\"Rh\", 3), density "
     "= Q \"12.41 g/cm3\", efficiency = Q \"75 %\", area = Q \"8.09 cm2\", thickness = Q "
     "\"0.5 µm\", time = Q \"90 s\" }:as \"A\":nearest \"0.001 A\"",
     "0.209 A"},
    {"plating_time", plating_time, "of: table", "value",
     "The time for a layer: equivalent, density, efficiency, area, thickness, current.",
     "craft.plating_time { equivalent = craft.electrolysis_equivalent(\"Rh\", 3), density = "
     "Q \"12.41 g/cm3\", efficiency = Q \"75 %\", area = Q \"8.09 cm2\", thickness = Q \"0.5 "
     "µm\", current = Q \"0.3 A\" }:as \"s\":nearest \"0.1 s\"",
     "62.8 s"},
    {"reading_under_water", reading_under_water, "of: table", "value",
     "What the scale should show: in_air, density, water, air.",
     "craft.reading_under_water { in_air = Q \"390 g\", density = Q \"7.8 g/cm3\", water = Q "
     "\"1 g/cm3\", air = Q \"0 g/cm3\" }:nearest \"0.1 g\"",
     "340.0 g"},
    {"slurry_batch", slurry_batch, "of: table", "table",
     "Powder and water to weigh: volume, ratio, powder_density, water_density.",
     "craft.slurry_batch({ volume = Q \"1 L\", ratio = Q \"40 %\", powder_density = Q \"2.5 "
     "g/cm3\", water_density = Q \"1 g/cm3\" }).powder:as \"g\":nearest \"1 g\"",
     "1250 g"},
    {"slurry_density", slurry_density, "of: table", "value",
     "The density of mixed investment: ratio, powder_density, water_density.",
     "craft.slurry_density { ratio = Q \"40 %\", powder_density = Q \"2.5 g/cm3\", "
     "water_density = Q \"1 g/cm3\" }:as \"g/cm3\":nearest \"0.01 g/cm3\"",
     "1.75 g/cm3"},
    {"standard_pressure", standard_pressure, "altitude: value", "value",
     "The pressure of the standard atmosphere at that height.",
     "craft.standard_pressure(Q \"0 m\"):as \"hPa\":nearest \"0.01 hPa\"", "1013.25 hPa abs"},
    {"station_pressure", station_pressure, "reduced: value, altitude: value", "value",
     "The place's own pressure from a weather report's.",
     "craft.station_pressure(Q \"101325 Pa\", Q \"0 m\"):as \"hPa\":nearest \"0.01 hPa\"",
     "1013.25 hPa abs"},
    {"water_density", water_density, "temperature: value", "value",
     "The density of air-free water.",
     "craft.water_density(Q \"4 °C\"):as \"kg/m3\":nearest \"0.001 kg/m3\"", "999.975 kg/m3"},
    {"weigh_under_water", weigh_under_water, "of: table", "table",
     "density, and the weight lost under water: in_air, in_water, water, air, deviation.",
     "craft.weigh_under_water({ in_air = Q \"8.63 g\", in_water = Q \"7.8 g\", water = Q \"1 "
     "g/cm3\", air = Q \"0 g/cm3\" }).density:as \"g/cm3\":nearest \"0.1 g/cm3\"",
     "10.4 g/cm3"},
    {"working_rate", working_rate, "of: table", "value",
     "The rate of a slurry from two cup tests: time, at, other_time, other_at.",
     "craft.working_rate { time = Q \"10 min\", at = Q \"20 °C\", other_time = Q \"10 min\", "
     "other_at = Q \"30 °C\" }",
     "0 1/K"},
    {"working_time", working_time, "of: table", "value",
     "The working time of a slurry at another temperature: time, at, temperature, rate.",
     "craft.working_time { time = Q \"10 min\", at = Q \"20 °C\", temperature = Q \"20 °C\", "
     "rate = craft.working_rate { time = Q \"10 min\", at = Q \"20 °C\", other_time = Q \"8 "
     "min\", other_at = Q \"25 °C\" } }:as \"min\"",
     "10 min"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
