#include "words/craft_source.h"

#include "craft/melting.h"

#include <stddef.h>
#include <string.h>

static const char PRACTICE[] = "common practice, no source";
static const char FARADAY[] = "Faraday's law";
static const char IAPWS[] = "IAPWS R7-97(2012), region 4, equations 30 and 31";
static const char ATMOSPHERE[] = "U.S. Standard Atmosphere, 1976";
static const char CONDUCTION[] =
    "H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd "
    "ed. (1959), sections 7.6 and 3.4: from memory, unverified";
static const char NORMAL[] = "NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.1";

const char *lml_craft_source(const char *name)
{
    static const struct {
        const char *name, *source;
    } rows[] = {
        {"addition", PRACTICE},
        {"air_density", "CIPM-2007, Metrologia 45 (2008) 149-155"},
        {"boiling_pressure", IAPWS},
        {"boiling_temperature", IAPWS},
        {"buoyancy", "NIST IR 6969, SOP 2; OIML D 28:2004"},
        {"casting_plan", PRACTICE},
        {"casting_pour", PRACTICE},
        {"charge", "the simplex method in whole numbers (Edmonds 1967, Bareiss 1968, Bland 1977)"},
        {"density", "added volumes, with an excess of gold and copper fitted to Rose, The "
                    "Metallurgy of Gold, and to X-ray densities of AuCu and AuCu3"},
        {"electrolysis_equivalent",
         "Faraday's law; The International System of Units, 9th ed. 2019, 2.2"},
        {"element", "figures of the elements, each with its own source"},
        {"equalise_time", CONDUCTION},
        {"fusion_heat", PRACTICE},
        {"gold_by_density", "additive volumes; deviation by JCGM 100:2008, 5.1.2"},
        {"heat_capacity", "Neumann and Kopp's rule"},
        {"heat_lag", CONDUCTION},
        {"heat_needed", PRACTICE},
        {"heat_time", PRACTICE},
        {"liquid_density", "Brillo, Egry and Ho, Int. J. Thermophys. 27 (2006) 494"},
        {"melting_range", LML_MELTING_SOURCE},
        {"normal", NORMAL},
        {"normal_quantile", NORMAL},
        {"plain_density", "volumes of ideal mixtures add; any text on physical metallurgy"},
        {"plated_mass", FARADAY},
        {"plated_thickness", FARADAY},
        {"plating_current", FARADAY},
        {"plating_time", FARADAY},
        {"reading_under_water", "Archimedes' principle with air buoyancy"},
        {"slurry_batch", PRACTICE},
        {"slurry_density", PRACTICE},
        {"split", PRACTICE},
        {"standard_pressure", ATMOSPHERE},
        {"station_pressure", ATMOSPHERE},
        {"student_quantile", "Abramowitz and Stegun, Handbook of Mathematical Functions (1964), "
                             "26.7.3 and 26.7.4"},
        {"water_density", "Tanaka, Girard, Davis, Peuto, Bignell, Metrologia 38 (2001) 301-309"},
        {"weigh_under_water",
         "Archimedes' principle with air buoyancy; deviation by JCGM 100:2008, 5.1.2"},
        {"working_rate", PRACTICE},
        {"working_time", PRACTICE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].name, name) == 0)
            return rows[i].source;
    return NULL;
}
