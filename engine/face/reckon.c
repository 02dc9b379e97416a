/* One sum: a text of the value grammar, or a Lua expression over values. */
#include "face/engine.h"
#include "face/output.h"
#include "base/decimal.h"
#include "base/locale.h"
#include "base/real.h"
#include "words/bind.h"
#include "run/engine.h"
#include "run/run.h"
#include "cell/chunk.h"
#include "cell/class.h"
#include "cell/view.h"
#include "cell/what.h"
#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* 12345 g to two digits is 12000 g: the amount counted in tens, hundreds and so on, and read again.
 */
static bool round_before_point(lml_value *v, double x, int zeros)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder text = lml_builder_on(&heap, 0);
    lml_value out;
    lml_builder_add_format(&text, "%.0fe%d ", nearbyint(x / lml_real_pow(10, zeros)), zeros);
    lml_write_unit(v, &text);
    bool read = lml_read_value(lml_span_trim(lml_builder_span(&text)), LML_WANT_ANYTHING,
                               LML_NO_METAL, &out, NULL) == LML_OK;
    lml_builder_free(&text);
    if (!read || out.kind != v->kind)
        return false;
    out.decimals = 0;
    *v = out;
    return true;
}

/* To so many significant digits, nearest. */
static void to_digits(lml_value *v, int digits)
{
    if (v->kind > LML_FINE_MASS)
        return;
    double x = lml_write_in_unit(v);
    if (x == 0 || !isfinite(x))
        return;
    int decimals = digits - 1 - (int)floor(lml_real_log10(fabs(x)));
    if (decimals < 0 && decimals >= -300 && round_before_point(v, x, -decimals))
        return;
    v->decimals = (uint8_t)(decimals < 0 ? 0 : decimals > 15 ? 15 : decimals);
    v->spread = LML_NO_SPREAD;
}

/* The shortest text of a decimal that is cut to 15 digits. */
static void append_fifteen(lml_builder *b, lml_decimal d)
{
    const lml_u128 most = 1000000000000000;
    lml_u128 unit = 1;
    for (; d.digits >= most * unit; d.exponent++) /* 38 digits, so that this fits */
        unit *= 10;
    d.digits = lml_wide_divide(d.digits + (unit >> 1), unit, NULL);
    char text[LML_NUMBER_TEXT];
    lml_builder_add(b, text,
                    lml_decimal_write_double(lml_decimal_scale(&d, (lml_rational){1, 1}), text));
}

/* A sum is calculated in doubles, which distinguish any two decimals of 15 digits. Further digits
 * of a sum of decimals are binary rounding errors: 8.999999999999999 is 9. */
static void append_tidy(lml_builder *b, lml_span text)
{
    for (size_t at = 0; at < text.length;) {
        lml_decimal d;
        bool begins = at == 0 || text.at[at - 1] == ' ' || text.at[at - 1] == '.';
        lml_span rest = lml_span_between(text.at + at, text.at + text.length);
        size_t used = begins ? lml_decimal_read(rest, &d) : 0;
        if (used > 0)
            append_fifteen(b, d);
        else
            lml_builder_add_char(b, text.at[at]);
        at += used > 0 ? used : 1;
    }
}

/* `digits` 0: all of a value, and of a sum what is not noise. */
static lml_status answer(lml_engine *engine, const lml_value *value, bool is_sum, const char *unit,
                         int digits, lml_text *out, lml_error *err)
{
    lml_value v = *value;
    if (unit) {
        lml_status status = lml_write_as(value, lml_span_of(unit), &v, err);
        if (status)
            return status;
    }
    if (digits > 0)
        to_digits(&v, digits);
    lml_builder whole = lml_builder_on(&engine->alloc, 0), b = whole;
    bool tidy = is_sum && digits == 0 && v.decimals == LML_SHORTEST && v.kind <= LML_FINE_MASS;
    lml_write_value(&v, tidy ? &whole : &b);
    lml_status status = lml_builder_status(&whole, err);
    if (tidy && !status)
        append_tidy(&b, (lml_span){whole.at, whole.length});
    lml_builder_free(&whole);
    return lml_output_take(&b, status, out, err);
}

/* With the NUL that Lua keeps behind it: an empty answer is a text too. */
static lml_status answer_text(lml_engine *engine, lml_span text, lml_text *out, lml_error *err)
{
    lml_builder b = lml_builder_on(&engine->alloc, 0);
    lml_builder_add(&b, text.at, text.length + 1);
    lml_status status = lml_output_take(&b, LML_OK, out, err);
    if (!status)
        out->length = text.length;
    return status;
}

/* What only a Lua expression holds. */
static bool looks_like_lua(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (strchr("\"'{}[]=<>~", text.at[i]) ||
            (text.at[i] == '(' && (i == 0 || text.at[i - 1] != '/')))
            return true;
    return false;
}

/* As a terminal may be given it. */
static int push_text(lua_State *L)
{
    lml_what_push_text(L, 1);
    lml_view_push_clean(L, -1, "the result", LML_TEXT_MOST);
    return 1;
}

static lml_status reckon_lua(lml_engine *engine, lml_span expression, const char *unit, int digits,
                             lml_text *out, lml_error *err)
{
    lml_run run;
    lml_status status = lml_run_open(&run, engine, err);
    if (status)
        return status;
    lua_State *L = run.box.L;
    lml_builder b = lml_builder_on(&engine->alloc, engine->limits.source);
    lml_builder_add_text(&b, "return ");
    lml_builder_add_span(&b, expression);
    status = lml_builder_status(&b, err);
    if (!status)
        status = lml_chunk_load(&run.box, (lml_span){b.at, b.length}, "expression", err);
    if (!status)
        status = lml_box_call(&run.box, 0, 1, err);
    if (!status) {
        const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
        lml_value number;
        if (!v && lua_type(L, -1) == LUA_TNUMBER) {
            number = lml_value_number(lua_tonumber(L, -1));
            v = &number;
        }
        if (v) {
            status = answer(engine, v, true, unit, digits, out, err);
        } else if (unit) {
            status = lml_fail(err, LML_BAD_VALUE, "the result has no unit that could be changed");
        } else {
            lua_pushcfunction(L, push_text);
            lua_insert(L, -2);
            status = lml_box_call(&run.box, 1, 1, err);
            if (!status)
                status = answer_text(
                    engine, (lml_span){lua_tostring(L, -1), (size_t)lua_rawlen(L, -1)}, out, err);
        }
    }
    lml_builder_free(&b);
    lml_run_close(&run);
    return status;
}

/* The next operator between blanks, or the end. */
static size_t next_operator(lml_span text, size_t from)
{
    for (size_t i = from; i + 2 < text.length; i++)
        if (text.at[i] == ' ' && strchr("+-*/", text.at[i + 1]) && text.at[i + 2] == ' ')
            return i;
    return text.length;
}

/* "2 g + 3 g" is Q"2 g" + Q"3 g" in Lua; false when it is no sum of values. */
static bool put_as_lua(lml_span text, lml_builder *b)
{
    lml_value v;
    bool sum = false;
    for (size_t at = 0; at < text.length;) {
        size_t end = next_operator(text, at);
        lml_span part = lml_span_trim((lml_span){text.at + at, end - at});
        if (lml_read_value(part, LML_WANT_ANYTHING, LML_NO_METAL, &v, NULL))
            return false;
        lml_builder_add_text(b, v.kind == LML_NUMBER ? "" : "Q\"");
        lml_builder_add_span(b, part);
        lml_builder_add_text(b, v.kind == LML_NUMBER ? "" : "\"");
        if (end < text.length)
            lml_builder_add_span(b, (lml_span){text.at + end, 3});
        sum = sum || end < text.length;
        at = end < text.length ? end + 3 : end;
    }
    return sum;
}

static lml_status reckon(lml_engine *engine, const char *expression, const char *unit, int digits,
                         lml_text *out, lml_error *err)
{
    lml_span text = lml_span_trim(lml_span_of(expression));
    lml_value v;
    lml_status status = lml_read_value(text, LML_WANT_ANYTHING, LML_NO_METAL, &v, err);
    if (!status)
        return answer(engine, &v, false, unit, digits, out, err);
    if (looks_like_lua(text))
        return reckon_lua(engine, text, unit, digits, out, err);
    lml_builder b = lml_builder_on(&engine->alloc, 0);
    if (put_as_lua(text, &b) && !lml_builder_status(&b, NULL)) {
        lml_fail(err, LML_BAD_VALUE,
                 "write a calculation in Lua, each value in quotes with Q before it");
        lml_error_hint(err, "%.*s", (int)b.length, b.at);
    }
    lml_builder_free(&b);
    return status;
}

lml_status lml_engine_reckon(lml_engine *engine, const char *expression, const char *unit,
                             int digits, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"expression", expression}, {"out", out}))
        return LML_BAD_DATA;
    lml_locale entered = lml_locale_enter();
    lml_status status = reckon(engine, expression, unit, digits, out, err);
    lml_locale_leave(entered);
    return status;
}
