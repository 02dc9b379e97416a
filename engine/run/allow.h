/* The allow list: every name a recipe can reach, and nothing else.
 *
 * Each library is an array of words in its own file; this module puts them together. From the same
 * rows come the page docs/api.md and the annotations for editors (report/api.h). A test compares
 * what is really reachable from an environment with the list in docs/security.md, and runs the
 * example of every row.
 */
#ifndef LML_RUN_ALLOW_H
#define LML_RUN_ALLOW_H

#include "cell/word.h"

extern const lml_word lml_lib_base[];        /* assert error ipairs pairs ... */
extern const lml_word lml_lib_text[];        /* text.*, also the methods of a text */
extern const lml_word lml_lib_table[];       /* table.* */
extern const lml_word lml_lib_value[];       /* Q sum max min ... */
extern const lml_word lml_lib_methods[];     /* of a value */
extern const lml_word lml_lib_alloy[];       /* alloy assay */
extern const lml_word lml_lib_composition[]; /* methods of both */
extern const lml_word lml_lib_craft[];       /* craft.*: metals and chance */
extern const lml_word lml_lib_physics[];     /* craft.*: water, air, heat, plating, investment */
extern const lml_word lml_lib_charge[];      /* craft.charge */
extern const lml_word lml_lib_recipe[];      /* recipe require withheld */
extern const lml_word lml_lib_sheet[];       /* methods of the sheet */
extern const lml_word lml_lib_page[];        /* methods of a page */

/* Fill the metatables of the userdata classes; each binding has one of these. */
void lml_open_value(lua_State *L);
void lml_open_alloy(lua_State *L);
void lml_open_view(lua_State *L);
void lml_open_sheet(lua_State *L);
void lml_open_recipe(lua_State *L);

/* Once a state, by lml_box_open: metatables, libraries, the shared table of names. */
void lml_allow_prepare(lua_State *L);

#endif
