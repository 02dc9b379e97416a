/* Dialogue: a job whose questions are asked one after the other. All that is remembered is the job
 * itself; a house is asked as what a job of the recipe `studio` sets in its stead.
 *
 *     lml_dialogue d = {.engine = engine, .alloc = alloc, .said = said, .shown = shown};
 *     lml_status s = lml_dialogue_open(&d, job, err);
 *     if (s == LML_OK) s = lml_dialogue_begin(&d, &index, err);       d.walk.step[index]
 *     lml_dialogue_close(&d);
 */
#ifndef LML_PAPERS_DIALOGUE_H
#define LML_PAPERS_DIALOGUE_H

#include "file/patch.h"
#include "lemel.h"
#include "papers/walk.h"

typedef struct lml_dialogue {
    lml_engine *engine;
    const lml_alloc *alloc;
    const lml_answer *said;
    const char *shown;
    char at[LML_JSON_PATH + 1], under[LML_JSON_PATH], unfolded[LML_UNFOLDED];
    lml_json_document *job, *about;
    lml_walk walk;
} lml_dialogue;

/* Read the job, and walk it. Close it in any case. LML_USAGE: nothing is asked there. */
lml_status lml_dialogue_open(lml_dialogue *d, lml_span job, lml_error *err);
void lml_dialogue_close(lml_dialogue *d);
/* Walk the job as it is now. */
lml_status lml_dialogue_walk(lml_dialogue *d, lml_error *err);
/* The text in place of the job as it was; it is not walked yet. */
lml_status lml_dialogue_read_job(lml_dialogue *d, lml_span text, lml_error *err);
/* Begin at the first question that is missing or wrong, or behind the last that was answered where
 * that comes first: what was never asked is not passed over. */
lml_status lml_dialogue_begin(const lml_dialogue *d, size_t *index, lml_error *err);

const lml_json *lml_dialogue_job(const lml_dialogue *d);
lml_span lml_dialogue_recipe(const lml_dialogue *d);
bool lml_dialogue_is_of_house(const lml_dialogue *d);
/* All that the recipe allows is asked, in place of what it asks. */
bool lml_dialogue_asks_house(const lml_dialogue *d);
/* What an engine answered, as JSON. */
lml_status lml_dialogue_read(const lml_dialogue *d, const lml_text *text, lml_json_document **out,
                             lml_error *err);
/* Whether a fault is told of that path: "jobs/x.json:12: given.wax: ...". */
bool lml_dialogue_tells_at(const lml_dialogue *d, const lml_json *fault, const char *path);
/* What is at the path, with the path read; NULL. */
const lml_json *lml_dialogue_find(const lml_dialogue *d, const char *path, lml_patch_path *read);
/* The job without what is at that path, and without the lists and records that would be left empty.
 */
lml_status lml_dialogue_remove(const lml_dialogue *d, lml_patch_path path, lml_builder *after,
                               lml_error *err);

#endif
