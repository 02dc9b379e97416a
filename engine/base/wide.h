/* Wide: whole numbers of 128 bits, and the one operation that not every compiler has for them.
 *
 * Where a register has 64 bits they are the compiler's __int128. For 32 bits clang has
 * _BitInt(128), with all operators but those of division, so / and % are written as a call
 * everywhere.
 *
 *     lml_u128 rest;
 *     lml_u128 dozens = lml_wide_divide(count, 12, &rest);
 */
#ifndef LML_BASE_WIDE_H
#define LML_BASE_WIDE_H

#include <stddef.h>
#include <stdint.h>

#ifdef __SIZEOF_INT128__
__extension__ typedef __int128 lml_i128;
__extension__ typedef unsigned __int128 lml_u128;
#else
__extension__ typedef _BitInt(128) lml_i128;
__extension__ typedef unsigned _BitInt(128) lml_u128;
#endif

/* a / b, cut short, in arithmetic of 64 bits; what is left over goes to `rest`. b is not zero. */
lml_u128 lml_wide_long_divide(lml_u128 a, lml_u128 b, lml_u128 *rest);

/* The same, by the fastest way on this machine. `rest` may be NULL. */
static inline lml_u128 lml_wide_divide(lml_u128 a, lml_u128 b, lml_u128 *rest)
{
#ifdef __SIZEOF_INT128__
    lml_u128 quotient = a / b, left = a - quotient * b;
#else
    lml_u128 left, quotient = lml_wide_long_divide(a, b, &left);
#endif
    if (rest)
        *rest = left;
    return quotient;
}

static inline lml_u128 lml_wide_magnitude(lml_i128 n)
{
    return n < 0 ? 0 - (lml_u128)n : (lml_u128)n;
}

/* a / b, cut towards zero. */
static inline lml_i128 lml_wide_quotient(lml_i128 a, lml_i128 b)
{
    lml_u128 size = lml_wide_divide(lml_wide_magnitude(a), lml_wide_magnitude(b), NULL);
    return (lml_i128)((a < 0) != (b < 0) ? 0 - size : size);
}

#endif
