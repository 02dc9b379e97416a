/* Reuse: what recipes gave while a job was worked, for a second working of the same job in which
 * one recipe is another.
 *
 * Only for results that are compared: of what is taken over the figures, what is withheld and the
 * stops stand in the result, and no page, remark or setting. A recipe's answer is taken over where
 * neither it nor anything that it uses is the recipe that changed, it is told the same, and all of
 * it ships with lemel, every script too: of those it is known that one use leaves nothing behind
 * that the next could find. The rest of what an answer hangs on (job, house, prices, gates) is the
 * same because both workings have it from the same texts: the caller sees to that.
 *
 * Steps are put on the bill as if it had been worked. What the long way might end at a limit is
 * told by `sure`, and is worked the long way.
 *
 *     lml_reuse reuse = lml_reuse_on(&alloc, "quote");
 *     lml_reuse_begin(&reuse, &engine->shelf, false);      it keeps; then true: it takes
 *
 * Or for many workings of one job in which a figure is another each time (see face/tries.h): then
 * `varied` names those, and an answer is taken over where no recipe in it can read one of that name
 * but from what it is told.
 */
#ifndef LML_RUN_REUSE_H
#define LML_RUN_REUSE_H

#include "run/parts.h"

typedef struct lml_reuse {
    const lml_alloc *alloc;
    const char *changed; /* the recipe that may be another in the second working; NULL: any may */
    const char *varied;  /* words for what the job says otherwise each time; NULL: nothing. Then
                            answers within answers are kept too, for the outer may differ */
    bool takes;
    bool reached;   /* the recipe of the job is the one that changed, or uses it */
    bool looked;    /* a recipe looked at all that are within reach */
    bool whole_too; /* the result is wanted with all its pages: `bare` gets the other */
    lml_builder bare;
    lml_builder parts; /* the recipes that take part, each with a line feed, when any may change */
    bool sure;         /* the working kept far from all limits: the long way keeps within them */
    bool fits;         /* every script on the shelf ships with lemel */
    lml_builder answers; /* one after the other: a head, what was told, what came back */
    size_t whole;        /* bytes of those that are finished */
    size_t next;         /* where the next is looked for first */
    int within;          /* depth of the recipe that is being kept; those that it uses are not,
                            unless a figure is varied */
    struct {
        const char *recipe;
        bool fits;
    } seen[LML_PARTS_MOST];
    int seen_count;
} lml_reuse;

/* Before a recipe is worked whose answer may be kept. */
typedef struct lml_reuse_mark {
    bool keeps;
    uint64_t spent;   /* steps, */
    lua_Integer said; /* and remarks, before it is worked */
} lml_reuse_mark;

lml_reuse lml_reuse_on(const lml_alloc *alloc, const char *changed);
void lml_reuse_free(lml_reuse *reuse);
/* Of what was kept nothing is taken over: who kept it came near a limit. */
void lml_reuse_forget(lml_reuse *reuse);
/* Before a working. What was kept stays. */
void lml_reuse_begin(lml_reuse *reuse, const lml_shelf *shelf, bool takes);
/* Before another working that takes. */
void lml_reuse_again(lml_reuse *reuse);
/* Whether the recipe uses the one that changed: sets `reached`. Raises. */
void lml_reuse_reach(lua_State *L, lml_reuse *reuse, const char *recipe);
/* The recipe is asked with the table at `arguments`, under the part at `parent`. True: results and
 * part are pushed. False: it has to be worked; tell lml_reuse_keep when it is. May raise. */
bool lml_reuse_take(lua_State *L, const char *recipe, int arguments, int parent,
                    lml_reuse_mark *mark);
/* It was worked with those arguments; its results and its part are on top of the stack. */
void lml_reuse_keep(lua_State *L, const char *recipe, int arguments, int parent,
                    const lml_reuse_mark *mark);

#endif
