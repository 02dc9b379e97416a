/* Unproved: what is said aside of recipes that were run and did not come with lemel: that one is
 * not proved as it is, and that it is used in place of lemel's own.
 *
 * It sees each result, and reports each recipe once.
 *
 *     lml_unproved unproved;
 *     lml_unproved_open(&unproved, call, studio);
 *     lml_unproved_see(&unproved, &kit, result, err);     ... for each result
 *     lml_unproved_close(&unproved);
 */
#ifndef LML_STUDIO_UNPROVED_H
#define LML_STUDIO_UNPROVED_H

#include "studio/proved.h"

typedef struct lml_unproved {
    lml_call *call;
    lml_proved proved;
    bool listed; /* whether `proved` was read */
    const char *studio;
    const lml_kit_text **met; /* recipes not ours that stood in a result */
    size_t count, room;
} lml_unproved;

/* `studio` is the folder whose list counts; it stays the caller's. */
void lml_unproved_open(lml_unproved *u, lml_call *call, const char *studio);
void lml_unproved_close(lml_unproved *u);
/* `result` is the JSON of a result as the engine wrote it; the kit lives as long as `u`.
 * LML_NO_MEMORY. */
lml_status lml_unproved_see(lml_unproved *u, const lml_kit *kit, lml_span result, lml_error *err);
/* All of it for one result. */
lml_status lml_unproved_tell(lml_call *call, const char *studio, const lml_kit *kit,
                             lml_span result, lml_error *err);

#endif
