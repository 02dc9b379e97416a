/* Values in Lua: one userdata class for all kinds, so that every operator is one C function. */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/word.h"
#include "words/bind.h"
#include "cell/view.h"
#include "cell/what.h"

#include "value/arithmetic.h"
#include "read/read.h"
#include "words/nil_name.h"
#include "value/power.h"
#include "value/compare.h"
#include "value/step.h"

#include <math.h>
#include <string.h>

enum { RESULT = 3, COMPARED = 1, POWER = 12 };

/* ---- operators ---------------------------------------------------------------------------------
 */

static int raise_bad_operand(lua_State *L, int index)
{
    if (lua_isnil(L, index)) {
        char name[80];
        lml_error e;
        if (lml_nil_name(L, name, sizeof name))
            lml_fail(&e, LML_BAD_RECIPE, "'%s' is nothing (nil), but a value is needed", name);
        else
            lml_fail(&e, LML_BAD_RECIPE, "nothing (nil) was given where a value is needed");
        lml_error_hint(&e, "check an optional ask first: if x then ...");
        return lml_raise(L, &e);
    }
    if (lua_type(L, index) == LUA_TSTRING)
        return lml_raise_hint(L, LML_BAD_RECIPE, "put Q before a value in quotes: Q \"12.5 g\"",
                              "%s was given where a value is needed", lml_what_is(L, index));
    return lml_raise_text(L, LML_BAD_RECIPE, "a value is needed, but %s was given",
                          lml_what_is(L, index));
}

static const lml_value *number_operand(lua_State *L, int index, lml_value *room)
{
    double x = lua_type(L, index) == LUA_TNUMBER ? lua_tonumber(L, index) : NAN;
    if (!isfinite(x))
        raise_bad_operand(L, index);
    *room = lml_value_number(x);
    return room;
}

static inline const lml_value *operand(lua_State *L, int index, lml_value *room)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    return v ? v : number_operand(L, index, room);
}

typedef lml_status binary(const lml_value *, const lml_value *, lml_value *, lml_error *);

typedef struct sealed_value {
    lml_seal seal;
    lml_value value;
} sealed_value;
_Static_assert(offsetof(sealed_value, value) == sizeof(lml_seal), "as lml_class_new puts it");

/* As lml_figure_push; but the metatable is upvalue 1 of every operator, and need not be looked up.
 */
static int push_result(lua_State *L, const lml_value *v)
{
    if (v->kind == LML_NUMBER) {
        lua_pushnumber(L, v->amount);
        return 1;
    }
    sealed_value *block = lua_newuserdatauv(L, sizeof *block, 0);
    block->seal.class = &lml_class_key[LML_CLASS_VALUE];
    block->value = *v;
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_setmetatable(L, -2);
    return 1;
}

/* The error block is large: it lives only in this cold path, which works the sum a second time. */
static int fail_binary(lua_State *L, binary *f, const lml_value *a, const lml_value *b)
{
    lml_error e;
    lml_value out;
    f(a, b, &out, &e);
    return lml_raise_operands(L, &e, 1, 2);
}

static int apply(lua_State *L, binary *f)
{
    lml_box_charge(L, f == lml_power ? POWER : RESULT);
    lml_value room_a, room_b, out;
    const lml_value *a = operand(L, 1, &room_a), *b = operand(L, 2, &room_b);
    if (f(a, b, &out, NULL) != LML_OK)
        return fail_binary(L, f, a, b);
    return push_result(L, &out);
}

#define OPERATOR(name, f)                                                                          \
    static int name(lua_State *L)                                                                  \
    {                                                                                              \
        return apply(L, f);                                                                        \
    }
OPERATOR(value_add, lml_arithmetic_add)
OPERATOR(value_sub, lml_arithmetic_sub)
OPERATOR(value_mul, lml_arithmetic_mul)
OPERATOR(value_div, lml_arithmetic_div)
OPERATOR(value_idiv, lml_step_divide)
OPERATOR(value_mod, lml_step_remainder)
OPERATOR(value_pow, lml_power)

static int value_unm(lua_State *L)
{
    lml_value room, out;
    lml_error e;
    lml_box_charge(L, RESULT);
    if (lml_arithmetic_negate(operand(L, 1, &room), &out, &e))
        return lml_raise(L, &e);
    return push_result(L, &out);
}

static int compare(lua_State *L)
{
    lml_value room_a, room_b;
    lml_box_charge(L, COMPARED);
    const lml_value *a = operand(L, 1, &room_a), *b = operand(L, 2, &room_b);
    int order = 0;
    if (lml_compare(a, b, &order, NULL) != LML_OK) {
        lml_error e;
        lml_compare(a, b, &order, &e);
        lml_raise_operands(L, &e, 1, 2);
    }
    return order;
}

static int value_lt(lua_State *L)
{
    lua_pushboolean(L, compare(L) < 0);
    return 1;
}

static int value_le(lua_State *L)
{
    lua_pushboolean(L, compare(L) <= 0);
    return 1;
}

static int value_eq(lua_State *L)
{
    const lml_value *a = lml_class_test(L, 1, LML_CLASS_VALUE),
                    *b = lml_class_test(L, 2, LML_CLASS_VALUE);
    bool equal = false;
    lml_error e;
    lml_box_charge(L, COMPARED);
    if (a && b && lml_compare_equal(a, b, &equal, &e))
        return lml_raise_operands(L, &e, 1, 2);
    lua_pushboolean(L, equal);
    return 1;
}

static int value_concat(lua_State *L)
{
    int at = lml_class_test(L, 1, LML_CLASS_VALUE) ? 1 : 2;
    return lml_raise_hint(L, LML_BAD_RECIPE,
                          "write text.fill(\"{m} of metal\", { m = value }) or tostring(value)",
                          "%s cannot be joined to a text with ..", lml_what_is(L, at));
}

static int refuse_write(lua_State *L)
{
    return lml_raise_text(L, LML_BAD_RECIPE, "%s cannot be changed", lml_what_is(L, 1));
}

void lml_bind_value_open(lua_State *L)
{
    static const luaL_Reg operators[] = {
        {"__add", value_add},   {"__sub", value_sub}, {"__mul", value_mul}, {"__div", value_div},
        {"__idiv", value_idiv}, {"__mod", value_mod}, {"__pow", value_pow}, {"__unm", value_unm},
        {"__lt", value_lt},     {"__le", value_le},   {"__eq", value_eq},   {NULL, NULL}};
    static const luaL_Reg others[] = {
        {"__concat", value_concat}, {"__newindex", refuse_write}, {NULL, NULL}};
    lml_class_push(L, LML_CLASS_VALUE);
    lua_pushvalue(L, -1);
    luaL_setfuncs(L, operators, 1);
    lua_pushvalue(L, -1);
    luaL_setfuncs(L, others, 1);
    for (size_t i = 0; operators[i].name && lml_box_of(L)->trace; i++) {
        static const char *const signs[] = {"+", "-", "*", "/", "//", "%", "^", "negative"};
        if (i == sizeof signs / sizeof signs[0])
            break; /* a comparison gives no value */
        lua_getfield(L, -1, operators[i].name);
        lml_trace_wrap_one(L, signs[i]);
        lua_setfield(L, -2, operators[i].name);
    }
    lml_bind_push_methods(L);
    lua_setfield(L, -2, "__index");
    lua_pop(L, 1);
    lml_figure_prepare(L);
}
