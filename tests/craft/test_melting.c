/* Melting ranges of gold, silver and copper: published ranges, fixed points, and the same model
 * solved by other means. */
#include "worked.h"

#include "craft/melting.h"

static lml_composition composition_of(double gold, double silver, double copper)
{
    lml_composition c = {{0}};
    c.part[LML_Au] = gold / 1000;
    c.part[LML_Ag] = silver / 1000;
    c.part[LML_Cu] = copper / 1000;
    return c;
}

static lml_status range_of(ref_row *row, lml_melting *out, lml_error *err)
{
    lml_composition c = composition_of(ref_input_or(row, "Au", 0), ref_input_or(row, "Ag", 0),
                                       ref_input_or(row, "Cu", 0));
    return lml_melting_range(&c, out, err);
}

static lml_status melting_case(const char *name, ref_row *row, double *ours, bool *known,
                               lml_error *err)
{
    lml_melting range;
    lml_status status = range_of(row, &range, err);
    if (status != LML_OK)
        return status;
    if (worked_is(name, "solidus") || worked_is(name, "model_solidus"))
        *ours = range.solidus - 273.15;
    else if (worked_is(name, "liquidus") || worked_is(name, "model_liquidus"))
        *ours = range.liquidus - 273.15;
    else if (worked_is(name, "phases"))
        *ours = range.solid_phases;
    else
        *known = false;
    return LML_OK;
}

Test(melting, published)
{
    worked_table("melting.tsv", melting_case);
}

typedef struct spread {
    double squares;
    int count;
} spread;

static void add(spread *s, double away)
{
    s->squares += away * away;
    s->count++;
}

static void expect_deviation(const char *what, const spread *s, double stated)
{
    double found = sqrt(s->squares / s->count);
    cr_expect(s->count > 5 && fabs(found / stated - 1) < 0.06,
              "%s: %.2f K root mean square over %d alloys, stated as %g K", what, found, s->count,
              stated);
}

/* The deviations that come with an estimate are what the published alloys show: the liquidus over
 * the ternaries, the solidus by the width of the range. */
Test(melting, deviations_are_what_published_alloys_show)
{
    ref_table *t = ref_open("melting.tsv");
    spread liquidus = {0, 0}, narrow = {0, 0}, wide = {0, 0};
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        const char *name = ref_cell(row, "case");
        bool of_liquidus = worked_is(name, "liquidus");
        bool alloy = ref_input_or(row, "Au", 0) < 1000 && !*ref_cell(row, "misprint");
        if (!alloy || (!of_liquidus && !worked_is(name, "solidus")))
            continue;
        lml_melting range;
        lml_error err;
        cr_assert_eq(range_of(row, &range, &err), LML_OK);
        double published = ref_number(row, "published") + 273.15;
        bool ternary = ref_input_or(row, "Au", 0) > 0 && ref_input_or(row, "Ag", 0) > 0 &&
                       ref_input_or(row, "Cu", 0) > 0;
        if (of_liquidus && ternary) {
            add(&liquidus, range.liquidus - published);
            cr_expect_eq(range.liquidus_deviation, 10);
        } else if (!of_liquidus && strcmp(row->cell[0], "AGCU") != 0 &&
                   strcmp(row->cell[0], "ITS-90") != 0) {
            bool is_wide = range.liquidus - range.solidus > 60;
            add(is_wide ? &wide : &narrow, range.solidus - published);
            cr_expect_eq(range.solidus_deviation, is_wide ? 65 : 11);
        }
    }
    expect_deviation("liquidus", &liquidus, 10);
    expect_deviation("solidus, narrow", &narrow, 11);
    expect_deviation("solidus, wide", &wide, 65);
}

/* 60 K parts narrow from wide: 60.3 K and 59.6 K apart here. */
Test(melting, a_wide_range_is_said_to_be_uncertain)
{
    lml_error err;
    lml_melting r;
    lml_composition wide = composition_of(412, 235.2, 352.8),
                    narrow = composition_of(417, 233.2, 349.8);
    cr_assert_eq(lml_melting_range(&wide, &r, &err), LML_OK);
    cr_expect_eq(r.solidus_deviation, 65, "%g K wide", r.liquidus - r.solidus);
    cr_assert_eq(lml_melting_range(&narrow, &r, &err), LML_OK);
    cr_expect_eq(r.solidus_deviation, 11, "%g K wide", r.liquidus - r.solidus);
}

/* Every corner of the triangle has a range, in order, within those of the elements and of the
 * silver and copper eutectic, 779.1 °C, which gold lowers by a few kelvin. */
Test(melting, whole_triangle)
{
    for (int gold = 0; gold <= 40; gold++)
        for (int silver = 0; gold + silver <= 40; silver++) {
            lml_composition c = composition_of(gold * 25, silver * 25, (40 - gold - silver) * 25);
            lml_melting r;
            lml_error err;
            cr_assert_eq(lml_melting_range(&c, &r, &err), LML_OK, "%s", err.message);
            cr_expect(r.solidus <= r.liquidus && r.solidus > 770 + 273.15 &&
                          r.liquidus < 1084.65 + 273.15,
                      "Au %d Ag %d: %.2f to %.2f K", gold * 25, silver * 25, r.solidus, r.liquidus);
            cr_expect(r.solid_phases == 1 || r.solid_phases == 2);
        }
}

Test(melting, refuses_what_is_outside)
{
    lml_error err;
    lml_melting r = {.solidus = -1};
    lml_composition c = composition_of(585, 130, 245);
    c.part[LML_Zn] = 0.040;
    WORKED_REFUSES(lml_melting_range(&c, &r, &err), LML_BAD_VALUE, "40 ‰ of zinc");
    cr_expect_not_null(strstr(err.hint, "supplier"));
    c = composition_of(750, 0, 140);
    c.part[LML_Ni] = 0.07, c.part[LML_Zn] = 0.04;
    WORKED_REFUSES(lml_melting_range(&c, &r, &err), LML_BAD_VALUE, "nickel");
    c = composition_of(750, 0, 0);
    c.part[LML_NO_METAL] = 0.25;
    WORKED_REFUSES(lml_melting_range(&c, &r, &err), LML_BAD_VALUE, "unknown metal");
    c = composition_of(750, 125, 126);
    WORKED_REFUSES(lml_melting_range(&c, &r, &err), LML_BAD_VALUE, "1001");
    c = composition_of(0, 0, 0);
    cr_expect_eq(lml_melting_range(&c, &r, NULL), LML_BAD_VALUE);
    cr_expect_eq(r.solidus, -1);
}

Test(melting, a_trace_is_left_out)
{
    lml_error err;
    lml_melting r;
    lml_composition c = composition_of(999.003, 0, 0);
    c.part[LML_NO_METAL] = 0.000997;
    cr_assert_eq(lml_melting_range(&c, &r, &err), LML_OK);
    cr_expect_float_eq(r.liquidus, 1337.33, 0.02);
    c = composition_of(998.997, 0, 0);
    c.part[LML_NO_METAL] = 0.001003;
    cr_expect_eq(lml_melting_range(&c, &r, &err), LML_BAD_VALUE);
}
