/* A chunk: a Lua text compiled into a function.
 *
 *     lml_chunk_load(&box, source, "recipes/need.lua", err);      the chunk is on the stack
 */
#ifndef LML_CELL_CHUNK_H
#define LML_CELL_CHUNK_H

#include "cell/state.h"

/* Compile a text chunk and leave it on the stack with a fresh environment of its own. `shown` names
 * it in messages. Binary chunks are refused. LML_BAD_RECIPE, LML_LIMIT, LML_NO_MEMORY. */
lml_status lml_chunk_load(lml_box *box, lml_span source, const char *shown, lml_error *err);

#endif
