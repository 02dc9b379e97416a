#include <criterion/criterion.h>

#include "value/alloy.h"

#include <math.h>
#include <string.h>

static lml_composition gold_750(void)
{
    lml_composition c = {{0}};
    c.part[LML_Au] = 0.750;
    c.part[LML_Ag] = 0.125;
    c.part[LML_Cu] = 0.125;
    return c;
}

static lml_alloy alloy_750(void)
{
    lml_alloy a = {.name = "Au750 yellow",
                   .density = 15400,
                   .solidus = 1158.15,
                   .liquidus = 1168.15,
                   .density_known = LML_GIVEN,
                   .solidus_known = LML_CALCULATED,
                   .liquidus_known = LML_CALCULATED};
    a.composition = gold_750();
    return a;
}

Test(alloy, a_composition_sums_to_one)
{
    lml_error err;
    lml_composition c = gold_750();
    cr_expect_eq(lml_composition_check(&c, &err), LML_OK);
    c.part[LML_Cu] += 0.9e-6;
    cr_expect_eq(lml_composition_check(&c, &err), LML_OK);
    c.part[LML_Cu] += 0.3e-6;
    cr_expect_eq(lml_composition_check(&c, &err), LML_BAD_VALUE);
    c.part[LML_Cu] = 0.225;
    cr_expect_eq(lml_composition_check(&c, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "adds up to 1100 ‰"), "%s", err.message);
    cr_expect(strlen(err.hint) > 0);
    cr_expect_eq(lml_composition_check(&c, NULL), LML_BAD_VALUE);
    c.part[LML_Cu] = 0.124998;
    cr_expect_eq(lml_composition_check(&c, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "adds up to 999.998 ‰"), "%s", err.message);
}

Test(alloy, a_part_lies_between_nothing_and_all)
{
    const double wrong[] = {-0.001, 1.5, NAN, INFINITY};
    for (int i = 0; i < 4; i++) {
        lml_error err;
        lml_composition c = gold_750();
        c.part[LML_Zn] = wrong[i];
        cr_expect_eq(lml_composition_check(&c, &err), LML_BAD_VALUE);
        cr_expect(strstr(err.message, "zinc"), "%s", err.message);
    }
}

Test(alloy, solidus_lies_below_liquidus)
{
    lml_error err;
    lml_alloy a = alloy_750();
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK);
    a.liquidus = a.solidus;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK);
    a.liquidus = a.solidus - 10;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "solidus"), "%s", err.message);
    cr_expect(err.contexts == 1 && strstr(err.context[0], "Au750 yellow"));
    a.liquidus_known = LML_UNKNOWN;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK, "what is not known is not compared");
}

static double kelvin(double celsius)
{
    return celsius + 273.15;
}

/* Of an alloy that is molten from 895 °C on. */
static lml_status with_range(lml_alloy_range which, double low, double high, lml_error *err)
{
    lml_alloy a = alloy_750();
    a.liquidus = kelvin(895);
    a.liquidus_known = LML_GIVEN;
    a.range[LML_ALLOY_FLASK] = (lml_range){.given = true, .low = kelvin(500), .high = kelvin(600)};
    a.range[which] = (lml_range){.given = true, .low = low, .high = high};
    strcpy(a.source, "supplier's sheet");
    return lml_alloy_check(&a, err);
}

Test(alloy, ranges_of_a_suppliers_sheet)
{
    lml_error err;
    cr_expect_eq(with_range(LML_ALLOY_POUR, kelvin(895), kelvin(895), &err), LML_OK, "%s",
                 err.message);
    cr_expect_eq(with_range(LML_ALLOY_POUR, kelvin(894.9), kelvin(980), &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "a pour from 894.9 °C is below the liquidus (895 °C)"), "%s",
              err.message);
    cr_expect_eq(with_range(LML_ALLOY_POUR, kelvin(980), kelvin(950), &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "upside down"), "%s", err.message);
    cr_expect_eq(with_range(LML_ALLOY_POUR, NAN, kelvin(950), &err), LML_BAD_VALUE);
    cr_expect_eq(with_range(LML_ALLOY_FLASK, kelvin(500), kelvin(900), &err), LML_OK,
                 "without a pour nobody knows");
    cr_expect_eq(with_range(LML_ALLOY_QUENCH, 0, 600, &err), LML_OK, "%s", err.message);
    cr_expect_eq(with_range(LML_ALLOY_QUENCH, -1, 600, &err), LML_BAD_VALUE);
    cr_expect_eq(with_range(LML_ALLOY_SUPERHEAT, 0, 100, &err), LML_OK, "%s", err.message);
    cr_expect_eq(with_range(LML_ALLOY_SUPERHEAT, -1, 100, &err), LML_BAD_VALUE);
}

Test(alloy, ranges_that_clash)
{
    lml_error err;
    lml_alloy a = alloy_750();
    a.liquidus = kelvin(895);
    a.liquidus_known = LML_GIVEN;
    strcpy(a.source, "supplier's sheet");
    a.range[LML_ALLOY_POUR] = (lml_range){.given = true, .low = kelvin(950), .high = kelvin(980)};
    a.range[LML_ALLOY_FLASK] =
        (lml_range){.given = true, .low = kelvin(500), .high = kelvin(949.9)};
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK, "%s", err.message);
    a.range[LML_ALLOY_FLASK].high = kelvin(950);
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "as hot as the pour"), "%s", err.message);
    a.range[LML_ALLOY_FLASK].given = false;
    a.range[LML_ALLOY_SUPERHEAT] =
        (lml_range){.given = true, .low = 85.0001, .high = 100}; /* 980.0001 °C and above */
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    a.range[LML_ALLOY_SUPERHEAT].low = 84.9999;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK, "%s", err.message);
    a.range[LML_ALLOY_SUPERHEAT] = (lml_range){.given = true, .low = 20, .high = 54.9999};
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    a.liquidus_known = LML_CALCULATED;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK, "a model's liquidus is no figure of the sheet");
    a.source[0] = 0;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "no source"), "%s", err.message);
}

Test(alloy, what_is_known_must_be_possible)
{
    lml_error err;
    lml_alloy a = alloy_750();
    a.density = 0;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "density"), "%s", err.message);
    a.density_known = LML_UNKNOWN;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_OK);
    a.liquid_density_known = LML_CALCULATED;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "liquid density"), "%s", err.message);
    a = alloy_750();
    a.solidus = NAN;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    a = alloy_750();
    a.liquidus = INFINITY;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
    a = alloy_750();
    a.composition.part[LML_Cu] = 0;
    cr_expect_eq(lml_alloy_check(&a, &err), LML_BAD_VALUE);
}

Test(alloy, an_assay_keeps_an_unnamed_remainder)
{
    lml_error err;
    lml_assay assay = {0};
    assay.found.part[LML_Au] = 0.58;
    assay.found.part[LML_Cu] = 0.30;
    assay.found.part[LML_NO_METAL] = 77; /* whatever stood there */
    cr_assert_eq(lml_assay_check(&assay, &err), LML_OK);
    cr_expect_float_eq(assay.found.part[LML_NO_METAL], 0.12, 1e-15);
    assay.found.part[LML_Cu] = 0.42;
    cr_assert_eq(lml_assay_check(&assay, &err), LML_OK);
    cr_expect_float_eq(assay.found.part[LML_NO_METAL], 0.0, 1e-15);
    assay.found.part[LML_Cu] = 0.43;
    cr_assert_eq(lml_assay_check(&assay, &err), LML_BAD_VALUE);
    cr_expect(strstr(err.message, "1010 ‰"), "%s", err.message);
    assay.found.part[LML_Cu] = 0.30;
    assay.deviation.part[LML_Cu] = -0.01;
    cr_assert_eq(lml_assay_check(&assay, &err), LML_BAD_VALUE);
}

Test(alloy, its_fineness_is_a_value)
{
    lml_composition c = gold_750();
    lml_value v = lml_composition_fineness(&c, LML_Au);
    cr_expect_eq(v.kind, LML_FINENESS);
    cr_expect_eq(v.metal, LML_Au);
    cr_expect_float_eq(v.amount, 0.750, 0);
    cr_expect_float_eq(lml_composition_fineness(&c, LML_Pd).amount, 0.0, 0);
}
