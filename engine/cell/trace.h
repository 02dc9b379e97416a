/* Trace: where each value of a run came from, recorded while it runs.
 *
 * Only for a run whose figures are to be explained: without a trace the box has NULL, and nothing
 * is recorded or wrapped. With one, every operator, method and function over values is called
 * through a wrapper that keeps a step: the value that came out, as a text, what went in, the line
 * of the recipe or script. What was entered, assumed or written in a recipe is a step without
 * inputs. A value is recognised by its userdata, which no recipe can change; a bare number by its
 * exact value, unless it is one of the common ones (0, 1, 2.5).
 *
 *     lml_trace_wrap(L, lml_bind_methods, "", NULL);         once a state
 *     lml_trace_say(L, -1, &said);                      the value on top was said in the job
 *     uint32_t step = lml_trace_of(L, -1);              0: nobody knows
 */
#ifndef LML_CELL_TRACE_H
#define LML_CELL_TRACE_H

#include "base/text.h"
#include "cell/state.h"
#include "cell/word.h"

/* A step has 64 bytes, so a list of the most steps has 128 MB: a recipe that loops stops there, and
 * the record is called incomplete. Each function takes in all that the recipe left bare before it:
 * past LML_TRACE_LEFT they are made one step, or a long recipe's record grows as the square of its
 * length. Both are choices of ours. */
enum { LML_TRACE_STEPS = 2000000, LML_TRACE_LEFT = 500 };
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
    const char *is;     /* the value, as a text */
    const char *how;    /* "+", "up_to", "craft.density"; NULL for what was said */
    const char *member; /* of what a function gave in a table: "weigh[2].mass"; "" */
    const char *what;   /* of what was said */
    const char *source; /* of that, or of the formula; NULL */
    const char *file;
    unsigned line;
    uint32_t first, inputs; /* in the list of inputs */
    bool aside;             /* something went in beside them: see lml_trace_also */
    bool of_values;         /* it came from values, not from texts and numbers alone */
    bool caught;            /* an error: its text may be of anything before it */
} lml_step;

/* What came from what, beside what went in: a bare number or a text may be what a recipe made of
 * all that it had made bare by then. No reason tells that; what is withheld rests on it. */
typedef struct lml_trace_also {
    uint32_t step, from;
} lml_trace_also;

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
    lml_trace_also *also;
    size_t alsos, also_room;
    uint32_t bare, bare_of; /* the step of all that the recipe at work has made bare, and how
                               many that were */
    /* What was bare before the recipe at work began, or came back so, and what it cut out of texts:
     * of that other letters, and digits, may be made. */
    uint32_t told, digits;
    uint32_t latest; /* the step that gave the latest bare number */
    uint32_t aside;  /* the step of what goes into that beside its inputs; 0 */
    bool of_bare;    /* what went into the step that is gathered: what a recipe made bare */
    bool of_values, of_plain; /* what went into the step that is gathered: values; bare numbers
                                 in a table, that nobody knows */
    lml_span (*text)(const void *self, const char *file); /* of a recipe or script */
    bool (*is_written)(const void *self, lml_span words); /* in any of them, or in the job */
    const void *text_self;
    lml_pool texts;
    bool short_of; /* memory or room: the record is incomplete */
} lml_trace;

void lml_trace_open(lml_trace *trace, const lml_alloc *alloc);
void lml_trace_close(lml_trace *trace);

/* Wrap the functions of the words in the table on top of the stack; `prefix` is put before each
 * name. `source_of`, unless it is NULL, says where the formula of one is published. No effect
 * without a trace. */
void lml_trace_wrap(lua_State *L, const lml_word *words, const char *prefix,
                    const char *(*source_of)(const char *name));
/* The same for one function, which is on top of the stack and is replaced. `name` outlives the
 * state. */
void lml_trace_wrap_one(lua_State *L, const char *name);
/* The value at the index was entered. */
void lml_trace_say(lua_State *L, int index, const lml_said *said);
/* The value at `index` is a copy of that at `from`. */
void lml_trace_same(lua_State *L, int index, int from);
/* A recipe caught the error or text at the index: its text may be made of anything before. */
void lml_trace_caught(lua_State *L, int index);
/* A recipe begins, and ends: what it made bare numbers of is its own. */
typedef struct lml_trace_entered {
    size_t left_from;
    uint32_t told, digits;
} lml_trace_entered;
/* `told`: the index of its inputs; `given`: of what it gives; 0 for nothing. */
lml_trace_entered lml_trace_enter(lua_State *L, int told);
void lml_trace_leave(lua_State *L, lml_trace_entered entered, int given);
/* What is printed is in the table at the index: what had been made bare by then is kept. */
void lml_trace_print(lua_State *L, int entry);
/* The step of that; 0: nothing. */
uint32_t lml_trace_printed(lua_State *L, int entry);
/* The first step of a text that is in the text at the index, and of which `by` is not 0; 0. */
uint32_t lml_trace_piece(lua_State *L, int index, const uint32_t *by);
/* Where `by` of a step is not 0, it is handed on to all that came from it. */
void lml_trace_spread(const lml_trace *trace, uint32_t *by);
/* Of what was bare when it was printed, what the number or text at the index may be made of:
 * letters are cut out of texts; 0. */
uint32_t lml_trace_in_print(lua_State *L, uint32_t printed, int index);
/* Whether the text at the index has no digit and is written in the recipe, a script or the job. */
bool lml_trace_is_name(lua_State *L, int index);
/* Whether the bare number or text at the index was written or said, and so does not come from what
 * the step of what is printed has. */
bool lml_trace_is_innocent(lua_State *L, uint32_t printed, int index);
/* The step of a bare number or text that a recipe gives back, whose `work` is there; a new one
 * where nobody knows it. 0 without a trace. */
uint32_t lml_trace_bare(lua_State *L, int index, const char *file, int line);
/* The step that the value, number or text at the index came from; 0 without a trace, and where none
 * is known. */
uint32_t lml_trace_of(lua_State *L, int index);

#endif
