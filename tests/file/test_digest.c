/* SHA-256 against published answers. */
#include "file/digest.h"
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *text;
    const char *digest;
    const char *source;
} known[] = {
    {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
     "FIPS 180-2 (2002), appendix B.1"},
    {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
     "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
     "FIPS 180-2 (2002), appendix B.2"},
    {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
     "NIST CAVP, SHA256ShortMsg, Len = 0"},
    {"\xd3", "28969cdfa74a12c82f3bad960b0b000aca2ac329deea5c2328ebc6f2ba9802c1",
     "NIST CAVP, SHA256ShortMsg, Len = 8"},
};

Test(digest, published_answers)
{
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        char out[LML_DIGEST_TEXT];
        lml_digest_of(lml_span_of(known[i].text), out);
        cr_expect_eq(strncmp(out, "sha256:", 7), 0);
        cr_expect_str_eq(out + 7, known[i].digest, "%s", known[i].source);
    }
}

/* FIPS 180-2 (2002), appendix B.3: one million times "a". */
Test(digest, a_million_letters)
{
    char *text = malloc(1000000), out[LML_DIGEST_TEXT];
    memset(text, 'a', 1000000);
    lml_digest_of((lml_span){text, 1000000}, out);
    cr_expect_str_eq(out,
                     "sha256:cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    free(text);
}

/* However the bytes are cut into pieces the digest is that of the whole: around each block's end.
 */
Test(digest, pieces_give_the_digest_of_the_whole)
{
    char text[200];
    for (size_t i = 0; i < sizeof text; i++)
        text[i] = (char)(i * 7);
    for (size_t length = 50; length < sizeof text; length++) {
        char whole[LML_DIGEST_TEXT];
        unsigned char raw[LML_DIGEST_BYTES];
        lml_digest_of((lml_span){text, length}, whole);
        lml_digest d = lml_digest_start();
        for (size_t at = 0; at < length;) {
            size_t n = 1 + at % 67;
            n = at + n > length ? length - at : n;
            lml_digest_add(&d, (lml_span){text + at, n});
            at += n;
        }
        lml_digest_finish(&d, raw);
        for (int i = 0; i < LML_DIGEST_BYTES; i++) {
            char two[3];
            snprintf(two, sizeof two, "%02x", raw[i]);
            cr_assert_eq(strncmp(whole + 7 + 2 * i, two, 2), 0, "length %zu", length);
        }
    }
}
