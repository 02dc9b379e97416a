/* Functions of real numbers: exponentials, logarithms, powers and roots, the tail of the normal
 * law, the angle of a tangent. C's own give other last digits on another machine, where its library
 * was built otherwise or finds another processor; these are worked by IEEE 754's five exact
 * operations alone and give the same ones everywhere. Each result is within 0.505 of the last place
 * of the true one, so that it is nearly always the double nearest to it, and is the exact one where
 * that is a double. No error codes and no flags: what C calls a domain error is a NaN, a pole or an
 * overflow an infinity.
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
