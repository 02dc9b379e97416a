/* Spread: statistics of draws: mean, standard deviation, 95 % intervals; and when enough were drawn
 * (JCGM 101:2008, 7.6, 7.7, 7.9).
 *
 *     lml_spread_of(draws, count, sorted, &s);     s.mean, s.low, s.high
 */
#ifndef LML_TRIAL_SPREAD_H
#define LML_TRIAL_SPREAD_H

#include <stdbool.h>
#include <stddef.h>

/* Beyond so many standard deviations to either side lie 5 % of a normal distribution: the coverage
 * factor of JCGM 100:2008, table G.1. */
#define LML_SPREAD_95 1.959963984540054

typedef struct lml_spread_found {
    size_t count;
    double mean, deviation, low, high;  /* as much below as above: JCGM 101, 5.3.3 */
    double shortest_low, shortest_high; /* the shortest interval: 5.3.4 */
} lml_spread_found;

/* Of `count` numbers; `room` holds as many, and is sorted. Nothing but the count is set for fewer
 * than two. */
void lml_spread_of(const double *draw, size_t count, double *room, lml_spread_found *out);
/* Half a unit in the last place of a deviation that is written with so many significant digits: the
 * numerical tolerance of JCGM 101, 7.9.2. 0 for a deviation of 0. */
double lml_spread_tolerance(double deviation, int digits);

/* Estimates of the same figure from one block of draws after the other. */
typedef struct lml_spread_blocks {
    size_t blocks;
    double sum[4], squares[4]; /* of mean, deviation, low, high */
    double first[4];           /* taken off each: sums of squares lose digits far from zero */
} lml_spread_blocks;

void lml_spread_add(lml_spread_blocks *blocks, const lml_spread_found *of_block);
/* Whether twice the standard deviation of each average is below the tolerance: 7.9.4. Never before
 * two blocks. */
bool lml_spread_stable(const lml_spread_blocks *blocks, double deviation, int digits);

#endif
