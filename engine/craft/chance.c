#include "craft/chance.h"

#include "base/real.h"
#include "craft/check.h"

#include <math.h>

static const double PI = 3.14159265358979323846;

double lml_chance_normal(double z)
{
    return 0.5 * lml_real_erfc(-z / sqrt(2.0));
}

typedef double below(double x, int freedom);

/* The x >= 0 beyond which a symmetric distribution has `tail` (at most a half). The tail falls
 * steadily. False position draws both ends of the range near to it, with the value at an end that
 * stays twice halved (the Illinois method); bisection comes to the last bit of a double. How near,
 * and in how many steps, is a choice of ours: the result does not depend on it. */
static double beyond(below *distribution, int freedom, double tail)
{
    enum { STEPS = 20 };
    static const double NEAR = 1e-13;
    double low = 0.0, high = 1.0;
    while (distribution(-high, freedom) > tail) {
        low = high;
        high *= 2.0;
    }
    double over = distribution(-low, freedom) - tail, under = tail - distribution(-high, freedom);
    int moved = 0; /* 1: the low end, -1: the high end did the last time */
    for (int i = 0; i < STEPS && high - low > NEAR * high; i++) {
        double x = low + (high - low) * (over / (over + under));
        double rest = distribution(-x, freedom) - tail;
        if (!(x > low && x < high))
            break;
        if (rest > 0.0) {
            low = x;
            over = rest;
            under /= moved > 0 ? 2.0 : 1.0;
            moved = 1;
        } else {
            high = x;
            under = -rest;
            over /= moved < 0 ? 2.0 : 1.0;
            moved = -1;
        }
    }
    for (;;) {
        double middle = low + (high - low) / 2.0;
        if (middle <= low || middle >= high)
            return middle;
        if (distribution(-middle, freedom) > tail)
            low = middle;
        else
            high = middle;
    }
}

static double quantile(below *distribution, int freedom, double chance)
{
    return chance < 0.5 ? -beyond(distribution, freedom, chance)
                        : beyond(distribution, freedom, 1.0 - chance);
}

static double normal_below(double z, int freedom)
{
    (void)freedom;
    return lml_chance_normal(z);
}

lml_status lml_chance_normal_quantile(double chance, double *z, lml_error *err)
{
    if (!(chance > 0 && chance < 1))
        return lml_fail(err, LML_BAD_VALUE, "a chance must be above 0 and below 100 %%");
    *z = quantile(normal_below, 0, chance);
    return LML_OK;
}

/* The part between -t and t is a finite sum of powers of the cosine of the angle whose tangent is t
 * / sqrt(freedom). */
static double student_below(double t, int freedom)
{
    double side = sqrt((double)freedom), across = fabs(t), slant = lml_real_hypot(side, across);
    double angle = lml_real_atan(across / side), sine = across / slant, cosine = side / slant,
           square = cosine * cosine;
    bool odd = freedom % 2 != 0;
    double term = odd ? cosine : 1.0, sum = freedom == 1 ? 0.0 : term;
    for (int k = odd ? 3 : 2; k <= freedom - 2; k += 2) {
        term *= square * (double)(k - 1) / (double)k;
        sum += term;
    }
    double between = odd ? 2.0 / PI * (angle + sine * sum) : sine * sum;
    return t < 0 ? (1.0 - between) / 2.0 : (1.0 + between) / 2.0;
}

static lml_status check_freedom(double freedom, lml_error *err)
{
    if (freedom != floor(freedom))
        return lml_fail(err, LML_BAD_VALUE, "the degrees of freedom must be a whole number");
    return lml_check_between(freedom, 1, 1000, "the degrees of freedom", err);
}

lml_status lml_chance_student(double t, double freedom, double *chance, lml_error *err)
{
    if (!isfinite(t))
        return lml_fail(err, LML_BAD_VALUE, "t must be a finite number");
    if (check_freedom(freedom, err))
        return LML_BAD_VALUE;
    *chance = student_below(t, (int)freedom);
    return LML_OK;
}

lml_status lml_chance_student_quantile(double chance, double freedom, double *t, lml_error *err)
{
    if (lml_check_between(chance, 1e-9, 1 - 1e-9, "the chance", err) || check_freedom(freedom, err))
        return LML_BAD_VALUE;
    *t = quantile(student_below, (int)freedom, chance);
    return LML_OK;
}
