/* The angle of a tangent: x is taken below 1, and brought near 0 by an angle of a table. */
#include "base/real.h"
#include "base/real_two.h"

#include <math.h>

enum { PARTS = 16 };

/* The angles whose tangents are i/16: the nearest double, and what is left. */
static const lml_two angles[PARTS + 1] = {{0, 0},
                                          {0x1.ff55bb72cfdeap-5, -0x1.c934d86d23f1dp-60},
                                          {0x1.fd5ba9aac2f6ep-4, -0x1.cd37686760c17p-59},
                                          {0x1.7b97b4bce5b02p-3, 0x1.347b0b4f881cap-58},
                                          {0x1.f5b75f92c80ddp-3, 0x1.8ab6e3cf7afbdp-57},
                                          {0x1.362773707ebccp-2, -0x1.963a544b672d8p-57},
                                          {0x1.6f61941e4def1p-2, -0x1.c63aae6f6e918p-56},
                                          {0x1.a64eec3cc23fdp-2, -0x1.24dec1b50b7ffp-56},
                                          {0x1.dac670561bb4fp-2, 0x1.a2b7f222f65e2p-56},
                                          {0x1.0657e94db30dp-1, -0x1.d5b495f6349e6p-56},
                                          {0x1.1e00babdefeb4p-1, -0x1.928df287a668fp-58},
                                          {0x1.345f01cce37bbp-1, 0x1.1021137c71102p-55},
                                          {0x1.4978fa3269ee1p-1, 0x1.2419a87f2a458p-56},
                                          {0x1.5d58987169b18p-1, 0x1.0028e4bc5e7cap-57},
                                          {0x1.700a7c5784634p-1, -0x1.8c34d25aadef6p-56},
                                          {0x1.819d0b7158a4dp-1, -0x1.bf76229d3b917p-56},
                                          {0x1.921fb54442d18p-1, 0x1.1a62633145c07p-55}};

static const lml_two RIGHT = {0x1.921fb54442d18p+0, 0x1.1a62633145c07p-54}; /* pi / 2 */

/* The angle of a tangent of up to 1: that of i/16, and that of (x - i/16) / (1 + x i/16). */
static lml_two angle_of(lml_two x)
{
    int part = (int)(x.high * PARTS + 0.5);
    double near = (double)part / PARTS;
    lml_two above = lml_two_sum(x.high - near, x.low), below = lml_two_scale(x, near);
    lml_two rest = part ? lml_two_over(above, lml_two_plus((lml_two){1, 0}, below)) : x;
    double square = rest.high * rest.high;
    double further =
        square *
        (1.0 / 3 -
         square * (1.0 / 5 -
                   square * (1.0 / 7 - square * (1.0 / 9 - square * (1.0 / 11 - square / 13)))));
    rest.low -= rest.high * further;
    return part ? lml_two_plus(angles[part], lml_two_ordered(rest.high, rest.low)) : rest;
}

double lml_real_atan(double x)
{
    double size = fabs(x);
    if (isnan(x) || size < 0x1p-28)
        return x;
    if (size > 0x1p60)
        return copysign(RIGHT.high, x);
    lml_two angle = {0, 0};
    if (size <= 1) {
        angle = angle_of((lml_two){size, 0});
    } else {
        angle = angle_of(lml_two_over((lml_two){1, 0}, (lml_two){size, 0}));
        angle = lml_two_plus(RIGHT, (lml_two){-angle.high, -angle.low});
    }
    return copysign(angle.high + angle.low, x);
}
