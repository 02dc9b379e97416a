/* Random numbers that are the same in every run (xorshift64*), for property tests. */
#ifndef LML_TESTS_RANDOM_H
#define LML_TESTS_RANDOM_H

#include <stdint.h>

typedef struct chance {
    uint64_t state;
} chance;

static inline uint64_t chance_next(chance *c)
{
    c->state ^= c->state >> 12;
    c->state ^= c->state << 25;
    c->state ^= c->state >> 27;
    return c->state * 2685821657736338717u;
}

/* 0 <= x < 1 */
static inline double chance_unit(chance *c)
{
    return (double)(chance_next(c) >> 11) * 0x1p-53;
}

static inline double chance_between(chance *c, double low, double high)
{
    return low + (high - low) * chance_unit(c);
}

/* low <= n <= high */
static inline int64_t chance_whole(chance *c, int64_t low, int64_t high)
{
    return low + (int64_t)(chance_next(c) % (uint64_t)(high - low + 1));
}

#endif
