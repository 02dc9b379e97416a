/* Reuse: the answers of recipes in one run of a job, for a second run of the same job with one
 * recipe changed.
 *
 * Only for results that are compared: reused answers bring figures, withheld figures and stops into
 * the result, but no pages, remarks or settings. A recipe's answer is reused if neither it nor
 * anything it uses is the changed recipe, its inputs are the same, and all of it ships with lemel,
 * including scripts: those are known to leave no state behind. Everything else that an answer
 * depends on (job, house, prices, gates) is the same because both runs have the same texts; the
 * caller ensures that.
 *
 * Steps are charged as if it had run. `sure` is false if a full run might hit a limit; then the
 * full run is made.
 *
 *     lml_reuse reuse = lml_reuse_on(&alloc, "quote");
 *     lml_reuse_begin(&reuse, &engine->shelf, false);      it keeps; then true: it takes
 *
 * Also for many runs of one job in which figures change (see face/tries.h): then `varied` names
 * those, and an answer is reused if its recipes can read such a figure only from their inputs.
 */
#ifndef LML_RUN_REUSE_H
#define LML_RUN_REUSE_H

#include "run/parts.h"

typedef struct lml_reuse {
    const lml_alloc *alloc;
    const char *changed; /* the recipe that may change in the second run; NULL: any may */
    const char *varied;  /* names of the figures that change each time; NULL: none. Then nested
                            answers  are kept too, because the outer one may differ */
    bool takes;
    bool reached;   /* the recipe of the job is the changed one, or uses it: of a run that keeps */
    bool looked;    /* a recipe looked at all available recipes */
    bool whole_too; /* the result is needed with all pages: `bare` gets the other */
    lml_builder bare;
    lml_builder parts; /* the recipes that take part, each with a line feed, when any may change */
    bool sure;         /* the run stayed far from all limits: so will the full run */
    bool fits;         /* every script on the shelf ships with lemel */
    lml_builder answers; /* one after the other: a head, the inputs, the answer */
    size_t whole;        /* bytes of those that are complete */
    size_t next;         /* where the search for the next begins */
    int missed;          /* asked for since the last that there was */
    int within;          /* depth of the recipe that is being kept; those that it uses are not,
                            unless a figure is varied */
    struct {
        const char *recipe;
        bool fits;
    } seen[LML_PARTS_MOST];
    int seen_count;
} lml_reuse;

/* Before running a recipe whose answer may be kept. */
typedef struct lml_reuse_mark {
    bool keeps;
    uint64_t spent;   /* steps, */
    lua_Integer said; /* and remarks, before it runs */
} lml_reuse_mark;

lml_reuse lml_reuse_on(const lml_alloc *alloc, const char *changed);
void lml_reuse_free(lml_reuse *reuse);
/* Reuse nothing of what was kept: that run came near a limit. */
void lml_reuse_forget(lml_reuse *reuse);
/* Before a run. What was kept remains. */
void lml_reuse_begin(lml_reuse *reuse, const lml_shelf *shelf, bool takes);
/* Before another run that reuses. */
void lml_reuse_again(lml_reuse *reuse);
/* Before a run that keeps: whether the recipe uses the one that changed, or which ones it uses;
 * sets `reached`, or `parts`. Raises. */
void lml_reuse_reach(lua_State *L, lml_reuse *reuse, const char *recipe);
/* The recipe is called with the table at `arguments`, under the part at `parent`. True: results and
 * part are pushed, nil for a part without stops. False: run it, then call lml_reuse_keep. May
 * raise. */
bool lml_reuse_take(lua_State *L, const char *recipe, int arguments, int parent,
                    lml_reuse_mark *mark);
/* It ran with those arguments; its results and its part are on top of the stack. */
void lml_reuse_keep(lua_State *L, const char *recipe, int arguments, int parent,
                    const lml_reuse_mark *mark);

#endif
