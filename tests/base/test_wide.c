#include "base/wide.h"
#include "base/random.h"

#include <criterion/criterion.h>

/* Numbers of every length, and those that the guess of a digit goes wrong for: runs of ones and of
 * noughts, ends just below and above a power of two. */
static lml_u128 any(random_source *r)
{
    lml_u128 n = (lml_u128)random_next(r) << 64 | random_next(r);
    switch (random_below(r, 4)) {
    case 0: /* digits that are all ones or all noughts */
        for (int i = 0; i < 4; i++) {
            lml_u128 digit = (lml_u128)UINT32_MAX << (32 * i);
            n = random_next(r) & 1 ? n | digit : n & ~digit;
        }
        break;
    case 1:
        n = ((lml_u128)1 << random_below(r, 128)) + (lml_u128)random_below(r, 5) - 2;
        break;
    default:
        break;
    }
    return n >> random_below(r, 128);
}

/* Held against the compiler's own division. */
Test(wide, divides_as_the_compiler_does)
{
    random_source r = {20260101};
    for (int i = 0; i < 400000; i++) {
        lml_u128 a = any(&r), b = any(&r), rest;
        if (b == 0)
            continue;
        cr_assert(lml_wide_long_divide(a, b, &rest) == a / b && rest == a % b,
                  "%016llx%016llx / %016llx%016llx", (unsigned long long)(a >> 64),
                  (unsigned long long)a, (unsigned long long)(b >> 64), (unsigned long long)b);
        cr_assert(lml_wide_divide(a, b, &rest) == a / b && rest == a % b);
    }
}

/* Cases that need the rare last step of algorithm D, from memory, unverified: those of divmnu in
 * Hacker's Delight (H. S. Warren, 2nd ed.). What is due comes from the compiler. */
Test(wide, adds_back)
{
    lml_u128 a = (lml_u128)0x7fffffff80000000u << 64, b = (lml_u128)0x80000000u << 64 | 1, rest;
    cr_assert(lml_wide_long_divide(a, b, &rest) == a / b && rest == a % b);
    a = (lml_u128)0x8000000000000003u << 32, b = (lml_u128)0x20000000u << 64 | 1;
    cr_assert(lml_wide_long_divide(a, b, &rest) == a / b && rest == a % b);
}

Test(wide, quotients_are_cut_towards_zero)
{
    random_source r = {7};
    for (int i = 0; i < 100000; i++) {
        lml_i128 a = (lml_i128)any(&r), b = (lml_i128)any(&r);
        if (b != 0 && b != -1)
            cr_assert(lml_wide_quotient(a, b) == a / b);
    }
    cr_assert(lml_wide_quotient(-7, 2) == -3 && lml_wide_quotient(7, -2) == -3 &&
              lml_wide_quotient(-7, -2) == 3);
}
