#include "words/craft_source.h"

#include "craft/melting.h"

#include <stddef.h>
#include <string.h>

static const char FARADAY[] = "Faraday's law";
static const char IAPWS[] = "IAPWS R7-97(2012), region 4, equations 30 and 31";
static const char ATMOSPHERE[] = "U.S. Standard Atmosphere, 1976";
static const char CONDUCTION[] =
    "the first term of the series in H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, "
    "2nd ed. (1959), sections 7.6 and 3.4: from memory, unverified";
static const char FIT[] = "an exponential law, an unproven fit; common practice, no source";
static const char SEARCH[] = "lemel's own search of the plans that the recipe's rules allow";
static const char MASS_BALANCE[] = "the fine metal before and after melting is the same";
static const char ADDED_VOLUMES[] = "the volumes of powder and water add";
static const char NORMAL[] = "NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.1";

const char *lml_craft_source(const char *name)
{
    static const struct {
        const char *name, *source;
    } rows[] = {
        {"addition", MASS_BALANCE},
        {"air_density", "CIPM-2007, Metrologia 45 (2008) 149-155"},
        {"boiling_pressure", IAPWS},
        {"boiling_temperature", IAPWS},
        {"buoyancy", "NIST IR 6969, SOP 2; OIML D 28:2004"},
        {"casting_plan", SEARCH},
        {"casting_pour", SEARCH},
        {"charge",
         "the simplex method in whole numbers: Edmonds 1967, Bareiss 1968, Bland's rule (1977)"},
        {"density",
         "added volumes, with an excess of gold and copper fitted to measurements: Rose, The "
         "Metallurgy of Gold; X-ray densities of disordered AuCu and AuCu3"},
        {"electrolysis_equivalent", "Faraday's law; The International System of Units, 9th ed. "
                                    "2019, 2.2; valences: common practice, no source"},
        {"element", "figures of the elements, each with its own source"},
        {"equalise_time", CONDUCTION},
        {"fusion_heat", "the elements' heats of fusion add by mass; heats of mixing are left out"},
        {"gold_by_density", "additive volumes; deviation by JCGM 100:2008, 5.1.2"},
        {"heat_capacity", "Neumann and Kopp's rule"},
        {"heat_lag", CONDUCTION},
        {"heat_needed", "heat balance: mass x (heat capacity x rise + heat of fusion)"},
        {"heat_time", "heat balance: the heat needed / (power x the part that reaches the load)"},
        {"liquid_density",
         "the volumes of the liquid elements add: Brillo, Egry and Ho, Int. J. Thermophys. 27 "
         "(2006) 494, for Ag-Cu and Ag-Au; for other metals common practice, no source"},
        {"melting_range", LML_MELTING_SOURCE},
        {"normal", NORMAL},
        {"normal_quantile", NORMAL},
        {"plain_density", "volumes of ideal mixtures add; any text on physical metallurgy"},
        {"plated_mass", FARADAY},
        {"plated_thickness", FARADAY},
        {"plating_current", FARADAY},
        {"plating_time", FARADAY},
        {"reading_under_water", "Archimedes' principle with air buoyancy"},
        {"slurry_batch", ADDED_VOLUMES},
        {"slurry_density", ADDED_VOLUMES},
        {"split", MASS_BALANCE},
        {"standard_pressure", ATMOSPHERE},
        {"station_pressure", ATMOSPHERE},
        {"student_quantile", "Abramowitz and Stegun, Handbook of Mathematical Functions (1964), "
                             "26.7.3 and 26.7.4"},
        {"water_density", "Tanaka, Girard, Davis, Peuto, Bignell, Metrologia 38 (2001) 301-309"},
        {"weigh_under_water",
         "Archimedes' principle with air buoyancy; deviation by JCGM 100:2008, 5.1.2"},
        {"working_rate", FIT},
        {"working_time", FIT},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].name, name) == 0)
            return rows[i].source;
    return NULL;
}
