/* Near alloy: which known names an unknown name may mean.
 *
 * A typing error is found by its letters. Otherwise names of the same fineness are offered: first
 * those with the same beginning, then those that share its words. No candidate has a different
 * figure: "yellow 14K" may mean "yellow 14K zinc-bearing" or "Au585 yellow", and never "yellow
 * 18K".
 *
 * A name that is typed in part may be meant where it is the only one that has all of it:
 * "sterling".
 *
 *     lml_near_alloy near = lml_near_alloy_to(name);
 *     for (...) lml_near_alloy_offer(&near, known);
 *     lml_near_alloy_hint(&near, err);
 */
#ifndef LML_RUN_NEAR_ALLOY_H
#define LML_RUN_NEAR_ALLOY_H

#include "base/nearest.h"
#include "base/status.h"

enum { LML_NEAR_ALLOYS = 6 };
typedef struct lml_near_alloy {
    lml_nearest nearest;
    lml_span best[LML_NEAR_ALLOYS]; /* of the same fineness, the likeliest first */
    int likeness[LML_NEAR_ALLOYS];
    int count;
    lml_span meant; /* the first that has all that was typed; a person who is asked may mean it */
    int meant_count;
} lml_near_alloy;

lml_near_alloy lml_near_alloy_to(lml_span name);
/* Whether both names begin with the symbol of one metal, or one of them with none: "Pd999" is not a
 * slip in "Ag999". */
bool lml_near_alloy_of_one_metal(lml_span a, lml_span b);
/* The name must outlive this. The caller compares letters, with base/nearest. */
void lml_near_alloy_offer(lml_near_alloy *near, lml_span name);
void lml_near_alloy_hint(const lml_near_alloy *near, lml_error *err);

#endif
