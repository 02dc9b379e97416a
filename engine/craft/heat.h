/* Heat: how much a melt needs, how long a furnace takes for it, and how long a flask takes to be as
 * hot inside as outside.
 *
 *     lml_heat_load metal = { 0.060, 174, 87000, 293.15, 1268.15 };
 *     lml_heat_load crucible = { 0.350, 1400, 0, 293.15, 1268.15 };
 *     double of_metal, of_crucible, seconds;
 *     lml_heat_needed(&metal, &of_metal, err);              15.4 kJ
 *     lml_heat_needed(&crucible, &of_crucible, err);        478 kJ
 *     lml_heat_time(of_metal + of_crucible, 1500, 0.6, &seconds, err);        548 s
 */
#ifndef LML_CRAFT_HEAT_H
#define LML_CRAFT_HEAT_H

#include "base/status.h"

/* A body that is heated, and melted if `fusion` is not 0. */
typedef struct lml_heat_load {
    double mass;     /* kg */
    double capacity; /* J/(kg·K), the mean from `from` to `to` */
    double fusion;   /* J/kg; 0 for a body that does not melt: a crucible */
    double from, to; /* K */
} lml_heat_load;

/* m (c (to - from) + L), J. LML_BAD_VALUE: a mass, capacity or temperature that is not positive, a
 * negative heat of fusion, or `to` below `from`.
 * With the capacities of cold elements the metal's share comes out 10 to 13 % low. */
lml_status lml_heat_needed(const lml_heat_load *load, double *joules, lml_error *err);

/* Seconds that a furnace of `power` (W), of which the part `efficiency` (0..1, above 0) reaches the
 * load, needs for `joules`. LML_BAD_VALUE. */
lml_status lml_heat_time(double joules, double power, double efficiency, double *seconds,
                         lml_error *err);

/* A full, dry flask as a cylinder whose surface follows the kiln. `height` 0: so tall that its ends
 * do not matter. */
typedef struct lml_heat_cylinder {
    double diameter, height; /* m */
    double diffusivity;      /* m2/s */
} lml_heat_cylinder;

/* The time (s) in which the slowest part of a temperature difference falls to 1/e:
 * 1/(a ((j/R)^2 + (pi/H)^2)) with j = 2.4048, the first zero of the Bessel function J0.
 * LML_BAD_VALUE. Source: H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed.
 * (1959), sections 7.6 and 3.4: from memory, unverified; the series is summed whole in the tests.
 */
lml_status lml_heat_lag(const lml_heat_cylinder *cylinder, double *seconds, lml_error *err);

/* Time (s) until the centre is within `tolerance` (K) of the surface, counted from the moment at
 * which the whole surface jumped by `step` (K, its sign does not count). First term of the series:
 * exact to a hundredth once a fifth of R^2/a has passed, too long before that. 0 when the step is
 * within the tolerance already. LML_BAD_VALUE: `tolerance` not positive, or the cylinder. */
lml_status lml_heat_equalise_step(const lml_heat_cylinder *cylinder, double step, double tolerance,
                                  double *seconds, lml_error *err);

/* The same when the surface moves by `step` at a steady `rate` (K/s), counted from the moment at
 * which it arrives. An infinite rate gives the step form. LML_BAD_VALUE: `rate` not positive. */
lml_status lml_heat_equalise_ramp(const lml_heat_cylinder *cylinder, double step, double rate,
                                  double tolerance, double *seconds, lml_error *err);

#endif
