/* The sheet in Lua: what a recipe writes for its readers, and its remarks.
 *
 * It writes into the part of the recipe's run (part.h), which the result writer walks when the run
 * is over, so that a figure withheld late is blank wherever it was printed early.
 */
#ifndef LML_RUN_BIND_SHEET_H
#define LML_RUN_BIND_SHEET_H

#include "cell/word.h"

extern const lml_word lml_bind_sheet[];      /* methods of the sheet */
extern const lml_word lml_bind_sheet_page[]; /* methods of a page */

enum { LML_BIND_SHEET_ENTRY = 90 }; /* the price of an entry in steps */

/* bind_sheet_remark.c: the words that sheet and page share. */
int lml_bind_sheet_note(lua_State *L);
int lml_bind_sheet_caution(lua_State *L);
int lml_bind_sheet_stop(lua_State *L);
int lml_bind_sheet_confirm(lua_State *L);

/* Push the `sheet` that writes into the part at index. */
void lml_bind_sheet_push(lua_State *L, int part);
/* Fill the metatables of the classes, once a state. */
void lml_bind_sheet_open(lua_State *L);

#endif
