/* Electrolysis: the metal that a current deposits, by Faraday's law.
 *
 * A bath's efficiency is the part of the charge that deposits metal; the rest makes hydrogen. It is
 * the unknown of every plating: weigh a test strip. Thickness is the mean; recesses get less.
 *
 *     double k, seconds;
 *     lml_electrolysis_equivalent(LML_Rh, 3, &k, err);             0.3555e-6 kg/C
 *     lml_electrolysis_deposit d = { .equivalent = k, .density = 12410, .efficiency = 0.4,
 *                                    .area = 8.09e-4 };
 *     lml_electrolysis_time(&d, 0.25e-6, 0.202, &seconds, err);    87 s
 */
#ifndef LML_CRAFT_ELECTROLYSIS_H
#define LML_CRAFT_ELECTROLYSIS_H

#include "value/metal.h"

/* C/mol: the elementary charge times the Avogadro constant, both exact (The International System of
 * Units, 9th ed. 2019, 2.2). */
#define LML_ELECTROLYSIS_FARADAY (1.602176634e-19 * 6.02214076e23)

/* Mass per charge, kg/C, of a metal with `valence` charges in the bath: M/(n F). LML_BAD_VALUE for
 * a valence that a bath of that metal does not have, with those it has: Rh 3, Au 1 and 3, Ag 1, Cu
 * 1 and 2, Ni 2, Pd 2, Pt 2 and 4, Ru 3, Zn 2 (common practice, no source). LML_NOT_FOUND for other
 * metals. */
lml_status lml_electrolysis_equivalent(lml_metal metal, int valence, double *equivalent,
                                       lml_error *err);

/* Mass (kg) that a `current` (A) deposits in `seconds`: K I t times the efficiency. LML_BAD_VALUE
 * for negative inputs, `equivalent` not positive, `efficiency` not above 0 or over 1. */
lml_status lml_electrolysis_mass(double equivalent, double current, double seconds,
                                 double efficiency, double *mass, lml_error *err);

/* An even deposit. */
typedef struct lml_electrolysis_deposit {
    double equivalent; /* kg/C */
    double density;    /* kg/m3, of the deposit */
    double efficiency; /* 0..1, above 0 */
    double area;       /* m2 */
} lml_electrolysis_deposit;

/* Each from the other two: thickness (m) = K I t e/(A rho). LML_BAD_VALUE: what is divided by must
 * be positive, the rest not negative. */
lml_status lml_electrolysis_thickness(const lml_electrolysis_deposit *deposit, double current,
                                      double seconds, double *thickness, lml_error *err);
lml_status lml_electrolysis_time(const lml_electrolysis_deposit *deposit, double thickness,
                                 double current, double *seconds, lml_error *err);
lml_status lml_electrolysis_current(const lml_electrolysis_deposit *deposit, double thickness,
                                    double seconds, double *current, lml_error *err);

#endif
