#include "trial/spread.h"

#include "base/real.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static int by_size(const void *x, const void *y)
{
    double a = *(const double *)x, b = *(const double *)y;
    return (a > b) - (a < b);
}

static void find_shortest(const double *sorted, size_t count, size_t covered, lml_spread_found *out)
{
    for (size_t r = 0; r + covered < count; r++)
        if (r == 0 || sorted[r + covered] - sorted[r] < out->shortest_high - out->shortest_low) {
            out->shortest_low = sorted[r];
            out->shortest_high = sorted[r + covered];
        }
}

void lml_spread_of(const double *draw, size_t count, double *room, lml_spread_found *out)
{
    *out = (lml_spread_found){.count = count};
    if (count < 2)
        return;
    double sum = 0, squares = 0;
    for (size_t i = 0; i < count; i++)
        sum += draw[i] - draw[0];
    out->mean = draw[0] + sum / (double)count;
    for (size_t i = 0; i < count; i++)
        squares += (draw[i] - out->mean) * (draw[i] - out->mean);
    out->deviation = sqrt(squares / (double)(count - 1));
    memcpy(room, draw, count * sizeof *room);
    qsort(room, count, sizeof *room, by_size);
    /* 7.7.1 and 7.7.2, counted from 0. */
    size_t covered = (size_t)floor(0.95 * (double)count + 0.5);
    covered = covered < count ? covered : count - 1;
    size_t below = (count - covered) / 2;
    below = below + covered < count ? below : count - 1 - covered;
    out->low = room[below];
    out->high = room[below + covered];
    find_shortest(room, count, covered, out);
}

double lml_spread_tolerance(double deviation, int digits)
{
    if (!(deviation > 0) || !isfinite(deviation))
        return 0;
    double last = floor(lml_real_log10(deviation)) - (digits - 1);
    if (floor(deviation / lml_real_pow(10, last) + 0.5) >= lml_real_pow(10, digits))
        last += 1; /* 0.97 is 1, with one digit */
    return 0.5 * lml_real_pow(10, last);
}

void lml_spread_add(lml_spread_blocks *b, const lml_spread_found *f)
{
    const double found[4] = {f->mean, f->deviation, f->low, f->high};
    if (b->blocks++ == 0)
        memcpy(b->first, found, sizeof found);
    for (int i = 0; i < 4; i++) {
        double off = found[i] - b->first[i];
        b->sum[i] += off;
        b->squares[i] += off * off;
    }
}

bool lml_spread_stable(const lml_spread_blocks *b, double deviation, int digits)
{
    if (b->blocks < 2)
        return false;
    double h = (double)b->blocks, tolerance = lml_spread_tolerance(deviation, digits);
    for (int i = 0; i < 4; i++) {
        double mean = b->sum[i] / h, rest = fmax(0, b->squares[i] - h * mean * mean);
        if (2 * sqrt(rest / (h * (h - 1))) > tolerance)
            return false;
    }
    return true;
}
