/* Nil name: what is nothing, named for a message.
 */
#ifndef LML_WORDS_NIL_NAME_H
#define LML_WORDS_NIL_NAME_H

#include "cell/state.h"

/* Find the name of something nil in the calling line, for a message: a local of value nil, or a
 * member a.b that is not there, named in the source line that runs. False when none is found. */
bool lml_nil_name(lua_State *L, char *out, size_t size);

#endif
