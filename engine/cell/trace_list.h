/* Trace, the list: the steps of a run, what went into each, and the bare numbers among them.
 * Nothing of Lua.
 *
 *     uint32_t id = lml_trace_add(t, &(lml_step){.is = "2 g", .member = ""});
 *     lml_trace_add_input(t, id);                        of the step that is added next
 */
#ifndef LML_CELL_TRACE_LIST_H
#define LML_CELL_TRACE_LIST_H

#include "base/alloc.h"
#include "base/pool.h"
#include "base/span.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct lua_State;

/* A step has 64 bytes, so a list of the most steps has 128 MB: a recipe that loops stops there, and
 * the record is called incomplete. Each function takes in all that the recipe left bare before it:
 * past LML_TRACE_LEFT they are made one step, or a long recipe's record grows as the square of its
 * length. Both are choices of ours. */
enum { LML_TRACE_STEPS = 2000000, LML_TRACE_LEFT = 500 };
enum {
    LML_TRACE_DEPTH = 4,
    LML_TRACE_TEXT = 120
}; /* of tables looked into; bytes of a text kept */
/* The step of a bare number that was calculated in Lua. */
#define LML_TRACE_PLAIN "plain"

typedef struct lml_step {
    const char *is;     /* the value, as a text */
    const char *how;    /* "+", "up_to", "craft.density"; NULL for what was said */
    const char *member; /* of what a function gave in a table: "weigh[2].mass"; "" */
    const char *what;   /* of what was said */
    const char *source; /* of that, or of the formula; NULL */
    const char *file;
    unsigned line;
    uint32_t first, inputs; /* in the list of inputs */
    bool aside : 1;         /* something went in beside them: see lml_trace_also */
    bool of_values : 1;     /* it came from values, not from texts and numbers alone */
    bool caught : 1;        /* an error: its text may be of anything before it */
    bool own : 1;           /* an error in words of lemel's, and of the recipe as it is written */
    bool is_list : 1;       /* its inputs are those of the steps that have it: see below */
} lml_step;
_Static_assert(sizeof(char *) != 8 || sizeof(lml_step) == 64, "a list of steps grows");

/* What came from what, beside what went in: a bare number or a text may be what a recipe made of
 * all that it had made bare by then. No reason tells that; what is withheld rests on it. */
typedef struct lml_trace_also {
    uint32_t step, from;
} lml_trace_also;

/* What an input is called in the table that it came in: "segments[2].minutes". Few have a name. */
typedef struct lml_trace_called {
    size_t input; /* its place among all */
    const char *called;
} lml_trace_called;

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
    /* The list of these, up to which of them, and where it is among the inputs. */
    uint32_t listed;
    size_t listed_to, listed_at;
    lml_trace_also *also;
    size_t alsos, also_room;
    lml_trace_called *called; /* in the order of the inputs */
    size_t calleds, called_room;
    uint32_t bare; /* the step of all that the recipe at work has made bare; 0: to be made */
    /* What was bare before the recipe at work began, or came back so, and what it cut out of texts:
     * of that other letters, and digits, may be made. */
    uint32_t told, digits;
    uint32_t latest; /* the step that gave the latest bare number */
    uint32_t *term;  /* of the functions at work: see lml_trace_term */
    size_t terms, term_room;
    uint32_t aside; /* the step of what goes into that beside its inputs; 0 */
    bool of_bare;   /* what went into the step that is gathered: what a recipe made bare */
    bool of_values, of_plain; /* what went into the step that is gathered: values; bare numbers
                                 in a table, that nobody knows */
    /* An error of lemel's was made: see trace_own.h. */
    void (*raises)(struct lua_State *L, const char *format, va_list args);
    lml_span (*text)(const void *self, const char *file); /* of a recipe or script */
    bool (*is_written)(const void *self, lml_span words); /* in any of them, or in the job */
    /* Where that is first, and whether only there; false where it is nowhere. */
    bool (*where)(const void *self, lml_span words, const char **file, unsigned *line, bool *once);
    const void *text_self;
    struct lml_trace_file *file; /* the files whose lines were asked for: see trace_file.h */
    lml_pool texts;
    bool short_of; /* memory or room: the record is incomplete */
} lml_trace;

void lml_trace_open(lml_trace *trace, const lml_alloc *alloc);
void lml_trace_close(lml_trace *trace);

/* The inputs of a step, one after the other, with those of the lists among them, the latest first.
 * A list that grows has the shorter one as its first input. */
typedef struct lml_trace_inputs {
    const lml_trace *trace;
    const lml_step *of, *list;
    uint32_t next, left; /* of the step; of the list */
    size_t at;           /* of the latest, among all inputs */
} lml_trace_inputs;

void lml_trace_inputs_open(lml_trace_inputs *in, const lml_trace *t, const lml_step *step);
/* 0: there are no more. */
uint32_t lml_trace_inputs_next(lml_trace_inputs *in);

/* What there is no room or memory for is left out, and `short_of` is set. */

/* Room for one more of `size` bytes in the list. */
bool lml_trace_make_room(lml_trace *t, void **list, size_t count, size_t *room, size_t size);
/* A copy of the text that lives as long as the trace; "" without memory. */
const char *lml_trace_keep(lml_trace *t, const char *text, size_t length);
/* Its number; 0 where it is left out. */
uint32_t lml_trace_add(lml_trace *t, const lml_step *step);
void lml_trace_add_input(lml_trace *t, uint32_t step);
/* The input that was added last is called so. */
void lml_trace_call_input(lml_trace *t, const char *called);
/* What the input that the walk came to last is called; "". */
const char *lml_trace_input_called(const lml_trace_inputs *in);
void lml_trace_add_also(lml_trace *t, uint32_t step, uint32_t from);
/* Whether the step gives the kind of a value, and nothing of its amount. */
bool lml_trace_is_of_kind(const lml_step *step);
/* A bare number is known by its exact value, unless it is a common one. */
void lml_trace_note_number(lml_trace *t, double x, uint32_t step);
/* 0: none is known. */
uint32_t lml_trace_step_of_number(const lml_trace *t, double x);
/* Where `by` of a step is not 0, it is handed on to all that came from it. */
void lml_trace_spread(const lml_trace *trace, uint32_t *by);

#endif
