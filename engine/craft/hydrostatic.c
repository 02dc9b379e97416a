#include "craft/hydrostatic.h"

#include "base/real.h"
#include "craft/check.h"
#include <math.h>

/* Masses are in kg; a person reads grams. */
static const double gram = 1e-3;

static lml_status water_over_air(double water, double air, lml_error *err)
{
    if (lml_check_positive(water, "the density of the water (kg/m3)", err) ||
        lml_check_not_negative(air, "the density of the air (kg/m3)", err))
        return LML_BAD_VALUE;
    if (water > air)
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "the water (%.6g kg/m3) is no denser than the air (%.6g kg/m3)",
             water, air);
    lml_error_hint(err, "water is near 998 kg/m3, air near 1.2 kg/m3");
    return LML_BAD_VALUE;
}

lml_status lml_hydrostatic_weigh(const lml_hydrostatic_weighing *w, lml_hydrostatic_density *out,
                                 lml_error *err)
{
    if (water_over_air(w->water, w->air, err) ||
        lml_check_positive(w->in_air, "the mass in air (kg)", err) ||
        lml_check_not_negative(w->in_water, "the mass in water (kg)", err) ||
        lml_check_not_negative(w->deviation, "the deviation of the balance (kg)", err))
        return LML_BAD_VALUE;
    double loss = w->in_air - w->in_water;
    if (loss <= 0) {
        lml_fail(err, LML_BAD_VALUE,
                 "the piece weighs %.9g g in water but %.9g g in air; it must weigh less in water",
                 w->in_water / gram, w->in_air / gram);
        lml_error_hint(err, "are the two swapped, or was the thread weighed too?");
        return LML_BAD_VALUE;
    }
    double lift = w->water - w->air;
    out->loss = loss;
    out->density = w->air + lift * w->in_air / loss;
    out->deviation = lift / (loss * loss) * w->deviation * lml_real_hypot(w->in_air, w->in_water);
    return LML_OK;
}

lml_status lml_hydrostatic_reading(double in_air, double density, double water, double air,
                                   double *in_water, lml_error *err)
{
    if (water_over_air(water, air, err) ||
        lml_check_positive(in_air, "the mass in air (kg)", err) ||
        lml_check_positive(density, "the density of the piece (kg/m3)", err))
        return LML_BAD_VALUE;
    if (density <= air)
        return lml_fail(err, LML_BAD_VALUE,
                        "a piece of %.6g kg/m3 is no denser than the air (%.6g kg/m3)", density,
                        air);
    *in_water = in_air * (1 - (water - air) / (density - air));
    return LML_OK;
}

lml_status lml_hydrostatic_gold(const lml_hydrostatic_guess *g, lml_hydrostatic_fineness *out,
                                lml_error *err)
{
    if (lml_check_positive(g->density, "the density of the piece (kg/m3)", err) ||
        lml_check_not_negative(g->density_deviation, "the deviation of the piece (kg/m3)", err) ||
        lml_check_positive(g->gold, "the density of gold (kg/m3)", err) ||
        lml_check_positive(g->rest, "the density of the rest (kg/m3)", err) ||
        lml_check_not_negative(g->rest_deviation, "the deviation of the rest (kg/m3)", err) ||
        lml_check_not_negative(g->mixing_deviation, "the deviation of mixing (a ratio)", err))
        return LML_BAD_VALUE;
    if (g->rest >= g->gold) {
        lml_fail(err, LML_BAD_VALUE, "the rest (%.6g kg/m3) is no lighter than gold (%.6g kg/m3)",
                 g->rest, g->gold);
        lml_error_hint(err,
                       "density cannot tell gold from metal of the same density: use another test");
        return LML_BAD_VALUE;
    }
    double v = 1 / g->density, v_gold = 1 / g->gold, v_rest = 1 / g->rest, span = v_rest - v_gold;
    out->fineness = (v_rest - v) / span;
    out->from_weighing = g->density_deviation * v * v / span;
    out->from_rest = fabs(v - v_gold) * g->rest_deviation * v_rest * v_rest / (span * span);
    out->from_mixing = g->mixing_deviation * v / span;
    out->deviation =
        lml_real_hypot(lml_real_hypot(out->from_weighing, out->from_rest), out->from_mixing);
    return LML_OK;
}
