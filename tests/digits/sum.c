/* Two million results of base/real.h, added up to one number: built by another compiler, with
 * another C library or for another processor, it must print the same. Only exact operations lead to
 * the arguments. */
#include "base/random.h"
#include "base/real.h"

#include <stdio.h>

enum { ROUNDS = 182000 }; /* 11 results each */

static uint64_t sum = 0xcbf29ce484222325u;

/* FNV-1a, a word at a time: Fowler, Noll, Vo, The FNV Non-Cryptographic Hash Algorithm. */
static void add(double x)
{
    uint64_t bits;
    x = x == x ? x : 0; /* which NaN it is, is not promised */
    memcpy(&bits, &x, sizeof bits);
    sum = (sum ^ bits) * 0x100000001b3u;
}

static double between(random_source *r, double low, double high)
{
    return low + (high - low) * ((double)(random_next(r) >> 11) * 0x1p-53);
}

int main(void)
{
    random_source r = {17};
    for (int i = 0; i < ROUNDS; i++) {
        double any = random_double(&r), other = random_double(&r), x = between(&r, 0, 40);
        add(lml_real_exp(between(&r, -750, 712)));
        add(lml_real_expm1(between(&r, -2, 2)));
        add(lml_real_log(any));
        add(lml_real_log(between(&r, 0.9, 1.1)));
        add(lml_real_log10(x));
        add(lml_real_pow(x, between(&r, -200, 200)));
        add(lml_real_pow(any, other));
        add(lml_real_root(x, 1 + i % 9));
        add(lml_real_hypot(any, x));
        add(lml_real_erfc(between(&r, -6, 28)));
        add(lml_real_atan(any < 0 ? x : -x / 20));
    }
    printf("%016llx\n", (unsigned long long)sum);
    return 0;
}
