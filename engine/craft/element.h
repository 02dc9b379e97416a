/* The elements of the trade: density, melting point, heat capacity and heat of fusion.
 *
 * Figures only, each with its source beside it, as that source prints it; names and symbols are in
 * value/metal. Figures that are not known have the value 0 and no source: test `source`. Heats are
 * stored per mole, as the handbook prints them, and turned to mass by the atomic weight.
 *
 *     const lml_element *gold = lml_element_of(LML_Au);
 *     gold->density.value      -> 19300 kg/m3
 *     gold->density.source     -> "CRC Handbook ..."
 */
#ifndef LML_CRAFT_ELEMENT_H
#define LML_CRAFT_ELEMENT_H

#include "value/metal.h"

typedef struct lml_fact {
    double value;
    const char *source; /* NULL when the figure is not known */
} lml_fact;

typedef struct lml_element {
    lml_fact atomic_weight;  /* relative to 1/12 of carbon-12: g/mol */
    lml_fact density;        /* kg/m3, solid near 20 °C */
    lml_fact melting_point;  /* K */
    lml_fact boiling_point;  /* K at one atmosphere */
    lml_fact molar_heat;     /* J/(mol·K), solid at 25 °C, constant pressure */
    lml_fact molar_fusion;   /* J/mol */
    lml_fact liquid_density; /* kg/m3 at the melting point */
    lml_fact liquid_slope;   /* kg/(m3·K): fall of the liquid's density per kelvin */
} lml_element;

/* NULL for LML_NO_METAL and for a metal that is not in the list. */
const lml_element *lml_element_of(lml_metal metal);

/* J/(kg·K) at 25 °C; `metal` must be in the list. */
double lml_element_heat_capacity(lml_metal metal);
/* J/kg to melt it at its melting point; `metal` must be in the list. */
double lml_element_fusion_heat(lml_metal metal);

#endif
