/* Sure: how far off the figures of a job may be, from the spreads in it.
 *
 * Distributions are propagated by runs of the whole job with drawn inputs (JCGM 101:2008): in
 * blocks until mean, standard deviation and both ends of the 95 % interval are stable to one
 * significant digit of the standard deviation (7.9.4), or `most` draws are done. Beside them stands
 * the law of propagation (JCGM 100:2008, 5.1.2) with sensitivities from the job itself, one source
 * up and down, and whether the two agree as JCGM 101, 8.1 compares them. The steps are a standard
 * deviation (5.1.3, note 2), a half and a quarter of it: where the three close in as those of a
 * smooth function do, their limit is the derivative; where they do not, since the job rounds or
 * decides, the standard deviation is the step.
 *
 * It runs nothing by itself: it hands out the texts of jobs and takes their results in the same
 * order, so that one process or many can run them.
 *
 *     lml_sure_open(&sure, &orders, err);
 *     while (lml_sure_next(sure, &text, err) == LML_OK && text.length > 0)
 *         lml_sure_take(sure, drawn, &error, err);
 *     lml_sure_write(sure, &w);
 */
#ifndef LML_TRIAL_SURE_H
#define LML_TRIAL_SURE_H

#include "file/json.h"
#include "file/json_write.h"
#include "trial/run.h"
#include "trial/uncertain.h"

enum {
    LML_SURE_BLOCK = 10000,
    LML_SURE_MOST = 50000,
    LML_SURE_LEAST = 100,
    LML_SURE_FIRST = 1000, /* a first answer is worth showing */
    LML_SURE_FIGURES = 200
};

typedef struct lml_sure lml_sure;

typedef struct lml_sure_orders {
    const lml_alloc *alloc;
    lml_span job;
    const char *shown;
    const lml_json *house;     /* NULL: none */
    const lml_json *result;    /* of the job as it is; with "why" safe bounds are reported */
    const lml_run_name *named; /* the figures; none: all that the recipe gives by itself */
    size_t figures;
    bool closing; /* of the job's closing, in place of the job */
    size_t most;  /* draws; 0: LML_SURE_MOST */
    size_t block; /* 0: LML_SURE_BLOCK; tests take smaller ones */
    int digits;   /* of the deviation that are to be stable; 0: one */
} lml_sure_orders;

/* LML_NOT_FOUND for a figure that the result does not have, or withholds; LML_BAD_VALUE for one
 * that is no number, or when nothing that the job says has a spread; LML_NO_MEMORY. */
lml_status lml_sure_open(lml_sure **out, const lml_sure_orders *orders, lml_error *err);
void lml_sure_free(lml_sure *sure);
/* What the jobs that are handed out are about: see lml_tries_open. */
lml_span lml_sure_about(const lml_sure *sure);
/* The text of the next job to run, put into an empty `text`; left empty when what was handed out
 * has to be taken first, or all is done. */
lml_status lml_sure_next(lml_sure *sure, lml_builder *text, lml_error *err);
/* What lml_tries_draw gave for the first job that was handed out and not taken yet; or why it gave
 * nothing. */
lml_status lml_sure_take(lml_sure *sure, lml_span drawn, const lml_error *why, lml_error *err);
/* Whether all is done. */
bool lml_sure_done(const lml_sure *sure);
size_t lml_sure_draws(const lml_sure *sure); /* taken */
size_t lml_sure_goal(const lml_sure *sure);  /* to be taken, as far as known */
/* Sum up what was taken, before all is done: for a first answer. LML_NO_MEMORY. */
lml_status lml_sure_sum_up(lml_sure *sure, lml_error *err);
/* What was found, of the draws that were summed up. The members: "draws", "stable", "died": {
 * "draws", "message" } where runs died, "inputs": [ { "path", "text", "name" } ], "figures": [ {
 * "name", "unit", "is", "rounded": "up" or "down" of a safe bound, "likely", "deviation", "low",
 * "high", "shortest": [ low, high ], "draws", "linear": { "deviation", "low", "high", "agrees" },
 * "from": [ { "input": its path, "part": 0.83 } ] } ], "stops": [ { "code", "level", "draws" } ]. A
 * figure's numbers are in its unit, a moment's deviation in seconds and the moments as texts. */
void lml_sure_write(const lml_sure *sure, lml_json_writer *w);

#endif
