/* The chemical symbols that a fineness, a fine mass or a composition may name.
 *
 * Only names are here; density and melting point are in craft/element. Index 0: none. Order is that
 * of the enum and never changes within a run.
 */
#ifndef LML_VALUE_METAL_H
#define LML_VALUE_METAL_H

#include "base/text.h"

/* clang-format off */
#define LML_METAL_MAP(X)                                                                           \
    X(Au, "gold") X(Ag, "silver") X(Cu, "copper") X(Zn, "zinc") X(Ni, "nickel")                    \
    X(Pd, "palladium") X(Pt, "platinum") X(Rh, "rhodium") X(Ru, "ruthenium") X(Ir, "iridium")      \
    X(Cd, "cadmium") X(Sn, "tin") X(In, "indium") X(Ga, "gallium") X(Ge, "germanium")              \
    X(Si, "silicon") X(Co, "cobalt") X(Fe, "iron") X(Mn, "manganese") X(Al, "aluminium")           \
    X(Pb, "lead") X(W, "tungsten")
/* clang-format on */

typedef enum lml_metal {
    LML_NO_METAL,
#define X(symbol, name) LML_##symbol,
    LML_METAL_MAP(X)
#undef X
        LML_METALS /* how many, the empty one included */
} lml_metal;

const char *lml_metal_symbol(lml_metal metal); /* "Au"; "" for none */
const char *lml_metal_name(lml_metal metal);   /* "gold" */
/* By symbol, exact case. LML_NO_METAL when unknown. */
lml_metal lml_metal_by_symbol(lml_span symbol);

#endif
