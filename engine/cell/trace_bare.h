/* Trace, bare numbers: what Lua itself calculates with and joins is out of sight. What comes back
 * from there may be made of all that a recipe has made bare by then.
 */
#ifndef LML_CELL_TRACE_BARE_H
#define LML_CELL_TRACE_BARE_H

#include "cell/trace.h"

/* Whether the text has a digit: what was joined with .. has those of a bare number. */
bool lml_trace_bare_has_digit(lml_span text);
/* The step of everything that the current recipe has made a bare number so far, or was given as
 * one; 0 for nothing. To be called before the inputs of a step are gathered: it may add some. */
uint32_t lml_trace_bare_step(lml_trace *t);
/* The step made a bare number of what went in. */
void lml_trace_bare_leave(lml_trace *t, uint32_t step);
/* A new step that stands for both. No list has it. */
uint32_t lml_trace_bare_add_both(lml_trace *t, uint32_t one, uint32_t other);
/* A step is one more of those that the other stands for. No list has it. */
void lml_trace_bare_hide(lml_trace *t, uint32_t *all, uint32_t step);
/* Whether the bare number was written or entered, and so does not come from a value. */
bool lml_trace_bare_is_innocent(lua_State *L, lml_trace *t, const lml_step *at, double x);
/* Whether the text at the index is written in the recipe, a script or the job. */
bool lml_trace_bare_is_written(lua_State *L, const lml_trace *t, int index);
/* A text without digits that is written somewhere: at most it was chosen. */
bool lml_trace_bare_is_name(lua_State *L, const lml_trace *t, int index);
/* The step of what the text may be made of that nobody knows, if it is not written anywhere:
 * digits, of all that is bare; other letters, of those that were cut out of a text. 0: nothing. */
uint32_t lml_trace_bare_in_text(lua_State *L, lml_trace *t, int index);

/* The steps that are added for a number on its own, and in a table; for all that the recipe had
 * made bare numbers of; and for what nobody knows, which may be made of the step `of`. */
uint32_t lml_trace_bare_add(lua_State *L, lml_trace *t, int index);
uint32_t lml_trace_bare_add_within(lua_State *L, lml_trace *t, int index);
uint32_t lml_trace_bare_add_plain(lml_trace *t, lml_step *step);
uint32_t lml_trace_bare_add_leaf(lml_trace *t, const lml_step *step, uint32_t of);

#endif
