/* Functions of real numbers: exponentials, logarithms, powers and roots, the tail of the normal
 * law, the angle of a tangent. The C library's functions differ in the last digits between
 * machines; these use only the five exact operations of IEEE 754 and give the same digits
 * everywhere. Each result is within 0.505 units in the last place, so it is nearly always the
 * nearest double, and exact where the true result is a double. There are no error codes or flags: a
 * domain error gives NaN, a pole or an overflow gives infinity.
 *
 *     lml_real_exp(1)            2.718281828459045
 *     lml_real_pow(10, -3)       0.001
 *     lml_real_root(243, 5)      3
 */
#ifndef LML_BASE_REAL_H
#define LML_BASE_REAL_H

double lml_real_exp(double x);
double lml_real_expm1(double x); /* e^x - 1, exact to the last place for a small x too */
double lml_real_log(double x);
double lml_real_log10(double x); /* of a power of ten, a whole number */
/* As C11, F.9.4.4 has it for zeros, infinities and NaN. */
double lml_real_pow(double x, double y);
/* The nth root of x >= 0, n from 1 to 9; NaN for x < 0. */
double lml_real_root(double x, int n);
double lml_real_hypot(double x, double y);
double lml_real_erfc(double x);
double lml_real_atan(double x);

#endif
