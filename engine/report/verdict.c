#include "report/verdict.h"

#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "read/read.h"
#include "run/take.h"
#include "value/arithmetic.h"
#include "value/compare.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void lml_verdict_fail(lml_verdict *v, const char *format, ...)
{
    if (v->failures < LML_VERDICT_MOST) {
        lml_error e;
        char text[sizeof e.message];
        va_list args;
        va_start(args, format);
        vsnprintf(text, sizeof text, format, args);
        va_end(args);
        lml_fail(&e, LML_STOPPED, "%s", text);
        memcpy(v->difference[v->failures], e.message, sizeof e.message);
    }
    v->failures++;
}

static bool is_plain(const lml_value *v)
{
    return v->kind == LML_NUMBER || (v->kind == LML_QUANTITY && lml_dimension_none(v->dimension));
}

/* A percentage of what is expected, as a value of the kind of the difference. */
static lml_status part_of(const lml_value *expected, const lml_value *difference,
                          const lml_value *part, lml_value *out, lml_error *err)
{
    lml_value size = *difference;
    if (expected->kind == LML_MONEY) {
        lml_status status = lml_arithmetic_absolute(expected, &size, err);
        return status ? status : lml_arithmetic_mul(&size, part, out, err);
    }
    if (expected->kind > LML_FINE_MASS || expected->kind == LML_TEMPERATURE) {
        lml_fail(err, LML_BAD_VALUE, "a percentage of this means nothing");
        lml_error_hint(err, "write how far it may be off: within = \"1 Δ°C\"");
        return LML_BAD_VALUE;
    }
    size.amount = fabs(expected->amount) * part->amount;
    *out = size;
    return LML_OK;
}

/* How far two values may be apart, as a value of the kind of their difference. */
static lml_status tolerance(const lml_value *expected, const lml_value *difference, lml_span text,
                            lml_value *out, lml_error *err)
{
    lml_value within;
    lml_status status = lml_read_value(text, LML_WANT_ANYTHING, LML_NO_METAL, &within, err);
    if (status)
        return status;
    bool permille = text.length > 3 && memcmp(text.at + text.length - 3, "‰", 3) == 0;
    if (is_plain(&within) && difference->kind == LML_FINENESS_DIFFERENCE && permille) {
        *out = within; /* "0.1 ‰" of a fineness is meant as it is */
        out->kind = LML_FINENESS_DIFFERENCE;
        out->metal = difference->metal;
        return LML_OK;
    }
    if (is_plain(&within) && !is_plain(expected))
        return part_of(expected, difference, &within, out, err);
    *out = within;
    return LML_OK;
}

/* A proof that lets anything through proves nothing: a figure may be off by a fifth of itself at
 * the most, a temperature by 60 degrees, a moment by an hour. Nothing is a fifth of zero, so of
 * zero all is let pass. */
static lml_status check_tolerance(const lml_value *expected, const lml_value *difference,
                                  const lml_value *limit, const char *within, lml_error *err)
{
    enum { DEGREES_MOST = 60, SECONDS_MOST = 3600 };
    const lml_value fifth = {.kind = LML_NUMBER, .amount = 0.2};
    lml_value most = *difference;
    int order;
    if (expected->kind == LML_TEMPERATURE) {
        most.amount = DEGREES_MOST;
    } else if (expected->kind > LML_MONEY) {
        most.amount = SECONDS_MOST;
    } else if (lml_compare_is_zero(expected)) {
        return LML_OK;
    } else {
        lml_status status = part_of(expected, difference, &fifth, &most, err);
        if (status)
            return status;
    }
    if (lml_compare(limit, &most, &order, NULL) != LML_OK || order <= 0)
        return LML_OK;
    char text[LML_VALUE_TEXT];
    lml_write_text(&most, text);
    lml_fail(err, LML_BAD_RECIPE, "within = \"%s\" allows too much: at most %s", within, text);
    return LML_BAD_RECIPE;
}

/* Whether `got` is as near as it must be. `within` says nothing of a figure of another kind ("0.1
 * g" of a price): that one must be equal. */
static lml_status is_near(const lml_value *got, const lml_value *expected, const char *within,
                          bool *near, lml_error *err)
{
    lml_value difference, size, limit;
    lml_status status = lml_compare_equal(got, expected, near, err);
    if (status || !within || lml_arithmetic_sub(got, expected, &difference, NULL) ||
        lml_arithmetic_absolute(&difference, &size, NULL))
        return status;
    status = tolerance(expected, &difference, lml_span_of(within), &limit, err);
    if (status && *near) /* a percentage is meant for the other figures of the proof */
        return LML_OK;
    if (!status)
        status = check_tolerance(expected, &difference, &limit, within, err);
    if (status || *near)
        return status;
    int order;
    if (!status && limit.kind <= LML_FINE_MASS)
        limit.amount *= 1 + 1e-9; /* 39.6 g is within 0.1 g of 39.5 g */
    if (!status && lml_compare(&size, &limit, &order, NULL) == LML_OK)
        *near = order <= 0;
    return status;
}

lml_status lml_verdict_check_within(const lml_value *expected, lml_span within, lml_error *err)
{
    lml_value difference, limit;
    int order;
    lml_status status = lml_arithmetic_sub(expected, expected, &difference, err);
    if (!status)
        status = tolerance(expected, &difference, within, &limit, err);
    return status ? status : lml_compare(&difference, &limit, &order, err);
}

static void compare_values(const lml_value *got, const lml_value *expected, const char *within,
                           const char *path, lml_verdict *v)
{
    lml_error e;
    char a[LML_VALUE_TEXT], b[LML_VALUE_TEXT];
    bool near = false;
    lml_status status = is_near(got, expected, within, &near, &e);
    lml_write_text(got, a);
    lml_write_text(expected, b);
    if (status)
        lml_verdict_fail(v, "%s: %s", path, e.message);
    else if (!near)
        lml_verdict_fail(v, "%s is %s, but %s is expected%s%s", path, a, b,
                         within ? " within " : "", within ? within : "");
}

/* One figure that is no record or list: what is expected is read as the give would be. */
static void compare_figures(lua_State *L, const lml_shape *shape, int got, int expected,
                            const char *within, const char *path, lml_verdict *v)
{
    lml_shape free_shape = *shape; /* an expected figure need not keep the bounds */
    free_shape.from = free_shape.to = NULL;
    lml_take_value(L, &free_shape, expected, path);
    lml_value room_a, room_b;
    bool figure_a = lml_class_test(L, got, LML_CLASS_VALUE) || lua_type(L, got) == LUA_TNUMBER;
    bool figure_b = lml_class_test(L, -1, LML_CLASS_VALUE) || lua_type(L, -1) == LUA_TNUMBER;
    if (figure_a && figure_b) {
        compare_values(lml_figure_check(L, got, &room_a), lml_figure_check(L, -1, &room_b), within,
                       path, v);
    } else {
        int read = lua_gettop(L);
        lml_what_push_text(L, got);
        lml_what_push_text(L, read);
        if (lua_type(L, got) != lua_type(L, read) || !lua_rawequal(L, -1, -2))
            lml_verdict_fail(v, "%s is %s, but %s is expected", path, lml_what_is(L, got),
                             lml_what_is(L, read));
    }
}

size_t lml_verdict_compare(lua_State *L, const lml_shape *shape, int got, int expected,
                           const char *within, const char *path, lml_verdict *v)
{
    lml_box_need_stack(L, 20);
    int top = lua_gettop(L);
    bool named = shape->wanted == LML_WANT_RECORD || shape->wanted == LML_WANT_BY_NAME;
    if ((!named && shape->wanted != LML_WANT_LIST) || !lml_view_test_content(L, expected)) {
        compare_figures(L, shape, got, expected, within, path, v);
        lua_settop(L, top);
        return 1;
    }
    /* That a list is empty says something; that a record has none of no members does not. */
    size_t compared = 0;
    int wanted = top + 1, have = top + 2;
    lml_view_push_content(L, got, path);
    if (!named && lua_rawlen(L, wanted) != lua_rawlen(L, have))
        lml_verdict_fail(v, "%s has %d entries, but %d are expected", path,
                         (int)lua_rawlen(L, have), (int)lua_rawlen(L, wanted));
    lua_Integer count = lml_key_push_sorted(L, wanted);
    if (!named && count == 0)
        compared = 1;
    for (lua_Integer i = 1; i <= count; i++) {
        char deeper[160];
        lua_rawgeti(L, have + 1, i);
        lml_what_push_text(L, -1);
        lml_span key = lml_what_need_text(L, -1, "a name");
        snprintf(deeper, sizeof deeper, named ? "%s.%s" : "%s[%s]", path, key.at);
        const lml_shape *inner =
            shape->wanted == LML_WANT_RECORD ? lml_shape_field_named(shape, key) : shape->of;
        if (!inner)
            lml_raise_text(L, LML_BAD_RECIPE, "the proof expects '%s', which is not given", deeper);
        lua_pushvalue(L, -2);
        lua_rawget(L, have);
        lua_pushvalue(L, -3);
        lua_rawget(L, wanted);
        if (lua_isnil(L, -2) || lua_islightuserdata(L, -2))
            lml_verdict_fail(v, "%s is not given", deeper);
        else
            compared +=
                lml_verdict_compare(L, inner, lua_gettop(L) - 1, lua_gettop(L), within, deeper, v);
        lua_settop(L, have + 1);
    }
    lua_settop(L, top);
    return compared;
}
