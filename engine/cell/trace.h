/* Trace: where each value of a run came from, recorded while it is worked.
 *
 * Only for a run that somebody asks the reason of a figure of: without a trace the box has NULL,
 * and nothing is recorded or wrapped. With one, every operator, method and function over values is
 * called through a wrapper that keeps a step: the value that came out, as a text, what went in, the
 * line of the recipe or script. What was said, assumed or written in a recipe is a step without
 * any that went in. A value is known again by its userdata, which no recipe can change; a bare
 * number by its exact size, where it is not one that turns up everywhere (0, 1, 2.5).
 *
 *     lml_trace_wrap(L, lml_bind_methods, "");         once a state
 *     lml_trace_say(L, -1, &said);                      the value on top was said in the job
 *     uint32_t step = lml_trace_of(L, -1);              0: nobody knows
 */
#ifndef LML_CELL_TRACE_H
#define LML_CELL_TRACE_H

#include "base/text.h"
#include "cell/state.h"
#include "cell/word.h"

enum { LML_TRACE_STEPS = 2000000, LML_TRACE_INPUTS = 60, LML_TRACE_LEFT = 200 };
/* How a bare number came about that was calculated in Lua. */
#define LML_TRACE_PLAIN "plain"

/* What is written where, with its source when it has one. */
typedef struct lml_said {
    const char *what;   /* "given.wax", "house.button", "assumed" ... */
    const char *file;   /* NULL: the line is that of the recipe at work */
    const char *source; /* where a default is published; NULL */
    unsigned line;
} lml_said;

typedef struct lml_step {
    const char *is;            /* the value, as a text */
    const char *how;           /* "+", "up_to", "craft.density"; NULL for what was said */
    const char *member;        /* of what a function gave in a table: "weigh[2].mass"; "" */
    const char *what, *source; /* of what was said */
    const char *file;
    unsigned line;
    uint32_t first, inputs; /* in the list of inputs */
} lml_step;

typedef struct lml_trace {
    lml_alloc alloc;
    lml_step *step; /* the first, step 0, is none */
    uint32_t *input;
    size_t steps, step_room, inputs, input_room;
    struct lml_trace_number {
        double number;
        uint32_t step;
    } * number; /* by size, open addressing */
    size_t numbers, number_room;
    /* Steps at which a value was made a bare number: those of the recipe at work, behind those of
     * the recipes that use it. */
    uint32_t *left;
    size_t lefts, left_room, left_from;
    size_t plain_of, plain_first; /* where the last such list of inputs stands */
    uint32_t latest;              /* the step that gave the latest bare number */
    bool of_values, of_plain;     /* what went into the step that is gathered: values; bare numbers
                                     in a table, that nobody knows */
    lml_span (*text)(const void *self, const char *file); /* of a recipe or script */
    const void *text_self;
    lml_pool texts;
    bool short_of; /* memory or room: what is told is not whole */
} lml_trace;

void lml_trace_open(lml_trace *trace, const lml_alloc *alloc);
void lml_trace_close(lml_trace *trace);

/* Wrap the functions of the words in the table on top of the stack; `prefix` is put before each
 * name. Does nothing without a trace. */
void lml_trace_wrap(lua_State *L, const lml_word *words, const char *prefix);
/* The same for one function, which is on top of the stack and is replaced. `name` outlives the
 * state. */
void lml_trace_wrap_one(lua_State *L, const char *name);
/* The value at the index was said. */
void lml_trace_say(lua_State *L, int index, const lml_said *said);
/* The value at `index` is what that at `from` was, in another block. */
void lml_trace_same(lua_State *L, int index, int from);
/* A recipe begins, and ends: what it made bare numbers of is its own. */
size_t lml_trace_enter(lua_State *L);
void lml_trace_leave(lua_State *L, size_t entered);
/* The step of a bare number that a recipe gives back, whose `work` stands there; a new one where
 * nobody knows it. 0 without a trace. */
uint32_t lml_trace_number(lua_State *L, int index, const char *file, int line);
/* The step that the value at the index came from; 0 without a trace, and where none is known. */
uint32_t lml_trace_of(lua_State *L, int index);

#endif
