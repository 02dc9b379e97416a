/* Prices: the price list as a recipe gets it. A list grows for years, but a job needs only two
 * entries for each metal: the newest, and the one that was current at the job's date. The rest is
 * left out, so that no job grows with the list.
 *
 *     const lml_json *node = lml_prices_of_day(L, run, arguments);
 */
#ifndef LML_RUN_PRICES_H
#define LML_RUN_PRICES_H

#include "run/run.h"

/* The shelf's "prices" for the `date` among the arguments of a use (0: none), else of the job; with
 * no date each history is empty. NULL if the shelf has no prices. Valid until the next call for
 * another date or the end of the run. Line numbers are the file's. Raises. */
const lml_json *lml_prices_of_day(lua_State *L, lml_run *run, int arguments);
/* Free what was made; the run may continue. */
void lml_prices_free(lml_run *run);

#endif
