/* Proved: which recipes of a studio have passed their own proofs.
 *
 * The list is recipes/proved.txt of the studio, one line a recipe: its name, the digest of its file
 * and the version of the engine that proved it. `lemel prove` and `lemel adopt` keep it; `lemel
 * run` says on standard error when a recipe that it works is not in it. What comes with lemel is
 * proved by lemel's own tests and is not listed. A line says that the recipe did what its proofs
 * say when it was proved, and no more: a recipe that it uses may have changed since.
 *
 *     # Recipes whose own proofs passed here: ...
 *     need sha256:ba7816bf... lemel 0.1.0
 */
#ifndef LML_CLI_PROVED_H
#define LML_CLI_PROVED_H

#include "cli/find.h"
#include "file/json.h"

typedef struct lml_proved {
    char path[LML_PATH];
    lml_builder list;
    bool changed;
} lml_proved;

/* Read the list of the studio's folder; one that is not there is empty. LML_BAD_DATA for a file of
 * that name that is something else. `out` is to be freed in any case. */
lml_status lml_proved_read(const lml_alloc *alloc, const char *studio, lml_proved *out,
                           lml_error *err);
void lml_proved_free(lml_proved *proved);
/* Whether this engine proved these bytes. */
bool lml_proved_holds(const lml_proved *proved, lml_span digest);
/* Put the recipe's line anew, or take it away when its proofs did not pass. */
void lml_proved_put(lml_proved *proved, lml_span recipe, lml_span digest, bool passed);
/* Write the list if it has changed. */
lml_status lml_proved_write(lml_proved *proved, lml_error *err);

/* Say aside which of the recipes that a result was worked with are not proved here. */
void lml_proved_tell(lml_call *call, const lml_target *target, const lml_kit *kit,
                     const lml_json *result);

#endif
