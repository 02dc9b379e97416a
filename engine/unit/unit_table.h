/* The rows of the unit table by name.
 *
 * Private to this floor. The order of the rows is the order in which they print.
 */
#ifndef LML_UNIT_UNIT_TABLE_H
#define LML_UNIT_UNIT_TABLE_H

#include "unit/unit.h"

enum lml_unit_id {
    LML_U_ONE,
    LML_U_KG,
    LML_U_G,
    LML_U_MG,
    LML_U_UG,
    LML_U_OZT,
    LML_U_DWT,
    LML_U_GRAIN,
    LML_U_LB,
    LML_U_OZ_AV,
    LML_U_CT,
    LML_U_POINT,
    LML_U_TOLA,
    LML_U_MOMME,
    LML_U_HUNDRED_G,
    LML_U_M,
    LML_U_CM,
    LML_U_MM,
    LML_U_UM,
    LML_U_IN,
    LML_U_FT,
    LML_U_THOU,
    LML_U_UIN,
    LML_U_M2,
    LML_U_DM2,
    LML_U_CM2,
    LML_U_MM2,
    LML_U_IN2,
    LML_U_M3,
    LML_U_DM3,
    LML_U_L,
    LML_U_ML,
    LML_U_CM3,
    LML_U_MM3,
    LML_U_IN3,
    LML_U_FLOZ_US,
    LML_U_FLOZ_IMP,
    LML_U_S,
    LML_U_MIN,
    LML_U_H,
    LML_U_D,
    LML_U_DEGC,
    LML_U_DEGF,
    LML_U_KELVIN,
    LML_U_DELTA_C,
    LML_U_DELTA_F,
    LML_U_K,
    LML_U_PA,
    LML_U_HPA,
    LML_U_KPA,
    LML_U_MPA,
    LML_U_MBAR,
    LML_U_BAR,
    LML_U_ATM,
    LML_U_MMHG,
    LML_U_INHG,
    LML_U_TORR,
    LML_U_PSI,
    LML_U_J,
    LML_U_KJ,
    LML_U_CAL_TH,
    LML_U_CAL_IT,
    LML_U_WH,
    LML_U_KWH,
    LML_U_BTU_IT,
    LML_U_W,
    LML_U_KW,
    LML_U_A,
    LML_U_MA,
    LML_U_V,
    LML_U_PERCENT,
    LML_U_PER_MILLE,
    LML_U_PPM,
    LML_U_DELTA_PER_MILLE,
    LML_U_KT,
    LML_U_COUNT
};

/* The row with the name or spelling `word`; LML_U_COUNT when there is none. */
unsigned lml_unit_table_find(lml_span word);
/* A row for a unit with a power, if the table has one (cm with 3 gives cm3), and back. */
unsigned lml_unit_table_with_power(unsigned id, int power);
unsigned lml_unit_table_root(unsigned id, int *power);

#endif
