#include "run/said.h"

#include "run/engine.h"
#include "run/replaced.h"
#include "run/take.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"

/* Registry key: what was read at a place of the job or the house. */
static const char SAID;

void lml_said_check(lua_State *L, const lml_shape *f, const lml_json *node)
{
    lml_error e;
    /* A try differs from the job only in its values, which are checked when they are taken. */
    if (!lml_run_of(L)->engine->trial && lml_shape_check(f, node, &e))
        lml_raise_as_is(L, &e);
}

bool lml_said_is_typed(const lml_run *run, const lml_shape *f, const lml_json *node)
{
    bool bare = f->wanted == LML_WANT_NUMBER || f->wanted == LML_WANT_WHOLE;
    return run->loose && bare && lml_json_kind_of(node) == LML_JSON_TEXT;
}

static void take(lua_State *L, const lml_run *run, const lml_shape *f, const lml_json *node,
                 const char *path)
{
    if (lml_said_is_typed(run, f, node))
        lml_take_text(L, f, lml_json_text(node), path);
    else
        lml_take_node(L, f, node, path);
}

void lml_said_take(lua_State *L, const lml_run *run, const lml_shape *f, const lml_json *node,
                   const char *path)
{
    if (!lml_said_is_typed(run, f, node))
        lml_said_check(L, f, node);
    take(L, run, f, node, path);
}

bool lml_said_push_passed(lua_State *L, const lml_shape *f, int index, const char *in)
{
    char path[LML_TAKE_PATH];
    if (lml_view_is_withheld(L, index))
        lml_raise_stop(L);
    if (lua_isnil(L, index) || lua_islightuserdata(L, index))
        return false;
    if (!lml_take_at_once(L, f, index)) {
        lml_text_join(path, sizeof path, in, f->name, "");
        lml_take_value(L, f, index, path);
    }
    return true;
}

bool lml_said_push_argument(lua_State *L, const lml_shape *f, int arguments, const char *in)
{
    if (!arguments)
        return false;
    lua_getfield(L, arguments, f->name);
    const bool pushed = lml_said_push_passed(L, f, lua_gettop(L), in);
    lua_remove(L, pushed ? -2 : -1);
    return pushed;
}

/* Arguments: the shape, the node, which it was seen to fit, the path. */
static int take_apart(lua_State *L)
{
    take(L, lml_run_of(L), lua_touserdata(L, 1), lua_touserdata(L, 2), lua_touserdata(L, 3));
    return 1;
}

void lml_said_keep(lua_State *L, const lml_json *node)
{
    lml_run_push_registry(L, &SAID);
    lua_pushvalue(L, -2);
    lua_rawsetp(L, -2, node);
    lua_pop(L, 1);
}

bool lml_said_push_kept(lua_State *L, const lml_shape *f, const lml_json *node)
{
    lml_run_push_registry(L, &SAID);
    lua_rawgetp(L, -1, node);
    const lml_shape *taken = lml_view_taken(L, -1);
    const bool alike = taken && !lml_box_of(L)->trace && lml_take_alike(L, taken, f);
    if (alike)
        lua_remove(L, -2);
    else
        lua_pop(L, 2);
    return alike;
}

/* Whether a recipe passes on, untouched, what was read at the node. */
static bool is_as_said(lua_State *L, const lml_shape *f, const lml_json *node, int arguments)
{
    int top = lua_gettop(L);
    lml_run_push_registry(L, &SAID);
    bool same = lua_rawgetp(L, -1, node) != LUA_TNIL &&
                lml_view_get_member(L, arguments, f->name) && lua_rawequal(L, -1, -2);
    lua_settop(L, top);
    return same;
}

/* Push what is said at the node as the shape takes it; false, with nothing pushed, if it does not.
 */
static bool push_as_said(lua_State *L, const lml_shape *f, const lml_json *node, const char *whose)
{
    char path[LML_TAKE_PATH];
    if (lml_said_push_kept(L, f, node))
        return true;
    if (!lml_said_is_typed(lml_run_of(L), f, node) && lml_shape_check(f, node, NULL))
        return false;
    lml_text_join(path, sizeof path, whose, ".", f->name);
    lua_pushcfunction(L, take_apart);
    lua_pushlightuserdata(L, (void *)(uintptr_t)f);
    lua_pushlightuserdata(L, (void *)(uintptr_t)node);
    lua_pushlightuserdata(L, (void *)(uintptr_t)path);
    if (!lua_pcall(L, 3, 1, 0))
        return true;
    if (lml_box_of(L)->dead)
        lua_error(L);
    lua_pop(L, 1);
    return false;
}

void lml_said_note_replaced(lua_State *L, const lml_recipe *r, const lml_shape *f, int arguments,
                            const lml_json *node, const char *whose)
{
    if (!node || lml_run_of(L)->bare || is_as_said(L, f, node, arguments) ||
        !push_as_said(L, f, node, whose))
        return;
    lua_insert(L, -2);
    lml_replaced_note(L, r, f->name, -2, whose);
    lua_remove(L, -2);
}
