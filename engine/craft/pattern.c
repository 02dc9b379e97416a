#include "craft/pattern.h"

#include "craft/check.h"

lml_status lml_pattern_metal(double pattern, double pattern_density, double metal_density,
                             double *metal, lml_error *err)
{
    if (lml_check_not_negative(pattern, "the mass of the pattern (kg)", err) ||
        lml_check_positive(pattern_density, "the density of the pattern (kg/m3)", err) ||
        lml_check_positive(metal_density, "the density of the metal (kg/m3)", err))
        return LML_BAD_VALUE;
    return lml_check_result(pattern * metal_density / pattern_density, "the metal for the pattern",
                            metal, err);
}

lml_status lml_pattern_metal_of_volume(double volume, double metal_density, double *metal,
                                       lml_error *err)
{
    if (lml_check_not_negative(volume, "the volume of the pattern (m3)", err) ||
        lml_check_positive(metal_density, "the density of the metal (kg/m3)", err))
        return LML_BAD_VALUE;
    return lml_check_result(volume * metal_density, "the metal for the pattern", metal, err);
}

lml_status lml_pattern_shrink_credit(double shrink, double *credit, lml_error *err)
{
    if (lml_check_part(shrink, "the linear shrinkage", err))
        return LML_BAD_VALUE;
    double side = 1 - shrink;
    *credit = side * side * side;
    return LML_OK;
}

lml_status lml_pattern_need(double metal, double loss, double skull, double *charge, lml_error *err)
{
    if (lml_check_not_negative(metal, "the metal for pieces, sprues and button (kg)", err) ||
        lml_check_part(loss, "the loss in the melt", err) ||
        lml_check_not_negative(skull, "the metal left in the crucible (kg)", err))
        return LML_BAD_VALUE;
    return lml_check_result(metal / (1 - loss) + skull, "the charge", charge, err);
}

lml_status lml_pattern_capacity(double rating, double rated_density, double density,
                                double *capacity, lml_error *err)
{
    if (lml_check_positive(rating, "the rating of the crucible (kg)", err) ||
        lml_check_positive(rated_density, "the density of the metal it is rated in (kg/m3)", err) ||
        lml_check_positive(density, "the density of the metal to melt (kg/m3)", err))
        return LML_BAD_VALUE;
    return lml_check_result(rating * density / rated_density, "the capacity of the crucible",
                            capacity, err);
}

lml_status lml_pattern_liquid_volume(double mass, double liquid_density, double *volume,
                                     lml_error *err)
{
    if (lml_check_not_negative(mass, "the mass of the charge (kg)", err) ||
        lml_check_positive(liquid_density, "the density of the melt (kg/m3)", err))
        return LML_BAD_VALUE;
    return lml_check_result(mass / liquid_density, "the volume of the melt", volume, err);
}
