/* Bind: the words of recipes that call the floors below, and what their files share: values and
 * alloys to and from Lua.
 *
 * Bindings push, check and register; the floors below do the calculations.
 */
#ifndef LML_WORDS_BIND_H
#define LML_WORDS_BIND_H

#include "cell/state.h"
#include "cell/word.h"
#include "value/alloy.h"

extern const lml_word lml_bind_methods[];       /* of a value */
extern const lml_word lml_bind_about[];         /* of a value, level 2 */
extern const lml_word lml_bind_alloy[];         /* alloy assay */
extern const lml_word lml_bind_alloy_methods[]; /* methods of both */
extern const lml_word lml_bind_craft[];         /* craft.*: metals and chance */
extern const lml_word lml_bind_physics[];       /* craft.*: water, air, heat, plating, investment */
extern const lml_word lml_bind_charge[];        /* craft.charge */

/* Fill the metatables of the classes, once a state. */
void lml_bind_value_open(lua_State *L);
void lml_bind_alloy_open(lua_State *L);

/* Push the __index of values: their methods, and an error with the nearest name for any other. */
void lml_bind_push_methods(lua_State *L);
/* Push an alloy or assay, copied. */
void lml_bind_push_alloy(lua_State *L, const lml_alloy *alloy);
void lml_bind_push_assay(lua_State *L, const lml_assay *assay);
const lml_alloy *lml_bind_check_alloy(lua_State *L, int index);
/* Read the alloy described by the table at index: name, composition, density, liquid_density,
 * solidus, liquidus, source. Density and liquid density that are not given are calculated, and
 * marked so. LML_BAD_VALUE with the part that is wrong. */
lml_status lml_bind_alloy_from_table(lua_State *L, int index, lml_alloy *out, lml_error *err);
/* Calculate the densities of an alloy that were not given, and mark them so. A melting range that
 * was not given is estimated when a recipe reads it. LML_BAD_VALUE. */
lml_status lml_bind_alloy_complete(lml_alloy *alloy, lml_error *err);
lml_status lml_bind_assay_from_table(lua_State *L, int index, lml_assay *out, lml_error *err);
/* The composition of an alloy, an assay or a table of metals. Raises. */
lml_composition lml_bind_check_composition(lua_State *L, int index);
/* The same with its spread; what a table of metals does not name is the unnamed remainder. Raises.
 */
lml_assay lml_bind_check_assay(lua_State *L, int index);

#endif
