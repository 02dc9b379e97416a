/* Declared: the asks, allowances and gives of a recipe, read into shapes.
 *
 *     lml_declared_read_fields(L, r, -1, "asks", &recipe->asks, 0);
 */
#ifndef LML_SHELF_DECLARED_H
#define LML_SHELF_DECLARED_H

#include "shelf/reader.h"

/* The named shapes of the table at index, and of the groups in it: { "The wax", wax = ... }. */
void lml_declared_read_fields(lua_State *L, lml_reader *r, int index, const char *where,
                              lml_shape *out, int depth);

#endif
