/* Signature: whether the page of a pack is signed by somebody whom this studio trusts.
 *
 * The signature is an SSH signature (the format of PROTOCOL.sshsig), in the namespace "lemel-pack";
 * whom the studio trusts is in its file allowed_signers, as ssh-keygen(1) reads it. The program
 * that signs looks at it: it is started by its own path with fixed words and an environment of its
 * own, and no shell. It is looked for in the folders of PATH that are named from the root.
 */
#ifndef LML_STUDIO_SIGNATURE_H
#define LML_STUDIO_SIGNATURE_H

#include "base/text.h"

#define LML_SIGNATURE_SPACE "lemel-pack"
#define LML_SIGNATURE_TRUSTED "allowed_signers"

/* `who` gets the name that the studio's list has for the key. LML_STOPPED: by a key that is not in
 * it, or there is no list; LML_BAD_DATA: over other bytes, or no signature at all; LML_NO_FILE: the
 * program is not there. */
lml_status lml_signature_check(lml_span page, const char *signature, const char *trusted,
                               char who[200], lml_error *err);

#endif
