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

const char *lml_alloy_range_name(lml_alloy_range which)
{
    static const char *const names[] = {
#define X(id, name, words) name,
        LML_ALLOY_RANGE_MAP(X)
#undef X
    };
    return names[which];
}

lml_status lml_alloy_range_of(const lml_value *v, lml_range *out, lml_error *err)
{
    if (v->spread == LML_DEVIATION) {
        lml_fail(err, LML_BAD_VALUE, "a range has two ends, but a deviation is given");
        return refuse(err, "write it with both ends, as in 950..1000 °C");
    }
    bool between = v->spread == LML_BETWEEN;
    *out = (lml_range){.given = true,
                       .low = between ? v->low : v->amount,
                       .high = between ? v->high : v->amount,
                       .unit = v->unit};
    return LML_OK;
}

static double celsius(double kelvin)
{
    return kelvin - 273.15;
}

/* Of a pour the whole range lies above the liquidus and above the flask, and some of it where the
 * superheat puts it. */
static lml_status check_pour(const lml_alloy *a, lml_error *err)
{
    const lml_range *pour = &a->range[LML_ALLOY_POUR], *flask = &a->range[LML_ALLOY_FLASK],
                    *superheat = &a->range[LML_ALLOY_SUPERHEAT];
    if (!pour->given)
        return LML_OK;
    if (a->liquidus_known == LML_GIVEN && pour->low < a->liquidus) {
        lml_fail(err, LML_BAD_VALUE, "a pour from %.6g °C is below the liquidus (%.6g °C)",
                 celsius(pour->low), celsius(a->liquidus));
        return refuse(err, "metal is poured above its liquidus; is one of them in °F?");
    }
    if (flask->given && flask->high >= pour->low) {
        lml_fail(err, LML_BAD_VALUE, "a flask of up to %.6g °C is as hot as the pour (%.6g °C)",
                 celsius(flask->high), celsius(pour->low));
        return refuse(err, "metal is poured hotter than its flask; are the two swapped?");
    }
    if (superheat->given && a->liquidus_known == LML_GIVEN &&
        (a->liquidus + superheat->low > pour->high || a->liquidus + superheat->high < pour->low)) {
        lml_fail(err, LML_BAD_VALUE,
                 "a pour at %.6g to %.6g °C is not %.6g to %.6g °C above the liquidus (%.6g °C)",
                 celsius(pour->low), celsius(pour->high), superheat->low, superheat->high,
                 celsius(a->liquidus));
        return refuse(err, "give the pour or the superheat, as the sheet has it");
    }
    return LML_OK;
}

static lml_status check_ranges(const lml_alloy *a, lml_error *err)
{
    static const char *const words[] = {
#define X(id, name, words) words,
        LML_ALLOY_RANGE_MAP(X)
#undef X
    };
    for (int i = 0; i < LML_ALLOY_RANGES; i++) {
        const lml_range *r = &a->range[i];
        bool point = i == LML_ALLOY_POUR || i == LML_ALLOY_FLASK;
        if (!r->given)
            continue;
        if (!(r->low <= r->high)) {
            lml_fail(err, LML_BAD_VALUE, "the range of %s is upside down", words[i]);
            return refuse(err, "write the lower end first, as in 950..1000 °C");
        }
        if (!(point ? r->low > 0 : r->low >= 0)) {
            lml_fail(err, LML_BAD_VALUE, "the range of %s begins below zero", words[i]);
            return refuse(err, "write it as the supplier's sheet has it");
        }
        if (!a->source[0]) {
            lml_fail(err, LML_BAD_VALUE, "the range of %s has no source", words[i]);
            return refuse(err,
                          "say whose sheet it is from, as in \"source\": \"supplier's sheet\"");
        }
    }
    return check_pour(a, err);
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
    if (status == LML_OK)
        status = check_ranges(alloy, err);
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
