#include "file/digest.h"
#include <string.h>

/* The first 32 bits of the fractional parts of the cube roots of the first 64 primes (FIPS
 * 180-4, 4.2.2). */
static const uint32_t round_constant[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

/* The same of the square roots of the first 8 primes (FIPS 180-4, 5.3.3). */
static const uint32_t start_state[8] = {
    0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19,
};

static uint32_t turn(uint32_t x, int n)
{
    return x >> n | x << (32 - n);
}

/* One round with a to h standing from `place` on, around the end. */
static inline void work_round(uint32_t v[8], int place, uint32_t added)
{
    uint32_t a = v[place], b = v[(place + 1) % 8], c = v[(place + 2) % 8], e = v[(place + 4) % 8],
             f = v[(place + 5) % 8], g = v[(place + 6) % 8], h = v[(place + 7) % 8];
    uint32_t t1 = h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + added;
    uint32_t t2 = (turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    v[(place + 3) % 8] += t1;
    v[(place + 7) % 8] = t1 + t2;
}

/* One block of 64 bytes (FIPS 180-4, 6.2.2). */
static void work_block(uint32_t state[8], const unsigned char *block)
{
    uint32_t w[64];
    for (int i = 0; i < 16; i++)
        w[i] = (uint32_t)block[i * 4] << 24 | (uint32_t)block[i * 4 + 1] << 16 |
               (uint32_t)block[i * 4 + 2] << 8 | (uint32_t)block[i * 4 + 3];
    for (int i = 16; i < 64; i++) {
        uint32_t s0 = turn(w[i - 15], 7) ^ turn(w[i - 15], 18) ^ w[i - 15] >> 3;
        uint32_t s1 = turn(w[i - 2], 17) ^ turn(w[i - 2], 19) ^ w[i - 2] >> 10;
        w[i] = w[i - 16] + s0 + w[i - 7] + s1;
    }
    uint32_t v[8];
    memcpy(v, state, sizeof v);
    for (int i = 0; i < 64;
         i += 8) { /* the letters move one place a round: after eight they are home */
        work_round(v, 0, round_constant[i] + w[i]);
        work_round(v, 7, round_constant[i + 1] + w[i + 1]);
        work_round(v, 6, round_constant[i + 2] + w[i + 2]);
        work_round(v, 5, round_constant[i + 3] + w[i + 3]);
        work_round(v, 4, round_constant[i + 4] + w[i + 4]);
        work_round(v, 3, round_constant[i + 5] + w[i + 5]);
        work_round(v, 2, round_constant[i + 6] + w[i + 6]);
        work_round(v, 1, round_constant[i + 7] + w[i + 7]);
    }
    for (int i = 0; i < 8; i++)
        state[i] += v[i];
}

lml_digest lml_digest_start(void)
{
    lml_digest d = {.length = 0};
    memcpy(d.state, start_state, sizeof d.state);
    return d;
}

void lml_digest_add(lml_digest *d, lml_span bytes)
{
    while (bytes.length > 0) {
        size_t held = d->length % sizeof d->block, part = sizeof d->block - held;
        if (part > bytes.length)
            part = bytes.length;
        memcpy(d->block + held, bytes.at, part);
        d->length += part;
        bytes.at += part;
        bytes.length -= part;
        if (held + part == sizeof d->block)
            work_block(d->state, d->block);
    }
}

void lml_digest_finish(lml_digest *d, unsigned char out[LML_DIGEST_BYTES])
{
    /* A one bit, zeros to 8 bytes short of a block, and the length in bits (FIPS 180-4, 5.1.1). */
    uint64_t bits = d->length * 8;
    lml_digest_add(d, (lml_span){"\x80", 1});
    while (d->length % sizeof d->block != sizeof d->block - 8)
        lml_digest_add(d, (lml_span){"", 1});
    char length[8];
    for (int i = 0; i < 8; i++)
        length[i] = (char)(unsigned char)(bits >> (56 - 8 * i));
    lml_digest_add(d, (lml_span){length, sizeof length});
    for (int i = 0; i < LML_DIGEST_BYTES; i++)
        out[i] = (unsigned char)(d->state[i / 4] >> (24 - 8 * (i % 4)));
}

void lml_digest_of(lml_span bytes, char out[LML_DIGEST_TEXT])
{
    unsigned char raw[LML_DIGEST_BYTES];
    lml_digest d = lml_digest_start();
    lml_digest_add(&d, bytes);
    lml_digest_finish(&d, raw);
    memcpy(out, "sha256:", 7);
    for (int i = 0; i < LML_DIGEST_BYTES; i++) {
        out[7 + 2 * i] = "0123456789abcdef"[raw[i] >> 4];
        out[8 + 2 * i] = "0123456789abcdef"[raw[i] & 15];
    }
    out[7 + 2 * LML_DIGEST_BYTES] = 0;
}
