/* The box: one Lua state for one run, built from nothing, with a budget that cannot be swallowed.
 *
 * What a recipe can reach is exactly what run/allow.c puts into its environment. The state counts Lua
 * instructions (by a hook) and charges (by our own functions, for work proportional to their input);
 * when the sum passes the budget, or the state holds more memory than its limit, the run is dead: the
 * hook fires at every instruction and raises, and our pcall passes the error on, whatever the script
 * catches. The numbers are counted, not timed, so a recipe fails at the same place on every machine.
 *
 * Errors cross from C to Lua as a userdata that holds an lml_error, and back by lml_box_take_error.
 * Below, "raises" means lua_error: no C memory may be owned across such a call.
 *
 *     lml_box box;
 *     lml_box_open(&box, &options, err);
 *     lml_box_load(&box, source, "recipes/need.lua", err);      the chunk is on the stack
 *     lml_box_call(&box, 0, 1, err);
 *     lml_box_close(&box);
 */
#ifndef LML_CELL_STATE_H
#define LML_CELL_STATE_H

#include "lemel.h"
#include "base/pool.h"
#include "base/text.h"
#include "value/alloy.h"
#include "value/value.h"

#include <lauxlib.h>
#include <lua.h>

/* The kinds of userdata a state knows, told apart by their metatables. */
typedef enum lml_class {
    LML_CLASS_VALUE,
    LML_CLASS_ALLOY,
    LML_CLASS_ASSAY,
    LML_CLASS_RECORD, /* read-only names: job, house, what a used recipe gave */
    LML_CLASS_LIST,   /* read-only list */
    LML_CLASS_ERROR,
    LML_CLASS_SHEET,
    LML_CLASS_PAGE,
    LML_CLASS_USES,
    LML_CLASSES
} lml_class;

struct lml_run;

typedef enum lml_garbage { LML_GARBAGE_LIES, LML_GARBAGE_SELDOM, LML_GARBAGE_USUAL } lml_garbage;

typedef struct lml_box {
    lua_State *L;
    lml_pool pool;
    lml_meter meter; /* what Lua asked of the pool */
    size_t memory_limit;
    lml_garbage garbage;
    uint64_t spent, budget;
    uint64_t price; /* of one step, by the longest text made so far: one step may compare two of them */
    bool (*interrupt)(void *self);
    void *interrupt_self;
    uint64_t unasked; /* steps charged since the interrupt was last asked */
    bool refused;  /* the last request for memory was */
    bool dead;     /* a limit was hit: nothing may catch it */
    bool stopping; /* a withheld figure was read: unwinds to the nearest use */
    lml_error death;
    struct lml_run *run; /* the run in hand, NULL in a bare state */
} lml_box;

typedef struct lml_box_options {
    const lml_alloc *alloc;
    uint64_t budget;
    size_t memory;
    bool (*interrupt)(void *self); /* as in lml_engine_options */
    void *interrupt_self;
} lml_box_options;

/* LML_NO_MEMORY. */
lml_status lml_box_open(lml_box *box, const lml_box_options *options, lml_error *err);
void lml_box_close(lml_box *box);
lml_box *lml_box_of(lua_State *L);

/* Compile a text chunk and leave it on the stack with a fresh environment of its own. `shown` names it
 * in messages. Binary chunks are refused. LML_BAD_RECIPE, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_box_load(lml_box *box, lml_span source, const char *shown, lml_error *err);
/* lua_pcall that gives back an lml_error; on failure the stack is as before the call less function and
 * arguments. */
lml_status lml_box_call(lml_box *box, int arguments, int results, lml_error *err);
/* Turn the error value on top of the stack into *err and pop it. Returns its status. */
lml_status lml_box_take_error(lml_box *box, int lua_status, lml_error *err);

/* Memory ran out in a protected call: from now on the run is dead, with LML_NO_MEMORY. */
void lml_box_out_of_memory(lml_box *box);

/* The stack of Lua, or of C under it, is full: from now on the run is dead, with LML_LIMIT. How deep a recipe
 * can go depends on where it is called from: one that could catch this could tell a proof from a run. */
void lml_box_too_deep(lml_box *box);
/* Whether the error at the index is Lua's own word for that. */
bool lml_is_overflow(lua_State *L, int index);
/* Room for `slots` more values on the Lua stack; else lml_box_too_deep, which it raises. */
void lml_need_stack(lua_State *L, int slots);
/* Add to the bill; raises when the budget is spent. */
void lml_charge(lua_State *L, uint64_t steps);

/* Raise an error of our own: position of the calling Lua line is put before the message. */
int lml_raise(lua_State *L, const lml_error *error);
/* The same without the position: for figures of a job, which have a place of their own. */
int lml_raise_as_is(lua_State *L, const lml_error *error);
int lml_raise_text(lua_State *L, lml_status status, const char *format, ...) LML_PRINTF(3, 4);
int lml_raise_hint(lua_State *L, lml_status status, const char *hint, const char *format, ...)
    LML_PRINTF(4, 5);
/* Raise `error` with the names of the caller's variables that hold the operands at stack indices a and
 * b ("'ring' is a mass"), where they have names. */
int lml_raise_operands(lua_State *L, lml_error *error, int a, int b);

/* Userdata of one class. New pushes a block of `size` bytes with `slots` user values. Test gives NULL
 * for any other value.
 *
 * Every userdata that a script can hold begins with the seal of its class, which no script can write: to look
 * at it costs half of what a look at the metatable does. The metatable keeps its place in the registry under
 * the same key. */
typedef struct lml_seal {
    const char *class;
} lml_seal;
extern const char lml_class_key[LML_CLASSES];
void *lml_new(lua_State *L, lml_class class, size_t size, int slots);
static inline void *lml_test(lua_State *L, int index, lml_class class)
{
    if (lua_type(L, index) != LUA_TUSERDATA) /* what is light has no seal */
        return NULL;
    lml_seal *seal = lua_touserdata(L, index);
    return seal->class == &lml_class_key[class] ? seal + 1 : NULL;
}

void lml_push_metatable(lua_State *L, lml_class class);
/* "a mass (12 g)", "a text", "nothing", "a list": what stands at index, for messages. Valid until the
 * next call; the text is on the Lua stack no longer than the current C function. */
const char *lml_what_is(lua_State *L, int index);

/* The span of the string at index; not valid after it leaves the stack. Raises on anything else, with
 * `what` is due in the message. */
lml_span lml_need_text(lua_State *L, int index, const char *what);

#endif
