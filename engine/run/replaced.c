#include "run/replaced.h"

#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "run/run.h"
#include "value/alloy.h"

#include <math.h>
#include <string.h>

enum { NAME_MOST = 40 };

static bool near(double a, double b)
{
    return fabs(a - b) <= 1e-9 * fabs(b);
}

/* ---- noting ---- */

static void push_or_none(lua_State *L, int index)
{
    if (index)
        lua_pushvalue(L, index);
    else
        lua_pushliteral(L, "none");
}

/* Under the path on top of the stack; index 0: nothing is there. */
static void note(lua_State *L, int passed, int said, const char *whose)
{
    const int path = lua_gettop(L);
    lml_run_push_settings(L);
    lua_pushvalue(L, path);
    lua_createtable(L, 0, 4);
    push_or_none(L, passed);
    lua_setfield(L, -2, "value");
    lua_pushliteral(L, "passed");
    lua_setfield(L, -2, "from");
    lua_pushstring(L, whose);
    lua_setfield(L, -2, "over");
    push_or_none(L, said);
    lua_setfield(L, -2, "replaced");
    lua_rawset(L, -3);
    lua_settop(L, path);
}

/* ---- single figures ---- */

static void note_part(lua_State *L, int path, const char *name, lml_value passed, lml_value said,
                      const char *whose)
{
    lml_figure_push(L, &passed);
    lml_figure_push(L, &said);
    const int top = lua_gettop(L);
    lua_pushfstring(L, "%s.%s", lua_tostring(L, path), name);
    note(L, top - 1, top, whose);
    lua_settop(L, top - 2);
}

static bool near_composition(const lml_composition *a, const lml_composition *b)
{
    int m = 0;
    while (m < LML_METALS && near(a->part[m], b->part[m]))
        m++;
    return m == LML_METALS;
}

static void compare_compositions(lua_State *L, const lml_composition *passed,
                                 const lml_composition *said, int path, const char *whose)
{
    for (int m = 1; m < LML_METALS; m++)
        if (!near(passed->part[m], said->part[m]))
            note_part(L, path, lml_metal_symbol((lml_metal)m),
                      lml_composition_fineness(passed, (lml_metal)m),
                      lml_composition_fineness(said, (lml_metal)m), whose);
}

static lml_value density_of(const lml_alloy *alloy)
{
    const lml_dimension d = {.mass = 1, .length = -3};
    return lml_value_quantity(alloy->density, d, lml_unit_usual(d));
}

static lml_value temperature(double kelvin)
{
    lml_value v = {.kind = LML_TEMPERATURE, .decimals = LML_SHORTEST};
    lml_dimension d;
    lml_unit_read(lml_span_of("°C"), &v.unit, &d, NULL);
    v.amount = kelvin;
    return v;
}

/* What is calculated of an alloy's melting is so when it is first read. */
static void compare_alloys(lua_State *L, const lml_alloy *passed, const lml_alloy *said, int path,
                           const char *whose)
{
    compare_compositions(L, &passed->composition, &said->composition, path, whose);
    if (!near(passed->density, said->density))
        note_part(L, path, "density", density_of(passed), density_of(said), whose);
    if (said->solidus_known == LML_GIVEN && !near(passed->solidus, said->solidus))
        note_part(L, path, "solidus", temperature(passed->solidus), temperature(said->solidus),
                  whose);
    if (said->liquidus_known == LML_GIVEN && !near(passed->liquidus, said->liquidus))
        note_part(L, path, "liquidus", temperature(passed->liquidus), temperature(said->liquidus),
                  whose);
}

static bool same_text(lua_State *L, int a, int b)
{
    lml_what_push_text(L, a);
    lml_what_push_text(L, b);
    bool equal = lua_rawequal(L, -1, -2);
    lua_pop(L, 2);
    return equal;
}

static void compare_figures(lua_State *L, int passed, int said, int path, const char *whose)
{
    const lml_value *v = lml_class_test(L, passed, LML_CLASS_VALUE),
                    *w = lml_class_test(L, said, LML_CLASS_VALUE);
    const lml_alloy *a = lml_class_test(L, passed, LML_CLASS_ALLOY),
                    *b = lml_class_test(L, said, LML_CLASS_ALLOY);
    const lml_assay *found = lml_class_test(L, passed, LML_CLASS_ASSAY),
                    *was = lml_class_test(L, said, LML_CLASS_ASSAY);
    bool alike;
    if (v && w && v->kind < LML_MONEY && v->kind == w->kind)
        alike = near(v->amount, w->amount);
    else if (a && b && !near_composition(&a->composition, &b->composition))
        alike = true; /* of whatever name: what it is made of says more */
    else
        alike = same_text(L, passed, said);
    if (!alike) {
        lua_pushvalue(L, path);
        note(L, passed, said, whose);
        lua_pop(L, 1);
    } else if (a && b) {
        compare_alloys(L, a, b, path, whose);
    } else if (found && was) {
        compare_compositions(L, &found->found, &was->found, path, whose);
    }
}

/* ---- lists and records ---- */

static void compare(lua_State *L, int passed, int said, int path, const char *whose);

/* Push the name of the entry at the index, or nil where it is no record with one. */
static bool push_name(lua_State *L, int entry)
{
    if (!lml_view_test_content(L, entry)) {
        lua_pushnil(L);
        return false;
    }
    lua_getfield(L, -1, "name");
    lua_remove(L, -2);
    bool named = lua_type(L, -1) == LUA_TSTRING && lua_rawlen(L, -1) <= NAME_MOST;
    if (!named) {
        lua_pop(L, 1);
        lua_pushnil(L);
    }
    return named;
}

/* Push the entry of the list of that name (the index of a text), or nil. */
static bool push_named(lua_State *L, int list, int name)
{
    lua_Integer count = (lua_Integer)lua_rawlen(L, list);
    for (lua_Integer i = 1; i <= count; i++) {
        lml_box_charge(L, 2);
        lua_rawgeti(L, list, i);
        bool found = push_name(L, -1) && lua_rawequal(L, -1, name);
        lua_pop(L, 1);
        if (found)
            return true;
        lua_pop(L, 1);
    }
    lua_pushnil(L);
    return false;
}

/* Entry i of `these`, and the one in `those` that it is: pushes both, and the path; the second is
 * nil where it has none. */
static bool push_pair(lua_State *L, int these, int those, lua_Integer i, int path)
{
    lua_rawgeti(L, these, i);
    const int entry = lua_gettop(L);
    bool found;
    if (push_name(L, entry)) {
        found = push_named(L, those, entry + 1);
        lua_pushfstring(L, "%s.%s", lua_tostring(L, path), lua_tostring(L, entry + 1));
    } else {
        found = lua_rawgeti(L, those, i) != LUA_TNIL;
        lua_pushfstring(L, "%s[%I]", lua_tostring(L, path), i);
    }
    lua_remove(L, entry + 1);
    return found;
}

static void compare_lists(lua_State *L, int passed, int said, int path, const char *whose)
{
    const int top = lua_gettop(L);
    lua_Integer count = (lua_Integer)lua_rawlen(L, said);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, top))
        if (push_pair(L, said, passed, i, path))
            compare(L, top + 2, top + 1, top + 3, whose);
        else
            note(L, 0, top + 1, whose);
    count = (lua_Integer)lua_rawlen(L, passed);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, top))
        if (!push_pair(L, passed, said, i, path))
            note(L, top + 1, 0, whose);
}

static void compare_records(lua_State *L, int passed, int said, int path, const char *whose)
{
    const int top = lua_gettop(L), key = top + 2;
    lua_Integer count = lml_key_push_sorted(L, said);
    for (lua_Integer i = 1; i <= count; i++, lua_settop(L, top + 1)) {
        lua_rawgeti(L, top + 1, i);
        lua_pushvalue(L, key);
        lua_rawget(L, said);
        lua_pushvalue(L, key);
        bool there = lua_rawget(L, passed) != LUA_TNIL && !lua_islightuserdata(L, -1);
        if (lua_islightuserdata(L, key + 1)) /* not said */
            continue;
        lml_what_push_text(L, key);
        lua_pushfstring(L, "%s.%s", lua_tostring(L, path), lua_tostring(L, -1));
        if (there)
            compare(L, key + 2, key + 1, key + 4, whose);
        else
            note(L, 0, key + 1, whose);
    }
    lua_settop(L, top);
}

static void compare(lua_State *L, int passed, int said, int path, const char *whose)
{
    const int top = lua_gettop(L);
    lml_box_need_stack(L, 24);
    lml_box_charge(L, 20);
    if (!lml_view_test_content(L, passed) || !lml_view_test_content(L, said))
        compare_figures(L, passed, said, path, whose);
    else if (lml_class_test(L, said, LML_CLASS_LIST))
        compare_lists(L, top + 1, top + 2, path, whose);
    else
        compare_records(L, top + 1, top + 2, path, whose);
    lua_settop(L, top);
}

void lml_replaced_note(lua_State *L, const lml_recipe *recipe, const char *field, int said,
                       const char *whose)
{
    const int passed = lua_gettop(L);
    said = lua_absindex(L, said);
    lua_pushfstring(L, "%s.%s", recipe->name, field);
    compare(L, passed, said, passed + 1, whose);
    lua_settop(L, passed);
}
