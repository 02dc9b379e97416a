#include "cell/raise.h"

#include "cell/class.h"
#include "cell/state.h"
#include "cell/trace_list.h"
#include "value/value.h"

#include <stdio.h>
#include <string.h>

enum { RAISED = 200 };

static void push_position(lua_State *L, lml_error *e)
{
    luaL_where(L, 1);
    if (!lua_tostring(L, -1)[0] && lml_box_of(L)->trace) { /* behind what traces the function */
        lua_pop(L, 1);
        luaL_where(L, 2);
    }
    const char *where = lua_tostring(L, -1);
    if (where[0]) {
        lml_error placed;
        lml_fail(&placed, e->status, "%s%s", where, e->message);
        memcpy(e->message, placed.message, sizeof e->message);
    }
    lua_pop(L, 1);
}

void lml_raise_push_as_is(lua_State *L, const lml_error *error)
{
    lml_error *e = lml_class_new(L, LML_CLASS_ERROR, sizeof *e, 0);
    *e = *error;
}

void lml_raise_push(lua_State *L, const lml_error *error)
{
    lml_box_charge(L, RAISED);
    lml_error *e = lml_class_new(L, LML_CLASS_ERROR, sizeof *e, 0);
    *e = *error;
    push_position(L, e);
}

int lml_raise(lua_State *L, const lml_error *error)
{
    lml_raise_push(L, error);
    return lua_error(L);
}

int lml_raise_as_is(lua_State *L, const lml_error *error)
{
    lml_raise_push_as_is(L, error);
    return lua_error(L);
}

/* Push the error that has the status. */
static void push_words(lua_State *L, lml_error *e, const char *format, va_list args)
{
    char message[sizeof e->message];
    const lml_trace *trace = lml_box_of(L)->trace;
    va_list again;
    va_copy(again, args);
    vsnprintf(message, sizeof message, format, args);
    lml_fail(e, e->status, "%s", message);
    lml_raise_push(L, e);
    if (trace && trace->raises)
        trace->raises(L, format, again);
    va_end(again);
}

int lml_raise_text(lua_State *L, lml_status status, const char *format, ...)
{
    lml_error e;
    e.status = status;
    va_list args;
    va_start(args, format);
    push_words(L, &e, format, args);
    va_end(args);
    return lua_error(L);
}

int lml_raise_hint(lua_State *L, lml_status status, const char *hint, const char *format, ...)
{
    lml_error e;
    e.status = status;
    va_list args;
    va_start(args, format);
    push_words(L, &e, format, args);
    va_end(args);
    lml_error *pushed = lml_class_test(L, -1, LML_CLASS_ERROR);
    lml_error_hint(pushed, "%s", hint);
    return lua_error(L);
}

uint64_t lml_raise_look_cost(lua_State *L, const char *source)
{
    enum { BYTES = 400 };
    const lml_box *box = lml_box_of(L);
    return 1 + (box->shelf && source[0] == '@' ? box->source_length(box->shelf, source + 1) / BYTES
                                               : 0);
}

/* The name of the caller's local or upvalue that is the very operand at `index`, or NULL. Pushes
 * the value, which the caller of this pops. */
static const char *variable_of(lua_State *L, int index)
{
    lua_Debug ar;
    if (!lua_getstack(L, 1, &ar) || !lua_getinfo(L, "fS", &ar))
        return NULL;
    int function = lua_gettop(L);
    const char *found = NULL, *name;
    uint64_t look = lml_raise_look_cost(L, ar.source);
    for (int i = 1; !found && (name = lua_getlocal(L, &ar, i)); i++) {
        lml_box_charge(L, look);
        if (name[0] != '(' && lua_rawequal(L, -1, index) && !lua_isnil(L, -1))
            found = name;
        lua_pop(L, 1);
    }
    for (int i = 1; !found && (name = lua_getupvalue(L, function, i)); i++) {
        lml_box_charge(L, 1);
        if (lua_rawequal(L, -1, index) && !lua_isnil(L, -1))
            found = name;
        lua_pop(L, 1);
    }
    lua_settop(L, function - 1);
    return found;
}

int lml_raise_operands(lua_State *L, lml_error *error, int a, int b)
{
    int operand[2] = {lua_absindex(L, a), lua_absindex(L, b)};
    for (int i = 0; i < 2; i++) {
        const lml_value *v = lml_class_test(L, operand[i], LML_CLASS_VALUE);
        const char *name = v ? variable_of(L, operand[i]) : NULL;
        char what[80];
        if (name && !(i == 1 && lua_rawequal(L, operand[0], operand[1])))
            lml_error_context(error, error->status, "'%s' is %s", name,
                              lml_value_what(v, what, sizeof what));
    }
    return lml_raise(L, error);
}

int lml_raise_stop(lua_State *L)
{
    lml_box_of(L)->stopping = true;
    lua_pushlightuserdata(L, lml_box_of(L));
    return lua_error(L);
}
