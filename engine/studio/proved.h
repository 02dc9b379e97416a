/* Proved: which recipes of a studio have passed their own proofs.
 *
 * The list is recipes/proved.txt of the studio. An entry is a recipe's name, the digest of its file
 * and the version of the engine that proved it; under it, set in, stands all else that took part in
 * its proofs: the recipes that it used and the scripts. The entry holds while none of them has
 * changed. `lemel prove` and `lemel adopt` keep the list; running a recipe that is not in it gives
 * a notice (see unproved.h). What comes with lemel is proved by lemel's own tests and is not
 * listed.
 *
 *     # Recipes whose own proofs passed here: ...
 *     quote sha256:ba7816bf... lemel 0.2.0
 *       recipe need sha256:9362f7c1...
 *       script gates sha256:34af49a6...
 */
#ifndef LML_STUDIO_PROVED_H
#define LML_STUDIO_PROVED_H

#include "file/json.h"
#include "studio/find.h"

typedef struct lml_proved {
    char path[LML_PATH];
    lml_builder list;
    lml_builder news; /* entries to be put, a bare name for one to be taken out */
} lml_proved;

/* What of a recipe's proofs has changed; `name` is empty when the recipe itself is not listed. */
typedef struct lml_proved_gap {
    lml_span kind, name; /* "recipe" or "script" */
} lml_proved_gap;

/* Read the list of the studio's folder; one that is not there is empty. LML_BAD_DATA for a file of
 * that name that is something else. `out` is to be freed in any case. */
lml_status lml_proved_read(const lml_alloc *alloc, const char *studio, lml_proved *out,
                           lml_error *err);
void lml_proved_free(lml_proved *proved);
/* Whether this engine proved this recipe of the kit with all that its proofs rest on as it is in
 * the kit. `gap` is written when it did not; its spans are the list's. */
bool lml_proved_holds(const lml_proved *proved, const lml_kit *kit, const lml_kit_text *recipe,
                      lml_proved_gap *gap);
/* Renew the recipe's entry from the report on its proofs, or take it out when they did not all
 * pass, or there is none, or no report. The report is a worker's: it says which texts of the kit
 * took part, and no more. */
void lml_proved_put(lml_proved *proved, const lml_kit *kit, const lml_kit_text *recipe,
                    const lml_json *report);
/* Make `list` what lml_proved_write would write, for a caller that has the lock and writes it with
 * other files. */
lml_status lml_proved_renew(lml_proved *proved, bool *is_new, lml_error *err);
/* Merge what was put into the current list: another command may have written too. */
lml_status lml_proved_write(lml_proved *proved, lml_error *err);

#endif
