/* Chance: the normal distribution and Student's t, and their inverses.
 *
 * For the chance of lying below a mark, one-sided: a fineness of 753 ± 1.6 ‰ lies below 750 with
 * lml_chance_normal((750 - 753) / 1.6), 3 %.
 *
 *     double z;
 *     lml_chance_normal_quantile(0.95, &z, err);           1.645
 *     lml_chance_student_quantile(0.95, 4, &t, err);       2.132: five readings, their own spread
 */
#ifndef LML_CRAFT_CHANCE_H
#define LML_CRAFT_CHANCE_H

#include "base/status.h"

/* The part of a normal distribution below z standard deviations from its mean. NaN gives NaN.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.1. */
double lml_chance_normal(double z);
/* The z with the part `chance` below it. LML_BAD_VALUE unless 0 < chance < 1. */
lml_status lml_chance_normal_quantile(double chance, double *z, lml_error *err);

/* The part of Student's distribution below t; `freedom` whole, 1 to 1000. LML_BAD_VALUE. Source:
 * Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4. */
lml_status lml_chance_student(double t, double freedom, double *chance, lml_error *err);
/* The t with the part `chance` below it. LML_BAD_VALUE unless 1e-9 <= chance <= 1 - 1e-9, and as
 * above. */
lml_status lml_chance_student_quantile(double chance, double freedom, double *t, lml_error *err);

#endif
