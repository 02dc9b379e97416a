/* Uncertain: what a job, or the house, writes with a spread, and the job's text with drawn figures
 * in its place.
 *
 * "562 ‰ ± 6 ‰" is normal with that standard deviation, "12.3..12.5 g" even between its ends; what
 * past jobs taught, a median with the spread of its logarithm, is normal in that. Each has one
 * random source of its own; entries that name the same assay share theirs, because an assay that is
 * too high is too high for all.
 *
 * Where the job says under `readings` from how many readings a spread was found, it is Student's
 * (JCGM 101:2008, 6.4.9). Where it has the readings themselves they make the spread, and readings
 * taken together are correlated as measured.
 *
 * Of a composition that adds up to the whole the parts without a spread take up what is left, each
 * in proportion: an analysis that finds more gold finds less of the rest.
 *
 * A draw moves the middle and keeps the spread, so that a recipe that calculates with the spread
 * does so in every draw. Impossible values (more than 1000 ‰, a mass below zero) are drawn again.
 * The draws depend only on a digest of what is uncertain: another title changes no figure.
 *
 *     lml_uncertain u = lml_uncertain_on(&alloc);
 *     lml_uncertain_find(&u, job, "job.json", house, err);
 *     lml_uncertain_draw(&u, 17, at, &text, err);         the job as its 18th draw has it
 */
#ifndef LML_TRIAL_UNCERTAIN_H
#define LML_TRIAL_UNCERTAIN_H

#include "file/json.h"
#include "value/value.h"

enum {
    LML_UNCERTAIN_MOST = 400,
    LML_UNCERTAIN_PATH = 200,
    LML_UNCERTAIN_AGAIN = 64,
    LML_UNCERTAIN_SETS = 40,    /* of readings */
    LML_UNCERTAIN_TOGETHER = 8, /* in one of them */
    LML_UNCERTAIN_FEWEST = 4,   /* of fewer readings the spread has no standard deviation */
    LML_UNCERTAIN_READINGS = 1000
};

typedef struct lml_uncertain_item {
    char path[LML_UNCERTAIN_PATH]; /* "given.old_metal[0].stones" */
    const lml_json *node;
    const lml_json *of_house; /* the setting that it is in, when the house wrote it; else NULL */
    lml_span name;            /* of the nearest record that has one: "ring A" */
    lml_span assay;           /* that its record names, when it is a fineness */
    double middle, deviation; /* in the unit that it is written in */
    bool between;
    bool logarithm;                 /* the deviation is that of the logarithm */
    const struct lml_json *counted; /* its readings, or how many, where the job says it */
    size_t set, row;                /* where it has readings: in u->set[set - 1]; else 0 */
    bool fineness;                  /* it reads as one: at most 1000 ‰ */
    size_t whole;  /* of a composition that adds up to the whole: which, counted from 1; else 0 */
    bool follows;  /* has no spread of its own: it is what the others leave */
    bool positive; /* negative makes no sense */
    lml_span unit, spread; /* as written: "‰", and "± 6 ‰" or nothing */
    size_t source;
} lml_uncertain_item;

/* Readings that were taken together: each of their items is so much of the sources of all. */
typedef struct lml_uncertain_set {
    size_t size, source[LML_UNCERTAIN_TOGETHER];
    double load[LML_UNCERTAIN_TOGETHER][LML_UNCERTAIN_TOGETHER];
    unsigned freedom;
} lml_uncertain_set;

typedef struct lml_uncertain {
    const lml_alloc *alloc;
    bool closing; /* what the job's closing says counts too; set before it is looked at */
    lml_json_document *job;
    lml_span text; /* of the job, as `job` has it */
    lml_uncertain_item *item;
    size_t count, room;
    size_t sources;
    lml_uncertain_set set[LML_UNCERTAIN_SETS];
    size_t sets;
    size_t wholes;
    uint64_t seed[2];
} lml_uncertain;

lml_uncertain lml_uncertain_on(const lml_alloc *alloc);
void lml_uncertain_free(lml_uncertain *u);
/* `house` NULL: none. LML_LIMIT for more than LML_UNCERTAIN_MOST; LML_BAD_DATA for a job that is no
 * JSON, and for readings that do not fit what the job says; LML_NO_MEMORY. */
lml_status lml_uncertain_find(lml_uncertain *u, lml_span job, const char *shown,
                              const lml_json *house, lml_error *err);
/* Settings of the house that this job does not read are not drawn: keep those alone of which
 * `reads` is true. */
void lml_uncertain_keep(lml_uncertain *u, bool (*reads)(const void *self, lml_span setting),
                        const void *self);
/* The job as a draw has it. `at` gets how many standard deviations each source lies from its
 * middle: `sources` numbers. */
lml_status lml_uncertain_draw(const lml_uncertain *u, uint64_t draw, float *at, lml_builder *out,
                              lml_error *err);
/* The job with one source so many standard deviations off, all others in the middle. */
lml_status lml_uncertain_shift(const lml_uncertain *u, size_t source, double by, lml_builder *out,
                               lml_error *err);

#endif
