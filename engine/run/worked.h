/* What took part in a run: the recipes that were worked and the scripts that they used, in the
 * order of use, for the result to name them.
 *
 *     if (!lml_worked_has(L, script))
 *         lml_worked_add(L, script, NULL);
 */
#ifndef LML_RUN_WORKED_H
#define LML_RUN_WORKED_H

#include "run/run.h"

typedef struct lml_worked_item {
    lml_item *item;
    const char *under; /* the recipe that used this one; NULL for none */
} lml_worked_item;

/* In a block of the state. */
typedef struct lml_worked {
    size_t count, room;
    lml_worked_item item[];
} lml_worked;

bool lml_worked_has(const lml_run *run, const lml_item *item);
void lml_worked_add(lua_State *L, lml_item *item, const char *under);

#endif
