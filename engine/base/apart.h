/* Apart: a function that stays one of its own, however short. What calls it then saves no registers
 * for it, and the usual way through the caller is the shorter.
 *
 *     LML_APART static double rare(double x);
 */
#ifndef LML_BASE_APART_H
#define LML_BASE_APART_H

#if defined(__GNUC__)
#define LML_APART __attribute__((noinline))
#else
#define LML_APART
#endif

#endif
