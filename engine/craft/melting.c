#include "craft/melting.h"

#include "base/real.h"
#include "craft/element.h"
#include <math.h>

/* x are mole fractions; energies are per mole and divided by RT, so that they are pure numbers. The
 * Gibbs energy of a phase, with the solid elements as its zero, is
 *     sum x_i (g_i + ln x_i) + sum over pairs x_i x_j (L0 + L1 d + L2 d^2),  d = x_i - x_j.
 * No term of all three elements was ever fitted. */

enum { AG, AU, CU, PARTS };
enum { SOLID, LIQUID, PHASES };

static const lml_metal metal_of[PARTS] = {LML_Ag, LML_Au, LML_Cu};

static const double gas_constant = 8.31446261815324; /* J/(mol K); SI 2019: N_A k */

/* Gibbs energy of the liquid element less that of the solid, J/mol: h - s T + c T^7. The range in
 * which the elements melt needs no more; above its own melting point silver is 3 J/mol off.
 * A. T. Dinsdale, SGTE data for pure elements, Calphad 15 (1991) 317-425, GLIQ less GHSER; from
 * memory, but each vanishes at the melting point of the ITS-90 to 0.01 K. */
static const struct fusion {
    double enthalpy, entropy, seventh;
} fusion[PARTS] = {
    [AG] = {11025.076, 8.891021, -1.034e-20},
    [AU] = {12552, 9.385866, 0},
    [CU] = {12964.735, 9.511904, -5.8489e-21},
};

/* Redlich-Kister constants, J/mol: L_k = a + b T + c T ln T, in the order of the pair as named. */
typedef struct excess_term {
    double a, b, c;
} excess_term;
enum { PAIRS = 3, ORDERS = 3 };
static const struct interaction {
    int first, second;
    excess_term term[PHASES][ORDERS];
} interaction[PAIRS] = {
    /* S. Hassam et al., Metall. Trans. A 19 (1988) 409; from memory, unverified. */
    {AG, AU, {[SOLID] = {{-15599, 0, 0}}, [LIQUID] = {{-16402, 1.14, 0}}}},
    /* F. H. Hayes et al., Z. Metallkde. 77 (1986) 749, as in the NIST solder database (1999). */
    {AG,
     CU,
     {[SOLID] = {{36061.88, -10.44288, 0}, {-4310.12, 0, 0}},
      [LIQUID] = {{17323.40, -4.46819, 0}, {1654.38, -2.35285, 0}}}},
    /* Liquid: B. Sundman, S. G. Fries, W. A. Oates, Calphad 22 (1998) 335-354; from memory,
     * unverified. Solid: fitted again, to the minimum 910 °C at 44 at% Cu (Okamoto 1987), the
     * filler metals 35Au65Cu and 50Au50Cu (AWS A5.8) and the freezing point of standard gold, all
     * from memory, unverified. Good for melting, not for heats and not for ordering. */
    {AU,
     CU,
     {[SOLID] = {{-32383.6, 78.8, -10}, {5362.9, 0, 0}, {9133.8, 0, 0}},
      [LIQUID] = {{-27900, -1.0, 0}, {4730, 0, 0}, {3500, 3.5, 0}}}},
};

/* The model at one temperature. */
typedef struct model {
    double pure[PHASES][PARTS];
    double excess[PHASES][PAIRS][ORDERS];
} model;

static model model_at(double kelvin)
{
    model m = {{{0}}, {{{0}}}};
    double rt = gas_constant * kelvin;
    for (int i = 0; i < PARTS; i++) {
        const struct fusion *f = &fusion[i];
        m.pure[LIQUID][i] =
            (f->enthalpy - f->entropy * kelvin + f->seventh * lml_real_pow(kelvin, 7)) / rt;
    }
    for (int phase = 0; phase < PHASES; phase++)
        for (int p = 0; p < PAIRS; p++)
            for (int k = 0; k < ORDERS; k++) {
                const excess_term *t = &interaction[p].term[phase][k];
                m.excess[phase][p][k] =
                    (t->a + t->b * kelvin + t->c * kelvin * lml_real_log(kelvin)) / rt;
            }
    return m;
}

/* Excess energy as a polynomial of x, its slopes and its curvature. */
typedef struct excess {
    double energy, slope[PARTS], curve[PARTS][PARTS];
} excess;

static excess excess_of(const model *m, int phase, const double x[PARTS])
{
    excess e = {0, {0}, {{0}}};
    for (int p = 0; p < PAIRS; p++) {
        int i = interaction[p].first, j = interaction[p].second;
        const double *l = m->excess[phase][p];
        double d = x[i] - x[j], product = x[i] * x[j];
        double sum = l[0] + d * (l[1] + d * l[2]), sum1 = l[1] + 2 * l[2] * d, sum2 = 2 * l[2];
        e.energy += product * sum;
        e.slope[i] += x[j] * sum + product * sum1;
        e.slope[j] += x[i] * sum - product * sum1;
        e.curve[i][i] += 2 * x[j] * sum1 + product * sum2;
        e.curve[j][j] += -2 * x[i] * sum1 + product * sum2;
        e.curve[i][j] += sum + d * sum1 - product * sum2;
        e.curve[j][i] = e.curve[i][j];
    }
    return e;
}

/* What an element contributes beyond the ideal, the logarithm of its activity coefficient. */
static void activity(const model *m, int phase, const double x[PARTS], double out[PARTS])
{
    excess e = excess_of(m, phase, x);
    double base = e.energy;
    for (int i = 0; i < PARTS; i++)
        base -= x[i] * e.slope[i];
    for (int i = 0; i < PARTS; i++)
        out[i] = base + e.slope[i];
}

static void potentials(const model *m, int phase, const double x[PARTS], double out[PARTS])
{
    activity(m, phase, x, out);
    for (int i = 0; i < PARTS; i++)
        out[i] += m->pure[phase][i] + lml_real_log(x[i]);
}

static double height(const model *m, int phase, const double y[PARTS], const double mu[PARTS])
{
    double sum = excess_of(m, phase, y).energy;
    for (int i = 0; i < PARTS; i++)
        sum += y[i] * (m->pure[phase][i] + lml_real_log(y[i]) - mu[i]);
    return sum;
}

/* The lowest height of a phase over the plane of the potentials mu, going downhill from y by
 * Newton's method: below zero, the phase forms. y ends at the lowest point. The largest part is the
 * dependent one, and the two others are scaled by their square roots, which keeps a trace from
 * spoiling the equations. */
static double descend(const model *m, int phase, const double mu[PARTS], double y[PARTS])
{
    double now = height(m, phase, y, mu);
    for (int round = 0; round < 60; round++) {
        int r = y[AG] > y[AU] ? (y[AG] > y[CU] ? AG : CU) : (y[AU] > y[CU] ? AU : CU);
        const int free[2] = {(r + 1) % PARTS, (r + 2) % PARTS};
        excess e = excess_of(m, phase, y);
        double slope[PARTS], g[2], ideal[2][2], h[2][2], root[2];
        for (int i = 0; i < PARTS; i++)
            slope[i] = m->pure[phase][i] + lml_real_log(y[i]) - mu[i] + e.slope[i];
        for (int a = 0; a < 2; a++)
            root[a] = sqrt(y[free[a]]);
        for (int a = 0; a < 2; a++) {
            g[a] = (slope[free[a]] - slope[r]) * root[a];
            for (int b = 0; b < 2; b++) {
                int i = free[a], j = free[b];
                double bend = e.curve[i][j] - e.curve[i][r] - e.curve[r][j] + e.curve[r][r];
                ideal[a][b] = (a == b ? 1 : 0) + root[a] * root[b] / y[r];
                h[a][b] = ideal[a][b] + bend * root[a] * root[b];
            }
        }
        double det = h[0][0] * h[1][1] - h[0][1] * h[1][0];
        if (h[0][0] <= 0 || det <= 0) { /* not a bowl here: the ideal part alone always is */
            h[0][0] = ideal[0][0], h[0][1] = ideal[0][1];
            h[1][0] = ideal[1][0], h[1][1] = ideal[1][1];
            det = h[0][0] * h[1][1] - h[0][1] * h[1][0];
        }
        double step[PARTS];
        step[free[0]] = -(h[1][1] * g[0] - h[0][1] * g[1]) / det * root[0];
        step[free[1]] = -(h[0][0] * g[1] - h[1][0] * g[0]) / det * root[1];
        step[r] = -step[free[0]] - step[free[1]];
        double length = 1, largest = 0;
        for (int i = 0; i < PARTS; i++) {
            largest = fmax(largest, fabs(step[i]) / y[i]);
            if (step[i] < 0)
                length = fmin(length, 0.9 * y[i] / -step[i]);
        }
        if (largest < 1e-9)
            break;
        double next[PARTS], then = now;
        bool lower = false;
        for (int halving = 0; halving < 30 && !lower; halving++, length /= 2) {
            for (int i = 0; i < PARTS; i++)
                next[i] = y[i] + length * step[i];
            then = height(m, phase, next, mu);
            lower = then < now;
        }
        if (!lower) /* as low as rounding lets it be */
            break;
        now = then;
        for (int i = 0; i < PARTS; i++)
            y[i] = next[i];
    }
    return now;
}

/* The lowest height of the solid over a plane. Silver and copper part in the solid, so that there
 * may be several valleys: one descent from near each element finds them. */
static double lowest_solid(const model *m, const double mu[PARTS], double at[PARTS])
{
    double best = HUGE_VAL;
    for (int k = 0; k < PARTS; k++) {
        double y[PARTS] = {0.05, 0.05, 0.05};
        y[k] = 0.9;
        double h = descend(m, SOLID, mu, y);
        if (h < best) {
            best = h;
            for (int i = 0; i < PARTS; i++)
                at[i] = y[i];
        }
    }
    return best;
}

/* The share of the second phase for partition ratios k (Rachford and Rice, 1952). */
static double second_share(const double x[PARTS], const double k[PARTS])
{
    double low = 0, high = 1;
    for (int round = 0; round < 52; round++) {
        double f = (low + high) / 2, sum = 0;
        for (int i = 0; i < PARTS; i++)
            sum += x[i] * (k[i] - 1) / (1 + f * (k[i] - 1));
        if (sum > 0)
            low = f;
        else
            high = f;
    }
    return (low + high) / 2;
}

/* Potentials of the solid of composition x, parted into two phases where that is lower. Returns how
 * many phases. */
static int solid_potentials(const model *m, const double x[PARTS], double mu[PARTS])
{
    double first[PARTS], second[PARTS], k[PARTS], a[PARTS], b[PARTS];
    potentials(m, SOLID, x, mu);
    if (lowest_solid(m, mu, second) > -1e-9)
        return 1;
    for (int i = 0; i < PARTS; i++)
        k[i] = second[i] / x[i];
    double change = 1;
    for (int round = 0; round < 500 && change > 1e-11; round++) {
        double f = second_share(x, k);
        for (int i = 0; i < PARTS; i++) {
            first[i] = x[i] / (1 + f * (k[i] - 1));
            second[i] = k[i] * first[i];
        }
        activity(m, SOLID, first, a);
        activity(m, SOLID, second, b);
        change = 0;
        for (int i = 0; i < PARTS; i++) {
            /* Half the step, in logarithms: gold's liking for copper makes the whole one swing. */
            double ratio = sqrt(k[i]) * lml_real_exp((a[i] - b[i]) / 2);
            change = fmax(change, fabs(ratio / k[i] - 1));
            k[i] = ratio;
        }
    }
    potentials(m, SOLID, first, mu);
    return 2;
}

/* Energy of the other phase above that of the alloy: above zero it does not form. */
typedef double rival(double kelvin, const double x[PARTS], int *phases);

static double liquid_over_solid(double kelvin, const double x[PARTS], int *phases)
{
    model m = model_at(kelvin);
    double mu[PARTS], y[PARTS] = {x[AG], x[AU], x[CU]};
    *phases = solid_potentials(&m, x, mu);
    return descend(&m, LIQUID, mu, y);
}

static double solid_over_liquid(double kelvin, const double x[PARTS], int *phases)
{
    model m = model_at(kelvin);
    double mu[PARTS], y[PARTS];
    *phases = 1;
    potentials(&m, LIQUID, x, mu);
    return lowest_solid(&m, mu, y);
}

/* The temperature between low and high at which `over` passes zero, by false position with the
 * standing end halved (the Illinois rule). */
static double crossing(rival *over, const double x[PARTS], double low, double high, int *phases)
{
    double at_low = over(low, x, phases), at_high = over(high, x, phases), t = low, before;
    int side = 0;
    do {
        before = t;
        t = (low * at_high - high * at_low) / (at_high - at_low);
        double at = over(t, x, phases);
        if ((at > 0) == (at_low > 0)) {
            low = t, at_low = at;
            at_high *= side < 0 ? 0.5 : 1;
            side = -1;
        } else {
            high = t, at_high = at;
            at_low *= side > 0 ? 0.5 : 1;
            side = 1;
        }
    } while (fabs(t - before) > 1e-6 && high - low > 1e-6);
    return t;
}

/* No alloy of the three melts below `coldest` or freezes above `hottest`, kelvin. */
static const double coldest = 1030, hottest = 1360;

/* The first appearance of liquid on heating. Near 80 Ag 50 Au 870 Cu liquid comes, goes again as
 * the copper takes up its silver, and returns; so the climb is in steps. */
static double solidus_of(const double x[PARTS], int *phases)
{
    double t = coldest;
    while (t < hottest && liquid_over_solid(t + 6, x, phases) > 0)
        t += 6;
    return crossing(liquid_over_solid, x, t, t + 6, phases);
}

static double liquidus_of(const double x[PARTS])
{
    int phases;
    return crossing(solid_over_liquid, x, coldest, hottest, &phases);
}

/* Mole fractions from mass fractions. An element that is absent counts as a trace, so that
 * logarithms stay finite; it moves the range by less than a millionth of a kelvin. */
static lml_status mole_fractions(const lml_composition *c, double x[PARTS], lml_error *err)
{
    const double trace = 1e-10;
    double foreign = 0, sum = 0;
    int worst = LML_NO_METAL;
    for (int m = 0; m < LML_METALS; m++) {
        if (m == LML_Au || m == LML_Ag || m == LML_Cu)
            continue;
        foreign += c->part[m];
        if (c->part[m] > c->part[worst])
            worst = m;
    }
    if (foreign > LML_MELTING_FOREIGN_MOST) {
        lml_fail(
            err, LML_BAD_VALUE,
            "the melting range can be estimated for gold, silver and copper alone, and the alloy "
            "holds %.6g ‰ of %s",
            c->part[worst] * 1000,
            worst == LML_NO_METAL ? "an unknown metal" : lml_metal_name((lml_metal)worst));
        lml_error_hint(err, "give its solidus and liquidus from the supplier's data sheet");
        return LML_BAD_VALUE;
    }
    for (int i = 0; i < PARTS; i++) {
        x[i] = c->part[metal_of[i]] / lml_element_of(metal_of[i])->atomic_weight.value;
        sum += x[i];
    }
    for (int i = 0; i < PARTS; i++)
        x[i] = fmax(x[i] / sum, trace);
    return LML_OK;
}

lml_status lml_melting_range(const lml_composition *composition, lml_melting *out, lml_error *err)
{
    double x[PARTS];
    if (lml_composition_check(composition, err) || mole_fractions(composition, x, err))
        return LML_BAD_VALUE;
    out->solidus = solidus_of(x, &out->solid_phases);
    out->liquidus = fmax(liquidus_of(x), out->solidus); /* the two round apart where they meet */
    bool wide = out->liquidus - out->solidus > 60;
    out->solidus_deviation = wide ? 65 : 11;
    out->liquidus_deviation = 10;
    return LML_OK;
}
