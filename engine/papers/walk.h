/* Walk: the questions of a recipe for a job, one after the other, given what is in the job so far.
 *
 * Depends only on lml_engine_inspect, the job and the question that is asked. Each question has the
 * path of its answer; a new entry has the index after the last. A record or entry that the question
 * lies in is begun, though nothing of it is in the job yet: with no answer it leaves no trace.
 * Rarely used asks are left out unless they are answered or unfolded.
 *
 *     lml_walk walk = {.alloc = alloc};
 *     lml_status s = lml_walk_job(&walk, about, job, err);
 *     size_t i = lml_walk_find(&walk, "given.wax");
 *     lml_walk_free(&walk);
 */
#ifndef LML_PAPERS_WALK_H
#define LML_PAPERS_WALK_H

#include "file/json.h"

enum { LML_UNFOLDED = 5 * LML_JSON_PATH }; /* a buffer for lml_walk.unfolded */

/* What an answer does. */
typedef enum lml_step_kind {
    LML_STEP_VALUE, /* it is the value */
    LML_STEP_ANY,   /* yes: the record begins, or one more of a list */
    LML_STEP_NAME,  /* it names one more entry */
} lml_step_kind;

typedef struct lml_step {
    lml_step_kind kind;
    char path[LML_JSON_PATH];
    const lml_json *ask;     /* the field that it is about; of an entry the list's */
    const lml_json *said;    /* NULL */
    const lml_json *heading; /* the ask at which its heading stands; NULL */
    const lml_json *list;    /* of one that opens an entry: the ask of the list; NULL */
    const lml_json *within;  /* of a question of an entry: the ask of the list; NULL */
    bool first;              /* of these: there is no entry yet */
    bool entry;              /* it is an entry itself: its kind is what the ask is `of` */
    bool opens;              /* one more of a list begins with it */
} lml_step;

typedef struct lml_walk {
    const lml_alloc *alloc;
    const char *unfolded; /* the folds all of whose asks are taken, a line each; NULL */
    const char *under;    /* ask only this; NULL */
    const char *at;       /* the question that is asked, or the record or entry and "."; NULL */
    bool passes_said;     /* what is said already is not asked again */
    lml_step *step;
    size_t count, room;
    const lml_json *heading, *within;
    bool begun; /* a record or entry is, by `at` alone */
    lml_status status;
} lml_walk;

/* LML_NO_MEMORY; LML_LIMIT where a path is too long. */
lml_status lml_walk_job(lml_walk *walk, const lml_json *about, const lml_json *job, lml_error *err);
/* One allowance of that name, for the job alone: at "house.NAME". None where `about` has none. */
lml_status lml_walk_setting(lml_walk *walk, const lml_json *about, const lml_json *job,
                            lml_span name, lml_error *err);
/* All that `about` allows, at "house". */
lml_status lml_walk_house(lml_walk *walk, const lml_json *about, const lml_json *job,
                          lml_error *err);
void lml_walk_free(lml_walk *walk);

/* `count` where there is none. */
size_t lml_walk_find(const lml_walk *walk, const char *path);
/* The first whose path is that or within it. */
size_t lml_walk_within(const lml_walk *walk, const char *path);
/* The first after `i` that is not of the same record, or not under the same heading. */
size_t lml_walk_past(const lml_walk *walk, size_t i);
/* The fold that holds the question: the path of its record, with the heading where that has
 * several. */
void lml_walk_fold(const lml_step *step, char out[LML_JSON_PATH]);
bool lml_walk_is_unfolded(const lml_walk *walk, const char *fold);
/* The path of the entry of that name in the set that `path`, which ends in a star, is of.
 * LML_LIMIT. */
lml_status lml_walk_named(const char *path, lml_span name, char out[LML_JSON_PATH]);
/* Whether a text is still to be filled in. */
bool lml_walk_is_empty(const lml_json *said);
/* Whether a path is `whole` or within it. */
bool lml_walk_is_in(const char *path, const char *whole);
/* The path of the record or list that holds it: "given.old_metal[2]" of "given.old_metal[2].gross".
 * `out` may be `path`. */
void lml_walk_parent(const char *path, char out[LML_JSON_PATH]);
/* The shape of the value that is asked: of an entry what its list is of. */
const lml_json *lml_step_shape(const lml_step *step);
/* Whether it is answered; that a list which has entries may have one more counts as that. */
bool lml_step_is_said(const lml_step *step);
/* Whether a job cannot be run without it. */
bool lml_step_is_due(const lml_step *step);

#endif
