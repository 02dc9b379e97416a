/* Adopt pack, show: what a person reads of a pack before it is taken in. */
#ifndef LML_CLI_ADOPT_PACK_SHOW_H
#define LML_CLI_ADOPT_PACK_SHOW_H

#include "cli/pack_proofs.h"

/* Name, digest, who signed it (NULL: nobody whom the studio trusts, or nobody looked), and the
 * version that the studio has. */
void lml_adopt_pack_show_head(lml_call *call, const lml_intake *intake, const char *who);
/* File by file what becomes of it; what a recipe says otherwise than the one before it. */
void lml_adopt_pack_show_files(lml_call *call, const lml_intake *intake,
                               const lml_pack_proofs *proofs);
/* The proofs that fail. */
void lml_adopt_pack_show_failures(lml_call *call, const lml_pack_proofs *proofs);
/* How past jobs can be held against it. */
void lml_adopt_pack_show_compare(lml_call *call, const lml_intake *intake,
                                 const lml_pack_proofs *proofs);

#endif
