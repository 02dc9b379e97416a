/* Book: the metal in the records of many jobs, added up by owner and metal.
 *
 * Masses are whole nanograms, so that a sum is exact and the order of the jobs changes nothing. A
 * weighing that is in two files is counted once, and the two count as one job. Of each owner and
 * metal, what came in less what went out is the balance; part of it was weighed and lies here, or
 * lies as it was brought, part is at a refiner's: these are held. The rest was not weighed since.
 *
 *     lml_book_read      each job's record, up to the date
 * lml_book_join files of one job, and whose metal each weighing is
 *     lml_book_sum       lots, accounts, parcels, and what cannot be
 *     lml_book_write     all of it as JSON
 *
 * A job may ask the book how much there is of the lots in its charge: then what it took itself is
 * not counted as gone, and lml_book_held_put writes the answer into its text.
 */
#ifndef LML_PAPERS_BOOK_H
#define LML_PAPERS_BOOK_H

#include "base/pool.h"
#include "file/json.h"
#include "file/json_write.h"
#include "lemel.h"
#include "value/metal.h"

/* The ways of record entries. */
#define LML_BOOK_WAY_MAP(X)                                                                        \
    X(IN, "in")                                                                                    \
    X(ADDED, "added")                                                                              \
    X(PIECE, "piece")                                                                              \
    X(RETURNED, "returned")                                                                        \
    X(KEPT, "kept") X(SETTLED, "settled") X(SENT, "sent") X(MELTED, "melted") X(HERE, "here")
typedef enum lml_book_way {
#define X(id, name) LML_BOOK_##id,
    LML_BOOK_WAY_MAP(X)
#undef X
} lml_book_way;

/* One of several owners of a lot. */
typedef struct lml_book_share {
    const char *lot, *member;
    struct lml_book_share *next;
} lml_book_share;

/* A job's file. `home` is the first file of the same job, `next` the one behind it or LML_BOOK_NONE
 */
enum { LML_BOOK_NONE = -1 };
typedef struct lml_book_job {
    const char *name;   /* without folder and .json */
    const char *client; /* as the job names them; else empty */
    const lml_source *source;
    int home, next;
    int doubled; /* weighings that are also in another file of the job */
    int shared;  /* weighings that a job of another client has too: `shared_with` */
    int shared_with;
    bool shared_hour; /* one of them to the minute */
    lml_book_share *shares;
    bool studio_button, studio_lemel; /* whose they are, as agreed */
    bool worked;                      /* something came out of the work, or it was poured */
    const char *last_what, *last_at;  /* what was weighed last */
    int64_t last;
} lml_book_job;

/* An entry of a record that moves metal. */
typedef struct lml_book_move {
    const char *at, *what, *owner, *fineness;
    const char *from; /* what it was taken out of, or NULL */
    int64_t moment, mass, fine;
    int job, order;
    lml_book_way way;
    lml_metal metal;
    bool twice;                        /* another file has it too: not counted */
    bool as_brought;                   /* it came in, and nobody weighed anything out of it since */
    int cell;                          /* whose it is, from lml_book_sum on */
    int64_t left, left_fine;           /* of a lot: what nobody took */
    const struct lml_book_move *taken; /* by whom it was taken from last */
} lml_book_move;

/* What an entry is called that is of no metal brought in: "weighed ring A" opens ring A. */
typedef struct lml_book_name {
    int job;
    const char *what;
} lml_book_name;

/* A lot of a charge that says what it is taken out of. */
typedef struct lml_book_plan {
    const char *from, *name, *owner; /* owner: as the lot says, or the studio */
    int64_t mass;
    int job;
} lml_book_plan;

typedef struct lml_book_settlement {
    const char *parcel, *at, *found;
    int64_t moment;
    int job;
    bool used;
} lml_book_settlement;

/* The fine metal of one owner and metal that belongs to one job. */
typedef struct lml_book_cell {
    const char *owner;
    lml_metal metal;
    int home;
    int64_t in, added, from_others, piece, returned, to_others, settled;
    int64_t moved; /* to this job from others of the same owner */
    int64_t here, sent, as_brought;
    const lml_book_move *named; /* who took last from a lot as it came in; or NULL */
    const lml_book_move *early; /* weighed or gone out on a day when not so much had come in */
    int64_t short_by;           /* at the end of that day */
} lml_book_cell;
/* What is its owner's still; and what of that was neither weighed nor sent since, nor lies as it
 * came in. */
int64_t lml_book_cell_balance(const lml_book_cell *cell);
int64_t lml_book_cell_unweighed(const lml_book_cell *cell);

typedef struct lml_book_parcel {
    const char *name;
    lml_metal metal;
    int64_t fine;
    const lml_book_move *last;
    const lml_book_settlement *settled; /* or NULL */
} lml_book_parcel;

typedef struct lml_book_remark {
    const char *level, *code, *text;
} lml_book_remark;

typedef struct lml_book_list {
    size_t count, room;
} lml_book_list;

typedef struct lml_book {
    const lml_alloc *alloc; /* of the engine */
    lml_alloc memory;       /* of a pool that is freed at the end */
    const char *at;         /* or NULL: all that is written */
    int asker;              /* the job that asks what there is of its lots, or LML_BOOK_NONE */
    int64_t cut;
    lml_book_job *job;
    lml_book_move *move;
    lml_book_plan *plan;
    lml_book_settlement *settlement;
    lml_book_cell *cell;
    lml_book_parcel *parcel;
    lml_book_remark *remark;
    int *lot; /* moves that may be taken from, by job and name */
    lml_book_name *name;
    lml_book_list jobs, moves, plans, settlements, cells, parcels, remarks, lots, names;
    bool beyond; /* a sum is beyond what can be counted */
    bool stopped;
    lml_status status; /* LML_NO_MEMORY, once it has run out */
} lml_book;

/* Room for one more at the end of a list; NULL, with the book's status set, if memory is short. */
void *lml_book_more(lml_book *book, void *items, lml_book_list *list, size_t size);
const char *lml_book_copy(lml_book *book, lml_span text);
/* `level` is "stop" or "note". */
void lml_book_remark_on(lml_book *book, const char *level, const char *code, const char *format,
                        ...) LML_PRINTF(4, 5);
enum { LML_BOOK_GRAMS = 40 };
/* "12.345": grams, with all digits. Returns out. */
const char *lml_book_grams(int64_t nanograms, char out[LML_BOOK_GRAMS]);
const char *lml_book_way_name(lml_book_way way);
/* Whether the metal is the studio's from then on. */
bool lml_book_to_studio(lml_book_way way);

/* LML_BAD_DATA for a job that cannot be read, or two files of one name. */
lml_status lml_book_read(lml_book *book, const lml_source *jobs, size_t count, lml_error *err);
void lml_book_join(lml_book *book);
void lml_book_sum(lml_book *book);
void lml_book_write(const lml_book *book, lml_json_writer *w);
/* "NAME": "12.345 g". */
void lml_book_write_mass(lml_json_writer *w, const char *name, int64_t nanograms);

/* ---- what they share ---- */

/* A file's name without folder and .json. */
lml_span lml_book_name_of(const char *shown);
/* The job of that name, or LML_BOOK_NONE. */
int lml_book_find(const lml_book *book, lml_span name);
/* The account of an owner named in a job: an owner, the lot that it has a share of, or "client of
 * JOB". */
const char *lml_book_account(lml_book *book, int job, const char *owner);
/* Whether the job has taken what it plans to take. */
bool lml_book_is_taken(const lml_book *book, const lml_book_plan *plan);
#define LML_BOOK_STUDIO "studio"
bool lml_book_is_studio(const char *owner);
/* Sets `beyond` if a sum is too large. */
void lml_book_add(lml_book *book, int64_t *sum, int64_t nanograms);

/* Where metal was taken from: the lots of one name in one job. */
typedef struct lml_book_source {
    const char *from;
    int home;                   /* whose job; LML_BOOK_NONE: none was found */
    size_t first, end;          /* in `lot` */
    lml_metal metal;            /* what is taken, */
    const char *owner;          /* whose it is, */
    int64_t moment, mass;       /* when, and how much */
    const lml_book_move *taker; /* NULL: it is only planned */
    const char *job, *name;     /* of the taker, for messages */
} lml_book_source;

void lml_book_lots(lml_book *book);
/* Which pieces lie as they were brought: for the accounts, after all was taken. */
void lml_book_lots_as_brought(lml_book *book);
/* Writes them after the accounts, in the same order. */
void lml_book_lots_by_account(lml_book *book);
/* Find what `source->from` names for the job `taker`; false, and a remark, when there is nothing of
 * that name. */
bool lml_book_lots_find(lml_book *book, int taker, lml_book_source *source);
/* Take it out of the lots: the cell that it came from, or LML_BOOK_NONE and a remark. Taking more
 * than there is is allowed, with a remark. */
int lml_book_lots_take(lml_book *book, const lml_book_source *source);
/* The next lot of the source, counted from `i` on, that is there, as it was weighed last; as it
 * came in if it was not weighed since. NULL at the end. */
const lml_book_move *lml_book_lots_next(const lml_book *book, const lml_book_source *source,
                                        size_t *i);

/* Append to `out` the text of the job that asks, with what is held of each lot of its charge that
 * says what it is taken out of: a member "held" in the lot. LML_BAD_DATA, LML_NO_MEMORY. */
lml_status lml_book_held_put(lml_book *book, lml_builder *out, lml_error *err);

#endif
