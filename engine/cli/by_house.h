/* By house: what the house's own rules and recipes change in the proofs of a recipe of lemel's.
 *
 * Lemel's proofs are in euros, and some, such as those on a country's tax, in a currency of their
 * own. A rule that names sums in the house's currency cannot be compared with either: then each of
 * these currencies in turn is replaced by the house's, its name alone, throughout the recipe. No
 * rate comes into it, and a proof that mixes two currencies still mixes them. What even so does not
 * go together is listed by name, with the reason.
 *
 *     lml_by_house_read(call, kit, text, lml_ask_prove, &by_house, err);
 */
#ifndef LML_CLI_BY_HOUSE_H
#define LML_CLI_BY_HOUSE_H

#include "cli/ask.h"
#include "cli/cmd.h"
#include "sheet/layout.h"

enum { LML_BY_HOUSE_MOST = 16 }; /* currencies of one recipe's proofs; lemel's have 4 */

typedef struct lml_by_house {
    lml_json_document *report[LML_BY_HOUSE_MOST]; /* the first as the recipe is written */
    size_t count;
    char currency[4]; /* the house's; empty: not said */
    bool decimals;    /* some currency has others than the house's: it is not replaced */
} lml_by_house;

/* Statuses of `ask`; without a report as written there is none at all. */
lml_status lml_by_house_read(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                             lml_ask_of ask, lml_by_house *out, lml_error *err);
void lml_by_house_free(lml_by_house *by_house);

/* Which of the proofs come out differently. That is the purpose of a house rule, and not a failure;
 * but a rule that breaks the recipe is. */
void lml_by_house_put(const lml_by_house *by_house, lml_layout *layout);
void lml_by_house_write(const lml_by_house *by_house, lml_json_writer *w);
/* How many it breaks. */
size_t lml_by_house_broken(const lml_by_house *by_house);

#endif
