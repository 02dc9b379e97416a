/* Prices: the price list as a recipe is told it. A list that is kept up grows for years, and a job
 * wants two of its entries: of each metal the newest, and of its history the one that stood at the
 * job's date. The rest is left out, so that no job grows with the list.
 *
 *     const lml_json *node = lml_prices_of_day(L, run, arguments);
 */
#ifndef LML_RUN_PRICES_H
#define LML_RUN_PRICES_H

#include "run/run.h"

/* The shelf's "prices" for the `date` among the arguments of a use (0: none), else of the job; with
 * no date each history is empty. NULL when the shelf has no prices. Lives until it is asked for
 * another date, or the run ends. Lines are the file's own. Raises. */
const lml_json *lml_prices_of_day(lua_State *L, lml_run *run, int arguments);
/* Give back what was made; the run may go on. */
void lml_prices_free(lml_run *run);

#endif
