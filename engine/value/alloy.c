#include "value/alloy.h"

#include "base/letter.h"
#include "unit/unit_table.h"

#include <math.h>

static const double SUM_SLACK = 1e-6;

static const char *part_name(int metal)
{
    return metal == LML_NO_METAL ? "the unnamed remainder" : lml_metal_name((lml_metal)metal);
}

static lml_status refuse(lml_error *err, const char *hint)
{
    lml_error_hint(err, "%s", hint);
    return LML_BAD_VALUE;
}

/* Every part a number from 0 to 1. */
static lml_status check_parts(const lml_composition *c, double *sum, lml_error *err)
{
    *sum = 0.0;
    for (int i = 0; i < LML_METALS; i++) {
        if (!(c->part[i] >= 0.0 && c->part[i] <= 1.0 + SUM_SLACK)) {
            lml_fail(err, LML_BAD_VALUE, "%s is %.6g ‰ of the composition", part_name(i),
                     c->part[i] * 1000.0);
            return refuse(err, "a part is between 0 and 1000 ‰");
        }
        *sum += c->part[i];
    }
    return LML_OK;
}

lml_status lml_composition_check(const lml_composition *c, lml_error *err)
{
    double sum;
    lml_status status = check_parts(c, &sum, err);
    if (status != LML_OK)
        return status;
    if (fabs(sum - 1.0) > SUM_SLACK) {
        lml_fail(err, LML_BAD_VALUE, "the composition adds up to %.7g ‰, not 1000 ‰", sum * 1000.0);
        return refuse(err, "correct a part, or add the missing one");
    }
    return LML_OK;
}

/* A density that is stated must be one. */
static lml_status check_density(lml_known known, double density, const char *words, lml_error *err)
{
    if (known == LML_UNKNOWN || (isfinite(density) && density > 0.0))
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "%s of %.6g kg/m3 is impossible", words, density);
    return refuse(err, "a density is above zero; leave it out if it is not known");
}

static lml_status check_temperature(lml_known known, double kelvin, const char *words,
                                    lml_error *err)
{
    if (known == LML_UNKNOWN || (isfinite(kelvin) && kelvin > 0.0))
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "%s of %.6g kelvin is impossible", words, kelvin);
    return refuse(err, "a temperature is above absolute zero; leave it out if it is not known");
}

/* A name is what an alloy is known by: two that look the same must be the same. */
static lml_status check_name(const char *name, lml_error *err)
{
    uint32_t code, like;
    if (!lml_letter_find_mixed(lml_span_of(name), &code, &like))
        return LML_OK;
    return lml_fail(err, LML_BAD_VALUE,
                    "the alloy's name \"%s\" has letters of two alphabets in a word", name);
}

lml_status lml_alloy_check(const lml_alloy *alloy, lml_error *err)
{
    lml_status status = check_name(alloy->name, err);
    if (status == LML_OK)
        status = lml_composition_check(&alloy->composition, err);
    if (status == LML_OK)
        status = check_density(alloy->density_known, alloy->density, "a density", err);
    if (status == LML_OK)
        status = check_density(alloy->liquid_density_known, alloy->liquid_density,
                               "a liquid density", err);
    if (status == LML_OK)
        status = check_temperature(alloy->solidus_known, alloy->solidus, "a solidus", err);
    if (status == LML_OK)
        status = check_temperature(alloy->liquidus_known, alloy->liquidus, "a liquidus", err);
    if (status == LML_OK && alloy->solidus_known != LML_UNKNOWN &&
        alloy->liquidus_known != LML_UNKNOWN && alloy->solidus > alloy->liquidus) {
        lml_fail(err, LML_BAD_VALUE, "the solidus (%.6g °C) is above the liquidus (%.6g °C)",
                 alloy->solidus - 273.15, alloy->liquidus - 273.15);
        status = refuse(err, "an alloy begins to melt at its solidus; are the two swapped?");
    }
    if (status != LML_OK && alloy->name[0] != '\0')
        return lml_error_context(err, status, "in alloy %s", alloy->name);
    return status;
}

lml_status lml_assay_check(lml_assay *assay, lml_error *err)
{
    double sum;
    lml_composition named = assay->found;
    named.part[LML_NO_METAL] = 0.0;
    lml_status status = check_parts(&named, &sum, err);
    if (status != LML_OK)
        return status;
    if (sum > 1.0 + SUM_SLACK) {
        lml_fail(err, LML_BAD_VALUE, "what was found adds up to %.7g ‰, more than the whole",
                 sum * 1000.0);
        return refuse(err, "correct a part");
    }
    for (int i = 0; i < LML_METALS; i++)
        if (!(assay->deviation.part[i] >= 0.0)) {
            lml_fail(err, LML_BAD_VALUE, "the deviation of %s is negative or not a number",
                     part_name(i));
            return refuse(err, "a standard deviation is zero or more");
        }
    assay->found.part[LML_NO_METAL] = fmax(0.0, 1.0 - sum);
    return LML_OK;
}

lml_value lml_composition_fineness(const lml_composition *c, lml_metal metal)
{
    return (lml_value){.kind = LML_FINENESS,
                       .metal = (uint8_t)metal,
                       .decimals = LML_SHORTEST,
                       .unit = lml_unit_one(LML_U_PER_MILLE, 1),
                       .amount = c->part[metal]};
}
