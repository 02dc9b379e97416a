/* One run: a job worked from its recipe down through the recipes that one uses.
 *
 * A run owns a fresh box. For every recipe that takes part it builds `job` and `house`, calls `work`,
 * checks what came back, lets the gates look at it, and keeps a part for the sheets. The whole of it
 * happens inside one protected call, so that whatever raises ends here.
 */
#ifndef LML_RUN_RUN_H
#define LML_RUN_RUN_H

#include "shelf/shelf.h"
#include "cell/state.h"
#include "file/json.h"

struct lml_engine;

enum { LML_USE_DEPTH = 12 };
/* The owner of the engine's own instances of scripts; no recipe has this name. */
#define LML_ENGINES_OWN ""

typedef struct lml_run {
    struct lml_engine *engine;
    lml_box box;
    const lml_json_document *document; /* of the job; NULL in a proof */
    const lml_json *job;       /* its root; NULL in a proof */
    const lml_json *given;     /* the job's own; NULL in a proof */
    const lml_json *job_house; /* the job's overrides of allowances */
    const lml_json *confirmed;
    bool loose;                /* `given` may name allowances too */
    bool proof;                /* the house is not looked at */
    const char *working[LML_USE_DEPTH]; /* recipe names from the top down to the one at work */
    const lml_recipe *recipe;           /* the one at work; NULL while a file is loaded or a gate checks */
    const char *owner;                  /* whose instances of scripts `require` reaches */
    const lml_item *loading;            /* whose chunk is run; NULL when none is */
    bool beforehand;                    /* things are loaded before it is known that they are used */
    int depth;
} lml_run;

/* A cold start: open the box for a run on `engine`. */
lml_status lml_run_open(lml_run *run, struct lml_engine *engine, lml_error *err);
void lml_run_close(lml_run *run);

/* Values that are on the stack below a recipe when it starts, in a job as in a proof: how deep it can go must not tell
 * it which of the two it is in. */
enum { LML_WORK_HEIGHT = 8 };

/* Work `recipe` from run->given. On success two values are on the stack: the results (a record view) and
 * the part. */
lml_status lml_run_job(lml_run *run, const char *recipe, lml_error *err);

/* The same as far as reading goes: every figure of the job is taken in, nothing is worked. */
lml_status lml_run_check(lml_run *run, const char *recipe, lml_error *err);
/* Leave the recipe's table on the stack; read its declaration. Both protected. */
lml_status lml_run_recipe_table(lml_run *run, const char *recipe, lml_error *err);
lml_status lml_run_describe(lml_run *run, const char *recipe, lml_error *err);

/* For use inside a protected call: work a recipe with the arguments at index `arguments` (a table), or
 * from run->given when it is 0, under the part at index `parent` (0: none). Pushes results and part.
 * Raises. */
void lml_work_recipe(lua_State *L, const char *name, int arguments, int parent);

lml_run *lml_run_of(lua_State *L); /* raises in a bare state */
/* Push the table kept under a key of the registry, made when it is first wanted. Raises. */
void lml_push_registry(lua_State *L, const char *key);
/* Such tables of a run: what was worked in order (and, by name, which scripts stand in it already); which
 * settings were read. */
void lml_push_worked(lua_State *L);
void lml_push_settings(lua_State *L);

/* In a proof: the table at index says what the house of the recipes in use sets, as a job's "house" does. */
void lml_run_proof_house(lua_State *L, int index);

/* A withheld figure is read: unwind to the nearest use. Never returns. */
int lml_raise_stop(lua_State *L);
/* Whether the job confirms the remark at index: then its level becomes "confirmed" with reason and by. The
 * confirmation holds the text that was accepted; when the remark says anything else, it has lapsed. */
bool lml_run_confirmed(lua_State *L, int remark);
lml_span lml_run_source_line(lua_State *L, const char *source, int line);

#endif
