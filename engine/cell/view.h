/* Read-only views: what a recipe sees of a job, a house and the results of other recipes.
 *
 * A record is read by name; a name that is not in it is an error with the nearest name, never nil.
 * A member that was declared but not given reads as nil; a withheld one stops the reader. A list is
 * read by number, with # and ipairs. Both are walked by pairs in sorted order. Neither can be
 * written.
 */
#ifndef LML_CELL_VIEW_H
#define LML_CELL_VIEW_H

#include "base/text.h"
#include "cell/class.h"

#include <stdbool.h>

/* Replace the table on top of the stack by a view. `what` is how messages call it ("job"). */
void lml_view_push(lua_State *L, lml_class class, const char *what);
/* Marks to set as members of a record's table before it becomes a view. */
void lml_view_push_absent(lua_State *L);
void lml_view_push_withheld(lua_State *L);
bool lml_view_is_withheld(lua_State *L, int index);

/* Push the table behind a view or a read-only table, or a plain table itself; raises on anything
 * else
 * ("pairs takes a table or a list"). What is pushed may be shared: it is only read. */
void lml_view_push_content(lua_State *L, int index, const char *who);
/* True and the table pushed, or false and nothing. */
bool lml_view_test_content(lua_State *L, int index);
/* Push the member of a content table: nil, and false, when it is absent. Reading a withheld one
 * stops the reader. */
bool lml_view_get_member(lua_State *L, int content, const char *name);

/* Fill the metatable of the class, once a state. */
void lml_view_open(lua_State *L);

/* lml_nearest_offer, paid for. */
void lml_view_offer(lua_State *L, lml_nearest *nearest, lml_span name);

/* Push the text at index fit to be printed: at most `most` bytes of valid UTF-8 without control
 * characters but line feeds, or any that make a text pretend to be another. Raises when it is no
 * text or too long. */
void lml_view_push_clean(lua_State *L, int index, const char *what, size_t most);

#endif
