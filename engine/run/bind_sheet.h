/* The sheet in Lua: what a recipe writes for its readers, and its remarks.
 *
 * It writes into the part of the recipe's run (part.h), which the result writer walks after the
 * run, so that a figure that is withheld late is blank wherever it was printed earlier.
 *
 * bind_sheet.c has the sheet, its pages and their plain words, bind_sheet_line.c what a person does
 * (weigh, set, measure, tick), bind_sheet_picture.c and bind_sheet_flow.c the pictures,
 * bind_sheet_remark.c the remarks, bind_sheet_entry.c what they share.
 */
#ifndef LML_RUN_BIND_SHEET_H
#define LML_RUN_BIND_SHEET_H

#include "cell/word.h"
#include "value/value.h"

#include <stdbool.h>
#include <stddef.h>

extern const lml_word lml_bind_sheet[];      /* methods of the sheet */
extern const lml_word lml_bind_sheet_page[]; /* methods of a page */

/* The prices of an entry, and of each of its options, in steps. */
enum { LML_BIND_SHEET_ENTRY = 90, LML_BIND_SHEET_OPTION = 15 };

/* Push the `sheet` that writes into the part at index. */
void lml_bind_sheet_push(lua_State *L, int part);
/* Fill the metatables of the classes, once a state. */
void lml_bind_sheet_open(lua_State *L);

/* ---- bind_sheet_remark.c: the words that sheet and page share ---- */

int lml_bind_sheet_note(lua_State *L);
int lml_bind_sheet_caution(lua_State *L);
int lml_bind_sheet_stop(lua_State *L);
int lml_bind_sheet_confirm(lua_State *L);

/* ---- bind_sheet_line.c, bind_sheet_picture.c, bind_sheet_flow.c: words of a page ---- */

int lml_bind_sheet_line(lua_State *L);
int lml_bind_sheet_total(lua_State *L);
int lml_bind_sheet_weigh(lua_State *L);
int lml_bind_sheet_set(lua_State *L);
int lml_bind_sheet_measure(lua_State *L);
int lml_bind_sheet_tick(lua_State *L);
int lml_bind_sheet_box(lua_State *L);
int lml_bind_sheet_curve(lua_State *L);
int lml_bind_sheet_flow(lua_State *L);
int lml_bind_sheet_section(lua_State *L);

/* ---- bind_sheet_entry.c: what the words of a page are made of; all may raise ---- */

/* Push an entry for the page at index 1. */
void lml_bind_sheet_begin(lua_State *L, const char *is);
/* Put the entry on top of the stack on that page; returns 0, for the word to return. */
int lml_bind_sheet_end(lua_State *L);
/* Push what is printed of the figure or text at index. `where` is its name in messages. */
void lml_bind_sheet_push_figure(lua_State *L, int index, const char *where);
/* The give named at index must be one of the recipe's. */
void lml_bind_sheet_check_give(lua_State *L, int name);
/* Refuse options, in the table at index, that are not in `known`, a list that ends with NULL.
 * `whose` is "a line". Numeric keys are skipped. */
void lml_bind_sheet_check_options(lua_State *L, int options, const char *whose,
                                  const char *const *known);
/* Push the option as a value, nil where it is left out; the value, which may be kept in *room, or
 * NULL. A text is read. */
const lml_value *lml_bind_sheet_push_option(lua_State *L, int options, const char *name,
                                            const char *whose, lml_value *room);
/* Push a text as it is printed; false, and nil, if it is left out. */
bool lml_bind_sheet_push_words(lua_State *L, int options, const char *name, const char *whose);
/* Push the entry of a picture described by the table at 2, with its title and the gives it depends
 * on; returns its index. */
int lml_bind_sheet_begin_picture(lua_State *L, const char *is, const char *whose,
                                 const char *const *known);
/* A value as text for a message. Valid as long as the buffer. */
const char *lml_bind_sheet_shown(const lml_value *v, char *out, size_t size);

#endif
