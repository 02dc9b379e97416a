/* Near alloy: which of the names that are known was meant by one that is not.
 *
 * A slip of the fingers is found by its letters. Else the names of the same fineness are offered:
 * those that begin as it was typed, then those that share its words. No candidate changes a figure:
 * "yellow 14K" may mean "yellow 14K zinc-bearing" or "Au585 yellow", and never "yellow 18K".
 *
 *     lml_near_alloy near = lml_near_alloy_to(name);
 *     for (...) lml_near_alloy_offer(&near, known);
 *     lml_near_alloy_hint(&near, err);
 */
#ifndef LML_RUN_NEAR_ALLOY_H
#define LML_RUN_NEAR_ALLOY_H

#include "base/nearest.h"
#include "base/status.h"

enum { LML_NEAR_ALLOYS = 3 };
typedef struct lml_near_alloy {
    lml_nearest nearest;
    lml_span best[LML_NEAR_ALLOYS]; /* of the same fineness, the likeliest first */
    int likeness[LML_NEAR_ALLOYS];
    int count;
} lml_near_alloy;

lml_near_alloy lml_near_alloy_to(lml_span name);
/* The name must outlive the asking. A name's letters are compared with nearest, by the caller. */
void lml_near_alloy_offer(lml_near_alloy *near, lml_span name);
void lml_near_alloy_hint(const lml_near_alloy *near, lml_error *err);

#endif
