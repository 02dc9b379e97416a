/* Trace, own words: errors that have no words but lemel's and those that are in the recipe. They
 * may be told though a figure is withheld: a recipe has such words from choosing, not from a
 * figure.
 *
 *     trace->raises = lml_trace_own_raised;
 */
#ifndef LML_CELL_TRACE_OWN_H
#define LML_CELL_TRACE_OWN_H

#include "cell/trace.h"

#include <stdarg.h>

/* The error on top of the stack has such words. No effect without a trace. */
void lml_trace_own_note(lua_State *L);
/* The error on top of the stack, whose message is of that format, which is lemel's: note it, if
 * each text in it has no digit and is a text or a name that is in the recipe at work, or what
 * lemel calls a thing, and there is no number in it. */
void lml_trace_own_raised(lua_State *L, const char *format, va_list args);
/* Whether the step is of such an error. */
bool lml_trace_own_is(lua_State *L, uint32_t step);

#endif
