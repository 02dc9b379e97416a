/* The complementary error function. Its integral, taken by the trapezium rule at steps of 3/8, is
 * short by less than e^(-(8 pi / 3)^2), once what the integrand's pole adds is taken away: Matta
 * and Reichel, "Uniform computation of the error function and other related functions", Mathematics
 * of Computation 25, 1971. */
#include "base/real.h"
#include "base/real_two.h"

#include <math.h>

enum { FINE = 9, COARSE = 10 };

/* e^(-(3n/8)^2): for n from 1 on with twice the digits; then from FINE + 1 on, small enough for one
 * double. */
static const lml_two fine[FINE] = {{0x1.bcd553b9d7b62p-1, 0x1.6ad4c353465bp-61},
                                   {0x1.23ba930c1568bp-1, -0x1.b61343fc21a3bp-64},
                                   {0x1.20d51c43c0ae6p-2, 0x1.668eb0e0997cep-56},
                                   {0x1.afb718e8457f7p-4, 0x1.39fee37323f9dp-58},
                                   {0x1.e7155f0750059p-6, -0x1.24518d2261084p-63},
                                   {0x1.9ed300c108a17p-8, -0x1.cec6182a455b2p-62},
                                   {0x1.0aac5c46eedb6p-10, -0x1.2cd26a55116c2p-65},
                                   {0x1.02cf22526545ap-13, -0x1.baa4930fbe89fp-67},
                                   {0x1.7b324d2b1b3fap-17, 0x1.f5fe56745ccbcp-71}};
static const double coarse[COARSE] = {
    0x1.a3604afdb0929p-21, 0x1.5e1ac6dedefcap-25, 0x1.b93de1e27ca3bp-30, 0x1.a3c4c749fa106p-35,
    0x1.2d7026e60ab5ep-40, 0x1.46caa8412b08p-46,  0x1.0b6c3afdde064p-52, 0x1.4a60a73fd2993p-59,
    0x1.3416fe652236ep-66, 0x1.b1bd46d85e63p-74};

static const lml_two STEP_PER_PI = {0x1.e8ec8a4aeacc4p-4, -0x1.041713f11440cp-61}; /* 3/8 / pi */
static const lml_two TURNS = {0x1.0c152382d7366p+4, -0x1.ee6913347c2a6p-50}; /* 2 pi / (3/8) */
static const lml_two SLOPE = {0x1.20dd750429b6dp+0, 0x1.1ae3a914fed8p-56};   /* 2 / sqrt(pi) */

/* Near 0, the error function is Maclaurin's sum. */
static double near_zero(double x)
{
    double square = x * x;
    double further = 1.0 / 216 - square * (1.0 / 1320 - square * (1.0 / 9360 - square / 75600));
    further = -square * (1.0 / 3 - square * (1.0 / 10 - square * (1.0 / 42 - square * further)));
    lml_two first = lml_two_scale(SLOPE, x);
    lml_two less = lml_two_sum(1, -first.high);
    return less.high + (less.low - (first.low + first.high * further));
}

/* erfc(x) = the result * 2^n, for x from 2^-4 to 28. */
static lml_two positive(double x, int *n)
{
    const double step = 3.0 / 8;
    lml_two square = lml_two_product(x, x), sum = {0, 0};
    double rest = 0;
    for (int i = COARSE; i-- > 0;) {
        double at = step * (FINE + 1 + i);
        rest += coarse[i] / (square.high + at * at);
    }
    sum.high = rest;
    for (int i = FINE; i-- > 0;) {
        double at = step * (i + 1);
        lml_two below = lml_two_sum(square.high, at * at);
        below.low += square.low;
        sum = lml_two_plus(sum, lml_two_over(fine[i], below));
    }
    sum = lml_two_plus(lml_two_scale(sum, 2 * x), lml_two_over((lml_two){1, 0}, (lml_two){x, 0}));
    lml_two power = lml_two_exp((lml_two){-square.high, -square.low}, n);
    sum = lml_two_times(lml_two_times(sum, STEP_PER_PI), power);
    if (x > 8.25) /* the pole adds less than 2^-100 of it */
        return sum;
    int turned;
    lml_two pole = lml_two_exp(lml_two_scale(TURNS, x), &turned);
    double size = lml_two_power(turned), back = lml_two_power(-*n);
    pole = lml_two_plus((lml_two){pole.high * size, pole.low * size}, (lml_two){-1, 0});
    pole = lml_two_over((lml_two){2 * back, 0}, pole);
    return lml_two_plus(sum, (lml_two){-pole.high, -pole.low});
}

double lml_real_erfc(double x)
{
    double far = fabs(x);
    if (isnan(x))
        return x;
    if (far < 0x1p-4)
        return near_zero(x);
    if (far > 28 || x < -6)
        return x < 0 ? 2 : 0;
    int n;
    lml_two tail = positive(far, &n);
    if (x > 0)
        return lml_two_shift(tail, n);
    double size = lml_two_power(n);
    lml_two sum = lml_two_sum(2, -tail.high * size);
    return sum.high + (sum.low - tail.low * size);
}
