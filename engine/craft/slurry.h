/* Investment for a flask: volume to fill, powder and water to weigh, and its working time.
 *
 * Gypsum-bonded powders mixed near room temperature; plain cylinders. SI: m, m3, kg, kg/m3, s, K.
 * The water ratio is mass of water to mass of powder: 0.40, not 40. All refusals are LML_BAD_VALUE
 * and name the input; LML_OVERFLOW for a result beyond the range of a double.
 *
 *     lml_slurry_cylinder(0.0635, 0.0762, &flask, err);                     241.3 mL
 *     lml_slurry_net(flask, tree + cone, &net, err);
 *     lml_slurry_volume(net, 0.08, 0.04, &slurry, err);
 *     lml_slurry_batch(slurry, 0.40, 2600, 998, &batch, err);
 */
#ifndef LML_CRAFT_SLURRY_H
#define LML_CRAFT_SLURRY_H

#include "base/status.h"

/* pi/4 * diameter^2 * height. */
lml_status lml_slurry_cylinder(double diameter, double height, double *volume, lml_error *err);

/* The flask less tree and cone, which must be less than the flask. */
lml_status lml_slurry_net(double flask, double displaced, double *net, lml_error *err);

/* Slurry to mix: net * (1 + overfill) / (1 - loss). `overfill` is the part poured above the flask
 * into its collar (0 or more, at most 1), `loss` the part that stays in the bowl. */
lml_status lml_slurry_volume(double net, double overfill, double loss, double *slurry,
                             lml_error *err);

/* (1 + ratio) / (1 / powder_density + ratio / water_density): volumes add. `powder_density` is that
 * of the grains, without the air between them. 0 < ratio <= 1. */
lml_status lml_slurry_density(double ratio, double powder_density, double water_density,
                              double *density, lml_error *err);

typedef struct lml_batch {
    double powder, water; /* kg */
} lml_batch;

/* Powder and water that make a volume of slurry. */
lml_status lml_slurry_batch(double slurry, double ratio, double powder_density,
                            double water_density, lml_batch *out, lml_error *err);

/* Water for a powder that was rounded or weighed: powder * ratio, kg. */
lml_status lml_slurry_water(double powder, double ratio, double *water, lml_error *err);

/* Decrease of the working time with temperature (1/K) if there is no cup test, and the temperature
 * at which makers state it (22 °C, in K). Both: common practice, no source. */
#define LML_SLURRY_RATE 0.045
#define LML_SLURRY_STATED_AT 295.15
/* Greatest distance from the test's temperature at which the law is used (K). Common practice, no
 * source. */
#define LML_SLURRY_REACH 6.0

/* A cup test: the time from powder on water until the slurry no longer pours, at one temperature.
 */
typedef struct lml_cup_test {
    double time, temperature; /* s, K */
} lml_cup_test;

/* Working time at another temperature of the slurry: time * exp(-rate * (temperature - test's)). An
 * unproven fit; farther than 6 K from the test it is refused. `rate` >= 0. */
lml_status lml_slurry_working_time(lml_cup_test test, double rate, double temperature, double *time,
                                   lml_error *err);

/* The rate from two cup tests, ln(t1 / t2) / (T2 - T1), 1/K. Refused: equal temperatures, and a
 * warmer slurry that lasts longer. */
lml_status lml_slurry_rate(lml_cup_test first, lml_cup_test second, double *rate, lml_error *err);

#endif
