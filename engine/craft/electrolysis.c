#include "craft/electrolysis.h"

#include "craft/check.h"
#include "craft/element.h"

/* The charges of the metal in the baths of the trade, in falling use. Common practice, no source.
 */
static const struct bath {
    lml_metal metal;
    int valence[2];
    const char *words;
} bath[] = {
    {LML_Rh, {3}, "3"},         {LML_Au, {1, 3}, "1 or 3"}, {LML_Ag, {1}, "1"},
    {LML_Cu, {2, 1}, "2 or 1"}, {LML_Ni, {2}, "2"},         {LML_Pd, {2}, "2"},
    {LML_Pt, {2, 4}, "2 or 4"}, {LML_Ru, {3}, "3"},         {LML_Zn, {2}, "2"},
};

lml_status lml_electrolysis_equivalent(lml_metal metal, int valence, double *equivalent,
                                       lml_error *err)
{
    for (size_t i = 0; i < sizeof bath / sizeof *bath; i++) {
        if (bath[i].metal != metal)
            continue;
        if (valence <= 0 || (valence != bath[i].valence[0] && valence != bath[i].valence[1])) {
            lml_fail(err, LML_BAD_VALUE, "a bath of %s has the valence %s, not %d",
                     lml_metal_name(metal), bath[i].words, valence);
            lml_error_hint(err, "the bath's data sheet says which salt it contains");
            return LML_BAD_VALUE;
        }
        double molar_mass = lml_element_of(metal)->atomic_weight.value * 1e-3; /* kg/mol */
        *equivalent = molar_mass / (valence * LML_ELECTROLYSIS_FARADAY);
        return LML_OK;
    }
    lml_fail(err, LML_NOT_FOUND, "no bath that deposits %s is known here",
             metal == LML_NO_METAL ? "no metal" : lml_metal_name(metal));
    lml_error_hint(err, "known are Rh, Au, Ag, Cu, Ni, Pd, Pt, Ru and Zn");
    return LML_NOT_FOUND;
}

static lml_status check_bath(double equivalent, double efficiency, lml_error *err)
{
    if (lml_check_positive(equivalent, "the mass per charge (kg/C)", err) ||
        lml_check_positive(efficiency, "the efficiency of the bath", err) ||
        lml_check_between(efficiency, 0, 1, "the efficiency of the bath (40 % is 0.4)", err))
        return LML_BAD_VALUE;
    return LML_OK;
}

static lml_status check_deposit(const lml_electrolysis_deposit *d, lml_error *err)
{
    if (check_bath(d->equivalent, d->efficiency, err) ||
        lml_check_positive(d->density, "the density of the deposit (kg/m3)", err) ||
        lml_check_positive(d->area, "the area to plate (m2)", err))
        return LML_BAD_VALUE;
    return LML_OK;
}

lml_status lml_electrolysis_mass(double equivalent, double current, double seconds,
                                 double efficiency, double *mass, lml_error *err)
{
    if (check_bath(equivalent, efficiency, err) ||
        lml_check_not_negative(current, "the current (A)", err) ||
        lml_check_not_negative(seconds, "the time in the bath (s)", err))
        return LML_BAD_VALUE;
    *mass = equivalent * current * seconds * efficiency;
    return LML_OK;
}

lml_status lml_electrolysis_thickness(const lml_electrolysis_deposit *d, double current,
                                      double seconds, double *thickness, lml_error *err)
{
    double mass;
    if (check_deposit(d, err) ||
        lml_electrolysis_mass(d->equivalent, current, seconds, d->efficiency, &mass, err))
        return LML_BAD_VALUE;
    *thickness = mass / (d->area * d->density);
    return LML_OK;
}

/* The charge (C) that a thickness takes. */
static lml_status charge_of(const lml_electrolysis_deposit *d, double thickness, double *charge,
                            lml_error *err)
{
    if (check_deposit(d, err) || lml_check_not_negative(thickness, "the thickness (m)", err))
        return LML_BAD_VALUE;
    *charge = thickness * d->area * d->density / (d->equivalent * d->efficiency);
    return LML_OK;
}

lml_status lml_electrolysis_time(const lml_electrolysis_deposit *d, double thickness,
                                 double current, double *seconds, lml_error *err)
{
    double charge;
    if (charge_of(d, thickness, &charge, err) ||
        lml_check_positive(current, "the current (A)", err))
        return LML_BAD_VALUE;
    *seconds = charge / current;
    return LML_OK;
}

lml_status lml_electrolysis_current(const lml_electrolysis_deposit *d, double thickness,
                                    double seconds, double *current, lml_error *err)
{
    double charge;
    if (charge_of(d, thickness, &charge, err) ||
        lml_check_positive(seconds, "the time in the bath (s)", err))
        return LML_BAD_VALUE;
    *current = charge / seconds;
    return LML_OK;
}
