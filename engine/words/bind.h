/* What the bindings share: values and alloys to and from Lua.
 *
 * Bindings push, check and register; the sums are those of the floors below.
 */
#ifndef LML_WORDS_BIND_H
#define LML_WORDS_BIND_H

#include "cell/state.h"
#include "value/wanted.h"

/* A bare number for LML_NUMBER, else a userdata. */
void lml_push_value(lua_State *L, const lml_value *v);
/* The value at index: a userdata, a number (kept in *room) or a text in the value grammar. Raises on
 * anything else, and on numbers that are not finite. */
const lml_value *lml_check_value(lua_State *L, int index, lml_value *room);
/* Push the value that the text at index reads as, from the run's cache. */
void lml_push_read(lua_State *L, int index);

/* Push the __index of values: their methods, and an error with the nearest name for any other. */
void lml_push_methods(lua_State *L);
/* Whether the Lua number at index is neither infinite nor not a number. */
bool lml_is_finite(lua_State *L, int index);

/* Push an alloy or assay, copied. */
void lml_push_alloy(lua_State *L, const lml_alloy *alloy);
void lml_push_assay(lua_State *L, const lml_assay *assay);
const lml_alloy *lml_check_alloy(lua_State *L, int index);
/* Read the alloy described by the table at index: name, composition, density, liquid_density, solidus,
 * liquidus, source. Density and liquid density that are not given are calculated, and marked so.
 * LML_BAD_VALUE with the part that is wrong. */
lml_status lml_alloy_from_table(lua_State *L, int index, lml_alloy *out, lml_error *err);
/* Calculate the densities of an alloy that were not given, and mark them so. A melting range that was not
 * given is estimated when a recipe reads it. LML_BAD_VALUE. */
lml_status lml_alloy_complete(lml_alloy *alloy, lml_error *err);
lml_status lml_assay_from_table(lua_State *L, int index, lml_assay *out, lml_error *err);
/* The composition of an alloy, an assay or a table of metals. Raises. */
lml_composition lml_check_composition(lua_State *L, int index);
/* The same with its spread; what a table of metals does not name is the unnamed remainder. Raises. */
lml_assay lml_check_assay(lua_State *L, int index);

/* Check helpers for bindings: the amount in SI of a value of the given dimension; raises naming
 * `argument`. A text is read. */
double lml_check_amount(lua_State *L, int index, lml_wanted wanted, const char *argument);
lml_metal lml_check_metal(lua_State *L, int index);

/* Find the name of something nil in the calling line, for a message: a local of value nil, or a member
 * a.b that is not there, named in the source line that runs. False when none is found. */
bool lml_nil_name(lua_State *L, char *out, size_t size);

#endif
