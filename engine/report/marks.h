/* Marks: which figures of a finished run came from one that a stop withholds.
 *
 * A run that withholds anything is run with a trace (cell/trace.h). A figure that is withheld is
 * marked there, and so is all that came from it: sums, roundings, other units, sentences, bare
 * numbers. What the job or the house says is no secret, and hands on no mark, even where a stop
 * withholds it with the rest of a list.
 *
 *     lml_marks_look(L, part);                 once, when the run is over
 *     lml_marks_of(L, index)                   is it of a withheld figure?
 */
#ifndef LML_REPORT_MARKS_H
#define LML_REPORT_MARKS_H

#include "run/run.h"

/* Mark what the part and those within it withhold, and all that came of that. A give of which a
 * figure is marked is withheld too. Does nothing without a trace. Raises. */
void lml_marks_look(lua_State *L, int part);
bool lml_marks_are_there(lua_State *L);
/* Whether anything is marked. */
bool lml_marks_are_any(lua_State *L);
/* What is asked about next is in this entry of a sheet; 0: in none. */
void lml_marks_enter(lua_State *L, int entry);
/* Push the code of the stop that withholds what the figure at the index came from, and true. */
bool lml_marks_push_code(lua_State *L, int index);
/* Whether the figure at the index is known to come from none that is withheld. */
bool lml_marks_is_open(lua_State *L, int index);
/* Whether the figure at the index has nothing to do with any that is withheld, and equals one by
 * chance. */
bool lml_marks_is_apart(lua_State *L, int index);
/* The same of all figures that stand in the text at the index. */
bool lml_marks_is_sentence_apart(lua_State *L, int index);
/* Whether the words stand in the text at the index for a value that has nothing to do with any that
 * is withheld. */
bool lml_marks_are_words_apart(lua_State *L, int index, lml_span words);

/* Push the text at the index, which came from a withheld figure, with an ellipsis for each such
 * figure in it, or an ellipsis for all of it where it is not known which words those are; false,
 * and nothing, for another text. */
bool lml_marks_push_masked(lua_State *L, int index);

/* The step of the figure on top of the stack, which the part gives by that name; 0: none. */
uint32_t lml_marks_root(lua_State *L, int part, const char *called);
/* Call `see` for each figure that the part gives and withholds, or does not: it lies on top of the
 * stack. `called` is "weigh[0].mass". */
typedef void (*lml_marks_see)(lua_State *L, void *self, int part, const char *called);
void lml_marks_each(lua_State *L, int part, bool withheld, lml_marks_see see, void *self);
/* Whether the step is or came from a withheld figure: it is shown to nobody. */
bool lml_marks_has(lua_State *L, uint32_t step);
/* Whether the step only shows, in words or another unit, what was said or is written. */
bool lml_marks_only_shows(lua_State *L, uint32_t step);

#endif
