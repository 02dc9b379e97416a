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

#include "cell/state.h"
#include "cell/trace_list.h"
#include "cell/word.h"

/* What is written where, with its source if it has one. */
typedef struct lml_said {
    const char *what;   /* "given.wax", "house.button", "assumed" ... */
    const char *file;   /* NULL: the line is in the current recipe */
    const char *source; /* where a default is published; NULL */
    unsigned line;
} lml_said;

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
/* What is at the index goes into the function at work, in place of the table that it came from. */
void lml_trace_term(lua_State *L, int index);
/* The error on top of the stack was made of the first so many things on it. */
void lml_trace_raised(lua_State *L, int count);
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
/* A new step for one in a list or a record; 0 where it is known, written or said. */
uint32_t lml_trace_bare_within(lua_State *L, int index, const char *file, int line);
/* A new step for what may have come from either of two. There must be a trace. */
uint32_t lml_trace_both(lua_State *L, uint32_t one, uint32_t other);
/* The step that the value, number or text at the index came from; 0 without a trace, and where none
 * is known. */
uint32_t lml_trace_of(lua_State *L, int index);

#endif
