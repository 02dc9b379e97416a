#include "base/big.h"
#include "base/double.h"

#include <math.h>
#include <string.h>

enum { LIMBS = LML_BIG_LIMBS, LIMB = 64 };

static int length_of(const uint64_t *limb, int length)
{
    while (length > 0 && limb[length - 1] == 0)
        length--;
    return length;
}

/* Only the limbs in use are copied: most numbers are short. */
static void copy(lml_big *to, const lml_big *from)
{
    to->sign = from->sign;
    to->length = from->length;
    memmove(to->limb, from->limb, (size_t)from->length * sizeof *from->limb);
}

/* Every result goes out here, so that out may be an argument and is untouched on overflow. */
static lml_status store(lml_big *out, int sign, const uint64_t *limb, int length, lml_error *err)
{
    length = length_of(limb, length);
    if (length > LIMBS) {
        lml_fail(err, LML_OVERFLOW, "the exact sum needs more than %d bits", LIMBS * LIMB);
        lml_error_hint(err, "give the figures with fewer digits");
        return LML_OVERFLOW;
    }
    out->sign = length ? sign : 0;
    out->length = length;
    memcpy(out->limb, limb, (size_t)length * sizeof *limb);
    return LML_OK;
}

lml_big lml_big_of(int64_t n)
{
    lml_big big = lml_big_of_u128(n < 0 ? 0 - (uint64_t)n : (uint64_t)n);
    if (n < 0)
        big.sign = -1;
    return big;
}

lml_big lml_big_of_u128(lml_u128 n)
{
    lml_big big;
    big.limb[0] = (uint64_t)n;
    big.limb[1] = (uint64_t)(n >> LIMB);
    big.length = big.limb[1] ? 2 : big.limb[0] ? 1 : 0;
    big.sign = big.length > 0;
    return big;
}

static int compare_magnitudes(const lml_big *a, const lml_big *b)
{
    if (a->length != b->length)
        return a->length > b->length ? 1 : -1;
    for (int i = a->length - 1; i >= 0; i--) {
        if (a->limb[i] != b->limb[i])
            return a->limb[i] > b->limb[i] ? 1 : -1;
    }
    return 0;
}

int lml_big_compare(const lml_big *a, const lml_big *b)
{
    if (a->sign != b->sign)
        return a->sign > b->sign ? 1 : -1;
    return a->sign * compare_magnitudes(a, b);
}

int lml_big_bits(const lml_big *a)
{
    if (a->length == 0)
        return 0;
    return a->length * LIMB - __builtin_clzll(a->limb[a->length - 1]);
}

/* Most numbers are short. */
static void put_short(lml_big *out, lml_i128 n)
{
    lml_u128 size = lml_wide_magnitude(n);
    out->limb[0] = (uint64_t)size;
    out->limb[1] = (uint64_t)(size >> LIMB);
    out->length = out->limb[1] ? 2 : out->limb[0] ? 1 : 0;
    out->sign = n < 0 ? -1 : n > 0;
}

static lml_status add_signed(const lml_big *a, const lml_big *b, int b_sign, lml_big *out,
                             lml_error *err)
{
    int a_sign = a->sign;
    if (a->length <= 1 && b->length <= 1) {
        lml_i128 left = a->length ? a->limb[0] : 0, right = b->length ? b->limb[0] : 0;
        put_short(out, (a_sign < 0 ? -left : left) + (b_sign < 0 ? -right : right));
        return LML_OK;
    }
    if (compare_magnitudes(a, b) < 0) {
        const lml_big *swap = a;
        a = b;
        b = swap;
        int swap_sign = a_sign;
        a_sign = b_sign;
        b_sign = swap_sign;
    }
    uint64_t limb[LIMBS + 1];
    int i = 0;
    if (a_sign == b_sign) {
        uint64_t carry = 0;
        for (; i < a->length; i++) {
            lml_u128 sum = (lml_u128)a->limb[i] + (i < b->length ? b->limb[i] : 0) + carry;
            limb[i] = (uint64_t)sum;
            carry = (uint64_t)(sum >> LIMB);
        }
        limb[i++] = carry;
    } else {
        uint64_t borrow = 0;
        for (; i < a->length; i++) {
            lml_u128 difference = (lml_u128)a->limb[i] - (i < b->length ? b->limb[i] : 0) - borrow;
            limb[i] = (uint64_t)difference;
            borrow = (uint64_t)(difference >> LIMB) & 1;
        }
    }
    return store(out, a_sign, limb, i, err);
}

lml_status lml_big_add(const lml_big *a, const lml_big *b, lml_big *out, lml_error *err)
{
    return add_signed(a, b, b->sign, out, err);
}

lml_status lml_big_sub(const lml_big *a, const lml_big *b, lml_big *out, lml_error *err)
{
    return add_signed(a, b, -b->sign, out, err);
}

lml_status lml_big_mul(const lml_big *a, const lml_big *b, lml_big *out, lml_error *err)
{
    uint64_t limb[2 * LIMBS];
    if (a->length == 1 && b->length == 1) {
        lml_u128 size = (lml_u128)a->limb[0] * b->limb[0];
        int sign = a->sign * b->sign;
        out->limb[0] = (uint64_t)size;
        out->limb[1] = (uint64_t)(size >> LIMB);
        out->length = out->limb[1] ? 2 : 1;
        out->sign = sign;
        return LML_OK;
    }
    memset(limb, 0, (size_t)(a->length + b->length) * sizeof *limb);
    for (int i = 0; i < a->length; i++) {
        uint64_t carry = 0;
        for (int j = 0; j < b->length; j++) {
            lml_u128 sum = (lml_u128)a->limb[i] * b->limb[j] + limb[i + j] + carry;
            limb[i + j] = (uint64_t)sum;
            carry = (uint64_t)(sum >> LIMB);
        }
        limb[i + b->length] = carry;
    }
    return store(out, a->sign * b->sign, limb, a->length + b->length, err);
}

/* out[0..length] = in[0..length) << bits, with bits < 64. */
static void shift_limbs(uint64_t *out, const uint64_t *in, int length, int bits)
{
    uint64_t low = 0;
    for (int i = 0; i < length; i++) {
        out[i] = in[i] << bits | low;
        low = bits ? in[i] >> (LIMB - bits) : 0;
    }
    out[length] = low;
}

/* A ratio shifts its dividend beyond the capacity by the limbs that a double needs. */
enum { WIDE = LIMBS + 3 };

/* a / b, school division (Knuth, The Art of Computer Programming, vol. 2, 4.3.1, algorithm D) for
 * a_length >= b_length >= 1. The quotient gets a_length - b_length + 1 limbs, the remainder
 * b_length. */
static void divide_limbs(const uint64_t *a, int a_length, const uint64_t *b, int b_length,
                         uint64_t *quotient, uint64_t *remainder)
{
    if (b_length == 1) {
        lml_u128 rest = 0;
        for (int i = a_length - 1; i >= 0; i--) {
            rest = rest << LIMB | a[i];
            quotient[i] = (uint64_t)lml_wide_divide(rest, b[0], &rest);
        }
        remainder[0] = (uint64_t)rest;
        return;
    }
    int shift = __builtin_clzll(b[b_length - 1]);
    uint64_t u[WIDE + 1], v[WIDE + 1];
    shift_limbs(u, a, a_length, shift);
    shift_limbs(v, b, b_length, shift);
    uint64_t top = v[b_length - 1], next = v[b_length - 2];
    for (int j = a_length - b_length; j >= 0; j--) {
        lml_u128 head = (lml_u128)u[j + b_length] << LIMB | u[j + b_length - 1];
        lml_u128 rest, guess = lml_wide_divide(head, top, &rest);
        while (guess >> LIMB || guess * next > (rest << LIMB | u[j + b_length - 2])) {
            guess--;
            rest += top;
            if (rest >> LIMB)
                break;
        }
        uint64_t carry = 0, borrow = 0;
        for (int i = 0; i <= b_length; i++) {
            lml_u128 product = (i < b_length ? guess * v[i] : 0) + carry;
            carry = (uint64_t)(product >> LIMB);
            lml_u128 difference = (lml_u128)u[i + j] - (uint64_t)product - borrow;
            u[i + j] = (uint64_t)difference;
            borrow = (uint64_t)(difference >> LIMB) & 1;
        }
        if (borrow) { /* the guess was one too large */
            guess--;
            uint64_t back = 0;
            for (int i = 0; i <= b_length; i++) {
                lml_u128 sum = (lml_u128)u[i + j] + (i < b_length ? v[i] : 0) + back;
                u[i + j] = (uint64_t)sum;
                back = (uint64_t)(sum >> LIMB);
            }
        }
        quotient[j] = (uint64_t)guess;
    }
    for (int i = 0; i < b_length; i++) {
        uint64_t high = shift ? u[i + 1] << (LIMB - shift) : 0;
        remainder[i] = u[i] >> shift | high;
    }
}

lml_status lml_big_divide(const lml_big *a, const lml_big *b, lml_big *quotient, lml_big *remainder,
                          lml_error *err)
{
    if (b->sign == 0)
        return lml_fail(err, LML_BAD_VALUE, "a division by zero");
    int quotient_sign = a->sign * b->sign, remainder_sign = a->sign;
    if (compare_magnitudes(a, b) < 0) {
        if (remainder)
            copy(remainder, a);
        if (quotient)
            quotient->sign = quotient->length = 0;
        return LML_OK;
    }
    uint64_t q[LIMBS], r[LIMBS];
    int q_length = a->length - b->length + 1, r_length = b->length;
    divide_limbs(a->limb, a->length, b->limb, b->length, q, r);
    lml_status status = LML_OK;
    if (quotient)
        status = store(quotient, quotient_sign, q, q_length, err);
    if (remainder && status == LML_OK)
        status = store(remainder, remainder_sign, r, r_length, err);
    return status;
}

/* Bits [from, from + 62) of the magnitude. */
static int64_t bits_from(const lml_big *a, int from)
{
    int word = from / LIMB, bit = from % LIMB;
    uint64_t low = word < a->length ? a->limb[word] >> bit : 0;
    uint64_t high = bit && word + 1 < a->length ? a->limb[word + 1] << (LIMB - bit) : 0;
    return (int64_t)(low | high);
}

/* out = x*a + y*b, which the caller knows to be not negative and not longer than a. */
static void combine(const lml_big *a, int64_t x, const lml_big *b, int64_t y, lml_big *out)
{
    lml_i128 sum = 0;
    for (int i = 0; i < a->length; i++) {
        sum += (lml_i128)x * a->limb[i] + (i < b->length ? (lml_i128)y * b->limb[i] : 0);
        out->limb[i] = (uint64_t)sum;
        sum >>= LIMB;
    }
    out->length = length_of(out->limb, a->length);
    out->sign = out->length > 0;
}

/* Lehmer's algorithm (Knuth, vol. 2, 4.5.2, algorithm L): Euclid's steps on the leading bits, as
 * long as they must be those of the whole numbers, then all of them at once. */
lml_big lml_big_gcd(const lml_big *a, const lml_big *b)
{
    lml_big place[4];
    lml_big *large = &place[0], *small = &place[1];
    lml_big *next_large = &place[2], *next_small = &place[3];
    bool swapped = compare_magnitudes(a, b) < 0;
    copy(large, swapped ? b : a);
    copy(small, swapped ? a : b);
    large->sign = large->length > 0;
    small->sign = small->length > 0;

    while (small->length > 1) {
        int from = lml_big_bits(large) - 62;
        int64_t x = bits_from(large, from), y = bits_from(small, from);
        int64_t p = 1, q = 0, r = 0, s = 1;
        while (y + r != 0 && y + s != 0) {
            int64_t times = (x + p) / (y + r);
            if (times != (x + q) / (y + s))
                break;
            int64_t t = p - times * r;
            p = r;
            r = t;
            t = q - times * s;
            q = s;
            s = t;
            t = x - times * y;
            x = y;
            y = t;
        }
        if (q == 0) {
            lml_big_divide(large, small, NULL, next_small, NULL); /* small is not zero */
            lml_big *swap = large;
            large = small;
            small = next_small;
            next_small = swap;
        } else {
            combine(large, p, small, q, next_large);
            combine(large, r, small, s, next_small);
            lml_big *old_large = large, *old_small = small;
            large = next_large;
            small = next_small;
            next_large = old_large;
            next_small = old_small;
        }
    }
    if (small->length == 0)
        return *large;
    lml_big rest;
    lml_big_divide(large, small, NULL, &rest, NULL);
    return lml_big_of_u128(lml_exact_gcd(small->limb[0], rest.length ? rest.limb[0] : 0));
}

lml_status lml_big_shift(const lml_big *a, int left, lml_big *out, lml_error *err)
{
    if (a->sign == 0 || left == 0) {
        copy(out, a);
        return LML_OK;
    }
    uint64_t limb[LIMBS + 2];
    if (left < 0) {
        int right = -(left + 1); /* one less, so that -INT_MIN is not asked for */
        right = right >= LIMBS * LIMB ? LIMBS * LIMB : right + 1;
        int words = right / LIMB, bits = right % LIMB, length = 0;
        for (int i = words; i < a->length; i++) {
            uint64_t high = bits && i + 1 < a->length ? a->limb[i + 1] << (LIMB - bits) : 0;
            limb[length++] = a->limb[i] >> bits | high;
        }
        return store(out, a->sign, limb, length, err);
    }
    int words = left / LIMB;
    if (words + a->length > LIMBS) { /* past the capacity whatever the bits are */
        static const uint64_t beyond[LIMBS + 1] = {[LIMBS] = 1};
        return store(out, 1, beyond, LIMBS + 1, err);
    }
    memset(limb, 0, (size_t)words * sizeof *limb);
    shift_limbs(limb + words, a->limb, a->length, left % LIMB);
    return store(out, a->sign, limb, words + a->length + 1, err);
}

lml_status lml_big_ten_to(int power, lml_big *out, lml_error *err)
{
    enum { STEP = 19 }; /* the largest power of ten in a limb */
    static const uint64_t step = 10000000000000000000u;
    uint64_t limb[LIMBS + 2] = {1};
    int length = 1;
    while (power > 0 && length <= LIMBS) {
        uint64_t times = step, carry = 0;
        if (power < STEP) {
            times = 1;
            for (int i = 0; i < power; i++)
                times *= 10;
        }
        power -= STEP;
        for (int i = 0; i < length; i++) {
            lml_u128 product = (lml_u128)limb[i] * times + carry;
            limb[i] = (uint64_t)product;
            carry = (uint64_t)(product >> LIMB);
        }
        if (carry)
            limb[length++] = carry;
    }
    return store(out, 1, limb, length, err);
}

double lml_big_ratio(const lml_big *a, const lml_big *b)
{
    if (a->sign == 0)
        return 0;
    /* The quotient of the shifted numbers has 65 or 66 bits. */
    int shift = lml_big_bits(b) + 65 - lml_big_bits(a);
    const lml_big *moved = shift >= 0 ? a : b, *other = shift >= 0 ? b : a;
    int distance = shift >= 0 ? shift : -shift, words = distance / LIMB;
    uint64_t limb[WIDE + 1], quotient[WIDE + 1], remainder[WIDE + 1];
    memset(limb, 0, (size_t)words * sizeof *limb);
    shift_limbs(limb + words, moved->limb, moved->length, distance % LIMB);
    int length = length_of(limb, words + moved->length + 1);
    int quotient_length;
    if (shift >= 0) {
        divide_limbs(limb, length, other->limb, other->length, quotient, remainder);
        quotient_length = length - other->length + 1;
        length = other->length;
    } else {
        divide_limbs(other->limb, other->length, limb, length, quotient, remainder);
        quotient_length = other->length - length + 1;
    }
    quotient_length = length_of(quotient, quotient_length);
    lml_u128 top = quotient[0] | (quotient_length > 1 ? (lml_u128)quotient[1] << LIMB : 0);
    double x = lml_double_join(top, length_of(remainder, length) > 0, -shift);
    return a->sign * b->sign < 0 ? -x : x;
}

lml_status lml_big_from_double(double x, lml_big *top, lml_big *bottom, lml_error *err)
{
    if (!isfinite(x))
        return lml_fail(err, LML_BAD_VALUE, "a number is infinite or is not a number");
    uint64_t mantissa;
    int exponent;
    lml_double_split(x, &mantissa, &exponent);
    lml_big above = lml_big_of_u128(mantissa), below = lml_big_of(1);
    lml_status status = exponent >= 0 ? lml_big_shift(&above, exponent, &above, err)
                                      : lml_big_shift(&below, -exponent, &below, err);
    if (status != LML_OK)
        return status;
    if (x < 0)
        above.sign = -above.sign;
    copy(top, &above);
    copy(bottom, &below);
    return LML_OK;
}
