/* What a charge is to be like, as further ties of its linear programme. Internal to craft/charge.
 */
#ifndef LML_CRAFT_CHARGE_LIKE_H
#define LML_CRAFT_CHARGE_LIKE_H

#include "craft/charge_model.h"

/* Solve the programme over the model's lots, which has its aim and tie; where the model's problem
 * has an alloy to be like, with that after the tie. The answer may have further columns and rows
 * behind the programme's. */
lml_status lml_charge_like_solve(const lml_charge_model *model,
                                 const lml_simplex_problem *programme, lml_simplex_answer *out,
                                 lml_error *err);

#endif
