#include "base/random.h"
#include "base/real.h"

#include <criterion/criterion.h>
#include <float.h>
#include <math.h>
#ifdef LML_MPFR
#include <mpfr.h>
#endif

static bool same(double a, double b)
{
    return isnan(a) ? isnan(b) : a == b && signbit(a) == signbit(b);
}

#define expect_same(call, wanted)                                                                  \
    cr_expect(same(call, wanted), "%s is %.17g, and not %s", #call, call, #wanted)

/* The compiler rounds each constant to the nearest double, and the result must be that very one. */
Test(real, results_are_the_published_ones_to_the_last_place)
{
    /* Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 1.1, mathematical
     * constants: from memory, unverified. The digits agree with mpmath's at 40 places. */
    expect_same(lml_real_exp(1), 2.71828182845904523536);
    expect_same(lml_real_exp(2), 7.38905609893065022723);
    expect_same(lml_real_exp(3), 20.0855369231876677409);
    expect_same(lml_real_exp(-1), 0.36787944117144232160);
    expect_same(lml_real_exp(-2), 0.13533528323661269189);
    expect_same(lml_real_log(2), 0.69314718055994530942);
    expect_same(lml_real_log(3), 1.09861228866810969140);
    expect_same(lml_real_log(5), 1.60943791243410037460);
    expect_same(lml_real_log(10), 2.30258509299404568402);
    expect_same(lml_real_log10(2), 0.30102999566398119521);
    expect_same(lml_real_log10(3), 0.47712125471966243730);
    expect_same(lml_real_log10(7), 0.84509804001425683071);
    expect_same(lml_real_pow(10, 0.5), 3.16227766016837933200);
    expect_same(lml_real_root(10, 3), 2.15443469003188372176);
    expect_same(lml_real_root(2, 3), 1.25992104989487316477);
    expect_same(lml_real_root(3, 3), 1.44224957030740838232);
    expect_same(lml_real_pow(2, 0.25), 1.18920711500272106672);
    /* The same handbook, table 7.1: the error function of 0.5 and of 1, to ten decimals. From
     * memory too. */
    cr_expect_float_eq(1 - lml_real_erfc(0.5), 0.5204998778, 5.1e-11);
    cr_expect_float_eq(1 - lml_real_erfc(1), 0.8427007929, 5.1e-11);
    cr_expect_float_eq(lml_real_erfc(-1) - 1, 0.8427007929, 5.1e-11);
    /* The angle of 1 is an eighth of a turn, and that of 1/sqrt(3) a twelfth: Euclid, Elements, IV
     * 15 with I 47. */
    expect_same(lml_real_atan(1), 3.14159265358979323846 / 4);
    expect_same(lml_real_atan(-1), -3.14159265358979323846 / 4);
    cr_expect_float_eq(lml_real_atan(1 / sqrt(3)), 3.14159265358979323846 / 6, 1.2e-16);
}

Test(real, what_comes_out_even_is_exact)
{
    double ten = 1;
    for (int n = 0; n <= 22; n++, ten *= 10) { /* 10^22 is the last that a double holds */
        cr_expect_eq(lml_real_log10(ten), n);
        cr_expect_eq(lml_real_pow(10, n), ten);
        cr_expect_eq(lml_real_pow(10, -n), 1 / ten);
    }
    for (int degree = 1; degree <= 9; degree++)
        for (int base = 0; base <= 40; base++) {
            double power = 1;
            for (int i = 0; i < degree; i++)
                power *= base;
            if (power < 0x1p53) {
                cr_expect_eq(lml_real_root(power, degree), base, "root %d of %.0f", degree, power);
                cr_expect_eq(lml_real_pow(base, degree), power);
                cr_expect_eq(lml_real_pow(-base, degree), degree % 2 ? -power : power);
            }
        }
    for (int n = -1074; n <= 1023; n++)
        cr_expect_eq(lml_real_pow(2, n), ldexp(1, n));
    cr_expect_eq(lml_real_pow(2.25, 1.5), 3.375);
    cr_expect_eq(lml_real_hypot(3, 4),
                 5); /* Pythagorean triples: Euclid, Elements, X 28, lemma 1 */
    cr_expect_eq(lml_real_hypot(-0x5p1000, 0xcp1000), 0xdp1000);
    cr_expect_eq(lml_real_hypot(0x8p-1074, 0xfp-1074), 0x11p-1074);
}

/* ISO/IEC 9899:2011 (C11), annex F.9: the functions at the ends of their ranges. */
Test(real, the_ends_are_those_of_the_standard)
{
    const double inf = INFINITY, nan = NAN, least = 0x1p-1074;
    expect_same(lml_real_exp(0), 1);
    expect_same(lml_real_exp(inf), inf);
    expect_same(lml_real_exp(-inf), 0);
    expect_same(lml_real_exp(nan), nan);
    /* Between these two lies the logarithm of the largest double, 5.2.4.2.2. */
    cr_expect_lt(lml_real_exp(0x1.62e42fefa39efp9), inf);
    cr_expect_gt(lml_real_exp(0x1.62e42fefa39efp9), 0x1.fffffffffep1023);
    expect_same(lml_real_exp(0x1.62e42fefa39fp9), inf);
    expect_same(lml_real_exp(-745.13), least);
    expect_same(lml_real_exp(-745.14), 0);
    expect_same(lml_real_expm1(0), 0);
    expect_same(lml_real_expm1(-0.0), -0.0);
    expect_same(lml_real_expm1(least), least);
    expect_same(lml_real_expm1(inf), inf);
    expect_same(lml_real_expm1(-inf), -1);
    expect_same(lml_real_expm1(nan), nan);
    expect_same(lml_real_log(0), -inf);
    expect_same(lml_real_log(-0.0), -inf);
    expect_same(lml_real_log(1), 0);
    expect_same(lml_real_log(-1), nan);
    expect_same(lml_real_log(inf), inf);
    expect_same(lml_real_log(-inf), nan);
    expect_same(lml_real_log10(0), -inf);
    expect_same(lml_real_log10(-1), nan);
    expect_same(lml_real_log10(inf), inf);
    expect_same(lml_real_log10(nan), nan);
    expect_same(lml_real_erfc(-inf), 2);
    expect_same(lml_real_erfc(inf), 0);
    expect_same(lml_real_erfc(0), 1);
    expect_same(lml_real_erfc(nan), nan);
    expect_same(lml_real_atan(-0.0), -0.0);
    expect_same(lml_real_atan(least), least);
    expect_same(lml_real_atan(inf), 3.14159265358979323846 / 2);
    expect_same(lml_real_atan(-inf), -3.14159265358979323846 / 2);
    expect_same(lml_real_atan(nan), nan);
    expect_same(lml_real_hypot(nan, -inf), inf);
    expect_same(lml_real_hypot(0, -0.0), 0);
    expect_same(lml_real_hypot(nan, 1), nan);
    expect_same(lml_real_hypot(DBL_MAX, DBL_MAX), inf);
    expect_same(lml_real_root(0, 3), 0);
    expect_same(lml_real_root(inf, 3), inf);
    expect_same(lml_real_root(-1, 3), nan);
    expect_same(lml_real_root(nan, 3), nan);
}

/* Outside check: the C library, which promises the standard's results for such arguments, and is
 * within a last place of the true result elsewhere (GNU C Library manual, "Known Maximum Errors in
 * Math Functions"). */
Test(real, powers_of_odd_arguments_are_those_of_the_c_library)
{
    const double odd[] = {0,
                          1,
                          2,
                          3,
                          0.5,
                          1.5,
                          710,
                          745.2,
                          746,
                          1e308,
                          1e300,
                          1e-300,
                          1e-310,
                          0x1p-1074,
                          INFINITY,
                          NAN,
                          9007199254740991,
                          0x1p53,
                          0x1p54,
                          0x1p64,
                          0x1p65,
                          1 + DBL_EPSILON,
                          1 - DBL_EPSILON / 2,
                          DBL_MAX};
    const int count = sizeof odd / sizeof odd[0];
    for (int i = 0; i < 4 * count * count; i++) {
        double x = odd[i / 4 % count], y = odd[i / 4 / count];
        x = i & 1 ? -x : x;
        y = i & 2 ? -y : y;
        double ours = lml_real_pow(x, y), theirs = pow(x, y);
        bool close =
            isfinite(theirs) && theirs != 0 && fabs(ours - theirs) <= fabs(theirs) * DBL_EPSILON;
        cr_expect(close || same(ours, theirs), "%a to the power of %a is %a, and not %a", x, y,
                  ours, theirs);
    }
}

#ifdef LML_MPFR

enum { DRAWN = 4000 };

static double small(random_source *r) /* of every size from 2^-30 to 1 alike, of either sign */
{
    double x = ldexp(1 + (double)random_below(r, 1 << 30) * 0x1p-30, -1 - random_below(r, 30));
    return random_below(r, 2) ? -x : x;
}
static double within(random_source *r, double low, double high)
{
    return low + (high - low) * ((double)(random_next(r) >> 11) * 0x1p-53);
}

/* How far off a result is, in units of the last place of the true one. */
static double off_by(mpfr_t true_result, double ours)
{
    double nearest = mpfr_get_d(true_result, MPFR_RNDN);
    if (same(nearest, ours) && !isfinite(ours))
        return 0;
    if (!isfinite(nearest) || !isfinite(ours))
        return HUGE_VAL;
    double place = fmax(nextafter(fabs(nearest), HUGE_VAL) - fabs(nearest), 0x1p-1074);
    mpfr_sub_d(true_result, true_result, ours, MPFR_RNDN);
    mpfr_div_d(true_result, true_result, place, MPFR_RNDN);
    return fabs(mpfr_get_d(true_result, MPFR_RNDN));
}

typedef int mpfr_one(mpfr_t, const mpfr_t, mpfr_rnd_t);

static void compare(const char *name, double ours(double), mpfr_one *theirs, double x)
{
    mpfr_t a, result;
    mpfr_init2(a, 53);
    mpfr_init2(result, 240);
    mpfr_set_d(a, x, MPFR_RNDN);
    theirs(result, a, MPFR_RNDN);
    double off = off_by(result, ours(x));
    cr_expect(off <= 0.505, "%s of %a is off by %.4f of a last place", name, x, off);
    mpfr_clears(a, result, (mpfr_ptr)0);
}

static void compare_pair(const char *name, double x, double y, int degree)
{
    mpfr_t a, b, result;
    mpfr_inits2(53, a, b, (mpfr_ptr)0);
    mpfr_init2(result, 240);
    mpfr_set_d(a, x, MPFR_RNDN);
    mpfr_set_d(b, y, MPFR_RNDN);
    double ours = 0;
    if (degree) {
        ours = lml_real_root(x, degree);
        mpfr_rootn_ui(result, a, (unsigned long)degree, MPFR_RNDN);
    } else if (name[0] == 'h') {
        ours = lml_real_hypot(x, y);
        mpfr_hypot(result, a, b, MPFR_RNDN);
    } else {
        ours = lml_real_pow(x, y);
        mpfr_pow(result, a, b, MPFR_RNDN);
    }
    double off = off_by(result, ours);
    cr_expect(off <= 0.505, "%s of %a and %a is off by %.4f of a last place", name, x, y, off);
    mpfr_clears(a, b, result, (mpfr_ptr)0);
}

/* Outside check: GNU MPFR, whose results are rounded correctly. */
Test(real, drawn_arguments_give_what_mpfr_gives)
{
    static const struct {
        const char *name;
        double (*ours)(double);
        mpfr_one *theirs;
        double low, high; /* where it is neither 0 nor infinite */
    } of[] = {{"exp", lml_real_exp, mpfr_exp, -746, 710},
              {"expm1", lml_real_expm1, mpfr_expm1, -45, 710},
              {"log", lml_real_log, mpfr_log, 0, 20},
              {"log10", lml_real_log10, mpfr_log10, 0, 2000},
              {"erfc", lml_real_erfc, mpfr_erfc, -6.5, 27.5},
              {"atan", lml_real_atan, mpfr_atan, -20, 20}};
    random_source r = {29};
    for (size_t f = 0; f < sizeof of / sizeof of[0]; f++)
        for (int i = 0; i < DRAWN; i++) {
            compare(of[f].name, of[f].ours, of[f].theirs, random_double(&r));
            compare(of[f].name, of[f].ours, of[f].theirs, within(&r, of[f].low, of[f].high));
            compare(of[f].name, of[f].ours, of[f].theirs, small(&r));
            compare(of[f].name, of[f].ours, of[f].theirs, 1 + small(&r));
        }
    mpfr_free_cache();
}

Test(real, drawn_pairs_give_what_mpfr_gives)
{
    random_source r = {31};
    for (int i = 0; i < DRAWN; i++) {
        double x = random_double(&r), y = random_double(&r), near = 1 + small(&r);
        compare_pair("pow", x, y, 0);
        compare_pair("pow", fabs(x), within(&r, -745, 710) / log(fabs(x)),
                     0); /* up to over- and underflow */
        compare_pair("pow", near, within(&r, -745, 710) / log(near), 0);
        compare_pair("pow", within(&r, 0, 1000), within(&r, -20, 20), 0);
        compare_pair("hypot", x, y, 0);
        compare_pair("hypot", x, x * ldexp(1 + small(&r), random_below(&r, 80) - 40), 0);
        compare_pair("root", fabs(x), 0, 1 + i % 9);
    }
    mpfr_free_cache();
}

#else

Test(real, drawn_arguments_give_what_mpfr_gives)
{
    cr_skip_test("MPFR is not installed: no drawn arguments were compared with it");
}

#endif
