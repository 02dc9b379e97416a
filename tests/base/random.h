/* A small generator of our own, so that a failing test fails again: xorshift64* (Marsaglia,
 * Xorshift RNGs, Journal of Statistical Software 8, 2003; multiplier by Vigna, 2016). */
#ifndef LML_TESTS_RANDOM_H
#define LML_TESTS_RANDOM_H

#include <stdint.h>
#include <string.h>

typedef struct random_source {
    uint64_t state;
} random_source;

static inline uint64_t random_next(random_source *r)
{
    r->state ^= r->state >> 12;
    r->state ^= r->state << 25;
    r->state ^= r->state >> 27;
    return r->state * 0x2545f4914f6cdd1du;
}

static inline int random_below(random_source *r, int bound)
{
    return (int)(random_next(r) % (uint64_t)bound);
}

/* Of every size alike: as many numbers of 3 bits as of 60. */
static inline int64_t random_i64(random_source *r)
{
    int64_t n = (int64_t)(random_next(r) >> random_below(r, 64));
    return random_next(r) & 1 ? n : (int64_t)(0 - (uint64_t)n);
}

/* Any finite double, subnormals among them. */
static inline double random_double(random_source *r)
{
    uint64_t bits = random_next(r);
    if ((bits >> 52 & 0x7ff) == 0x7ff)
        bits &= ~((uint64_t)1 << 62);
    if (random_below(r, 16) == 0)
        bits &= ~((uint64_t)0x7ff << 52);
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

#endif
