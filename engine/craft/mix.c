#include "craft/mix.h"

#include "craft/check.h"
#include "craft/element.h"

/* m3/mol. Least squares on four measurements gives 0.437 cm3/mol and on ten 0.418 (the other six
 * are Roberts-Austen's of 1878, Smithsonian Physical Tables); +- 0.05. */
static const double GOLD_COPPER_EXCESS = 0.42e-6;

static const double LIQUID_SHARE = 0.90;

/* One standard deviation, relative, of a measured density from the estimate. The first two are the
 * scatter of measured Au-Ag, Au-Cu, Ag-Cu and platinum alloys; the third that of brass and of
 * dental golds with indium and tin (1.0 to 3.7 %). */
static const double DEVIATION_FINE = 0.005, DEVIATION_MIXED = 0.01, DEVIATION_DRAWN = 0.02;
static const double TRACE = 0.005, ZINC_ALLOWED = 0.10;

static lml_status check_whole(const lml_composition *c, lml_error *err)
{
    lml_status status = lml_composition_check(c, err);
    if (status != LML_OK)
        return status;
    if (c->part[LML_NO_METAL] == 0)
        return LML_OK;
    char text[LML_NUMBER_TEXT];
    status = lml_fail(err, LML_BAD_VALUE,
                      "%s ‰ of the alloy is of unknown composition, so its density is unknown",
                      lml_check_text(c->part[LML_NO_METAL] * 1000, text));
    lml_error_hint(err, "name every metal, so that the parts add up to 1000 ‰");
    return status;
}

static double specific_volume(const lml_composition *c)
{
    double volume = 0;
    for (int m = 1; m < LML_METALS; m++)
        volume += c->part[m] / lml_element_of((lml_metal)m)->density.value;
    return volume;
}

/* m3/kg that gold and copper take up beyond their own volumes. */
static double excess_volume(const lml_composition *c)
{
    double amount[LML_METALS], all = 0; /* mol/kg */
    for (int m = 1; m < LML_METALS; m++) {
        amount[m] = c->part[m] / (lml_element_of((lml_metal)m)->atomic_weight.value * 1e-3);
        all += amount[m];
    }
    return GOLD_COPPER_EXCESS * amount[LML_Au] * amount[LML_Cu] / all;
}

static double family_deviation(const lml_composition *c)
{
    double deviation = DEVIATION_FINE;
    for (int m = 1; m < LML_METALS; m++) {
        if (c->part[m] <= TRACE)
            continue;
        switch ((lml_metal)m) {
        case LML_Au:
        case LML_Ag:
        case LML_Cu:
            break;
        case LML_Zn:
            if (c->part[m] > ZINC_ALLOWED)
                return DEVIATION_DRAWN;
            deviation = DEVIATION_MIXED;
            break;
        case LML_Ni:
        case LML_Co:
        case LML_Fe:
        case LML_Pd:
        case LML_Pt:
        case LML_Rh:
        case LML_Ru:
        case LML_Ir:
            deviation = DEVIATION_MIXED;
            break;
        default:
            return DEVIATION_DRAWN;
        }
    }
    return deviation;
}

lml_status lml_mix_plain_density(const lml_composition *c, double *density, lml_error *err)
{
    lml_status status = check_whole(c, err);
    if (status == LML_OK)
        *density = 1 / specific_volume(c);
    return status;
}

lml_status lml_mix_density(const lml_composition *c, lml_density_estimate *out, lml_error *err)
{
    lml_status status = check_whole(c, err);
    if (status != LML_OK)
        return status;
    double density = 1 / (specific_volume(c) + excess_volume(c));
    *out = (lml_density_estimate){density, density * family_deviation(c)};
    return LML_OK;
}

lml_status lml_mix_plain_liquid_density(double solid_density, double *density, lml_error *err)
{
    if (lml_check_positive(solid_density, "the density of the solid metal (kg/m3)", err))
        return LML_BAD_VALUE;
    *density = LIQUID_SHARE * solid_density;
    return LML_OK;
}

lml_status lml_mix_liquid_density(const lml_composition *c, double temperature, double *density,
                                  lml_error *err)
{
    lml_status status = check_whole(c, err);
    if (status != LML_OK)
        return status;
    if (lml_check_positive(temperature, "the temperature of the melt (K)", err))
        return LML_BAD_VALUE;
    double volume = 0;
    for (int m = 1; m < LML_METALS; m++) {
        if (c->part[m] == 0)
            continue;
        const lml_element *e = lml_element_of((lml_metal)m);
        if (!e->liquid_density.source) {
            status = lml_fail(err, LML_NOT_FOUND, "the density of liquid %s is not known",
                              lml_metal_name((lml_metal)m));
            lml_error_hint(err, "take 0.90 of the solid density");
            return status;
        }
        double liquid = e->liquid_density.value -
                        e->liquid_slope.value * (temperature - e->melting_point.value);
        if (liquid <= 0) {
            char text[LML_NUMBER_TEXT];
            return lml_fail(err, LML_BAD_VALUE, "%s K is outside the known range of liquid %s",
                            lml_check_text(temperature, text), lml_metal_name((lml_metal)m));
        }
        volume += c->part[m] / liquid;
    }
    *density = 1 / volume;
    return LML_OK;
}

static lml_status by_mass(const lml_composition *c, double (*of)(lml_metal), double *out,
                          lml_error *err)
{
    lml_status status = check_whole(c, err);
    if (status != LML_OK)
        return status;
    double sum = 0;
    for (int m = 1; m < LML_METALS; m++)
        sum += c->part[m] * of((lml_metal)m);
    *out = sum;
    return LML_OK;
}

lml_status lml_mix_heat_capacity(const lml_composition *c, double *heat, lml_error *err)
{
    return by_mass(c, lml_element_heat_capacity, heat, err);
}

lml_status lml_mix_fusion_heat(const lml_composition *c, double *heat, lml_error *err)
{
    return by_mass(c, lml_element_fusion_heat, heat, err);
}
