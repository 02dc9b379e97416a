/* Foreign money: amounts of another currency than the house's, written into a recipe of its own.
 *
 * Proofs pass in any currency, and a job then stops: better said when the recipe is taken in.
 */
#ifndef LML_CLI_FOREIGN_MONEY_H
#define LML_CLI_FOREIGN_MONEY_H

#include "terminal/call.h"
#include "worker/kit.h"

/* Append a sentence on the first such amount outside the proofs of each recipe of the kit that is
 * not lemel's, or only of `recipe`; nothing where the house names no currency. */
lml_status lml_foreign_money_tell(const lml_call *call, const lml_kit *kit, const char *recipe,
                                  lml_builder *out, lml_error *err);

#endif
