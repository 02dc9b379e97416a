/* Moved: what differs between two results of one job, figure by figure.
 *
 * A figure is a leaf of "results": price, weigh[0].mass. Two figures of one kind have an exact
 * difference; anything else (a text, an alloy, a figure withheld in one result) is either the same
 * or not.
 *
 *     lml_moved moved = lml_moved_on(&alloc, &within);
 *     lml_moved_add(&moved, "jobs/x.json", before, after, err);
 */
#ifndef LML_PAPERS_MOVED_H
#define LML_PAPERS_MOVED_H

#include "file/json.h"
#include "file/json_write.h"
#include "value/write.h"

/* How far a figure may move: relative to itself, or by an amount of its kind. */
typedef struct lml_within {
    bool given;
    lml_value measure; /* a ratio is a part of each figure */
} lml_within;

/* "0.1 %" or "0.5 g". LML_USAGE. */
lml_status lml_within_read(const char *text, lml_within *out, lml_error *err);

typedef struct lml_movement {
    const char *job;                         /* the caller's */
    char *name;                              /* these four in one block */
    const char *before, *after, *difference; /* as text; "" when there is none */
    size_t size;                             /* of the block */
    double relative; /* of the figure before, signed; 0 without a difference */
    bool measured;   /* has a difference and a relative size */
    bool within;
} lml_movement;

/* The sums of one figure over all jobs that give it before and after. */
typedef struct lml_total {
    char *name;
    size_t jobs, moved; /* with it; in which it moved */
    lml_value before, after;
    const lml_json *datum[2]; /* of the first job: where they stand in its results */
    bool sums;                /* its kind can be added up, in one unit and currency */
} lml_total;

enum { LML_MOVED_FIGURES = 10000000 /* of one job */ };

typedef struct lml_moved {
    const lml_alloc *alloc;
    lml_within within;
    lml_movement *movement;
    size_t count, room;
    lml_total *total;
    size_t totals, totals_room;
    size_t figures; /* compared */
    size_t beyond;  /* moved more than they may */
    bool adds;      /* keeps totals */
} lml_moved;

lml_moved lml_moved_on(const lml_alloc *alloc, const lml_within *within);
/* The same, with totals over all jobs. */
lml_moved lml_moved_of_jobs(const lml_alloc *alloc, const lml_within *within);
void lml_moved_free(lml_moved *moved);
/* Both are the records of a result's "results". LML_NO_MEMORY. */
lml_status lml_moved_add(lml_moved *moved, const char *job, const lml_json *before,
                         const lml_json *after, lml_error *err);
/* Those of one job as JSON, and back: combines the results of lml_moved_add from several processes.
 * "figures", "movements" and "totals" are members of the record that is open. */
void lml_moved_write(const lml_moved *of_one, lml_json_writer *w);
/* LML_BAD_DATA for what lml_moved_write did not write; LML_NO_MEMORY. */
lml_status lml_moved_merge(lml_moved *moved, const char *job, const lml_json *record,
                           lml_error *err);
/* A difference as a person writes it. */
void lml_moved_show(const lml_value *difference, char out[LML_VALUE_TEXT]);
/* By size, the largest first; then those without a size, in order. */
void lml_moved_sort(lml_moved *moved);
/* A record: "job" unless it is empty, "name", "before", "after", "difference", "relative",
 * "within". */
void lml_moved_put(lml_json_writer *w, const lml_movement *m);

#endif
