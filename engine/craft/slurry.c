#include "craft/slurry.h"

#include "base/real.h"
#include "craft/check.h"

#include <math.h>

static const double QUARTER_PI = 0.78539816339744831;

/* 40 instead of 0.40 is the likely slip, and makes ten times too thin a slurry. */
static lml_status check_ratio(double ratio, lml_error *err)
{
    if (ratio > 0 && ratio <= 1)
        return LML_OK;
    char text[LML_NUMBER_TEXT];
    lml_status status =
        lml_fail(err, LML_BAD_VALUE, "the water ratio must be more than 0 and at most 1, but is %s",
                 lml_check_text(ratio, text));
    lml_error_hint(err, "40 g of water to 100 g of powder is 40 %%");
    return status;
}

lml_status lml_slurry_cylinder(double diameter, double height, double *volume, lml_error *err)
{
    if (lml_check_positive(diameter, "the inside diameter of the flask (m)", err) ||
        lml_check_positive(height, "the height of the flask (m)", err))
        return LML_BAD_VALUE;
    return lml_check_result(QUARTER_PI * diameter * diameter * height, "the volume of the flask",
                            volume, err);
}

lml_status lml_slurry_net(double flask, double displaced, double *net, lml_error *err)
{
    if (lml_check_positive(flask, "the volume of the flask (m3)", err) ||
        lml_check_not_negative(displaced, "the volume of tree and cone (m3)", err))
        return LML_BAD_VALUE;
    if (displaced >= flask)
        return lml_fail(err, LML_BAD_VALUE, "the tree and cone leave no room in the flask");
    *net = flask - displaced;
    return LML_OK;
}

lml_status lml_slurry_volume(double net, double overfill, double loss, double *slurry,
                             lml_error *err)
{
    if (lml_check_positive(net, "the volume to fill (m3)", err) ||
        lml_check_between(overfill, 0, 1, "the overfill", err) ||
        lml_check_part(loss, "the loss in the bowl", err))
        return LML_BAD_VALUE;
    return lml_check_result(net * (1 + overfill) / (1 - loss), "the slurry to mix", slurry, err);
}

lml_status lml_slurry_density(double ratio, double powder_density, double water_density,
                              double *density, lml_error *err)
{
    if (check_ratio(ratio, err) ||
        lml_check_positive(powder_density, "the density of the powder's grains (kg/m3)", err) ||
        lml_check_positive(water_density, "the density of the water (kg/m3)", err))
        return LML_BAD_VALUE;
    return lml_check_result((1 + ratio) / (1 / powder_density + ratio / water_density),
                            "the density of the slurry", density, err);
}

lml_status lml_slurry_batch(double slurry, double ratio, double powder_density,
                            double water_density, lml_batch *out, lml_error *err)
{
    double density, powder;
    if (lml_check_positive(slurry, "the slurry to mix (m3)", err))
        return LML_BAD_VALUE;
    lml_status status = lml_slurry_density(ratio, powder_density, water_density, &density, err);
    if (status == LML_OK)
        status = lml_check_result(slurry * density / (1 + ratio), "the powder", &powder, err);
    if (status == LML_OK)
        *out = (lml_batch){powder, powder * ratio};
    return status;
}

lml_status lml_slurry_water(double powder, double ratio, double *water, lml_error *err)
{
    if (lml_check_not_negative(powder, "the powder (kg)", err) || check_ratio(ratio, err))
        return LML_BAD_VALUE;
    *water = powder * ratio;
    return LML_OK;
}

static lml_status check_test(lml_cup_test test, lml_error *err)
{
    if (lml_check_positive(test.time, "the working time of the cup test (s)", err) ||
        lml_check_positive(test.temperature, "the temperature of the cup test (K)", err))
        return LML_BAD_VALUE;
    return LML_OK;
}

lml_status lml_slurry_working_time(lml_cup_test test, double rate, double temperature, double *time,
                                   lml_error *err)
{
    if (check_test(test, err) ||
        lml_check_not_negative(rate, "the drop in working time (1/K)", err) ||
        lml_check_positive(temperature, "the temperature of the slurry (K)", err))
        return LML_BAD_VALUE;
    double away = temperature - test.temperature;
    /* Celsius and Fahrenheit degrees do not come to whole kelvins: 28 °C is 6 K from 22 °C. */
    if (fabs(away) > LML_SLURRY_REACH + 1e-9) {
        char text[LML_NUMBER_TEXT], reach[LML_NUMBER_TEXT];
        lml_status status =
            lml_fail(err, LML_BAD_VALUE,
                     "the slurry is %s K from the cup test, but the rule only holds for %s K",
                     lml_check_text(away, text), lml_check_text(LML_SLURRY_REACH, reach));
        lml_error_hint(err, "make a cup test closer to the temperature of the slurry");
        return status;
    }
    return lml_check_result(test.time * lml_real_exp(-rate * away), "the working time", time, err);
}

lml_status lml_slurry_rate(lml_cup_test first, lml_cup_test second, double *rate, lml_error *err)
{
    if (check_test(first, err) || check_test(second, err))
        return LML_BAD_VALUE;
    double warmer = second.temperature - first.temperature;
    if (warmer == 0)
        return lml_fail(err, LML_BAD_VALUE,
                        "both cup tests were made at the same temperature, so they give no rate");
    double found = lml_real_log(first.time / second.time) / warmer;
    if (found < 0)
        return lml_fail(err, LML_BAD_VALUE,
                        "the warmer slurry of the two cup tests had the longer working time");
    *rate = found;
    return LML_OK;
}
