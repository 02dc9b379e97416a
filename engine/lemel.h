/* Lemel: the calculation engine of a casting goldsmith's studio, as a library.
 *
 * Make an engine, put recipes and scripts and the studio's settings on its shelf, run a job given
 * as JSON text, get the result as JSON text, free both. The library reads no file, clock or
 * environment and prints nothing: it knows only what it is given.
 *
 *     lml_engine *engine = lml_engine_new(NULL);
 *     lml_engine_put(engine, LML_PUT_SCRIPT, "gates", gates, gates_length, "scripts/gates.lua",
 * &error); lml_engine_put(engine, LML_PUT_RECIPE, "need", text, length, "recipes/need.lua",
 * &error); lml_engine_run(engine, job, job_length, "job.json", &result, &error); puts(result.text);
 *     lml_text_free(engine, &result);
 *     lml_engine_free(engine);
 *
 * A program that embeds the library has the box's first wall only (a fresh Lua state for each run,
 * an allow list, a budget, a memory limit). To run recipes from strangers, run them in a process of
 * their own, as the lemel command does.
 *
 * The same job gives the same digits on every machine, with one exception: Lua takes the ^ of two
 * bare numbers in a recipe from the C library's pow (except ^ 2), whose last digit may differ.
 *
 * An engine is used by one thread at a time; different engines are independent. The program's
 * locale is left alone and changes no result: while a function works, its own thread is in the C
 * locale, and so are the allocator and `interrupt` that it calls.
 *
 * Until 1.0, another minor version (0.2, 0.3) may change functions and the members of records, so
 * the shared library carries both numbers in its name; a program must be recompiled for it. Within
 * one minor version functions are only added. docs/embedding.md is the guide.
 */
#ifndef LEMEL_H
#define LEMEL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/types.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct lml_engine lml_engine;

/* Limits of a run. 0 takes the default in brackets. */
typedef struct lml_limits {
    uint64_t steps; /* Lua instructions and charges [50 million] */
    size_t memory; /* bytes a run's Lua state may have from `alloc` [64 MiB]; no block larger than 1
                      MiB */
    size_t source; /* bytes of one recipe or script [256 KiB] */
    size_t job;    /* bytes of a job text [4 MiB] */
    size_t result; /* bytes of a result text [4 MiB] */
} lml_limits;

typedef struct lml_engine_options {
    lml_alloc alloc; /* see base/types.h; resize NULL: malloc */
    lml_limits limits;
    /* Asked about every thousand steps of a run: true ends it with LML_LIMIT. Steps are counted,
     * not timed, and a hostile recipe can make some of them slow: a program that runs such recipes
     * in its own process looks at its own clock here. NULL never asks. */
    bool (*interrupt)(void *self);
    void *interrupt_self;
    /* The script "gates" holds the stops of law, physics and health. Without it on the shelf
     * nothing is run, unless this is true: then the result says "gates": null, and every sheet
     * drawn from it says so in its first line. Gates that are on the shelf are always run. */
    bool without_gates;
} lml_engine_options;

typedef struct lml_text {
    char *text; /* NUL-ended, owned by the engine's allocator */
    size_t length, size;
    bool stopped; /* of a run: a rule stopped something, or needs a person to confirm it */
} lml_text;

/* A function that returns a status and needs an argument that is NULL returns LML_BAD_DATA; the
 * message names the argument. */

/* NULL options for the defaults. NULL when memory is short. */
LML_API lml_engine *lml_engine_new(const lml_engine_options *options);
LML_API void lml_engine_free(lml_engine *engine);
LML_API lml_limits lml_engine_limits(const lml_engine *engine);

typedef enum lml_put {
    LML_PUT_RECIPE,
    LML_PUT_SCRIPT,
    LML_PUT_HOUSE,
    LML_PUT_PRICES,
    LML_PUT_OWN_RECIPE /* a recipe that the house wrote or changed: results and sheets name its
                          rules */
} lml_put;
/* Put a text on the shelf; it is copied. `name` is how recipes call it ("need"; ignored for house
 * and prices), `shown` how messages name it ("recipes/need.lua"). A later text of the same name
 * replaces the earlier. House and prices are checked here. A recipe whose text is refused (too
 * long, not UTF-8, compiled) affects only its users: the status says so, and so does each job that
 * needs the recipe; all other jobs run. LML_USAGE for a name with characters other than a to z,
 * digits, _ and -, or one that starts with -. LML_BAD_DATA, also for a recipe or script without a
 * name; LML_BAD_RECIPE, LML_BAD_VALUE, LML_LIMIT, LML_NO_MEMORY. */
LML_API lml_status lml_engine_put(lml_engine *engine, lml_put what, const char *name,
                                  const char *text, size_t length, const char *shown,
                                  lml_error *err);

/* Run a job. LML_OK also when a rule stopped something: the result then says so in "remarks", and
 * result->stopped is true. Otherwise the error and no result: LML_NO_GATES (see without_gates),
 * LML_BAD_DATA (the job), LML_BAD_RECIPE, LML_NOT_FOUND (the recipe), LML_LIMIT, LML_NO_MEMORY. */
LML_API lml_status lml_engine_run(lml_engine *engine, const char *job, size_t length,
                                  const char *shown, lml_text *result, lml_error *err);
/* As lml_engine_run, as though nothing had been offered yet: what a new offer is made from. */
LML_API lml_status lml_engine_run_afresh(lml_engine *engine, const char *job, size_t length,
                                         const char *shown, lml_text *result, lml_error *err);
/* Run the end of a job, as its "closing" says: with another recipe ("closing" unless it names one),
 * which reads the same record and what was offered. As lml_engine_run, and LML_BAD_DATA for a job
 * without a "closing". */
LML_API lml_status lml_engine_close(lml_engine *engine, const char *job, size_t length,
                                    const char *shown, lml_text *result, lml_error *err);
/* Check a job without running it. */
LML_API lml_status lml_engine_check(lml_engine *engine, const char *job, size_t length,
                                    const char *shown, lml_error *err);
/* The text of a file and its name in messages. */
typedef struct lml_source {
    const char *text;
    size_t length;
    const char *shown;
} lml_source;
/* A job may list others by file ("jobs"), such as the flasks of one kiln. No file is read here:
 * `listed` has their texts, in that order. Each is run, and `after` is the job with what its recipe
 * asks of them put in and every other byte unchanged, for lml_engine_run and the others; a job that
 * lists none is returned unchanged. LML_BAD_DATA for a job that is listed twice, lists itself or
 * lists others itself, for a recipe that reads no other jobs, and for a wrong number of texts;
 * LML_LIMIT for more than 100; and as lml_engine_run of each. */
LML_API lml_status lml_engine_gather(lml_engine *engine, const char *job, size_t length,
                                     const char *shown, const lml_source *listed, size_t count,
                                     lml_text *after, lml_error *err);
/* Everything that is wrong in a job, a house and prices, where lml_engine_run reports only the
 * first fault. Of a house beside a job only what the job's recipe and those it uses read is
 * checked. A JSON list of { "file", "line", "path", "message", "hint" }, empty if there is none.
 * file, line and path are left out where a fault has no place. A job that is otherwise sound is
 * run, to find what its recipes refuse, unless it lists others and lml_engine_gather has not been
 * called. Each may be NULL: then the house and prices on the shelf apply, and no job is checked.
 * LML_OK whatever is found; LML_NO_MEMORY, LML_LIMIT. */
LML_API lml_status lml_engine_faults(lml_engine *engine, const lml_source *job,
                                     const lml_source *house, const lml_source *prices,
                                     lml_text *out, lml_error *err);
/* A recipe's asks, allowances, gives and uses, its digest and its proofs, as JSON. */
LML_API lml_status lml_engine_inspect(lml_engine *engine, const char *recipe, lml_text *out,
                                      lml_error *err);
/* The JSON Schema (2020-12) of a job for the recipe: `given` holds what it asks, `house` what it
 * and the recipes that it uses allow. NULL for the recipe: of house.json, with what the recipes on
 * the shelf allow. */
LML_API lml_status lml_engine_schema(lml_engine *engine, const char *recipe, lml_text *out,
                                     lml_error *err);
/* Slips in a recipe's text and in its proofs, as a JSON list of { "line", "text", "advice" } and
 * "wrong": true where the recipe is refused for it, cannot run, or the proof fails; "unread": true
 * too where its declaration cannot be read. */
LML_API lml_status lml_engine_advise(lml_engine *engine, const char *recipe, lml_text *out,
                                     lml_error *err);
/* Run a recipe's own proofs. The report as JSON: { "recipe", "version", "digest", "file", "proofs":
 * [ { "line", "name", "source", "within", "worked": [ as in a result, of one that passed ],
 * "passed", "failures": [ "..." ] } ], "passed": n, "failed": n }. LML_OK also when one fails. One
 * that ends in an error has "broken": true; one that does so for adding or comparing amounts of two
 * currencies, "currencies": true instead.
 * LML_NO_GATES as for a run. */
LML_API lml_status lml_engine_prove(lml_engine *engine, const char *recipe, lml_text *out,
                                    lml_error *err);
/* The same, and the report also says what no proof of the recipe reaches: "reach": { "lines": n,
 * "missed": [ line, ... ], "stops": n, "missed_stops": [ { "code", "line" } ] }. Lines are those of
 * the recipe's own text within functions; a stop is one that the text names, or a point to confirm.
 * "scripts": [ { "script", "file", "lines", "missed" } ] is the same for the scripts that took
 * part. Slower: each line is counted. */
LML_API lml_status lml_engine_reach(lml_engine *engine, const char *recipe, lml_text *out,
                                    lml_error *err);
/* One calculation: a value in the value grammar, or a Lua expression ('Q"2 dwt" + Q"1 g"'). `unit`
 * NULL or the unit of the answer; digits 0 (all of a value, 15 at most of a sum) or significant
 * digits to round to. */
LML_API lml_status lml_engine_reckon(lml_engine *engine, const char *expression, const char *unit,
                                     int digits, lml_text *out, lml_error *err);
/* The names on the shelf, one per call: NULL past the end. In byte order. */
LML_API const char *lml_engine_recipe(const lml_engine *engine, size_t index);

/* ---- papers: texts in, texts out ---------------------------------------------------------------
 *
 * What the command does to files, as functions over their texts. The engine provides the memory and
 * frees the texts; its shelf may be empty. `report` may be NULL. A new text is complete, keeps
 * every byte of the old one that does not change, and is returned only with LML_OK. */

/* What was weighed, measured or done. */
typedef struct lml_entry {
    const char *what; /* the name of its box on the sheet; NULL: each word is "BOX=READING" */
    const char *const *word; /* else "mass=31.02 g" and the like: the members of the entry; one may
                              * be a reading alone, "31.02 g": its kind says which member it is */
    size_t count;
    const char *at;    /* when: "2026-11-26T14:20" */
    const char *now;   /* the present moment, later ones are refused; NULL: any */
    const char *owner; /* NULL: none is named */
    bool anyway; /* take it even if it is more than a year from the job's date, in the future, or
                  * far from what the sheet prints or was weighed before */
} lml_entry;
/* Put an entry, or one for each reading, into the record of a job. `result` is that of the job as
 * it is, NULL: no boxes are known. A reading must be of the kind of its box, and a mass has owner
 * and fineness from there where no word says them. The entry is put in where its moment belongs.
 * The report: { "entries": [ as they are in the record ], "also": [ of each, the reading in the
 * sheet's unit where that is another, or "" ], "counts": [ of each, the moment of a later entry of
 * that name that counts in its place, or "" ] }.
 * LML_USAGE (a word), LML_BAD_VALUE, LML_BAD_DATA (the job), LML_LIMIT, LML_NO_MEMORY. */
LML_API lml_status lml_engine_record(lml_engine *engine, const char *job, size_t length,
                                     const char *shown, const lml_text *result,
                                     const lml_entry *entry, lml_text *after, lml_text *report,
                                     lml_error *err);
/* What a result's sheets say about a box: { "boxes": how many there are, "called": how many have
 * that name, "kind": of what is printed beside it, "near": a name that may be meant, "next": the
 * next box of its page that nothing is recorded for }. */
LML_API lml_status lml_engine_box(lml_engine *engine, const lml_text *result, const char *name,
                                  lml_text *out, lml_error *err);

/* A person's decision on a point of a result whose level is "confirm". */
typedef struct lml_confirmation {
    const char *code, *by, *reason;
    const char *until; /* the last day on which the house decides it for all jobs; NULL: for this
                        * job alone */
} lml_confirmation;
/* Put it into the job, or with `until` into the text of the house, which is then given as `job`: of
 * a point that may hold for all jobs. `result` is that of the job as it is, or of its closing. The
 * report: { "confirmed": the code, "text": the point in words, "closing": true where the result is
 * the closing's }. LML_BAD_DATA when no such point is open. */
LML_API lml_status lml_engine_confirm(lml_engine *engine, const char *job, size_t length,
                                      const char *shown, const lml_text *result,
                                      const lml_confirmation *said, lml_text *after,
                                      lml_text *report, lml_error *err);

/* A new offer, or the outcome of the latest one. */
typedef struct lml_offer {
    const char *what;   /* "offered", "accepted", "not accepted" or "withdrawn" */
    const char *at;     /* "2026-11-24T10:30" */
    const char *by;     /* who; NULL only where it is offered */
    const char *reason; /* why it is withdrawn or not accepted, or holds all the same */
    const char *paid;   /* with the acceptance: "459.60 USD", or "deposit" for what was asked; NULL:
                           nothing */
    bool anyway;        /* accept though it has expired, or the job has changed: needs a reason */
} lml_offer;
/* Put it into the job. What is offered is what the recipe promises of `result`, that of
 * lml_engine_run_afresh; with an acceptance it is that of lml_engine_run, and may be NULL: then
 * nobody looks whether a stop is open. "not accepted" takes back an acceptance that was entered by
 * mistake. The report: { "what", "at", "by", "price", "until" } as far as known, and of an offer
 * that was open, "replaced": its price and "replaced_at". LML_STOPPED while a point of the result
 * is open; LML_BAD_DATA for a second offer on one that was accepted, an acceptance of none, of one
 * that was withdrawn or has expired, of a job that has changed since, and for offers that were
 * changed by hand. */
LML_API lml_status lml_engine_offer(lml_engine *engine, const char *job, size_t length,
                                    const char *shown, const lml_text *result,
                                    const lml_offer *said, lml_text *after, lml_text *report,
                                    lml_error *err);

/* A metal's price: "Au", "2650.30 USD/ozt", "2026-11-24T09:00", "refiner, buying". */
typedef struct lml_quote {
    const char *metal, *price, *at, *from;
    bool anyway; /* take it even if it is three times as much or as little, or more than a year
                    later, or in another currency than the house's, or after now */
    const char *currency; /* the house's, "EUR"; NULL: any will do */
    const char *now;      /* what the clock says: a later moment is refused, and a price in the list
                             that is of a later one is replaced; NULL: it is not compared */
} lml_quote;
/* Put it into a price list, and the previous price into its history; `prices` NULL makes a new
 * list. The report: { "metal", "name", "price", "at", "from", and if there was one "before": its
 * price, "change": 0.012 for 1.2 % more, else "also": [ the same by the ounce or gram ]; of one
 * that is corrected, of the same moment or after now, "replaces": it and "replaces_at" }. */
LML_API lml_status lml_engine_price(lml_engine *engine, const char *prices, size_t length,
                                    const char *shown, const lml_quote *quote, lml_text *after,
                                    lml_text *report, lml_error *err);

/* Two results of one job: { "figures": compared, "moved": n, "beyond": those that moved by more
 * than they may, "stops": { "before": [ codes ], "after": [ codes ] }, "differences": [ { "name":
 * "price", "before", "after", "difference", "relative": 0.012 for 1.2 % more, "within": whether it
 * may } ] }, the largest first. `within` is what a figure may move, "0.1 %" or "0.5 g"; NULL:
 * nothing. */
LML_API lml_status lml_engine_compare(lml_engine *engine, const lml_text *before,
                                      const lml_text *after, const char *within, lml_text *out,
                                      lml_error *err);

/* A result compared with an earlier one of the same job, to the last bit, and the possible causes
 * of a difference: { "result": `shown`, the earlier one's name; "same": false, "figures": n,
 * "otherwise": [ { "name", "is", "was" } ], "sheets": [ names ], "remarks": [ { "code", "is", "was"
 * } ], "changed": [ { "what": "recipe", "name", "is", "was": digests } ], "settings": [ { "name",
 * "is", "was" } ] }. New entries have no "was", removed ones no "is". */
LML_API lml_status lml_engine_again(lml_engine *engine, const lml_text *was, const lml_text *is,
                                    const char *shown, lml_text *out, lml_error *err);

/* The metal of many jobs, added up from their records: { "at", "jobs": how many, "weighings": how
 * many count, "accounts": [ { "owner", "metal", "in", "added", "from_others", "piece", "returned",
 * "to_others", "settled", "held", "here", "sent", "not_weighed": fine masses, "not_weighed_in": [ {
 * "job", "fine", "last", "at" } ] } ], "lots": [ { "owner", "metal", "job", "what", "at", "mass",
 * "fineness", "fine" } ] that are here, in the order of the accounts, "parcels": [ { "name",
 * "metal", "fine", "sent", "settled", "found" } ], "remarks": [ { "level", "code", "text" } ] }. in
 * + added + from_others = piece + returned + to_others + settled + held, and held = here + sent +
 * not_weighed, to the last digit. Entries after `at` are left out; NULL: none is. out->stopped if a
 * remark is a stop. LML_BAD_DATA (a job that cannot be read, two of one name), LML_BAD_VALUE,
 * LML_OVERFLOW, LML_LIMIT, LML_NO_MEMORY. */
LML_API lml_status lml_engine_book(lml_engine *engine, const lml_source *jobs, size_t count,
                                   const char *at, lml_text *out, lml_error *err);
/* The text of one of these jobs, `jobs[job]`, for a charge that takes metal out of the safe: each
 * of its "lots" that says what it is taken out of ("from") has a member "held" put in, with what
 * the book holds of it. What the job itself has already taken counts as available to it. Statuses
 * as of lml_engine_book, and LML_BAD_DATA if `job` is not one of them. */
LML_API lml_status lml_engine_book_held(lml_engine *engine, const lml_source *jobs, size_t count,
                                        size_t job, const char *at, lml_text *out, lml_error *err);

/* How sheets are drawn: `page` "bench", "client,metal" or others, NULL for all with content;
 * `width` in columns, 0 for 80; `bold` with the escapes of a terminal; `landscape` two columns side
 * by side, 160 wide. With `html` they are one HTML document without a script or an address, to be
 * printed on `paper`, "A4" or "Letter"; NULL is the house's, else A4. */
typedef struct lml_look {
    const char *page;
    size_t width;
    bool bold, landscape, html;
    const char *paper;
} lml_look;
/* Draw a result as the command prints it. `unseen` gets the stops, open points and cautions that
 * are not on the page asked for; its text is NULL when there are none. Show them beside it.
 * LML_NOT_FOUND if the page is empty. */
LML_API lml_status lml_engine_draw(lml_engine *engine, const lml_text *result, const lml_look *look,
                                   lml_text *out, lml_text *unseen, lml_error *err);

/* As lml_engine_run, with every operation over values recorded: the result has the steps of all
 * figures under "why": { "figures": by name, "weigh[0].mass", the number of its first step,
 * "steps", "whole" }; see lml_engine_why. It needs much more memory than a run. */
LML_API lml_status lml_engine_run_why(lml_engine *engine, const char *job, size_t length,
                                      const char *shown, lml_text *result, lml_error *err);
typedef struct lml_asked_why {
    const char *figure;
    bool closing; /* of the job's closing instead of the job */
    bool afresh;  /* as though nothing had been offered yet: as lml_engine_run_afresh */
} lml_asked_why;
/* Where a figure of a job comes from: the steps that lead to it. It is named as the job gives it
 * ("price", "weigh[0].mass"), by a recipe that the job used ("quote.price"), or by the label of a
 * sheet's line ("Total to pay", or in quotes of its own where it looks like a name; of a grid,
 * "ring A, Net": the first cell of the row and the heading of the column; "line": true where no
 * recipe gives what the line shows); "figure" is then what the job itself calls it, if it gives it.
 * The job is run once more, and every operation over values recorded. { "figure", "is": as in a
 * result, "steps": [ { "is": the value as a text, "how": "+", "up_to", "craft.density": what gave
 * it, "of": [ the numbers of the steps that went in, counted from 0 ], "called": [ what each of
 * these is in the table that a craft function took it from, "segments[0].to"; "" where in none ],
 * "member": which of what a function gave, "what": for what was entered or assumed, "given.wax",
 * "house.button, assumed", "source": of that or of the formula, "file", "line" } ], the figure's
 * own first, each once, "whole": whether all was kept }. A step with neither "how" nor "what" is a
 * constant: "file" and "line" are where it is written, if that is certain, else of the step that it
 * came into; "name" is what it is called there, "source" the comment beside it; "calculated": true
 * of a number that is written nowhere in the file. A figure that no step leads to has no steps. Of
 * a text, "file", "line" and "row", of the table that it is written in, and "beside": [ { "figure",
 * "title", "is", "file", "line", "row" } ], the figures that its recipe gives with it.
 * LML_NOT_FOUND for an unknown figure and for one that is withheld; and as lml_engine_run.
 */
LML_API lml_status lml_engine_why(lml_engine *engine, const char *job, size_t length,
                                  const char *shown, const lml_asked_why *asked, lml_text *out,
                                  lml_error *err);

/* How far off the figures of a job may be. Figures by their names, as for lml_engine_why;
 * none: each that the recipe gives by itself. `draws` at most, 0 for 50,000; fewer if the answer is
 * stable earlier. */
typedef struct lml_asked_sure {
    const char *const *figure;
    size_t figures, draws;
    bool closing; /* of the job's closing instead of the job */
} lml_asked_sure;
/* The job is run again and again with what it, and the house, writes with a spread ("12.4 g ± 0.1
 * g", "12.3..12.5 g") drawn again: propagation of distributions, JCGM 101:2008. Points that the job
 * confirms hold in every draw; draws that a stop withholds are counted. The same job gives the same
 * bytes. The report: { "draws": how many, "stable": whether more draws would change nothing by half
 * a unit in the first digit of its deviation, "died": { "draws", "message" } where runs failed,
 * "inputs": [ { "path", "text", "name", "with": the path of another that is drawn with it } ],
 * "figures": [ { "name", "is": as the job gives it, "unit", "draws": that have it, "likely": the
 * mean, "deviation", "low" and "high": 95 % lie between, as many below as above, "shortest": the
 * shortest such interval, "linear": the same by JCGM 100 and whether it "agrees", "from": [ {
 * "input": a path, "part": of the variance } ] } ], "stops": [ { "code", "level", "draws": that met
 * it } ] }. LML_BAD_VALUE when nothing has a spread; LML_NOT_FOUND for an unknown figure and for
 * one that is withheld; and as lml_engine_run. */
LML_API lml_status lml_engine_sure(lml_engine *engine, const char *job, size_t length,
                                   const char *shown, const lml_asked_sure *asked, lml_text *out,
                                   lml_error *err);

/* How a figure changes with one input. `input` is named as on the command line, as "rates.bench" or
 * "lots[0].price"; `range` says its ends, "50..90 USD/h". */
typedef struct lml_asked_what {
    const char *figure, *input, *range;
    const char *wish; /* "1200 USD": find the inputs that give this figure; or NULL */
    bool closing;     /* of the job's closing instead of the job */
} lml_asked_what;
/* The job is run with the input at about ten steps of its range; points that it confirms hold. The
 * report: { "figure", "input", "is": the figure as the job is, "rows": [ { "input", "is", or
 * "stops": the codes that withhold it ("" where the job does not show it), with "one_of": true
 * where of several it is not known which does, or "error" } ] }. With a wish: { "figure", "input",
 * "is", "wish", "answers": [ { "from", "to", "is" } ] for a stretch of the range in which the
 * figure is as wished, or { "before", "is", "after", "then" } where it steps over it, "low",
 * "high": of the figure over the range, "withheld": at how many steps it is } , in at most 200
 * runs. LML_BAD_VALUE for a range without two ends or a wish of the wrong kind; LML_NOT_FOUND of
 * the figure; and as lml_engine_run. */
LML_API lml_status lml_engine_what(lml_engine *engine, const char *job, size_t length,
                                   const char *shown, const lml_asked_what *asked, lml_text *out,
                                   lml_error *err);

/* One answer to one question of a recipe, as typed, read as in a job. `field` is "wax", within a
 * list or a record "old_metal[0].gross" (any number, for a list), of an allowance "house.crucible"
 * or "house.charge.crucible". Part of an alloy's name is enough where no other has it. { "given":
 * how it is written in a job, and "kind", "value", "unit", "text" ... as a result has them: the
 * text in the house's unit for the bench sheet }. LML_NOT_FOUND if the recipe does not ask it, else
 * what is wrong with the answer. */
LML_API lml_status lml_engine_check_value(lml_engine *engine, const char *recipe, const char *field,
                                          const char *text, lml_text *out, lml_error *err);

/* The questions of a job's recipe, one after the other. Only the job is remembered: the caller
 * passes back `at` and `unfolded` of the last question with the answer typed. */
typedef struct lml_answer {
    const char *at;    /* the question that was asked; NULL: continue with the first that is missing
                          or was never asked; "": at the first that is missing */
    const char *typed; /* NULL: only ask it. Besides answers: "" accepts what is there, "<" goes
                          back one question, "-" skips the rest of this part, "--" removes the
                          answer, "---" the whole entry, "?" explains more */
    const char
        *under; /* ask only what is below this path, such as "given.old_metal[1]"; NULL: all */
    const char
        *unfolded; /* the records whose rarely used asks are asked too, as it came; NULL: none */
} lml_answer;
/* Take an answer, and ask the next question. `after` is the job with the answer in it, every other
 * byte as it was; its text is NULL if nothing changed. The question: { "at", "unfolded", "title",
 * "kind", "takes": "value", "yes" or "name", "entry": the entry it belongs to, "depth", "due",
 * "opens": it begins another entry of the list named in "list", "first": the list is empty, "said",
 * "default", "example", "options", "heading": { "title", "questions", "due" }, "told": the answer
 * in the house's unit, if different; "more": after "?", the explanation }. An answer that cannot be
 * taken: "faults", as in lml_engine_faults, and the same question. After the last: { "end": true }.
 * LML_BAD_DATA (the job), LML_NOT_FOUND (the recipe), LML_USAGE (`at`, `under`). */
LML_API lml_status lml_engine_ask(lml_engine *engine, const char *job, size_t length,
                                  const char *shown, const lml_answer *said, lml_text *after,
                                  lml_text *question, lml_error *err);

LML_API void lml_text_free(lml_engine *engine, lml_text *text);
LML_API const char *lml_version(void);

/* The name of a status ("BAD_VALUE") and what it means in a sentence; never NULL. */
LML_API const char *lml_status_name(lml_status status);
LML_API const char *lml_status_sentence(lml_status status);
/* An error as a person reads it: the message, the user's own words with what is wrong underlined,
 * the likely fix, and where it is; each line ends in a line feed. Writes at most `size` bytes with
 * the NUL, cut at a whole line if it does not fit, and returns the length of the whole without the
 * NUL. LML_ERROR_TEXT bytes are always enough. Control characters are printed as '?'. */
enum { LML_ERROR_TEXT = 8192 };
LML_API size_t lml_error_text(const lml_error *error, char *out, size_t size);

#ifdef __cplusplus
}
#endif

#endif
