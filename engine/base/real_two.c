/* e^x: x is cut into a multiple of ln 2 / 64, whose power is in a table, and a rest, whose power is
 * a short sum. ln x: x is 2^n * m, m is brought near 1 by a factor of a table, and what is left is
 * a short sum. */
#include "base/real_two.h"

#include <math.h>

enum { PARTS = 64 };

/* 2^(i/64): the nearest double, and what is left. */
static const lml_two powers[PARTS] = {{0x1p+0, 0x0p+0},
                                      {0x1.02c9a3e778061p+0, -0x1.19083535b085dp-56},
                                      {0x1.059b0d3158574p+0, 0x1.d73e2a475b465p-55},
                                      {0x1.0874518759bc8p+0, 0x1.186be4bb284ffp-57},
                                      {0x1.0b5586cf9890fp+0, 0x1.8a62e4adc610bp-54},
                                      {0x1.0e3ec32d3d1a2p+0, 0x1.03a1727c57b53p-59},
                                      {0x1.11301d0125b51p+0, -0x1.6c51039449b3ap-54},
                                      {0x1.1429aaea92dep+0, -0x1.32fbf9af1369ep-54},
                                      {0x1.172b83c7d517bp+0, -0x1.19041b9d78a76p-55},
                                      {0x1.1a35beb6fcb75p+0, 0x1.e5b4c7b4968e4p-55},
                                      {0x1.1d4873168b9aap+0, 0x1.e016e00a2643cp-54},
                                      {0x1.2063b88628cd6p+0, 0x1.dc775814a8495p-55},
                                      {0x1.2387a6e756238p+0, 0x1.9b07eb6c70573p-54},
                                      {0x1.26b4565e27cddp+0, 0x1.2bd339940e9d9p-55},
                                      {0x1.29e9df51fdee1p+0, 0x1.612e8afad1255p-55},
                                      {0x1.2d285a6e4030bp+0, 0x1.0024754db41d5p-54},
                                      {0x1.306fe0a31b715p+0, 0x1.6f46ad23182e4p-55},
                                      {0x1.33c08b26416ffp+0, 0x1.32721843659a6p-54},
                                      {0x1.371a7373aa9cbp+0, -0x1.63aeabf42eae2p-54},
                                      {0x1.3a7db34e59ff7p+0, -0x1.5e436d661f5e3p-56},
                                      {0x1.3dea64c123422p+0, 0x1.ada0911f09ebcp-55},
                                      {0x1.4160a21f72e2ap+0, -0x1.ef3691c309278p-58},
                                      {0x1.44e086061892dp+0, 0x1.89b7a04ef80dp-59},
                                      {0x1.486a2b5c13cdp+0, 0x1.3c1a3b69062fp-56},
                                      {0x1.4bfdad5362a27p+0, 0x1.d4397afec42e2p-56},
                                      {0x1.4f9b2769d2ca7p+0, -0x1.4b309d25957e3p-54},
                                      {0x1.5342b569d4f82p+0, -0x1.07abe1db13cadp-55},
                                      {0x1.56f4736b527dap+0, 0x1.9bb2c011d93adp-54},
                                      {0x1.5ab07dd485429p+0, 0x1.6324c054647adp-54},
                                      {0x1.5e76f15ad2148p+0, 0x1.ba6f93080e65ep-54},
                                      {0x1.6247eb03a5585p+0, -0x1.383c17e40b497p-54},
                                      {0x1.6623882552225p+0, -0x1.bb60987591c34p-54},
                                      {0x1.6a09e667f3bcdp+0, -0x1.bdd3413b26456p-54},
                                      {0x1.6dfb23c651a2fp+0, -0x1.bbe3a683c88abp-57},
                                      {0x1.71f75e8ec5f74p+0, -0x1.16e4786887a99p-55},
                                      {0x1.75feb564267c9p+0, -0x1.0245957316dd3p-54},
                                      {0x1.7a11473eb0187p+0, -0x1.41577ee04992fp-55},
                                      {0x1.7e2f336cf4e62p+0, 0x1.05d02ba15797ep-56},
                                      {0x1.82589994cce13p+0, -0x1.d4c1dd41532d8p-54},
                                      {0x1.868d99b4492edp+0, -0x1.fc6f89bd4f6bap-54},
                                      {0x1.8ace5422aa0dbp+0, 0x1.6e9f156864b27p-54},
                                      {0x1.8f1ae99157736p+0, 0x1.5cc13a2e3976cp-55},
                                      {0x1.93737b0cdc5e5p+0, -0x1.75fc781b57ebcp-57},
                                      {0x1.97d829fde4e5p+0, -0x1.d185b7c1b85d1p-54},
                                      {0x1.9c49182a3f09p+0, 0x1.c7c46b071f2bep-56},
                                      {0x1.a0c667b5de565p+0, -0x1.359495d1cd533p-54},
                                      {0x1.a5503b23e255dp+0, -0x1.d2f6edb8d41e1p-54},
                                      {0x1.a9e6b5579fdbfp+0, 0x1.0fac90ef7fd31p-54},
                                      {0x1.ae89f995ad3adp+0, 0x1.7a1cd345dcc81p-54},
                                      {0x1.b33a2b84f15fbp+0, -0x1.2805e3084d708p-57},
                                      {0x1.b7f76f2fb5e47p+0, -0x1.5584f7e54ac3bp-56},
                                      {0x1.bcc1e904bc1d2p+0, 0x1.23dd07a2d9e84p-55},
                                      {0x1.c199bdd85529cp+0, 0x1.11065895048ddp-55},
                                      {0x1.c67f12e57d14bp+0, 0x1.2884dff483cadp-54},
                                      {0x1.cb720dcef9069p+0, 0x1.503cbd1e949dbp-56},
                                      {0x1.d072d4a07897cp+0, -0x1.cbc3743797a9cp-54},
                                      {0x1.d5818dcfba487p+0, 0x1.2ed02d75b3707p-55},
                                      {0x1.da9e603db3285p+0, 0x1.c2300696db532p-54},
                                      {0x1.dfc97337b9b5fp+0, -0x1.1a5cd4f184b5cp-54},
                                      {0x1.e502ee78b3ff6p+0, 0x1.39e8980a9cc8fp-55},
                                      {0x1.ea4afa2a490dap+0, -0x1.e9c23179c2893p-54},
                                      {0x1.efa1bee615a27p+0, 0x1.dc7f486a4b6bp-54},
                                      {0x1.f50765b6e454p+0, 0x1.9d3e12dd8a18bp-54},
                                      {0x1.fa7c1819e90d8p+0, 0x1.74853f3a5931ep-55}};

/* ln 2 / 64 in three parts. The first two have 36 bits each, so that any multiple that occurs is
 * exact. */
static const double STEP_1 = 0x1.62e42fefap-7, STEP_2 = 0x1.cf79abc9ep-46,
                    STEP_3 = 0x1.d9cc01f97b57ap-85;
static const double STEPS = 0x1.71547652b82fep+6; /* 64 / ln 2 */

/* Taylor's sum. */
double lml_two_beyond_linear(double x)
{
    return x * x *
           (1.0 / 2 +
            x * (1.0 / 6 + x * (1.0 / 24 + x * (1.0 / 120 + x * (1.0 / 720 + x / 5040)))));
}

lml_two lml_two_exp(lml_two x, int *n)
{
    const double whole = 0x1.8p52; /* added and taken away, it leaves the nearest whole number */
    double steps = (x.high * STEPS + whole) - whole;
    int step = (int)steps, part = step & (PARTS - 1);
    lml_two rest = lml_two_sum(x.high - steps * STEP_1, -steps * STEP_2);
    rest = lml_two_ordered(rest.high, rest.low + (x.low - steps * STEP_3));
    lml_two more = lml_two_ordered(rest.high, rest.low + lml_two_beyond_linear(rest.high));
    lml_two power = powers[part], grown = lml_two_product(power.high, more.high);
    lml_two sum = lml_two_ordered(power.high, grown.high);
    *n = (step - part) / PARTS;
    return lml_two_ordered(sum.high, sum.low + (grown.low + (power.low + (power.high * more.low +
                                                                          power.low * more.high))));
}

double lml_two_shift(lml_two a, int n)
{
    int leading = lml_two_exponent(a.high) + n;
    if (leading > 1023)
        return HUGE_VAL;
    if (leading < -1022) {
        /* The last place of a subnormal is 2^-1074. Added to a number whose last place that is,
         * before the shift, the two parts are rounded to it, once. */
        double coarse = lml_two_power(52 - 1074 - n);
        lml_two sum = lml_two_sum(coarse, a.high);
        a.high = (sum.high + (sum.low + a.low)) - coarse;
    }
    return a.high * lml_two_power(n / 2) * lml_two_power(n - n / 2);
}

/* ---- logarithm ---- */

enum { FACTORS = 64, LOW_FACTORS = 27 };

/* The 64th parts of [1, 2), in each a factor of 10 bits that brings its middle near 1, and -ln of
 * the factor. From LOW_FACTORS on they are the parts of half of that, so that x around 1 has the
 * factor 1 on either side. */
static const struct {
    double factor;
    lml_two log;
} factors[FACTORS] = {{1, {0, 0}},
                      {0x1.f4p-1, {0x1.8492528c8cabfp-6, -0x1.d192d0619fa67p-60}},
                      {0x1.edp-1, {0x1.35c8bfaa1306bp-5, -0x1.50830a65543a4p-63}},
                      {0x1.e5p-1, {0x1.bbcebfc68f42p-5, 0x1.e5cf3a0f56f72p-60}},
                      {0x1.dep-1, {0x1.1973bd1465567p-4, -0x1.7558367a6acf6p-59}},
                      {0x1.d7p-1, {0x1.55e10050e0384p-4, -0x1.45f9d61c68c1bp-58}},
                      {0x1.d1p-1, {0x1.8a6477a91dc29p-4, -0x1.fa83214904842p-59}},
                      {0x1.cap-1, {0x1.c885801bc4b23p-4, 0x1.a38cb559a6706p-58}},
                      {0x1.c4p-1, {0x1.fe89139dbd566p-4, -0x1.ac9f4215f9393p-58}},
                      {0x1.bep-1, {0x1.1aa2b7e23f72ap-3, -0x1.c6ef1d9b2ef7ep-59}},
                      {0x1.b8p-1, {0x1.365fcb0159016p-3, 0x1.7d411a5b944adp-58}},
                      {0x1.b2p-1, {0x1.527e5e4a1b58dp-3, -0x1.71a9682395bfdp-61}},
                      {0x1.acp-1, {0x1.6f0128b756abcp-3, -0x1.8de59c21e166cp-57}},
                      {0x1.a7p-1, {0x1.871213750e994p-3, 0x1.d685f35eea2ap-57}},
                      {0x1.a1p-1, {0x1.a454082e6ab05p-3, 0x1.df207dc5c34c6p-58}},
                      {0x1.9cp-1, {0x1.bd087383bd8adp-3, 0x1.dd355f6a516d7p-60}},
                      {0x1.97p-1, {0x1.d60a17f903515p-3, -0x1.c0df841a71b7ap-57}},
                      {0x1.92p-1, {0x1.ef5ade4dcffe6p-3, -0x1.08ab2ddc708ap-58}},
                      {0x1.8dp-1, {0x1.047e60cde83b8p-2, -0x1.0779634061cbcp-56}},
                      {0x1.88p-1, {0x1.1178e8227e47cp-2, -0x1.0e63a5f01c691p-57}},
                      {0x1.84p-1, {0x1.1bf99635a6b95p-2, -0x1.12aeb84249223p-57}},
                      {0x1.7fp-1, {0x1.2941afb186b7cp-2, -0x1.856e61c51574p-57}},
                      {0x1.7bp-1, {0x1.3401e12aecba1p-2, -0x1.cd55b8a4746cp-58}},
                      {0x1.76p-1, {0x1.419b423d5e8c7p-2, 0x1.0dbb243827392p-57}},
                      {0x1.72p-1, {0x1.4c9e09e172c3cp-2, -0x1.123615b147a5dp-58}},
                      {0x1.6ep-1, {0x1.57bf753c8d1fbp-2, -0x1.0908d15f88b63p-57}},
                      {0x1.6ap-1, {0x1.630030b3aac49p-2, 0x1.dc18ce51fff99p-57}},
                      {0x1.66p+0, {-0x1.5767717455a6cp-2, -0x1.526adb283660cp-56}},
                      {0x1.62p+0, {-0x1.4be5f957778a1p-2, 0x1.259b35b04813dp-57}},
                      {0x1.5e8p+0, {-0x1.41b941cce0beep-2, -0x1.6fec1bc0376f6p-56}},
                      {0x1.5bp+0, {-0x1.3772662bfd85bp-2, 0x1.b5629d8117de7p-59}},
                      {0x1.57p+0, {-0x1.2b9303ab89d25p-2, 0x1.896b5fd852ad4p-56}},
                      {0x1.538p+0, {-0x1.211255986160cp-2, 0x1.8745d6af3c50bp-56}},
                      {0x1.5p+0, {-0x1.1675cababa60ep-2, -0x1.ce63eab883717p-61}},
                      {0x1.4c8p+0, {-0x1.0bbccdb0d24bdp-2, 0x1.a66744640948p-57}},
                      {0x1.498p+0, {-0x1.0274dc16c232fp-2, -0x1.e89cf835c278p-57}},
                      {0x1.46p+0, {-0x1.ef0adcbdc5936p-3, -0x1.48637950dc20dp-57}},
                      {0x1.43p+0, {-0x1.dc1bca0abec7dp-3, -0x1.834c51998b6fcp-57}},
                      {0x1.3f8p+0, {-0x1.c5cba543ae425p-3, 0x1.62134bab038d8p-57}},
                      {0x1.3c8p+0, {-0x1.b2797ee46320cp-3, 0x1.1520da0151cf7p-57}},
                      {0x1.398p+0, {-0x1.9ef83d2769a34p-3, 0x1.6f67f39bff3a5p-58}},
                      {0x1.368p+0, {-0x1.8b46f8223625bp-3, -0x1.f2102dd7c92ecp-58}},
                      {0x1.338p+0, {-0x1.7764c128f2127p-3, -0x1.240d1e78f44cep-57}},
                      {0x1.31p+0, {-0x1.66acd4272ad51p-3, 0x1.0900e4e1ea8b2p-58}},
                      {0x1.2ep+0, {-0x1.526e5e3a1b438p-3, 0x1.746ff8a470d3ap-57}},
                      {0x1.2b8p+0, {-0x1.41682bf727bcp-3, 0x1.1c207e127261bp-59}},
                      {0x1.288p+0, {-0x1.2cca0f5f5f251p-3, 0x1.e3235fe23f016p-57}},
                      {0x1.26p+0, {-0x1.1b72ad52f67ap-3, -0x1.483023472cd74p-58}},
                      {0x1.238p+0, {-0x1.09f561ee719c3p-3, -0x1.f51d505cb0b76p-58}},
                      {0x1.208p+0, {-0x1.e98b549671467p-4, -0x1.d227143a5a998p-58}},
                      {0x1.1ep+0, {-0x1.c5e548f5bc743p-4, -0x1.5d617ef8161b1p-60}},
                      {0x1.1b8p+0, {-0x1.a1ef1d8061cd4p-4, -0x1.76df97bcb177fp-60}},
                      {0x1.198p+0, {-0x1.84ef898e8282ap-4, -0x1.96dcb441b9227p-59}},
                      {0x1.17p+0, {-0x1.60658a93750c4p-4, 0x1.388458ec21b6ap-58}},
                      {0x1.148p+0, {-0x1.3b87598b1b6eep-4, 0x1.594aca31297a3p-61}},
                      {0x1.12p+0, {-0x1.16536eea37ae1p-4, 0x1.79da3e8c22cdap-60}},
                      {0x1.1p+0, {-0x1.f0a30c01162a6p-5, -0x1.85f325c5bbacdp-59}},
                      {0x1.0d8p+0, {-0x1.a4fe9ffa3d235p-5, 0x1.28100a49366b4p-62}},
                      {0x1.0b8p+0, {-0x1.67f94f094bd98p-5, -0x1.f3e7e4ed6b2d6p-60}},
                      {0x1.098p+0, {-0x1.2a7ec2214e873p-5, -0x1.8856e9c01e6ddp-61}},
                      {0x1.07p+0, {-0x1.b9fc027af9198p-6, 0x1.0ae69229dc868p-64}},
                      {0x1.05p+0, {-0x1.3cea44346a575p-6, 0x1.0cb5a902b3a1cp-62}},
                      {0x1.03p+0, {-0x1.7dc475f810a77p-7, 0x1.16d7687d3df21p-62}},
                      {1, {0, 0}}};

/* ln 2: a first part of 40 bits, of which any multiple that occurs is exact, and the rest. */
static const double LN_2 = 0x1.62e42fefa2p-1;
static const lml_two LN_2_REST = {0x1.9ef35793c7673p-41, 0x1.f97b57a079a19p-103};

/* x cut up: x = 2^n * (1 + rest) / factor, |rest| up to 2^-6. */
static lml_two cut(double x, int *n, int *part)
{
    uint64_t bits = lml_two_bits(x);
    int scaled = 0;
    if (bits >> 52 == 0) { /* subnormal */
        bits = lml_two_bits(x * 0x1p54);
        scaled = 54;
    }
    *part = (int)(bits >> 46 & (FACTORS - 1));
    int above = *part >= LOW_FACTORS;
    *n = (int)(bits >> 52) - 1023 + above - scaled;
    double m = lml_two_of_bits((bits & 0xfffffffffffffu) | (uint64_t)(1023 - above) << 52);
    lml_two near_one = lml_two_product(m, factors[*part].factor);
    return lml_two_ordered(near_one.high - 1, near_one.low);
}

/* The fourth and further members of ln(1 + x) / x^3, over x: Mercator's sum. */
static double far_members(double x)
{
    double square = x * x;
    double odd = 1.0 / 5 + square * (1.0 / 7 + square * (1.0 / 9 + square / 11));
    double even =
        1.0 / 4 + square * (1.0 / 6 + square * (1.0 / 8 + square * (1.0 / 10 + square / 12)));
    return x * odd - even;
}

static lml_two add_parts(lml_two sum, int n, int part)
{
    if (n == 0 && factors[part].factor == 1)
        return sum;
    lml_two known = lml_two_plus(lml_two_scale(LN_2_REST, n), factors[part].log);
    lml_two whole = lml_two_sum(n * LN_2, known.high);
    whole.low += known.low;
    return lml_two_plus(whole, sum);
}

lml_two lml_two_log(double x)
{
    const lml_two third = {0x1.5555555555555p-2, 0x1.5555555555555p-56};
    int n, part;
    lml_two rest = cut(x, &n, &part);
    lml_two sum = lml_two_sum(third.high, rest.high * far_members(rest.high));
    sum.low += third.low;
    sum = lml_two_plus((lml_two){-0.5, 0}, lml_two_times(rest, sum));
    sum = lml_two_plus((lml_two){1, 0}, lml_two_times(rest, sum));
    return add_parts(lml_two_times(rest, sum), n, part);
}
