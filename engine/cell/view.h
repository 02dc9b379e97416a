/* Read-only views: what a recipe sees of a job, a house and the results of other recipes.
 *
 * A record is read by name; an unknown name is an error with the nearest name, never nil. A member
 * that was declared but not given reads as nil; a withheld one stops the reader. A list is read by
 * number, with # and ipairs. Both are walked by pairs in sorted order. Neither can be written.
 */
#ifndef LML_CELL_VIEW_H
#define LML_CELL_VIEW_H

#include "base/text.h"
#include "cell/class.h"

#include <stdbool.h>

struct lml_shape;

/* Replace the table on top of the stack by a view. `what` is its name in messages ("job"). */
void lml_view_push(lua_State *L, lml_class class, const char *what);
/* The same for what was taken in as the shape says, which must last as long as the state. */
void lml_view_push_taken(lua_State *L, lml_class class, const char *what,
                         const struct lml_shape *shape);
/* How the view at the index was taken in; NULL where that is not known, or it is no view. */
const struct lml_shape *lml_view_taken(lua_State *L, int index);
/* The name of the view at the index, NUL-ended. */
lml_span lml_view_name(lua_State *L, int index);
/* Marks to set as members of a record's table before it becomes a view. */
void lml_view_push_absent(lua_State *L);
void lml_view_push_withheld(lua_State *L);
/* What has to be there and is not: that is reported only when it is read. */
void lml_view_push_untold(lua_State *L);
bool lml_view_is_withheld(lua_State *L, int index);

/* Push the table behind a view or a read-only table, or a plain table itself; raises on anything
 * else ("pairs takes a table or a list"). The table may be shared: do not write to it. */
void lml_view_push_content(lua_State *L, int index, const char *who);
/* True with the table pushed, or false with nothing pushed. */
bool lml_view_test_content(lua_State *L, int index);
/* Push the member of a content table: nil, and false, if it is absent. Reading a withheld one stops
 * the reader. */
bool lml_view_get_member(lua_State *L, int content, const char *name);
/* The same for the name on top of the stack, in its place. */
bool lml_view_get_named(lua_State *L, int content);

/* Fill the metatable of the class, once a state. */
void lml_view_open(lua_State *L);

/* lml_nearest_offer, charged. */
void lml_view_offer(lua_State *L, lml_nearest *nearest, lml_span name);

/* Push the text at index as printable text: at most `most` bytes of valid UTF-8, without control
 * characters other than line feeds or characters that disguise a text. Raises if it is not a text
 * or too long. */
void lml_view_push_clean(lua_State *L, int index, const char *what, size_t most);
/* Whether all of the text is ASCII and such. */
bool lml_view_is_plain(lml_span text);

#endif
