/* Named: what a name means in a finished run that kept its steps. It is a figure of the job,
 * "weigh[0].mass"; one of a recipe that the job used, "charge.weigh[0].mass"; or the label of a
 * sheet's line, "Total to pay", which stands for the figure that the line shows; of a grid, what is
 * in the first cell of the row and the heading of the column, "ring A, Net". In quotes of its own
 * it is a label whatever it looks like.
 *
 *     lml_named named;
 *     lml_named_find(L, part, "quote.price", &named);      named.called: "price"
 */
#ifndef LML_REPORT_NAMED_H
#define LML_REPORT_NAMED_H

#include "cell/state.h"

/* Of a cell the first one of its row and the heading of its column: two texts of a sheet. */
enum { LML_NAMED = 4096 };

typedef struct lml_named {
    char called[LML_NAMED]; /* as the job gives it, where it does; else "quote.price" */
    char figure[LML_NAMED]; /* in the part that gives it: "price" */
    bool is_line;           /* no recipe gives it: both are the label of the line that shows it */
} lml_named;

/* Push the part that gives it, and the figure. Raises LML_NOT_FOUND, with the nearest name, for one
 * that means nothing, and with both meanings for one that has two. */
void lml_named_find(lua_State *L, int part, const char *name, lml_named *out);
/* Push the part that gave the text on top of the stack by that name: the first in it that gives the
 * same text so; the part itself, where none does. */
void lml_named_push_giver(lua_State *L, int part, const char *figure);
/* The same of a run that kept no steps, by what lml_named_find called it, a label in quotes: push
 * what the run shows there first; false, with nothing pushed, for nothing, or if it is withheld. */
bool lml_named_push_shown(lua_State *L, int part, const char *called);
/* Push what the part gives by that name; false, with nothing pushed, if there is none. */
bool lml_named_push(lua_State *L, int part, const char *at);

#endif
