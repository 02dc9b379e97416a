/* Density of an alloy, solid and liquid, and the heat to melt it, from its composition.
 *
 * There are two rules for each density: `plain` is the trade's rule of thumb; the other is based on
 * measurements. A density measured on the metal itself is better than either. A composition must be
 * complete: an unnamed remainder is refused (LML_BAD_VALUE), since its density is not known.
 *
 *     lml_density_estimate d;
 *     lml_mix_density(&alloy, &d, err);          15.342 g/cm3 +- 0.077 for Au750 Ag125 Cu125
 *     lml_mix_plain_density(&alloy, &x, err);    15.449 g/cm3
 */
#ifndef LML_CRAFT_MIX_H
#define LML_CRAFT_MIX_H

#include "value/alloy.h"

typedef struct lml_density_estimate {
    double density;   /* kg/m3 */
    double deviation; /* kg/m3, one standard deviation */
} lml_density_estimate;

/* Solid density near 20 °C by adding specific volumes, rho = 1 / sum(w / rho_element), kg/m3.
 * Never an average of densities by mass: that makes Au750 Ag250 17.10 instead of 15.95 g/cm3.
 * LML_BAD_VALUE: the composition does not sum to 1, or has an unnamed remainder.
 * Source: volumes of ideal mixtures add; any text on physical metallurgy. */
lml_status lml_mix_plain_density(const lml_composition *c, double *density, lml_error *err);

/* The same with the excess volume of gold and copper: 0.42 cm3/mol times the two mole fractions,
 * fitted to four published measurements (Au-Cu 916.67 and 900 ‰ in Rose, The Metallurgy of Gold;
 * X-ray densities of disordered AuCu and AuCu3), which it meets within 0.4 % where the plain rule
 * is 0.7 to 1.3 % too heavy. It is for metal that is one solid solution (cast or annealed); golds
 * below 500 ‰ that have separated into two phases are between the two rules. The deviation depends
 * on the family: 0.5 % for gold, silver and copper alone; 1 % with zinc (up to 10 %), nickel,
 * cobalt, iron or metals of the platinum group; 2 % with more zinc or with tin, indium and the
 * like, which contract and are denser than added volumes say. Up to 0.5 % of a metal, such as a
 * trace of deoxidiser, does not change the family. LML_BAD_VALUE as above. */
lml_status lml_mix_density(const lml_composition *c, lml_density_estimate *out, lml_error *err);

/* Liquid density as 0.90 of the solid's, both in kg/m3; true within 2 % for gold and silver alloys
 * up to 100 K above their liquidus. LML_BAD_VALUE: not positive. Common practice, no source. */
lml_status lml_mix_plain_liquid_density(double solid_density, double *density, lml_error *err);

/* Liquid density, kg/m3, at a temperature in kelvin: the volumes of the liquid elements add
 * (Brillo, Egry and Ho, Int. J. Thermophys. 27 (2006) 494, for Ag-Cu and Ag-Au, excess negligible),
 * each falling in a straight line from its melting point, and extrapolated below it for elements
 * that melt higher than the alloy. LML_NOT_FOUND: an element whose liquid density is not in
 * craft/element. LML_BAD_VALUE: the composition, or a temperature that is not positive or so high
 * that the line ends. */
lml_status lml_mix_liquid_density(const lml_composition *c, double temperature, double *density,
                                  lml_error *err);

/* J/(kg·K) of the solid at 25 °C, by mass from the elements (Neumann and Kopp's rule). The mean
 * from 20 °C to the melting point is 10 to 13 % more for gold, silver and copper. LML_BAD_VALUE:
 * the composition. */
lml_status lml_mix_heat_capacity(const lml_composition *c, double *heat, lml_error *err);

/* J/kg to melt it, by mass from the elements; heats of mixing change it by up to 10 %.
 * LML_BAD_VALUE: the composition. */
lml_status lml_mix_fusion_heat(const lml_composition *c, double *heat, lml_error *err);

#endif
