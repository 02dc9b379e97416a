#include "base/wide.h"

enum { DIGITS = 4, DIGIT = 32 }; /* a digit has 32 bits, so that two of them fit in a product */

static int split(lml_u128 n, uint32_t digit[DIGITS])
{
    int length = 0;
    for (int i = 0; i < DIGITS; i++) {
        digit[i] = (uint32_t)(n >> (DIGIT * i));
        if (digit[i])
            length = i + 1;
    }
    return length;
}

static lml_u128 join(const uint32_t digit[DIGITS])
{
    lml_u128 n = 0;
    for (int i = DIGITS - 1; i >= 0; i--)
        n = n << DIGIT | digit[i];
    return n;
}

/* School division: Knuth, The Art of Computer Programming, vol. 2, 4.3.1, algorithm D. */
lml_u128 lml_wide_long_divide(lml_u128 a, lml_u128 b, lml_u128 *rest)
{
    if (a < b) {
        *rest = a;
        return 0;
    }
    if (a >> 64 == 0) {
        *rest = (uint64_t)a % (uint64_t)b;
        return (uint64_t)a / (uint64_t)b;
    }
    uint32_t u[DIGITS + 1], v[DIGITS], quotient[DIGITS] = {0};
    int b_length = split(b, v), shift = __builtin_clz(v[b_length - 1]);
    u[DIGITS] = shift ? (uint32_t)(a >> (DIGIT * DIGITS - shift)) : 0;
    split(a << shift, u);
    split(b << shift, v);
    uint64_t top = v[b_length - 1], next = b_length > 1 ? v[b_length - 2] : 0;
    for (int j = DIGITS - b_length; j >= 0; j--) {
        uint64_t head = (uint64_t)u[j + b_length] << DIGIT | u[j + b_length - 1];
        uint64_t guess = head / top, left = head % top;
        uint64_t below = b_length > 1 ? u[j + b_length - 2] : 0;
        while (guess >> DIGIT || guess * next > (left << DIGIT | below)) {
            guess--;
            left += top;
            if (left >> DIGIT)
                break;
        }
        uint64_t carry = 0, borrow = 0;
        for (int i = 0; i <= b_length; i++) {
            uint64_t product = (i < b_length ? guess * v[i] : 0) + carry;
            carry = product >> DIGIT;
            uint64_t difference = (uint64_t)u[i + j] - (uint32_t)product - borrow;
            u[i + j] = (uint32_t)difference;
            borrow = difference >> DIGIT & 1;
        }
        if (borrow) { /* the guess was one too large */
            guess--;
            uint64_t back = 0;
            for (int i = 0; i <= b_length; i++) {
                uint64_t sum = (uint64_t)u[i + j] + (i < b_length ? v[i] : 0) + back;
                u[i + j] = (uint32_t)sum;
                back = sum >> DIGIT;
            }
        }
        quotient[j] = (uint32_t)guess;
    }
    for (int i = b_length; i < DIGITS; i++)
        u[i] = 0;
    *rest = join(u) >> shift;
    return join(quotient);
}
