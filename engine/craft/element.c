#include "craft/element.h"

static const char IUPAC[] =
    "Prohaska et al., Standard atomic weights of the elements 2021 (IUPAC), "
    "Pure Appl. Chem. 94 (2022), abridged table";
static const char ITS90[] =
    "International Temperature Scale of 1990, Table 1, defining fixed points";
static const char CRC95[] = "CRC Handbook of Chemistry and Physics, 95th ed. (2014)";
static const char CRC80[] = "CRC Handbook of Chemistry and Physics, 80th ed. (1999)";
static const char LIQUID[] =
    "CRC Handbook of Chemistry and Physics, Density of Molten Elements and Representative Salts";
static const char LIQUID_MEMORY[] =
    "CRC Handbook of Chemistry and Physics, Density of Molten Elements and Representative Salts: "
    "from memory, unverified";
static const char GNU[] = "GNU units 2.22, definitions.units 3.15 (2022), elements";
static const char PUBCHEM[] = "PubChem periodic table (US National Library of Medicine)";
static const char MEMORY[] = "from memory, unverified";
static const char LATTICE[] =
    "two atoms in a cube of 3.165 A: from memory, unverified; handbooks round it to 19.3";

/* Where handbooks differ, a value between them is used: gold 19.28-19.32, silver 10.49-10.50,
 * copper 8.93-8.96, nickel 8.90-8.91, palladium 12.00-12.02, platinum 21.45-21.50 g/cm3. The
 * densities of gold, silver and copper are those against which the excess volume of craft/mix was
 * fitted: change them together. Facts are in the order of lml_element. */
static const lml_element elements[LML_METALS] = {
    [LML_Au] = {{196.96657, IUPAC},
                {19300, CRC95},
                {1337.33, ITS90},
                {3129, PUBCHEM},
                {25.4, CRC95},
                {12550, CRC95},
                {17310, LIQUID},
                {1.343, LIQUID}},
    [LML_Ag] = {{107.8682, IUPAC},
                {10490, GNU},
                {1234.93, ITS90},
                {2435, PUBCHEM},
                {25.4, CRC95},
                {11300, CRC95},
                {9320, LIQUID},
                {0.9, LIQUID}},
    [LML_Cu] = {{63.546, IUPAC},
                {8960, CRC95},
                {1357.77, ITS90},
                {2835, PUBCHEM},
                {24.4, CRC95},
                {13260, CRC95},
                {8020, LIQUID_MEMORY},
                {0.609, LIQUID_MEMORY}},
    [LML_Zn] = {{65.38, IUPAC},
                {7140, GNU},
                {692.677, ITS90},
                {1180, PUBCHEM},
                {25.4, CRC95},
                {7068, CRC95},
                {6570, LIQUID_MEMORY},
                {1.1, LIQUID_MEMORY}},
    [LML_Ni] = {{58.6934, IUPAC},
                {8908, GNU},
                {1728.15, CRC95},
                {3186, PUBCHEM},
                {26.1, CRC95},
                {17480, CRC95},
                {7810, LIQUID_MEMORY},
                {0.726, LIQUID_MEMORY}},
    [LML_Pd] = {{106.42, IUPAC},
                {12020, CRC80},
                {1827.95, CRC95},
                {3236, PUBCHEM},
                {26.0, CRC95},
                {16740, CRC95},
                {10380, LIQUID_MEMORY},
                {1.169, LIQUID_MEMORY}},
    [LML_Pt] = {{195.084, IUPAC},
                {21450, CRC80},
                {2041.35, CRC95},
                {4098, PUBCHEM},
                {25.9, CRC95},
                {22175, CRC95},
                {19770, LIQUID_MEMORY},
                {2.4, LIQUID_MEMORY}},
    [LML_Rh] = {{102.90549, IUPAC},
                {12410, CRC80},
                {2236.15, CRC95},
                {3968, PUBCHEM},
                {25.0, CRC95},
                {26590, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Ru] = {{101.07, IUPAC},
                {12410, CRC80},
                {2606.15, CRC95},
                {4423, PUBCHEM},
                {24.1, CRC95},
                {38590, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Ir] = {{192.217, IUPAC},
                {22560, GNU},
                {2719.15, CRC95},
                {4701, PUBCHEM},
                {25.1, CRC95},
                {41120, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Cd] = {{112.414, IUPAC},
                {8650, CRC80},
                {594.219, CRC95},
                {1040, PUBCHEM},
                {26.0, CRC95},
                {6210, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Sn] = {{118.710, IUPAC},
                {7287, CRC95},
                {505.078, ITS90},
                {2875, PUBCHEM},
                {25.8, CRC95},
                {7150, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_In] = {{114.818, IUPAC},
                {7310, CRC95},
                {429.7485, ITS90},
                {2345, PUBCHEM},
                {26.7, CRC95},
                {3291, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Ga] = {{69.723, IUPAC},
                {5910, CRC95},
                {302.9146, ITS90},
                {2477, PUBCHEM},
                {26.1, CRC95},
                {5585, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Ge] = {{72.630, IUPAC},
                {5323.4, CRC95},
                {1211.4, CRC95},
                {3106, PUBCHEM},
                {23.3, CRC95},
                {36940, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Si] = {{28.085, IUPAC},
                {2329.6, CRC95},
                {1687.15, CRC95},
                {3538, PUBCHEM},
                {20.0, CRC95},
                {50210, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Co] = {{58.933194, IUPAC},
                {8860, CRC95},
                {1768.15, CRC95},
                {3200, PUBCHEM},
                {24.8, CRC95},
                {16200, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Fe] = {{55.845, IUPAC},
                {7870, CRC95},
                {1811.15, CRC95},
                {3134, PUBCHEM},
                {25.1, CRC95},
                {13810, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Mn] = {{54.938043, IUPAC},
                {7300, CRC95},
                {1519.15, CRC95},
                {2334, PUBCHEM},
                {26.3, CRC95},
                {12910, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Al] = {{26.9815384, IUPAC},
                {2700, CRC95},
                {933.473, ITS90},
                {2792, PUBCHEM},
                {24.2, CRC95},
                {10710, CRC95},
                {0, NULL},
                {0, NULL}},
    [LML_Pb] = {{207.2, GNU},
                {11340, GNU},
                {600.61, PUBCHEM},
                {2022, PUBCHEM},
                {26.65, MEMORY},
                {4774, MEMORY},
                {0, NULL},
                {0, NULL}},
    /* Tungsten comes to the bench inside gold-plated fakes, for its density; nobody melts it here.
     */
    [LML_W] = {{183.84, GNU},
               {19250, LATTICE},
               {3695, PUBCHEM},
               {5828, PUBCHEM},
               {24.3, MEMORY},
               {35400, MEMORY},
               {0, NULL},
               {0, NULL}},
};

const lml_element *lml_element_of(lml_metal metal)
{
    return metal > LML_NO_METAL && metal < LML_METALS ? &elements[metal] : NULL;
}

double lml_element_heat_capacity(lml_metal metal)
{
    const lml_element *e = &elements[metal];
    return e->molar_heat.value / (e->atomic_weight.value * 1e-3);
}

double lml_element_fusion_heat(lml_metal metal)
{
    const lml_element *e = &elements[metal];
    return e->molar_fusion.value / (e->atomic_weight.value * 1e-3);
}
