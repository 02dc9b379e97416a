/* Pack proofs: the recipes of a pack as they would be in the studio: what each declares, beside the
 * current recipe of that name, in the order of what they use; and whether their proofs pass.
 */
#ifndef LML_CLI_PACK_PROOFS_H
#define LML_CLI_PACK_PROOFS_H

#include "cli/ask.h"
#include "studio/intake.h"

typedef struct lml_pack_recipe {
    const lml_piece *piece;
    char name[64];
    lml_json_document *about, *before, *proofs; /* before: NULL if there is none of that name */
    bool before_is_ours;                        /* lemel's own */
    bool in_order;
} lml_pack_recipe;

typedef struct lml_pack_proofs {
    lml_call *call;
    lml_kit now, then; /* as the studio is, and as it will be */
    lml_pack_recipe *recipes;
    size_t count, room, *order;
    size_t passed, failed, unproved; /* proofs, proofs, recipes without one */
} lml_pack_proofs;

/* LML_BAD_RECIPE: a script with the name of one of lemel's, a rule for an unknown point, a recipe
 * that cannot be read, a circle in `uses`; LML_NOT_FOUND: a recipe that it uses does not exist;
 * LML_NO_WRITE: the studio needs something that the pack no longer has. `out` is to be closed in
 * any case. */
lml_status lml_pack_proofs_open(lml_call *call, const lml_intake *intake, lml_pack_proofs *out,
                                lml_error *err);
/* Run them, in that order. LML_STOPPED for the first recipe whose proofs fail or that has none. */
lml_status lml_pack_proofs_run(lml_pack_proofs *proofs, lml_error *err);
void lml_pack_proofs_close(lml_pack_proofs *proofs);

#endif
