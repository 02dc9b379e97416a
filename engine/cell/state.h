/* The box: one Lua state for one run, built from scratch, with a budget that a script cannot evade.
 *
 * A recipe can reach only what the list that the state is opened with puts into its environment.
 * The state counts Lua instructions (by a hook) and charges (by our own functions, for work
 * proportional to their input); when the sum exceeds the budget, or the box holds more memory than
 * its limit (cell/memory.h), the run is dead: the hook fires at every instruction and raises, and
 * our pcall passes the error on, whatever the script catches. The numbers are counted, not timed,
 * so a recipe fails at the same place on every machine. Charges depend only on what a recipe does,
 * never on how Lua stores it.
 *
 * Errors cross from C to Lua as a userdata that holds an lml_error, and back by lml_box_take_error.
 * Below, "raises" means lua_error: no C memory may be owned across such a call.
 *
 *     lml_box box;
 *     lml_box_open(&box, &options, err);
 *     lml_chunk_load(&box, source, "recipes/need.lua", err);      the chunk is on the stack
 * (cell/chunk.h) lml_box_call(&box, 0, 1, err); lml_box_close(&box);
 */
#ifndef LML_CELL_STATE_H
#define LML_CELL_STATE_H

#include "lemel.h"
#include "base/pool.h"
#include "base/text.h"
#include "cell/memory.h"

#include <lauxlib.h>
#include <lua.h>

struct lml_run;
struct lml_shelf;
struct lml_trace;
struct lml_memo;

enum { LML_BOX_PERIOD = 1000 }; /* steps between two questions whether to interrupt */

typedef enum lml_garbage { LML_GARBAGE_LIES, LML_GARBAGE_SELDOM, LML_GARBAGE_USUAL } lml_garbage;

typedef struct lml_box {
    lua_State *L;
    lml_pool pool;   /* the memory limit applies to what it has taken from the system */
    lml_meter meter; /* what Lua requested from the pool */
    size_t memory_limit;
    lml_moves moves;
    lml_garbage garbage;
    uint64_t spent, budget;
    uint64_t
        price; /* of one step, by the longest text made so far: one step may compare two of them */
    uint64_t asked; /* asks and gives declared so far, for their order */
    bool unordered; /* nobody reads it: the build keeps the declaration of what is loaded */
    bool (*interrupt)(void *self);
    void *interrupt_self;
    uint64_t unasked; /* steps, and moves, since the interrupt was last polled */
    bool refused;     /* the last request for memory was refused */
    bool dead;        /* a limit was hit: nothing may catch it */
    bool place;       /* its error still needs the current line */
    bool blamed;      /* and whose file that is, is said */
    bool stopping;    /* a withheld figure was read: unwinds to the nearest use */
    bool proof;       /* the house is ignored */
    void (*on_line)(void *self, lua_State *L, lua_Debug *at); /* NULL: lines are not counted */
    void *on_line_self;
    lml_error death;
    const struct lml_shelf *shelf; /* what was put in, NULL in a bare state */
    size_t (*source_length)(const struct lml_shelf *shelf, const char *shown);
    struct lml_run *run;     /* the current run, NULL in a bare state */
    struct lml_trace *trace; /* records where values come from; NULL: not recorded */
    struct lml_memo *memo;   /* what texts were read as, or NULL */
} lml_box;

typedef struct lml_box_options {
    const lml_alloc *alloc;
    uint64_t budget;
    size_t memory;
    uint64_t asked;                /* asks and gives declared so far, for their order */
    bool (*interrupt)(void *self); /* as in lml_engine_options */
    void *interrupt_self;
    size_t (*source_length)(const struct lml_shelf *shelf,
                            const char *shown); /* lml_shelf_length, or NULL */
    struct lml_trace *trace;                    /* or NULL */
    struct lml_memo *memo;                      /* or NULL */
    void (*prepare)(
        lua_State *L); /* fills the metatables and keeps the shared names: lml_allow_prepare */
} lml_box_options;

/* LML_NO_MEMORY. */
lml_status lml_box_open(lml_box *box, const lml_box_options *options, lml_error *err);
void lml_box_close(lml_box *box);
static inline lml_box *lml_box_of(lua_State *L)
{
    return *(lml_box **)lua_getextraspace(L);
}

/* lua_pcall that returns an lml_error; on failure the stack is as before the call, without function
 * and arguments. */
lml_status lml_box_call(lml_box *box, int arguments, int results, lml_error *err);
/* Turn the error value on top of the stack into *err and pop it. Returns its status. */
lml_status lml_box_take_error(lml_box *box, int lua_status, lml_error *err);

/* Marks the run as dead; the first reason is kept. */
void lml_box_die(lml_box *box, lml_status status, const char *what, const char *hint);
/* Counts steps for the interrupt, which is polled every thousand. */
void lml_box_ask(lml_box *box, uint64_t steps);
/* Counts moves, in steps' worth: see cell/memory.h. */
void lml_box_move(lml_box *box, uint64_t steps);
/* Sets the price of a step from here on. The instruction count restarts if it changes. */
void lml_box_set_price(lml_box *box, uint64_t price);
/* Restarts the count here, so that instructions since the last full count make no difference. */
void lml_box_start_count(lml_box *box);
/* Memory was exhausted in a protected call: marks the run as dead, with LML_NO_MEMORY. */
void lml_box_out_of_memory(lml_box *box);
/* Of a dead run: whose file it was, "in the house's rule, recipes/rule_hours.lua", where the line
 * that was running does not say it. Only the first counts. */
void lml_box_blame(lml_box *box, const char *whose, const char *shown);

/* The Lua or C stack is full: marks the run as dead, with LML_LIMIT. How deep a recipe can go
 * depends on where it is called from: a recipe that could catch this could tell a proof from a
 * run. */
void lml_box_too_deep(lml_box *box);
/* Whether the error at the index is Lua's own stack overflow. */
bool lml_box_is_overflow(lua_State *L, int index);
/* Room for `slots` more values on the Lua stack; else raises lml_box_too_deep. */
void lml_box_need_stack(lua_State *L, int slots);
/* The same where a limit or a question may be due: see lml_box_charge. */
void lml_box_charge_rest(lua_State *L, uint64_t steps);
/* Charges steps; raises if the budget is spent or the run interrupted. A loop that may cost more
 * than a few thousand steps charges each iteration, so that an interrupt ends it. */
static inline void lml_box_charge(lua_State *L, uint64_t steps)
{
    lml_box *box = lml_box_of(L);
    if (box->unasked + steps < LML_BOX_PERIOD && box->spent + steps <= box->budget &&
        !box->dead) { /* mostly */
        box->unasked += steps;
        box->spent += steps;
    } else {
        lml_box_charge_rest(L, steps);
    }
}

#endif
