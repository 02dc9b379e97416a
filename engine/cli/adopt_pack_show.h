/* Adopt pack, show: what a person sees of a pack before it is adopted. */
#ifndef LML_CLI_ADOPT_PACK_SHOW_H
#define LML_CLI_ADOPT_PACK_SHOW_H

#include "cli/pack_proofs.h"

/* Name, digest, who signed it (NULL: nobody the studio trusts, or not checked), and the studio's
 * own version. */
void lml_adopt_pack_show_head(lml_call *call, const lml_intake *intake, const char *who);
/* What happens to each file; how a recipe differs from its previous version. */
void lml_adopt_pack_show_files(lml_call *call, const lml_intake *intake,
                               const lml_pack_proofs *proofs);
/* The proofs that fail. */
void lml_adopt_pack_show_failures(lml_call *call, const lml_pack_proofs *proofs);
/* How to compare past jobs with it. */
void lml_adopt_pack_show_compare(lml_call *call, const lml_intake *intake,
                                 const lml_pack_proofs *proofs);

#endif
