/* A recipe's declaration: what it asks, allows, gives and uses, read from its Lua table once.
 *
 * The declaration is kept beside the recipe on the shelf; `work` itself is loaded again for each
 * run.
 */
#ifndef LML_SHELF_RECIPE_H
#define LML_SHELF_RECIPE_H

#include "cell/state.h"
#include "file/shape.h"

enum { LML_RECIPE_LEVEL = 2 };  /* of the recipe language: this engine speaks 1 to it */
enum { LML_PROOFS_MOST = 500 }; /* of one recipe */
/* Where the table of an ask keeps its place among the others, and, while advice is given, its line.
 */
enum { LML_SHAPE_ORDER = -1, LML_SHAPE_LINE = -2 };
/* The files of house rules are called so, and the script that says what each of their points is
 * told and answers. */
#define LML_RULE "rule_"
#define LML_RULE_POINTS "rule_points"

typedef struct lml_recipe {
    lml_pool pool; /* of all that the declaration holds */
    size_t held;
    const char *name, *title, *version, *licence;
    const char *about,
        *heads; /* NULL where not said; `heads` is the title of its part on a sheet */
    int level;
    const char *const *uses;
    size_t use_count;
    lml_shape asks, allowances, gives; /* records */
    const char *rule;                  /* the point that a house rule answers; NULL of a recipe */
    lml_shape own;   /* of a rule: what it asks of the job itself, besides what its point is given;
                        in asks too */
    lml_shape loose; /* asks and allowances in one, all optional but required asks */
} lml_recipe;

/* Read the declaration in the table at `index` of the box's state; `point` is where that of its
 * rule point is, and not looked at when it is no rule. LML_BAD_RECIPE names the part. */
lml_status lml_recipe_read(lml_box *box, int index, int point, const char *name,
                           const lml_alloc *alloc, lml_recipe **out, lml_error *err);
/* A fault of the declaration, and the line of the entry that has it; 0 where it is not known. */
typedef void lml_recipe_note(void *self, int line, const lml_error *error);
/* The same, told all the faults: what is read all the same, to be looked at but not run, has
 * entries of any kind where theirs could not be read, and is not `whole` if members of it may be
 * under other names. An error is what ended it before that. */
lml_status lml_recipe_gather(lml_box *box, int index, int point, const char *name,
                             const lml_alloc *alloc, lml_recipe_note *note, void *self,
                             lml_recipe **out, bool *whole, lml_error *err);
void lml_recipe_free(lml_recipe *recipe); /* NULL is fine */
bool lml_recipe_uses(const lml_recipe *recipe, lml_span name);

#endif
