/* The allow list: every name that a recipe can reach.
 *
 * Each library is an array of words in its own file; this module puts them together. From the same
 * rows come the page docs/api.md and the annotations for editors (report/api.h). A test compares
 * what an environment really reaches with the list in docs/security.md, and runs the example of
 * every row.
 */
#ifndef LML_RUN_ALLOW_H
#define LML_RUN_ALLOW_H

#include "cell/word.h"

/* Once a state, by lml_box_open: metatables, libraries, the shared table of names. */
void lml_allow_prepare(lua_State *L);

#endif
