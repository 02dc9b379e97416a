/* Money shared out: MONEY form feed WEIGHT form feed WEIGHT ... The parts sum to the whole to the
 * last unit, none is of the other sign or further from its due than one payable unit, no weight is
 * no share, and equal weights differ by one unit at most. */
#include "fuzz.h"
#include "value/money.h"
#include "value/wanted.h"
#include "read/read.h"

#include <math.h>

enum { SHARES = 40 };

/* As strtod reads them, so that the ends of the range, infinities and what is no number come too.
 */
static size_t read_weights(lml_span rest, double weights[SHARES])
{
    size_t count = 0;
    while (rest.length > 0 && count < SHARES) {
        char text[64];
        lml_span part = fuzz_part(&rest);
        snprintf(text, sizeof text, "%.*s", (int)(part.length < 63 ? part.length : 63), part.at);
        weights[count++] = strtod(text, NULL);
    }
    return count;
}

static bool can_be_shared(const double *weights, size_t count)
{
    double most = 0;
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(weights[i]) || weights[i] < 0)
            return false;
        most = weights[i] > most ? weights[i] : most;
    }
    return most > 0;
}

static void expect_fair(const lml_value *money, const double *weights, size_t count,
                        const lml_value *parts)
{
    lml_value unit, one = lml_money(1, money->dimension.currency);
    lml_error err;
    fuzz_expect(lml_money_round(&one, LML_UP, &unit, &err) == LML_OK, "%s", err.message);
    long double all = 0, sum = 0;
    for (size_t i = 0; i < count; i++)
        all += weights[i];
    int64_t left = money->exact;
    for (size_t i = 0; i < count; i++) {
        long double due = (long double)money->exact * (weights[i] / all);
        long double off = parts[i].exact - due, slack = fabsl(due) * 1e-15L + 1;
        left -= parts[i].exact;
        sum += parts[i].exact;
        fuzz_expect(parts[i].exact % unit.exact == 0, "part %zu cannot be paid", i + 1);
        fuzz_expect(money->exact < 0 ? parts[i].exact <= 0 : parts[i].exact >= 0,
                    "part %zu is of the other sign", i + 1);
        fuzz_expect(weights[i] > 0 || parts[i].exact == 0, "part %zu has no weight and a share",
                    i + 1);
        fuzz_expect(fabsl(off) <= (long double)unit.exact + slack, "part %zu is %Lg off", i + 1,
                    off);
        for (size_t k = 0; k < i; k++)
            fuzz_expect(weights[i] != weights[k] ||
                            llabs(parts[i].exact - parts[k].exact) <= unit.exact,
                        "parts %zu and %zu are of one weight", k + 1, i + 1);
    }
    fuzz_expect(left == 0 && sum == (long double)money->exact, "%lld is left over",
                (long long)left);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_span rest = {(const char *)data, size}, first = fuzz_part(&rest);
    double weights[SHARES];
    lml_value money, paid, parts[SHARES];
    lml_error err;
    size_t count = read_weights(rest, weights);
    if (count == 0 || lml_read_value(first, LML_WANT_MONEY, LML_NO_METAL, &money, &err) != LML_OK)
        return 0;
    lml_status status = lml_money_share(&money, weights, count, parts, &err);
    fuzz_expect_sound(status, &err);
    if (status == LML_OK)
        expect_fair(&money, weights, count, parts);
    else
        fuzz_expect(status == LML_BAD_VALUE, "%s: %s", lml_status_name(status), err.message);
    if (lml_money_round(&money, LML_HALF_EVEN, &paid, &err) == LML_OK &&
        can_be_shared(weights, count)) {
        status = lml_money_share(&paid, weights, count, parts, &err);
        fuzz_expect(status == LML_OK, "what can be paid is not shared: %s", err.message);
        expect_fair(&paid, weights, count, parts);
    }
    return 0;
}
