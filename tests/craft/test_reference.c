/* Published values: every row of the craft tables is worked by the engine and held against what its
 * source prints. A row names its case; an unknown case fails. */
#include "reference.h"

#include "craft/element.h"
#include "craft/fine.h"
#include "craft/mix.h"
#include "craft/pattern.h"
#include "craft/slurry.h"

static const double CELSIUS = 273.15;

static void must(const ref_row *row, lml_status status, const lml_error *err)
{
    if (status != LML_OK)
        ref_fail("%s: refused: %s", ref_where(row), err->message);
}

static lml_metal metal_of(ref_row *row)
{
    const char *symbol = ref_input_text(row, "metal");
    lml_metal metal = symbol ? lml_metal_by_symbol(lml_span_of(symbol)) : LML_NO_METAL;
    cr_assert_neq(metal, LML_NO_METAL, "%s: no metal named", ref_where(row));
    return metal;
}

/* The inputs that are named by a metal's symbol, in parts per thousand. */
static lml_composition composition_of(ref_row *row)
{
    lml_composition c = {{0}};
    for (int m = 1; m < LML_METALS; m++)
        c.part[m] = ref_input_or(row, lml_metal_symbol((lml_metal)m), 0) / 1000;
    return c;
}

typedef bool worked_case(const char *name, ref_row *row, double *ours);

/* Works every row of a table and holds it against the published value. */
static void work_table(const char *table, worked_case *work)
{
    ref_table *t = ref_open(table);
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        double ours;
        cr_assert(work(ref_cell(row, "case"), row, &ours), "%s: unknown case %s", ref_where(row),
                  ref_cell(row, "case"));
        ref_expect(row, ours);
        ref_end_row(row);
    }
}

static bool element_case(const char *name, ref_row *row, double *ours)
{
    lml_metal metal = metal_of(row);
    const lml_element *e = lml_element_of(metal);
    if (strcmp(name, "atomic_weight") == 0)
        *ours = e->atomic_weight.value;
    else if (strcmp(name, "density") == 0)
        *ours = e->density.value / 1000;
    else if (strcmp(name, "melting_point") == 0)
        *ours = e->melting_point.value;
    else if (strcmp(name, "boiling_point") == 0)
        *ours = e->boiling_point.value;
    else if (strcmp(name, "molar_heat") == 0)
        *ours = e->molar_heat.value;
    else if (strcmp(name, "molar_fusion") == 0)
        *ours = e->molar_fusion.value / 1000;
    else if (strcmp(name, "heat_capacity") == 0)
        *ours = lml_element_heat_capacity(metal);
    else if (strcmp(name, "fusion_heat") == 0)
        *ours = lml_element_fusion_heat(metal) / 1000;
    else if (strcmp(name, "liquid_density") == 0)
        *ours = (e->liquid_density.value - e->liquid_slope.value * ref_input(row, "above")) / 1000;
    else
        return false;
    return true;
}

Test(reference, elements)
{
    work_table("elements.tsv", element_case);
}

static double fineness_named(ref_row *row, const char *name, int number)
{
    char fineness[32], karat[32];
    snprintf(fineness, sizeof fineness, number ? "%s%d" : "%s", name, number);
    snprintf(karat, sizeof karat, number ? "%s%d" : "%s_karat", number ? "karat" : name, number);
    double k = ref_input_or(row, karat, -1), f;
    if (k < 0)
        return ref_input(row, fineness) / 1000;
    lml_error err;
    must(row, lml_fine_of_karat(k, &f, &err), &err);
    return f;
}

static double blend_of(ref_row *row)
{
    double mass[8], fineness[8], blend;
    size_t lots = 0;
    char name[32];
    for (; lots < 8; lots++) {
        snprintf(name, sizeof name, "mass%zu", lots + 1);
        mass[lots] = ref_input_or(row, name, -1);
        if (mass[lots] < 0)
            break;
        fineness[lots] = fineness_named(row, "fineness", (int)lots + 1);
    }
    lml_error err;
    must(row, lml_fine_blend(mass, fineness, lots, &blend, &err), &err);
    return blend;
}

static bool fine_case(const char *name, ref_row *row, double *ours)
{
    lml_error err;
    if (strcmp(name, "karat") == 0) {
        must(row, lml_fine_of_karat(ref_input(row, "karat"), ours, &err), &err);
        *ours *= 1000;
    } else if (strcmp(name, "fine_content") == 0) {
        double mass = ref_input(row, "mass"), fineness = ref_input(row, "fineness") / 1000;
        must(row, lml_fine_content(mass, fineness, ours, &err), &err);
    } else if (strcmp(name, "addition") == 0) {
        double mass = ref_input(row, "mass"), from = fineness_named(row, "from", 0),
               to = fineness_named(row, "to", 0), added = fineness_named(row, "added", 0);
        must(row, lml_fine_addition(mass, from, to, added, ours, &err), &err);
    } else if (strcmp(name, "split") == 0) {
        double fineness[2] = {ref_input(row, "first") / 1000, ref_input(row, "second") / 1000},
               mass[2];
        must(row,
             lml_fine_split(ref_input(row, "total"), ref_input(row, "to") / 1000, fineness, mass,
                            &err),
             &err);
        *ours = mass[0];
    } else if (strcmp(name, "blend") == 0) {
        *ours = blend_of(row) * 1000;
    } else {
        return false;
    }
    return true;
}

Test(reference, karat)
{
    work_table("karat.tsv", fine_case);
}

Test(reference, raise_lower)
{
    work_table("raise_lower.tsv", fine_case);
}

static double plain_of(ref_row *row, const lml_composition *c)
{
    lml_error err;
    double density;
    must(row, lml_mix_plain_density(c, &density, &err), &err);
    return density;
}

static lml_density_estimate estimate_of(ref_row *row, const lml_composition *c)
{
    lml_error err;
    lml_density_estimate d;
    must(row, lml_mix_density(c, &d, &err), &err);
    return d;
}

static bool alloy_case(const char *name, ref_row *row)
{
    lml_error err;
    double ours;
    if (strcmp(name, "plain_liquid_of") == 0) {
        must(row, lml_mix_plain_liquid_density(ref_input(row, "solid") * 1000, &ours, &err), &err);
        ref_expect(row, ours / 1000);
        return true;
    }
    lml_composition c = composition_of(row);
    if (strcmp(name, "plain_density") == 0) {
        ref_expect(row, plain_of(row, &c) / 1000);
    } else if (strcmp(name, "density") == 0) {
        ref_expect(row, estimate_of(row, &c).density / 1000);
    } else if (strcmp(name, "plain_deviation") == 0) {
        ours = 100 * (ref_input(row, "measured") * 1000 / plain_of(row, &c) - 1);
        ref_expect(row, ours);
        cr_expect(fabs(ours) <= ref_input(row, "band"), "%s: %.2f %% is outside the band",
                  ref_where(row), ours);
    } else if (strcmp(name, "within_deviations") == 0) {
        lml_density_estimate d = estimate_of(row, &c);
        double away = (ref_number(row, "published") * 1000 - d.density) / d.deviation;
        cr_expect(fabs(away) <= ref_input(row, "deviations"),
                  "%s: the published density is %.2f standard deviations from ours", ref_where(row),
                  away);
    } else if (strcmp(name, "deviation") == 0) {
        lml_density_estimate d = estimate_of(row, &c);
        ref_expect(row, 100 * d.deviation / d.density);
    } else if (strcmp(name, "liquid_density") == 0) {
        double kelvin = ref_input(row, "celsius") + CELSIUS;
        must(row, lml_mix_liquid_density(&c, kelvin, &ours, &err), &err);
        ref_expect(row, ours / 1000);
    } else if (strcmp(name, "plain_liquid_density") == 0) {
        must(row, lml_mix_plain_liquid_density(plain_of(row, &c), &ours, &err), &err);
        ref_expect(row, ours / 1000);
    } else if (strcmp(name, "heat_capacity") == 0) {
        must(row, lml_mix_heat_capacity(&c, &ours, &err), &err);
        ref_expect(row, ours);
    } else if (strcmp(name, "fusion_heat") == 0) {
        must(row, lml_mix_fusion_heat(&c, &ours, &err), &err);
        ref_expect(row, ours / 1000);
    } else {
        return false;
    }
    return true;
}

Test(reference, alloy_density)
{
    ref_table *t = ref_open("alloy_density.tsv");
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        cr_assert(alloy_case(ref_cell(row, "case"), row), "%s: unknown case %s", ref_where(row),
                  ref_cell(row, "case"));
        ref_end_row(row);
    }
}

/* Grams, g/cm3 and cm3 go in as they are: every formula but the liquid rule takes any one set. */
static bool wax_case(const char *name, ref_row *row, double *ours)
{
    lml_error err;
    lml_status status;
    if (strcmp(name, "metal") == 0) {
        status = lml_pattern_metal(ref_input(row, "pattern"), ref_input(row, "pattern_density"),
                                   ref_input(row, "metal_density"), ours, &err);
    } else if (strcmp(name, "metal_of_volume") == 0) {
        status = lml_pattern_metal_of_volume(ref_input(row, "volume"),
                                             ref_input(row, "metal_density"), ours, &err);
    } else if (strcmp(name, "shrink_credit") == 0) {
        status = lml_pattern_shrink_credit(ref_input(row, "shrink") / 100, ours, &err);
    } else if (strcmp(name, "need") == 0) {
        status = lml_pattern_need(ref_input(row, "metal"), ref_input(row, "loss") / 100,
                                  ref_input(row, "skull"), ours, &err);
    } else if (strcmp(name, "capacity") == 0) {
        status = lml_pattern_capacity(ref_input(row, "rating"), ref_input(row, "rated_density"),
                                      ref_input(row, "density"), ours, &err);
    } else if (strcmp(name, "liquid_volume") == 0) {
        double liquid;
        status = lml_mix_plain_liquid_density(ref_input(row, "solid_density"), &liquid, &err);
        if (status == LML_OK)
            status = lml_pattern_liquid_volume(ref_input(row, "mass"), liquid, ours, &err);
    } else {
        return false;
    }
    must(row, status, &err);
    return true;
}

Test(reference, wax)
{
    work_table("wax.tsv", wax_case);
}

static double cylinder_of(ref_row *row)
{
    lml_error err;
    double volume;
    must(row,
         lml_slurry_cylinder(ref_input(row, "diameter") / 1000, ref_input(row, "height") / 1000,
                             &volume, &err),
         &err);
    return volume;
}

static double slurry_of(ref_row *row)
{
    lml_error err;
    double net, slurry;
    must(row, lml_slurry_net(cylinder_of(row), ref_input(row, "displaced") * 1e-6, &net, &err),
         &err);
    must(row,
         lml_slurry_volume(net, ref_input(row, "overfill") / 100, ref_input(row, "loss") / 100,
                           &slurry, &err),
         &err);
    return slurry;
}

static lml_cup_test cup_test_of(ref_row *row, const char *time, const char *celsius)
{
    return (lml_cup_test){ref_input(row, time) * 60, ref_input(row, celsius) + CELSIUS};
}

static bool investment_case(const char *name, ref_row *row, double *ours)
{
    lml_error err;
    if (strcmp(name, "water") == 0) {
        must(row, lml_slurry_water(ref_input(row, "powder"), ref_input(row, "ratio"), ours, &err),
             &err);
    } else if (strcmp(name, "cylinder") == 0) {
        *ours = cylinder_of(row) * 1e6;
    } else if (strcmp(name, "slurry") == 0) {
        *ours = slurry_of(row) * 1e6;
    } else if (strcmp(name, "powder") == 0) {
        lml_batch batch;
        must(row,
             lml_slurry_batch(slurry_of(row), ref_input(row, "ratio"),
                              ref_input(row, "grains") * 1000,
                              ref_input(row, "water_density") * 1000, &batch, &err),
             &err);
        *ours = batch.powder * 1000;
    } else if (strcmp(name, "slurry_density") == 0) {
        must(row,
             lml_slurry_density(ref_input(row, "ratio"), ref_input(row, "grains") * 1000,
                                ref_input(row, "water_density") * 1000, ours, &err),
             &err);
        *ours /= 1000;
    } else if (strcmp(name, "working_time") == 0) {
        lml_cup_test stated = {ref_input(row, "stated") * 60, LML_SLURRY_STATED_AT};
        must(row,
             lml_slurry_working_time(stated, LML_SLURRY_RATE, ref_input(row, "celsius") + CELSIUS,
                                     ours, &err),
             &err);
        *ours /= 60;
    } else if (strcmp(name, "rate") == 0) {
        must(row,
             lml_slurry_rate(cup_test_of(row, "time1", "celsius1"),
                             cup_test_of(row, "time2", "celsius2"), ours, &err),
             &err);
    } else {
        return false;
    }
    return true;
}

Test(reference, investment)
{
    work_table("investment.tsv", investment_case);
}

/* A materials supplier's data sheet of sterling silver prints liquidus 788 °C and solidus 891 °C:
 * the labels are swapped. */
Test(reference, a_melting_range_printed_upside_down_is_refused)
{
    lml_alloy sterling = {.name = "sterling",
                          .solidus = 891 + CELSIUS,
                          .liquidus = 788 + CELSIUS,
                          .solidus_known = LML_GIVEN,
                          .liquidus_known = LML_GIVEN};
    sterling.composition.part[LML_Ag] = 0.925;
    sterling.composition.part[LML_Cu] = 0.075;
    cr_expect_eq(lml_alloy_check(&sterling, NULL), LML_BAD_VALUE);
    sterling.solidus = 788 + CELSIUS;
    sterling.liquidus = 891 + CELSIUS;
    cr_expect_eq(lml_alloy_check(&sterling, NULL), LML_OK);
}
