/* Classes: the kinds of userdata in a state.
 *
 * Every userdata that a script can hold begins with the seal of its class, which no script can
 * write: checking it costs half as much as comparing the metatable. The metatable is in the
 * registry.
 *
 *     lml_value *v = lml_class_new(L, LML_CLASS_VALUE, sizeof *v, 0);
 *     const lml_value *same = lml_class_test(L, -1, LML_CLASS_VALUE);
 */
#ifndef LML_CELL_CLASS_H
#define LML_CELL_CLASS_H

#include <lua.h>
#include <stdint.h>
#include <stddef.h>

typedef enum lml_class {
    LML_CLASS_VALUE,
    LML_CLASS_ALLOY,
    LML_CLASS_ASSAY,
    LML_CLASS_RECORD, /* read-only names: job, house, the results of a used recipe */
    LML_CLASS_LIST,   /* read-only list */
    LML_CLASS_ERROR,
    LML_CLASS_SHEET,
    LML_CLASS_PAGE,
    LML_CLASS_USES,
    LML_CLASSES
} lml_class;

/* As wide as the strictest alignment, so that no block is padded away from it. */
typedef struct lml_seal {
    _Alignas(double) _Alignas(int64_t) const char *class;
} lml_seal;
extern const char lml_class_key[LML_CLASSES];

/* Once per state: an empty metatable for each. */
void lml_class_prepare(lua_State *L);
void lml_class_push(lua_State *L, lml_class class);
/* The numbers of the registry, after those that Lua uses: a number is found sooner than a pointer.
 */
enum { LML_CLASS_SLOT = LUA_RIDX_LAST + 1, LML_READ_SLOT = LML_CLASS_SLOT + LML_CLASSES };

/* Push a block of `size` bytes with `slots` user values. */
void *lml_class_new(lua_State *L, lml_class class, size_t size, int slots);
/* The block of the userdata at index; NULL for any other value. */
static inline void *lml_class_test(lua_State *L, int index, lml_class class)
{
    if (lua_type(L, index) != LUA_TUSERDATA) /* a light userdata has no seal */
        return NULL;
    lml_seal *seal = lua_touserdata(L, index);
    return seal->class == &lml_class_key[class] ? seal + 1 : NULL;
}

/* The class of the userdata at index; LML_CLASSES for any other value. */
static inline lml_class lml_class_of(lua_State *L, int index)
{
    int class = LML_CLASSES;
    if (lua_type(L, index) == LUA_TUSERDATA) {
        const lml_seal *seal = lua_touserdata(L, index);
        for (class = 0; class < LML_CLASSES && seal->class != &lml_class_key[class]; class ++)
            ;
    }
    return (lml_class) class;
}

#endif
