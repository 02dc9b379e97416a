/* Reach: lines of a recipe, and of the scripts that take part, that its proofs never run.
 *
 *     lml_reach reach;
 *     lml_reach_open(&reach, alloc, shelf, item, err);
 *     lml_reach_watch(&reach, &run.box);                 before each proof
 *     lml_reach_note(L, part, &reach);                   after it
 *     lml_reach_write(&reach, &w);
 *     lml_reach_close(&reach);
 */
#ifndef LML_REPORT_REACH_H
#define LML_REPORT_REACH_H

#include "cell/state.h"
#include "file/json_write.h"
#include "shelf/shelf.h"

enum { LML_REACH_STOPS = 200 };

/* A stop, or a point to confirm, that the text names. */
typedef struct lml_reach_stop {
    lml_span code; /* in the text */
    int line;
    bool goes_on; /* the code only begins so: "stone-" .. number */
    bool came;
} lml_reach_stop;

/* The lines of one text. */
typedef struct lml_reach_text {
    const lml_item *item;
    char chunk[200]; /* as Lua calls it */
    bool *is_line, *came;
    size_t room;
    bool took_part; /* some line of it was run */
} lml_reach_text;

typedef struct lml_reach {
    const lml_alloc *alloc;
    lml_reach_text *texts; /* of the recipe, then of every script on the shelf */
    size_t count, room;
    size_t stops;
    lml_reach_stop stop[LML_REACH_STOPS];
} lml_reach;

/* The recipe's text was loaded before. LML_NO_MEMORY; LML_FAULT where Lua's dump is of another
 * shape. `out` is to be closed in any case. */
lml_status lml_reach_open(lml_reach *out, const lml_alloc *alloc, const lml_shelf *shelf,
                          const lml_item *item, lml_error *err);
void lml_reach_close(lml_reach *reach);
void lml_reach_watch(lml_reach *reach, lml_box *box);
/* Note what stops the part at that index, and the parts under it. */
void lml_reach_note(lua_State *L, int part, lml_reach *reach);
/* As the member "reach" of a report. LML_NO_MEMORY, LML_FAULT. */
lml_status lml_reach_write(lml_reach *reach, lml_json_writer *w, lml_error *err);

#endif
