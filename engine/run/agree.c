#include "run/agree.h"

#include "base/real.h"
#include "words/bind.h"
#include "run/part.h"
#include "cell/class.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"

#include <math.h>

enum { DEPTH_MOST = 24, COST = 8 };
static const double APART = 1e-9;

static double amount_of(const lml_value *v)
{
    return v->kind == LML_MONEY ? (double)v->exact : v->amount;
}

static bool same_kind(const lml_value *a, const lml_value *b)
{
    if (a->kind == LML_QUANTITY && b->kind == LML_FINE_MASS) /* its label names the metal */
        return lml_dimension_equal(a->dimension, (lml_dimension){.mass = 1});
    bool dimension = a->kind == LML_QUANTITY || a->kind == LML_MONEY;
    return a->kind == b->kind && a->metal == b->metal &&
           (!dimension || lml_dimension_equal(a->dimension, b->dimension));
}

/* What a figure that was rounded to decimals may be off by, less than one of the last; 0 for one
 * that was not rounded. */
static double step_of(const lml_value *v)
{
    lml_rational factor;
    if (v->decimals == LML_SHORTEST || v->kind == LML_MONEY ||
        lml_unit_factor(v->unit, &factor, NULL))
        return 0;
    return lml_real_pow(10, -(double)v->decimals) * (double)factor.top / (double)factor.bottom;
}

/* Whether the amounts are one, whatever their signs: a credit is printed with a minus. */
static bool near(double a, double b, double step)
{
    a = fabs(a);
    b = fabs(b);
    return fabs(a - b) <= APART * fmax(a, b) || fabs(a - b) < step * (1 - APART);
}

/* Whether a line that prints `a` prints the give `b`. It may leave out how sure the give is, and
 * not say otherwise. */
static bool same_value(const lml_value *a, const lml_value *b)
{
    if (!same_kind(a, b))
        return false;
    if (a->kind > LML_MONEY) /* a moment, an hour, a weekday */
        return a->exact == b->exact;
    double step = fmax(step_of(a), step_of(b));
    bool as_sure =
        a->spread == LML_NO_SPREAD ||
        (a->spread == b->spread && near(a->low, b->low, step) && near(a->high, b->high, step));
    return as_sure && near(amount_of(a), amount_of(b), step);
}

/* Whether the figure at index is the one at `give`, or in it. */
static bool stands_in(lua_State *L, int give, int index, int depth)
{
    lml_box_need_stack(L, 8);
    lml_box_charge(L, COST);
    give = lua_absindex(L, give);
    const lml_value *a = lml_class_test(L, index, LML_CLASS_VALUE),
                    *b = lml_class_test(L, give, LML_CLASS_VALUE);
    if (a && b)
        return same_value(a, b);
    if (lua_type(L, index) == LUA_TNUMBER && lua_type(L, give) == LUA_TNUMBER)
        return near(lua_tonumber(L, index), lua_tonumber(L, give), 0);
    bool found = lua_rawequal(L, index, give);
    if (!found && depth < DEPTH_MOST && lml_view_test_content(L, give)) {
        for (lua_pushnil(L); !found && lua_next(L, -2); lua_pop(L, found ? 2 : 1))
            found = stands_in(L, -1, index, depth + 1);
        lua_pop(L, found ? 0 : 1);
    }
    return found;
}

static void refuse(lua_State *L, int part, int entry, const char *of)
{
    lua_getfield(L, part, "recipe");
    lua_getfield(L, entry, "label");
    lua_getfield(L, entry, "value");
    lml_what_push_text(L, -1);
    lml_raise_hint(
        L, LML_BAD_RECIPE,
        "print the give itself, rounded by nearest, up_to or down_to, or remove the 'of'",
        "%s: the line \"%s\" says that it prints '%s', but %s is not what the recipe gives for it",
        lua_tostring(L, -4), lua_tostring(L, -3), of, lua_tostring(L, -1));
}

/* The give at `give` is what the lines of it, of which none is it alone, come to together. Each has
 * the sign of the first. */
static bool come_to(lua_State *L, int entries, const char *of, int give)
{
    const lml_value *whole = lml_class_test(L, give, LML_CLASS_VALUE);
    double sum = 0;
    if (!whole || whole->kind > LML_MONEY)
        return false;
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        int top = lua_gettop(L);
        lml_box_charge(L, COST);
        lua_rawgeti(L, entries, i);
        lua_getfield(L, top + 1, "of");
        lua_getfield(L, top + 1, "value");
        bool ours =
            lua_type(L, top + 2) == LUA_TSTRING && strcmp(lua_tostring(L, top + 2), of) == 0;
        const lml_value *v = lml_class_test(L, top + 3, LML_CLASS_VALUE);
        if (ours && v && same_kind(v, whole) &&
            !near(amount_of(v), amount_of(whole), fmax(step_of(v), step_of(whole)))) {
            if (sum * amount_of(v) < 0)
                return false;
            sum += amount_of(v);
        }
        lua_settop(L, top);
    }
    return near(sum, amount_of(whole), 0);
}

static void check_page(lua_State *L, int part, int entries, int results, int withheld)
{
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, entries); i++) {
        int top = lua_gettop(L), entry = top + 1, value = top + 3, give = top + 4;
        lua_rawgeti(L, entries, i);
        const char *of =
            lua_getfield(L, entry, "of") == LUA_TSTRING ? lua_tostring(L, top + 2) : NULL;
        if (of && lua_getfield(L, entry, "value") != LUA_TNIL) {
            lua_getfield(L, results, of);
            bool blank = lua_getfield(L, withheld, of) != LUA_TNIL;
            if (!blank && !stands_in(L, give, value, 0) && !come_to(L, entries, of, give))
                refuse(L, part, entry, of);
        }
        lua_settop(L, top);
    }
}

void lml_agree_check(lua_State *L, int part)
{
    lml_box_need_stack(L, 20);
    part = lua_absindex(L, part);
    int top = lua_gettop(L);
    lua_getfield(L, part, "results");
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "pages");
    for (size_t i = 0; i < lml_part_pages(); i++) {
        if (lua_getfield(L, top + 3, lml_part_page(i)) == LUA_TTABLE)
            check_page(L, part, top + 4, top + 1, top + 2);
        lua_pop(L, 1);
    }
    lua_settop(L, top);
}
