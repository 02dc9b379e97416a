/* Change: writes and removes several files of a studio, all or none.
 *
 * They are written whole into STUDIO/.adopting.new, each flushed; then that folder is renamed to
 * .adopting, in one step. Before that nothing is changed; after it the change is decided, and each
 * file is only moved to its place. A command that finds .adopting, because the last one was killed
 * or a disk failed, completes it (lml_change_finish), repeatedly if needed. So a studio is either
 * unchanged or completely changed.
 *
 *     lml_change change = lml_change_on(&alloc, studio, "slagrose 1.2.0");
 *     lml_change_put(&change, "recipes/rule_hours.lua", bytes, err);
 *     lml_change_take_away(&change, "recipes/rule_water.lua", err);
 *     lml_change_make(&change, err);
 *     lml_change_free(&change);
 */
#ifndef LML_STUDIO_CHANGE_H
#define LML_STUDIO_CHANGE_H

#include "base/text.h"

typedef struct lml_change_file {
    char *path;        /* within the studio */
    lml_builder bytes; /* what it will hold; nothing of one that goes */
    bool goes;
} lml_change_file;

typedef struct lml_change {
    const lml_alloc *alloc;
    const char *studio, *what; /* `what` is reported if the rest is done later */
    lml_change_file *files;
    size_t count, room;
    bool decided; /* it will be completed, whatever lml_change_make returns */
} lml_change;

lml_change lml_change_on(const lml_alloc *alloc, const char *studio, const char *what);
void lml_change_free(lml_change *change);
/* Paths begin with recipes/ or scripts/. LML_NO_MEMORY. */
lml_status lml_change_put(lml_change *change, const char *path, lml_span bytes, lml_error *err);
lml_status lml_change_take_away(lml_change *change, const char *path, lml_error *err);
/* The caller holds the studio's lock. LML_NO_WRITE: a link in the way, another disk, what the
 * system says; nothing is changed, or, when `decided`, the next command does what is left. */
lml_status lml_change_make(lml_change *change, lml_error *err);

/* Complete what an earlier command left undone. `what` is what it was; empty when there was
 * nothing. LML_NO_WRITE. */
lml_status lml_change_finish(const lml_alloc *alloc, const char *studio, lml_builder *what,
                             lml_error *err);

#endif
