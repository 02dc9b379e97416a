/* One run: a job, from its recipe down through the recipes it uses.
 *
 * A run owns a fresh box. All of it happens inside one protected call, which catches every error.
 */
#ifndef LML_RUN_RUN_H
#define LML_RUN_RUN_H

#include "shelf/shelf.h"
#include "cell/state.h"
#include "file/json.h"
#include "value/value.h"

struct lml_engine;

enum { LML_USE_DEPTH = 12 };
/* The owner of the engine's own instances of scripts; no recipe has this name. */
#define LML_ENGINES_OWN ""

typedef struct lml_run {
    struct lml_engine *engine;
    lml_box box;
    const lml_json_document *document; /* of the job; NULL in a proof */
    const lml_json *job;               /* its root; NULL in a proof */
    const lml_json *given;             /* the job's own; NULL in a proof */
    const lml_json *job_house;         /* the job's overrides of allowances */
    const lml_json *closing;           /* its closing, if that is run; else NULL */
    const lml_json *offered;           /* what a recipe can read of its offer; NULL without one */
    const lml_json *confirmed;
    bool loose;                         /* `given` may name allowances too */
    bool bare;                          /* its result is a try's or is compared: no settings */
    const char *working[LML_USE_DEPTH]; /* recipe names from the top down to the current one */
    const lml_recipe *top;              /* the job's own; NULL until it is given its asks */
    const lml_recipe *recipe;  /* the current one; NULL while a file is loaded or a gate checks */
    const char *owner;         /* whose instances of scripts `require` reaches */
    const lml_item *loading;   /* whose chunk is run; NULL when none is */
    bool beforehand;           /* things are loaded before it is known that they are used */
    bool more_is_used;         /* than was loaded beforehand */
    struct lml_worked *worked; /* what took part so far (run/worked.h); NULL: nothing */
    struct lml_result_figures *figures; /* of the result being written, else NULL */
    bool nothing_withheld;     /* by any part of the result that is written: most of the time */
    struct lml_marks *marks;   /* of what came from withheld figures (report/marks.h), or NULL */
    struct lml_faults *faults; /* what recipes refuse, collected; NULL: the first ends the run */
    bool refused;              /* the current recipe was refused a setting */
    bool part_failed;          /* a recipe failed, and the one that used it went on */
    bool withholds; /* a stop withheld something: what is refused from here on may show it */
    int depth;
    lml_json_document *day_prices; /* see run/prices.h; NULL until they are asked for */
    lml_value day;                 /* that they are of */
} lml_run;

/* A cold start: open the box for a run on `engine`. */
lml_status lml_run_open(lml_run *run, struct lml_engine *engine, lml_error *err);
void lml_run_close(lml_run *run);
/* The run is given the job of the document. */
void lml_run_aim(lml_run *run, const lml_json_document *job);

/* Call f, protected, with the name as its argument, as a pointer: outside of a protected call
 * nothing may be allocated. */
lml_status lml_run_call(lml_run *run, lua_CFunction f, const char *name, int results,
                        lml_error *err);

lml_run *lml_run_of(lua_State *L); /* raises in a bare state */
/* Push the table kept under a key of the registry, created when first needed. Raises. */
void lml_run_push_registry(lua_State *L, const char *key);
/* Such a table of a run: which settings were read. */
void lml_run_push_settings(lua_State *L);

#endif
