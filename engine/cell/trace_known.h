/* Trace, what is known: the step of a thing in Lua, kept in tables of the registry.
 *
 *     lml_trace_known_note(L, -1, step);                 the value, number or text on top
 */
#ifndef LML_CELL_TRACE_KNOWN_H
#define LML_CELL_TRACE_KNOWN_H

#include "cell/trace.h"

/* The steps by userdata; by text; of those texts that were made of values; by bare number, of those
 * that were said; by entry of a sheet, of what was bare when it was printed; and by text, whether
 * it is written anywhere. */
typedef enum lml_trace_known {
    LML_TRACE_KNOWN_STEPS,
    LML_TRACE_KNOWN_TEXTS,
    LML_TRACE_KNOWN_MADE,
    LML_TRACE_KNOWN_SAID,
    LML_TRACE_KNOWN_PRINTED,
    LML_TRACE_KNOWN_WRITTEN,
    LML_TRACE_KNOWN_TABLES
} lml_trace_known;

/* The trace of the state; NULL. */
lml_trace *lml_trace_known_in(lua_State *L);
/* Push the table: of texts, or by blocks, of which no one asks for those that are gone. */
void lml_trace_known_push(lua_State *L, lml_trace_known table);
/* What the table on top, which is taken off, has for the thing at the index; 0 for nothing. */
uint32_t lml_trace_known_take(lua_State *L, int index);
void lml_trace_known_set(lua_State *L, lml_trace_known table, int index, uint32_t step);
/* A value, an alloy or an assay. */
bool lml_trace_known_kind(lua_State *L, int index);
/* The value, number or text at the index has that step from now on. */
void lml_trace_known_note(lua_State *L, int index, uint32_t step);
/* What is at the index, as a text. */
const char *lml_trace_known_text(lua_State *L, lml_trace *t, int index);
/* Set the line of the recipe or script that called the function at work. */
void lml_trace_known_line(lua_State *L, lml_trace *t, lml_step *step);

#endif
