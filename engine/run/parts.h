/* Parts: the recipes that take part in a job.
 *
 *     lml_parts all;
 *     lml_parts_gather(L, "need", &all);      all.recipe[0] is need itself
 */
#ifndef LML_RUN_PARTS_H
#define LML_RUN_PARTS_H

#include "run/run.h"

enum { LML_PARTS_MOST = 96 };

/* A recipe and everything it uses, depth first, each once. */
typedef struct lml_parts {
    const lml_recipe *recipe[LML_PARTS_MOST];
    int count;
} lml_parts;
/* Raises: a recipe that is not there, a circle, too many. */
void lml_parts_gather(lua_State *L, const char *recipe, lml_parts *out);
/* Gather them beforehand, in a state that is kept until the shelf changes. What is wrong is left to
 * the run. Raises. */
void lml_parts_note(lua_State *L, const lml_recipe *recipe);

#endif
