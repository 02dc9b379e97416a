/* SHA-256 (FIPS 180-4): identifies the bytes of a recipe, in 64 letters.
 *
 *     char name[LML_DIGEST_TEXT];
 *     lml_digest_of(text, name);    "sha256:ba7816bf..."
 */
#ifndef LML_FILE_DIGEST_H
#define LML_FILE_DIGEST_H

#include "base/text.h"

enum { LML_DIGEST_BYTES = 32, LML_DIGEST_TEXT = 72 };

typedef struct lml_digest {
    uint32_t state[8];
    uint64_t length; /* bytes added so far */
    unsigned char block[64];
} lml_digest;

lml_digest lml_digest_start(void);
void lml_digest_add(lml_digest *d, lml_span bytes);
/* Ends it; start again for another. */
void lml_digest_finish(lml_digest *d, unsigned char out[LML_DIGEST_BYTES]);
/* "sha256:" and 64 small hexadecimal digits, NUL-ended. */
void lml_digest_of(lml_span bytes, char out[LML_DIGEST_TEXT]);

#endif
