/* Raising: errors of our own, as a userdata that holds an lml_error. None of these returns.
 *
 *     return lml_raise_text(L, LML_BAD_VALUE, "item %d is not a table", i);
 */
#ifndef LML_CELL_RAISE_H
#define LML_CELL_RAISE_H

#include "base/status.h"

#include <lua.h>

/* Push an error of our own, to be raised with lua_error: with the calling Lua line before the
 * message, or without. */
void lml_raise_push(lua_State *L, const lml_error *error);
void lml_raise_push_as_is(lua_State *L, const lml_error *error);
/* Raise an error of our own: the calling Lua line is put before the message. */
int lml_raise(lua_State *L, const lml_error *error);
/* The same without the line: for figures of a job, which have their own place. */
int lml_raise_as_is(lua_State *L, const lml_error *error);
/* The hint is a literal: it is told even where the rest may show a withheld figure. */
int lml_raise_text(lua_State *L, lml_status status, const char *format, ...) LML_PRINTF(3, 4);
int lml_raise_hint(lua_State *L, lml_status status, const char *hint, const char *format, ...)
    LML_PRINTF(4, 5);
/* Raise `error` with the names of the caller's variables that hold the operands at stack indices a
 * and b ("'ring' is a mass"), where they have names. */
int lml_raise_operands(lua_State *L, lml_error *error, int a, int b);
/* The charge for looking up one local variable of a function: Lua searches all its variables. */
uint64_t lml_raise_look_cost(lua_State *L, const char *source);
/* A withheld figure is read: unwind to the nearest use. Never returns. */
int lml_raise_stop(lua_State *L);

#endif
