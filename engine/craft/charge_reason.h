/* Why a charge cannot be made. Internal to craft/charge. */
#ifndef LML_CRAFT_CHARGE_REASON_H
#define LML_CRAFT_CHARGE_REASON_H

#include "craft/charge_model.h"

/* From a proof that all limits together cannot be met to a smallest set that clashes.
 * `reason->clash` has room for all limits. LML_OVERFLOW and LML_NO_MEMORY as in solving. */
lml_status lml_charge_reason_find(lml_charge_model *model, const lml_simplex_answer *proof,
                                  lml_charge_reason *reason, lml_error *err);

#endif
