/* Trace: where each value of a run came from, recorded while it runs.
 *
 * Only for a run whose figures are to be explained: without a trace the box has NULL, and nothing
 * is recorded or wrapped. With one, every operator, method and function over values is called
 * through a wrapper that keeps a step: the value that came out, as a text, what went in, the line
 * of the recipe or script. What was entered, assumed or written in a recipe is a step without
 * inputs. A value is recognised by its userdata, which no recipe can change; a bare number by its
 * exact value, unless it is one of the common ones (0, 1, 2.5).
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
/* The step of a bare number that was calculated in Lua. */
#define LML_TRACE_PLAIN "plain"

/* What is written where, with its source if it has one. */
typedef struct lml_said {
    const char *what;   /* "given.wax", "house.button", "assumed" ... */
    const char *file;   /* NULL: the line is in the current recipe */
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
    lml_step *step; /* step 0 is unused */
    uint32_t *input;
    size_t steps, step_room, inputs, input_room;
    struct lml_trace_number {
        double number;
        uint32_t step;
    } * number; /* by size, open addressing */
    size_t numbers, number_room;
    /* Steps at which a value was made a bare number: those of the current recipe, after those of
     * the recipes that use it. */
    uint32_t *left;
    size_t lefts, left_room, left_from;
    size_t plain_of, plain_first; /* the last such list of inputs */
    uint32_t latest;              /* the step that gave the latest bare number */
    bool of_values, of_plain;     /* inputs of the current step: values; bare numbers in a table, of
                                     unknown origin */
    lml_span (*text)(const void *self, const char *file); /* of a recipe or script */
    const void *text_self;
    lml_pool texts;
    bool short_of; /* memory or room: the record is incomplete */
} lml_trace;

void lml_trace_open(lml_trace *trace, const lml_alloc *alloc);
void lml_trace_close(lml_trace *trace);

/* Wrap the functions of the words in the table on top of the stack; `prefix` is put before each
 * name. No effect without a trace. */
void lml_trace_wrap(lua_State *L, const lml_word *words, const char *prefix);
/* The same for one function, which is on top of the stack and is replaced. `name` outlives the
 * state. */
void lml_trace_wrap_one(lua_State *L, const char *name);
/* The value at the index was entered. */
void lml_trace_say(lua_State *L, int index, const lml_said *said);
/* The value at `index` is a copy of that at `from`. */
void lml_trace_same(lua_State *L, int index, int from);
/* A recipe begins, and ends: its bare numbers are its own. */
size_t lml_trace_enter(lua_State *L);
void lml_trace_leave(lua_State *L, size_t entered);
/* The step of a bare number that a recipe gives back, whose `work` is there; a new one if it is not
 * known. 0 without a trace. */
uint32_t lml_trace_number(lua_State *L, int index, const char *file, int line);
/* The step that produced the value at the index; 0 without a trace, or if not known. */
uint32_t lml_trace_of(lua_State *L, int index);

#endif
