/* craft.* as a recipe reaches it: each function answers in the right unit with a published figure,
 * and says in words what is wrong. The sums themselves are tested with engine/craft. */
#include "lemel.h"

#include "cell/word.h"
#include "words/bind.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The answer in `unit` (NULL: as it comes), or the message of the refusal. */
static char *reckon(const char *expression, const char *unit, lml_status due)
{
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_text text;
    lml_error e;
    lml_status status = lml_engine_reckon(engine, expression, unit, 0, &text, &e);
    cr_assert_eq(status, due, "%s: status %d, %s", expression, status,
                 status ? e.message : text.text);
    char said[1000];
    if (status)
        snprintf(said, sizeof said, "%s / %s", e.message, e.hint);
    else {
        snprintf(said, sizeof said, "%s", text.text);
        lml_text_free(engine, &text);
    }
    lml_engine_free(engine);
    return strdup(said);
}

/* A published figure, the unit it is printed in, and how near we must come. */
typedef struct figure {
    const char *expression, *unit;
    double published, tolerance;
    const char *source;
} figure;

#define STERLING "{Ag=\"925 ‰\", Cu=\"75 ‰\"}"
#define RHODIUM                                                                                    \
    "equivalent=craft.electrolysis_equivalent(\"Rh\", 3), density=Q\"12.41 g/cm3\", "              \
    "efficiency=Q\"75 %\", area=Q\"8.09 cm2\""
#define FLASK "diameter=Q\"2 m\", diffusivity=Q\"1 m2/s\"/60"

static const char OURS[] = "worked example of our own";
static const char OPENSTAX[] = "OpenStax, College Physics 2e (2022), chapter 11, problem";
static const char ASHRAE[] = "ASHRAE Handbook, Fundamentals (2017), chapter 1, Table 1";

static const figure figures[] = {
    {"craft.density{Au=\"916.67 ‰\", Cu=\"83.33 ‰\"}", "g/cm3", 17.48, 0.07,
     "T. Kirke Rose, The Metallurgy of Gold, gold and copper alloys"},
    {"craft.plain_density{Au=\"750 ‰\", Ag=\"250 ‰\"}", "g/cm3", 15.96, 0.02,
     "volumes add: 1/15.96 = 0.75/19.32 + 0.25/10.49"},
    {"craft.liquid_density({Au=\"1000 ‰\"}, Q\"1064 °C\")", "g/cm3", 17.31, 0.01,
     "CRC Handbook of Chemistry and Physics, Density of Molten Elements"},
    {"craft.heat_capacity{Au=\"1000 ‰\"}", "J/(g·K)", 0.129, 0.0005,
     "CRC Handbook of Chemistry and Physics, 95th ed. (2014)"},
    {"craft.fusion_heat{Au=\"1000 ‰\"}", "J/g", 63.7, 0.05,
     "CRC Handbook of Chemistry and Physics, 95th ed. (2014)"},
    {"craft.melting_range(" STERLING ").liquidus", "°C", 893, 28,
     "CRC Handbook tables: from memory, unverified"},
    {"craft.melting_range(" STERLING ").solidus", "°C", 802, 28,
     "CRC Handbook tables: from memory, unverified"},
    {"craft.element\"Ag\".melts", "°C", 961.78, 0.001, "International Temperature Scale of 1990"},
    {"craft.element\"Zn\".boils", "°C", 907, 1, "CRC Handbook: from memory, unverified"},
    {"craft.element\"Au\".atomic_weight", NULL, 196.966570, 0.0001, "IUPAC 2021"},
    {"craft.addition(Q\"7 g\", Q\"10 kt\", Q\"14 kt\", Q\"24 kt\")", "g", 2.8, 0.05,
     "Gold alloying: formulas for raising and lowering a karat (bench supplier's page)"},
    {"(craft.split(Q\"80 g\", Q\"520 ‰ Au\", Q\"200 ‰ Au\", Q\"600 ‰ Au\"))", "g", 16, 1e-9,
     "Algebra exercise 1030463: two gold alloys, 80 g of 52 %"},
    {"craft.normal(1.96)", "%", 97.5, 0.0006,
     "NIST/SEMATECH e-Handbook, 1.3.6.7.1: from memory, unverified"},
    {"craft.normal_quantile(Q\"95 %\")", NULL, 1.6449, 0.00005,
     "NIST/SEMATECH e-Handbook, 1.3.6.7.1: from memory, unverified"},
    {"craft.student_quantile(0.975, 4)", NULL, 2.78, 0.005,
     "JCGM 100:2008, Table G.2: from memory, unverified"},

    {"craft.water_density(Q\"4 °C\")", "kg/m3", 999.9749, 0.00005,
     "Tanaka and others, Metrologia 38 (2001) 301, table"},
    {"craft.air_density(Q\"1013.25 hPa\", Q\"20 °C\", Q\"50 %\")", "kg/m3", 1.19931, 0.000006,
     "CIPM-2007, Metrologia 45 (2008) 149, evaluated"},
    {"craft.buoyancy(Q\"19.3 g/cm3\", Q\"8 g/cm3\", Q\"1.2 kg/m3\")", NULL, 0.999912171, 1e-9,
     "OIML D 28:2004, evaluated"},
    {"craft.standard_pressure(Q\"4000 m\")", "Pa abs", 61660, 1,
     "U.S. Standard Atmosphere, 1976, table by 2 km of geometric altitude"},
    {"craft.station_pressure(Q\"101325 Pa\", Q\"1000.16 m\")", "Pa abs", 89875, 1, ASHRAE},
    {"craft.boiling_pressure(Q\"300 kelvin\")", "Pa abs", 3536.58941, 1e-4,
     "IAPWS R7-97(2012), Table 35"},
    {"craft.boiling_temperature(Q\"100 kPa abs\")", "kelvin", 372.755919, 5e-7,
     "IAPWS R7-97(2012), Table 36"},
    {"craft.weigh_under_water{in_air=Q\"8.63 g\", in_water=Q\"7.8 g\", water=Q\"1 g/cm3\", "
     "air=Q\"0 g/cm3\"}.density",
     "g/cm3", 10.4, 0.005, OPENSTAX},
    {"craft.reading_under_water{in_air=Q\"390 g\", density=Q\"7.8 g/cm3\", water=Q\"0.79 g/cm3\", "
     "air=Q\"0 g/cm3\"}",
     "g", 350.5, 0.05, OPENSTAX},
    {"craft.gold_by_density{density=Q\"15.96116 g/cm3\", rest=Q\"10.49 g/cm3\", gold=Q\"19.32 "
     "g/cm3\"}.part",
     "%", 75, 0.0001, "volumes add: 1/15.96116 = 0.75/19.32 + 0.25/10.49"},
    {"craft.heat_needed{mass=Q\"1 kg\", capacity=Q\"2.09 J/(g·K)\", fusion=Q\"334 J/g\", from=Q\"0 "
     "°C\", to=Q\"0 °C\"}",
     "kJ", 334, 0.5, "OpenStax, College Physics 2e (2022), chapter 14: from memory, unverified"},
    {"craft.heat_time(Q\"493.149 kJ\", Q\"1500 W\", Q\"60 %\")", "min", 9.132, 0.001, OURS},
    {"craft.heat_lag{" FLASK "}", "min", 1 / 5.783186, 1e-6,
     "Abramowitz and Stegun (1964), Table 9.5: the square of the first zero of J0 is 5.783186"},
    {"craft.equalise_time{" FLASK ", step=Q\"100 Δ°C\", tolerance=Q\"10 Δ°C\"}", "min", 0.48,
     0.0005, "infinite cylinder whose surface jumps: 1.602 exp(-5.783 Fo) is 0.1"},
    {"craft.electrolysis_equivalent(\"Ag\", 1) * Q\"1 A\" * Q\"1 s\"", "mg", 1.117975, 0.00002,
     "M/(n F): IUPAC 2021, SI of 2019"},
    {"craft.plated_mass{equivalent=craft.electrolysis_equivalent(\"Ag\", 1), current=Q\"2 A\", "
     "time=Q\"1 h\", efficiency=1}",
     "g", 8.0494, 0.0002, "M/(n F) of silver, 1.117975 mg/C, times 7200 C"},
    {"craft.plated_thickness{" RHODIUM ", current=Q\"0.202 A\", time=Q\"46.5 s\"}", "µm", 0.25,
     0.001, OURS},
    {"craft.plating_time{" RHODIUM ", thickness=Q\"0.25 µm\", current=Q\"0.202 A\"}", "s", 46.5,
     0.15, OURS},
    {"craft.plating_current{" RHODIUM ", thickness=Q\"0.25 µm\", time=Q\"46.5 s\"}", "A", 0.202,
     0.001, OURS},
    {"craft.slurry_density{ratio=Q\"40 %\", powder_density=Q\"2.55 g/cm3\", water_density=Q\"1 "
     "g/cm3\"}",
     "g/cm3", 1.767, 0.0005, "(100 + 40) / (100 / 2.55 + 40)"},
    {"craft.slurry_batch{volume=Q\"100 mL\", ratio=Q\"40 %\", powder_density=Q\"2.55 g/cm3\", "
     "water_density=Q\"1 g/cm3\"}.powder",
     "g", 126.24, 0.01, "100 / (1/2.55 + 0.40)"},
    {"craft.working_time{time=Q\"9.5 min\", at=Q\"22 °C\", temperature=Q\"21 °C\"}", "min", 9.94,
     0.005, OURS},
    {"craft.working_rate{time=Q\"9.5 min\", at=Q\"22 °C\", other_time=Q\"7.585904 min\", "
     "other_at=Q\"27 "
     "°C\"}",
     "1/K", 0.045, 0.0001, OURS},

    {"craft.charge{lots={{name=\"poor\", composition={Au=\"200 ‰\"}, price=Q\"1 USD/g\"}, "
     "{name=\"rich\", composition={Au=\"600 ‰\"}, price=Q\"3 USD/g\"}}, mass=Q\"80 g\", "
     "bounds={{metal=\"Au\", low=\"520 ‰\"}}, step=Q\"0.01 g\"}.weigh[2].mass",
     "g", 16, 1e-9, "Algebra exercise 1030463: two gold alloys, 80 g of 52 %"},
};
enum { FIGURES = sizeof figures / sizeof *figures };

Test(craft, published)
{
    for (size_t i = 0; i < FIGURES; i++) {
        const figure *f = &figures[i];
        char *said = reckon(f->expression, f->unit, LML_OK), *end;
        double x = strtod(said, &end);
        cr_expect_neq(end, said, "%s is no number: %s", f->expression, said);
        cr_expect(fabs(x - f->published) <= f->tolerance, "%s is %s, published %.9g (%s)",
                  f->expression, said, f->published, f->source);
        free(said);
    }
}

/* So that a new binding cannot stay without its figure. */
Test(craft, every_function_has_a_figure)
{
    const lml_word *const libraries[] = {lml_bind_craft, lml_bind_physics, lml_bind_charge};
    for (size_t l = 0; l < sizeof libraries / sizeof *libraries; l++) {
        for (const lml_word *f = libraries[l]; f->name; f++) {
            bool found = false;
            char call[60];
            snprintf(call, sizeof call, "craft.%s", f->name);
            for (size_t i = 0; i < FIGURES; i++) {
                const char *at = strstr(figures[i].expression, call);
                found |= at && strchr("({\"", at[strlen(call)]);
            }
            cr_expect(found, "nothing checks %s", call);
        }
    }
}

static void says(const char *expression, lml_status due, const char *words)
{
    char *said = reckon(expression, NULL, due);
    cr_expect_not_null(strstr(said, words), "%s says: %s", expression, said);
    free(said);
}

Test(craft, arguments_are_checked)
{
    says("craft.heat_needed{mas=Q\"1 g\"}", LML_BAD_RECIPE, "did you mean mass?");
    says("craft.heat_needed{mass=Q\"1 g\"}", LML_BAD_RECIPE, "needs capacity");
    says("craft.heat_needed{mass=Q\"1 g\", capacity=Q\"1 J/g\", from=Q\"1 °C\", to=Q\"2 °C\"}",
         LML_BAD_VALUE, "0.39 J/(g·K)");
    says("craft.heat_needed{Q\"1 g\"}", LML_BAD_RECIPE, "named values");
    says("craft.heat_needed(3)", LML_BAD_RECIPE, "needs a table");
    says("craft.water_density(Q\"22 g\")", LML_BAD_VALUE, "a temperature is needed");
    says("craft.water_density(Q\"80 °C\")", LML_BAD_VALUE, "temperature of the water");
    says("craft.boiling_temperature(Q\"20 inHg vac\")", LML_BAD_VALUE, "a pressure is needed");
    says("craft.addition(Q\"1 g\", Q\"585 ‰ Au\", Q\"750 ‰ Ag\", Q\"999 ‰ Au\")", LML_MISMATCH,
         "silver");
    says("craft.student_quantile(0.95, 2.5)", LML_BAD_VALUE, "a whole number");
}

/* A recipe can say "not known" instead of stopping. */
Test(craft, what_is_not_known_is_nil_with_a_reason)
{
    says("craft.melting_range{Au=\"750 ‰\", Ni=\"250 ‰\"}", LML_OK, "nil");
    says("(select(2, craft.melting_range{Au=\"750 ‰\", Ni=\"250 ‰\"}))", LML_OK, "nickel");
    says("craft.melting_range{Au=\"750 ‰\"}", LML_BAD_VALUE, "adds up");
    says("(select(2, craft.liquid_density({Au=\"750 ‰\", In=\"250 ‰\"}, Q\"900 °C\")))", LML_OK,
         "indium");
    says("craft.element\"Rh\".sources.density", LML_OK, "CRC");
}

Test(craft, an_alloy_estimates_its_melting_range_when_asked)
{
    says("alloy{composition={Au=\"750 ‰\", Ag=\"125 ‰\", Cu=\"125 ‰\"}}.liquidus", LML_OK, "898");
    says("alloy{composition={Au=\"750 ‰\", Ni=\"250 ‰\"}}.liquidus", LML_OK, "nil");
    says("alloy{composition={Au=\"750 ‰\", Cu=\"250 ‰\"}, solidus=\"900 °C\"}.solidus", LML_OK,
         "900 °C");
    says("alloy{composition={Au=\"750 ‰\", Cu=\"250 ‰\"}, solidus=\"900 °C\"}.liquidus", LML_OK,
         "nil");
}

#define CHARGE(lots, rest) "craft.charge{lots={" lots "}, mass=Q\"40 g\", step=Q\"0.01 g\"" rest "}"
#define COINS "{name=\"coins\", available=Q\"50 g\", composition={Ag=\"912 ‰\"}}"

Test(craft, a_charge_says_why_not)
{
    says(CHARGE(COINS, ", bounds={{metal=\"Ag\", low=\"925 ‰\"}}") ".reason", LML_OK,
         "silver cannot exceed 912 ‰, but at least 925 ‰ is needed");
    says(CHARGE(COINS, ", bounds={{metal=\"Ag\", low=\"925 ‰\"}}") ".clash[2]", LML_OK,
         "at least 925 ‰ silver");
    says(CHARGE("{name=\"coins\", available=Q\"30 g\", composition={Ag=\"912 ‰\"}}", "") ".reason",
         LML_OK, "all lots together weigh 30 g, but 40 g is needed");
    says(CHARGE(COINS "," COINS, ""), LML_BAD_VALUE, "two lots are called \"coins\"");
    says(CHARGE(COINS, ", shares={{name=\"spoons\", lots={\"spoons\"}, most=Q\"50 %\"}}"),
         LML_NOT_FOUND, "spoons");
    says(CHARGE(COINS, ", objective=\"cheap\""), LML_BAD_VALUE, "least cost, least new metal");
    says(CHARGE(COINS, ", bounds={{metal=\"Ag\", low=Q\"750 ‰ Au\"}}"), LML_MISMATCH, "silver");
    says(CHARGE("{name=\"coins\", price=Q\"5 USD/h\", composition={Ag=\"912 ‰\"}}", ""),
         LML_MISMATCH, "per mass");
    says(
        CHARGE(
            "{name=\"a\", price=Q\"5 USD/g\", composition={Ag=\"912 ‰\"}}, {name=\"b\", price=Q\"5 "
            "EUR/g\", composition={Ag=\"912 ‰\"}}",
            ""),
        LML_MISMATCH, "two currencies");
    says(CHARGE(COINS, ", masss=3"), LML_BAD_RECIPE, "did you mean mass?");
}

/* A figure that a stop withholds stays hidden on the sheet when it stands inside a list. */
Test(craft, a_withheld_list_is_not_printed)
{
    static const char recipe[] =
        "return recipe { title = \"T\", version = \"1.0.0\", licence = \"CC0-1.0\", level = 1,"
        "  asks = {}, allowances = {}, gives = { weigh = give.list { \"W\", of = give.record { "
        "\"R\","
        "    fields = { mass = give.mass \"M\" } } }, other = give.mass \"O\" },"
        "  work = function(job, house, sheet)"
        "    local list = { { mass = Q \"12.34 g\" } }"
        "    sheet:stop(\"no\", \"No\", { \"weigh\" })"
        "    sheet.bench:line(\"Weigh\", list[1].mass)"
        "    sheet.bench:line(\"Other\", Q \"56.78 g\")"
        "    return { weigh = list, other = Q \"56.78 g\" }"
        "  end, proofs = { { \"p\", given = {}, stops = { \"no\" }, source = \"worked example of "
        "our own\" } } }";
    static const char job[] = "{\"recipe\": \"t\"}";
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    lml_text result;
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "t", recipe, sizeof recipe - 1, "t.lua", &e),
        LML_OK);
    cr_assert_eq(lml_engine_run(engine, job, sizeof job - 1, "job", &result, &e), LML_OK, "%s",
                 e.message);
    cr_expect_null(strstr(result.text, "12.34"), "%s", result.text);
    cr_expect_not_null(strstr(result.text, "56.78"), "%s", result.text);
    lml_text_free(engine, &result);
    lml_engine_free(engine);
}
