/* The `^` of Lua between two plain numbers is pow of the C library, whose last digit differs from
 * one machine to another. A program's own pow goes before that of a library, so the command's is
 * the engine's. */
#include "base/real.h"

#include <math.h>

__attribute__((visibility("default"))) double pow(double x, double y);

double pow(double x, double y)
{
    return lml_real_pow(x, y);
}
