/* Nearest: the name that was probably meant.
 *
 *     lml_nearest n = lml_nearest_to(wanted);
 *     for (...) lml_nearest_offer(&n, name);
 *     if (lml_nearest_found(&n)) ... n.best
 */
#ifndef LML_BASE_NEAREST_H
#define LML_BASE_NEAREST_H

#include "base/span.h"

/* Edit distance with neighbour swaps (Damerau-Levenshtein, restricted), case folded for ASCII;
 * `most` + 1 when it is more than `most`. Of names of more than 96 letters it only knows whether
 * they are equal. */
size_t lml_nearest_distance(lml_span a, lml_span b, size_t most);

/* The nearest of many names: offer each, then ask. A name with different digits is never near: 18K
 * is not a typing error for 14K. A name counts as near when the distance is at most 1 for words of
 * up to 4 letters, 2 up to 8, else 3. Of two equally near, the one with the longer common
 * beginning; then the one as long as the name. */
typedef struct lml_nearest {
    lml_span wanted, best;
    size_t distance, alike;
} lml_nearest;
lml_nearest lml_nearest_to(lml_span wanted);
void lml_nearest_offer(lml_nearest *n, lml_span name);
bool lml_nearest_found(const lml_nearest *n);

#endif
